"""What is bought by the metre, by the handful or by the bag: conductor, fuses with spares, small parts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from buildspec import show
from buildspec.documents import _materials as materials
from buildspec.documents import _words as words
from buildspec.documents._labels import labels
from buildspec.packet import Packet


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
            "maker": words.BLANK,
        }


def small_lines(packet: Packet) -> Iterator[dict[str, str]]:
    """Holders, terminals, caps, seals, sleeves over the loom, labels."""
    build = packet.sized.build
    for (family, rating), count in materials.holder_counts(packet):
        yield small(f"Fuse holder, {show.family(family)}", show.amps(rating), str(count))
    for (terminal, _, size), count in materials.terminal_counts(packet):
        yield small(words.capital(terminal), size.replace("mm2", "mm²"), str(count))
    for cap, count in Counter(r.cap for r in build.reserves.values() if r.cap).items():
        yield small(words.capital(cap), "reserve", str(count))
    for (protection, size_m), count in Counter((h.protection, h.size_m) for h in build.holes).items():
        dimension = show.small_length(size_m, build.practice) if size_m else "to suit"
        yield small(words.capital(protection), dimension, str(count))
    sheathed = sum(run.length_m for run in build.runs if run.sheathed)
    if sheathed:
        yield small("Loom sleeve", "to suit the loom", show.whole_length(sheathed, build.practice))
    yield small("Labels", "see the list of labels", str(sum(label.quantity for label in labels(packet))))


def small(item: str, size: str, quantity: str) -> dict[str, str]:
    return {"item": item, "size": size, "quantity": quantity, "maker": words.BLANK}
