"""The typeface that ships with the program: what it holds, how wide it is, and that no other gets into a PDF."""

from __future__ import annotations

import os
import pathlib
import subprocess
import sys

import pytest
from fontTools.ttLib import TTFont
from sample_packets import EXAMPLES, NAMES, ROOT
from sample_pdfs import need_engine, pages_of, pdf_of, reader

from buildspec import letters, read, typeface
from buildspec.drawings import advances

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
NO_FONTS = '<?xml version="1.0"?>\n<fontconfig><cachedir>{folder}</cachedir></fontconfig>\n'
WRITE = (
    "import pathlib, sys\nfrom buildspec.compile import pdf\npage = pathlib.Path(sys.argv[1]).read_bytes()\n"
    "pathlib.Path(sys.argv[2]).write_bytes(pdf.written(pdf.laid_out(page.decode()), page))\n"
)


@pytest.mark.parametrize("name", typeface.FILES)
def test_the_characters_of_a_file_are_those_that_fonttools_reads(name: str) -> None:
    file = typeface.FOLDER / name
    with TTFont(file) as font:
        assert typeface.code_points(file) == set(font.getBestCmap())


@pytest.mark.parametrize(
    ("name", "table"), [("DejaVuSans.ttf", advances.REGULAR), ("DejaVuSans-Bold.ttf", advances.BOLD)]
)
def test_widths_on_drawings_are_those_of_the_typeface(name: str, table: dict[str, int]) -> None:
    """Table `hmtx` of the font, as fontTools reads it, in thousandths of the type size."""
    with TTFont(typeface.FOLDER / name) as font:
        named, widths, em = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
        assert len(table) > 300
        for letter, width in table.items():
            assert width == pytest.approx(1000 * widths[named[ord(letter)]][0] / em, abs=0.51), letter


def test_the_typeface_may_be_passed_on_with_its_licence() -> None:
    """Its licence wants the notices and the permission beside every copy; OS/2 fsType 0: embedding is free."""
    licence = (typeface.FOLDER / "LICENSE").read_text(encoding="utf-8")
    for name in typeface.FILES:
        with TTFont(typeface.FOLDER / name) as font:
            assert font["OS/2"].fsType == 0
            said = {str(one) for one in font["name"].names if one.nameID == 13}
            assert all(line in licence for text in said for line in text.splitlines())


def test_letters_that_no_cut_lacks() -> None:
    assert [letter for letter in "aß€ŁΩЖ⌀☐→✓\u00a0\u200b" if typeface.lacks(letter)] == []
    assert [letter for letter in "山本🚐한\U00020000" if typeface.lacks(letter)] == list("山本🚐한\U00020000")


def test_a_letter_that_is_lacking_is_reported_where_it_stands() -> None:
    text = "job:\n  title: Camper 山本\n  owner: Łukasz Żak\nplaces:\n  木箱: {}\n  box: [ok, ok, Ω, 木]\n"
    document, _ = read.read_text(text, file="one.build.yaml")
    assert document is not None
    found = [(d.span.line, d.span.col, d.severity, d.message) for d in letters.unprintable(document)]
    assert [(line, col, severity) for line, col, severity, _ in found] == [
        (2, 10, "warning"),
        (5, 3, "warning"),
        (6, 20, "warning"),
    ]
    assert "`山` (U+5C71), `本` (U+672C) are not" in found[0][3] and "`木` (U+6728) is not" in found[2][3]


@EACH
def test_no_box_is_printed_for_a_shipped_example(path: pathlib.Path) -> None:
    for name, page in pages_of(path).items():
        assert {letter for letter in page.decode() if typeface.lacks(letter)} == set(), name


@EACH
@pytest.mark.parametrize("name", ["label-sheets.pdf", "fuse-lid.pdf", "handover.pdf"])
def test_every_font_of_a_pdf_is_ours(path: pathlib.Path, name: str) -> None:
    need_engine()
    fonts = {
        str(font.get_object()["/BaseFont"]).partition("+")[2]
        for page in reader(pdf_of(path, name)).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert fonts and fonts <= {f"DejaVu-Sans{cut}" for cut in ("", "-Bold", "-Condensed", "-Bold-Condensed")}


@pytest.mark.parametrize("name", ["fuse-lid", "label-sheets"])
def test_bytes_are_the_same_without_any_font_of_the_machine(name: str, tmp_path: pathlib.Path) -> None:
    need_engine()
    page = tmp_path / "page.html"
    page.write_bytes(pages_of(EXAMPLES[0])[f"{name}.html"])
    conf = tmp_path / "fonts.conf"
    conf.write_text(NO_FONTS.format(folder=tmp_path), encoding="utf-8")
    made = tmp_path / "made.pdf"
    surroundings = os.environ | {"FONTCONFIG_FILE": str(conf), "PYTHONPATH": str(ROOT), "HOME": str(tmp_path)}
    subprocess.run([sys.executable, "-c", WRITE, page, made], check=True, env=surroundings)
    assert made.read_bytes() == pdf_of(EXAMPLES[0], f"{name}.pdf")
