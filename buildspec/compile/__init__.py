"""Stage 6: a sized build and its findings → the packet, as files. The only place where all of it meets."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from buildspec import documents, output
from buildspec.compile import csvfile, data, numbers, page
from buildspec.packet import Packet
from buildspec.pipeline import Outcome, numbers_file
from buildspec.render import templates

FIRST = ("index.html", "handover.html", output.INDEX)
"""Order in which the files are listed."""


def compile_file(path: Path, out: Path, outcome: Outcome) -> tuple[str, ...]:
    """Write the packet of the spec at `path` into the folder `out`, then its numbering file beside the spec.

    Gives the names of the files in the packet. Raises UsageError where the folder is not ours or the disk
    refuses; the old packet is then still whole.
    """
    packet = packet_of(outcome)
    files = files_of(packet)
    output.write(out, files)
    output.write_beside(numbers_file(path), numbers.text(packet.sized.build.numbers).encode())
    return tuple(files)


def packet_of(outcome: Outcome) -> Packet:
    """The build with its drawings, ready for the documents."""
    from buildspec import drawings
    from buildspec.drawings import legend

    if outcome.build is None:
        raise ValueError("a packet is never made from a refused build")
    return Packet(
        outcome.build, outcome.diagnostics, drawings.sheets(outcome.build), legend.strips(outcome.build)
    )


def files_of(packet: Packet) -> dict[str, bytes]:
    """Every file of a packet, name → bytes, in the order of the packet."""
    found = {name: text.encode() for name, text in texts(packet)}
    names = sorted((*found, output.INDEX), key=place)
    found[output.INDEX] = data.text(packet, names).encode()
    return {name: found[name] for name in names}


def place(name: str) -> tuple[int, str]:
    return (FIRST.index(name) if name in FIRST else len(FIRST)), name


def texts(packet: Packet) -> Iterator[tuple[str, str]]:
    """(name, content) of every file but the one that lists them."""
    for sheet in (*packet.sheets, *packet.strips):
        yield f"drawings/{sheet.id}.svg", sheet.svg
    written = {}
    for document in documents.catalogue():
        written[document.name] = templates.markdown(document.name, documents.context(document, packet))
        yield f"documents/{document.slug}.md", written[document.name]
        if hasattr(document.module, "csv"):
            name, rows = document.module.csv(packet)
            yield name, csvfile.text(rows)
        if hasattr(document.module, "html"):
            yield f"{document.slug}.html", document.module.html(packet)
    yield "index.html", page.html(packet, written)
    for lang in packet.sized.build.practice.languages[1:]:
        yield from spoken(in_language(packet, lang))


def in_language(packet: Packet, lang: str) -> Packet:
    """The packet with its papers for owners in another language."""
    from buildspec.drawings import legend

    return packet._replace(lang=lang, strips=legend.strips(packet.sized, lang))


def spoken(packet: Packet) -> Iterator[tuple[str, str]]:
    """(name, content) of the papers for owners in the packet's language, which stands in their names."""
    for strip in packet.strips:
        yield f"drawings/{strip.id}.{packet.lang}.svg", strip.svg
    for document in documents.catalogue():
        if getattr(document.module, "SPOKEN", False):
            text = templates.markdown(document.name, documents.context(document, packet))
            yield f"documents/{document.slug}.{packet.lang}.md", text
            yield f"{document.slug}.{packet.lang}.html", document.module.html(packet)
