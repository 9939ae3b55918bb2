"""What is bought by the metre, by the handful or by the bag: conductor, fuses with spares, small parts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from buildspec import show
from buildspec.documents import _materials as materials
from buildspec.documents import _routing as routing
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.documents._labels import labels
from buildspec.looms import keypads
from buildspec.model import Part
from buildspec.packet import Packet

LEAD, LABELS, WHICH_LABELS = "Lead to the keys", "Labels", "see the list of labels"


def conductor_lines(packet: Packet) -> Iterator[dict[str, str]]:
    practice = packet.sized.build.practice
    for metres in materials.conductors(packet):
        yield {
            "size": show.both_sizes(metres.conductor),
            "insulation": f"{show.plain(practice.insulation_c, 0)} °C",
            "colour": metres.colour,
            "colour_words": show.colour(metres.colour),
            "pieces": str(metres.pieces),
            "length": show.whole_length(metres.length_m, practice),
            "maker": words.BLANK,
        }


def fuse_lines(packet: Packet) -> Iterator[dict[str, str]]:
    for (family, rating, colour), count in materials.fuse_counts(packet):
        yield {
            "family": words.capital(show.family(family)),
            "rating": show.amps(rating),
            "colour": colour or words.NOT_APPLICABLE,
            "fitted": str(count),
            "spare": str(materials.SPARES_EACH),
            "quantity": str(count + materials.SPARES_EACH),
            "maker": fuse_identity(packet, family),
        }


def small_lines(packet: Packet) -> Iterator[dict[str, str]]:
    """Holders, terminals, caps, seals, sleeves over the loom, labels."""
    build = packet.sized.build
    for (family, rating), count in materials.holder_counts(packet):
        known = build.practice.fuse_parts.get(family)
        holder = known.holder if known else words.BLANK
        yield small(*holder_words(family, rating), str(count), holder)
    for (terminal, _, size), count in materials.terminal_counts(packet):
        yield small(*terminal_words(terminal, size), str(count))
    for (number, _, size), count in materials.joint_counts(packet):
        yield small(*joint_words(number, size), str(count))
    for connector, count in sorted(materials.half_counts(packet).items()):
        yield small(*half_words(connector), str(count))
    caps = Counter(
        (r.cap, size) for r in build.reserves.values() if r.cap for size in routing.caps(packet.sized, r)
    )
    for (cap, size), count in caps.items():
        yield small(*cap_words(cap, size), str(count))
    yield from (small(item, size, quantity) for item, size, quantity in routing.small_lines(packet.sized))
    for lead in keypads.leads(build):
        yield small(LEAD, keypads.size(build, lead), "1")
    yield small(LABELS, WHICH_LABELS, str(sum(label.quantity for label in labels(packet))))


def holder_words(family: str, rating_a: float) -> tuple[str, str]:
    """Item and size, as every list of what is bought names them."""
    return f"Fuse holder, {show.family(family)}", show.amps(rating_a)


def terminal_words(terminal: str, size: str) -> tuple[str, str]:
    return words.capital(terminal), size.replace("mm2", "mm²")


def joint_words(number: int, size: str) -> tuple[str, str]:
    largest = size.replace("mm2", "mm²")
    return words.capital(wires.JOINT), f"{number} conductors, up to {largest}"


def half_words(connector: str) -> tuple[str, str]:
    return f"Half of connector, {connector}", "reserve, with its mate"


def cap_words(cap: str, size: str) -> tuple[str, str]:
    return words.capital(cap), f"reserve{size}"


def fuse_words(family: str, rating_a: float, colour: str) -> str:
    return f"fuse {words.capital(show.family(family))} {show.amps(rating_a)} {colour or words.NOT_APPLICABLE}"


def conductor_words(one: materials.Metres) -> str:
    return f"conductor {show.size(one.conductor)} {one.colour}"


def small(item: str, size: str, quantity: str, maker: str = words.BLANK) -> dict[str, str]:
    return {"item": item, "size": size, "quantity": quantity, "maker": maker}


def identity(part: Part) -> str:
    """What identifies a part, its mark and its revision; blank for a hand to fill in."""
    revision = f"revision {part.revision}" if part.revision else ""
    return ", ".join(text for text in (part.maker_part, part.mark, revision) if text) or words.BLANK


def fuse_identity(packet: Packet, family: str) -> str:
    known = packet.sized.build.practice.fuse_parts.get(family)
    return f"{known.part}, {known.mark}" if known else words.BLANK
