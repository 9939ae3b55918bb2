"""Stage 6: a sized build and its findings → the packet, as files. The only place where all of it meets."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from buildspec import documents, output
from buildspec.compile import csvfile, data, numbers, page, typesetting, workbook
from buildspec.compile import pdf as printing
from buildspec.compile.spoken import in_language
from buildspec.packet import Packet
from buildspec.pipeline import Outcome, numbers_file
from buildspec.render import templates

FIRST = ("index.html", "handover.html", output.INDEX)
"""Order in which the files are listed."""


def compile_file(path: Path, out: Path, outcome: Outcome, *, pdf: bool = False) -> tuple[str, ...]:
    """Write the packet of the spec at `path` into the folder `out`, and its numbering file beside the spec.

    Gives the names of the files in the packet. Raises UsageError where the folder is not ours, the disk
    refuses or PDF cannot be made; the old packet is then still whole, and no packet is there whose numbers
    are not kept.
    """
    if pdf:
        typesetting.engine()
    packet = packet_of(outcome)
    files = files_of(packet, pdf=pdf)
    with output.staged(out, files):
        output.write_beside(numbers_file(path), numbers.text(packet.sized.build.numbers).encode())
    return tuple(files)


def packet_of(outcome: Outcome) -> Packet:
    """The build with its drawings, ready for the documents."""
    from buildspec import drawings
    from buildspec.drawings import charts, legend

    if outcome.build is None:
        raise ValueError("a packet is never made from a refused build")
    return Packet(
        outcome.build,
        outcome.diagnostics,
        drawings.sheets(outcome.build),
        legend.strips(outcome.build),
        charts.charts(outcome.build),
    )


def files_of(packet: Packet, *, pdf: bool = False) -> dict[str, bytes]:
    """Every file of a packet, name → bytes, in the order of the packet."""
    found = {name: text.encode() for name, text in texts(packet)} | dict(books(packet))
    found |= dict(printing.files(found)) if pdf else {}
    names = sorted((*found, output.INDEX), key=place)
    found[output.INDEX] = data.text(packet, names).encode()
    return {name: found[name] for name in names}


def place(name: str) -> tuple[int, str]:
    return (FIRST.index(name) if name in FIRST else len(FIRST)), name


def texts(packet: Packet) -> Iterator[tuple[str, str]]:
    """(name, content) of every file but the one that lists them."""
    for sheet in (*packet.sheets, *packet.strips, *packet.charts):
        yield f"drawings/{sheet.id}.svg", sheet.svg
    written = {}
    for document in documents.catalogue():
        written[document.name] = templates.markdown(document.name, documents.context(document, packet))
        yield f"documents/{document.slug}.md", written[document.name]
        if hasattr(document.module, "csv"):
            name, rows = document.module.csv(packet)
            yield name, csvfile.text(rows)
        if hasattr(document.module, "pages"):
            yield from document.module.pages(packet)
        if hasattr(document.module, "html"):
            yield f"{document.slug}.html", document.module.html(packet)
    yield "index.html", page.html(packet, written)
    for lang in packet.sized.build.practice.languages[1:]:
        yield from spoken(in_language(packet, lang))


def books(packet: Packet) -> Iterator[tuple[str, bytes]]:
    """(name, content) of every spreadsheet."""
    build = packet.sized.build
    for document in documents.catalogue():
        if hasattr(document.module, "book"):
            book = document.module.book(packet)
            yield book.file, workbook.data(book, build.job, build.practice)


def spoken(packet: Packet) -> Iterator[tuple[str, str]]:
    """(name, content) of the papers for owners in the packet's language, which stands in their names."""
    for strip in packet.strips:
        yield f"drawings/{strip.id}.{packet.lang}.svg", strip.svg
    for document in documents.catalogue():
        if getattr(document.module, "SPOKEN", False):
            text = templates.markdown(document.name, documents.context(document, packet))
            yield f"documents/{document.slug}.{packet.lang}.md", text
            yield f"{document.slug}.{packet.lang}.html", document.module.html(packet)
