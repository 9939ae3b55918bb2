"""What the Matterhorn Protocol 1.1 (failure conditions of PDF/UA-1) lets a machine check, as pypdf finds it."""

from __future__ import annotations

import itertools
import pathlib
import re
from typing import Any

import pytest
from sample_packets import EXAMPLES
from sample_pdfs import need_engine, pdf_of, reader
from tagged import contents, elements, listed, owners

MADE = [(path, name) for path in EXAMPLES for name in ("handover.pdf", "label-sheets.pdf", "fuse-lid.pdf")]
EACH = pytest.mark.parametrize(
    ("path", "name"), MADE, ids=[f"{path.parent.name}-{name}" for path, name in MADE]
)
PARTS_OF = {
    "/L": {"/LI"},
    "/LI": {"/Lbl", "/LBody", "/L"},
    "/Table": {"/THead", "/TBody", "/TR"},
    "/THead": {"/TR"},
    "/TBody": {"/TR"},
    "/TR": {"/TH", "/TD"},
}
"""ISO 32000-1, tables 336 and 337; lists in lists stand in their item."""


@pytest.fixture(autouse=True)
def _engine() -> None:
    need_engine()


@EACH
def test_all_ink_is_tagged_once_or_an_artifact(path: pathlib.Path, name: str) -> None:
    """01-003 to 01-006, 02-001: content is tagged or an artifact, and each tag stands for what it says it does."""
    document = reader(pdf_of(path, name))
    owned = owners(document)
    there = {id(element.data) for element in elements(document)}
    for page, found in zip(document.pages, contents(document), strict=True):
        mine = owned[page["/StructParents"]]
        assert found.loose == 0
        assert len(found.tagged) == len(set(found.tagged)) and max(found.tagged) < len(mine)
        named = {n: one for n, owner in enumerate(mine) if isinstance(one := owner.get_object(), dict)}
        assert set(named) == set(found.tagged)
        assert all(id(owner) in there and n in listed(owner["/K"]) for n, owner in named.items())


@EACH
def test_the_document_says_what_it_is(path: pathlib.Path, name: str) -> None:
    """06-001 to 06-004, 07-001, 07-002, 11-006."""
    root: Any = reader(pdf_of(path, name)).trailer["/Root"]
    said = root["/Metadata"].get_data().decode()
    assert 'pdfuaid:part="1"' in said and re.search(r"<dc:title>.*<rdf:li[^>]*>[^<]+</rdf:li>", said, re.S)
    assert root["/ViewerPreferences"]["/DisplayDocTitle"] and root["/MarkInfo"]["/Marked"]
    assert re.fullmatch(r"[a-z]{2}(-[A-Z]{2})?", root["/Lang"])


@EACH
def test_figures_say_what_they_show_and_where(path: pathlib.Path, name: str) -> None:
    """13-004; the box of a figure is in the units of its page (ISO 32000-1, 14.8.5.4.3)."""
    document = reader(pdf_of(path, name))
    figures = [element.data for element in elements(document) if element.tag == "/Figure"]
    assert len(figures) >= (0 if name in ("handover.pdf", "fuse-lid.pdf") else len(document.pages) / 20)
    for figure in figures:
        assert len(figure["/Alt"]) > 3
        left, bottom, right, top = map(float, figure["/A"]["/BBox"])
        _, _, width, height = map(float, figure["/Pg"]["/MediaBox"])
        assert -1 <= left < right <= width + 1 and -1 <= bottom < top <= height + 1


@EACH
def test_headings_begin_at_the_first_level_and_leave_none_out(path: pathlib.Path, name: str) -> None:
    """14-002, 14-003; none stands in another."""
    found = [e for e in elements(reader(pdf_of(path, name))) if re.fullmatch(r"/H\d", e.tag)]
    levels = [int(element.tag[2]) for element in found]
    assert levels[:1] in ([], [1])
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))
    assert not any(re.fullmatch(r"/H\d", tag) for element in found for tag in element.above)


@EACH
def test_tables_and_lists_are_put_together_as_they_should_be(path: pathlib.Path, name: str) -> None:
    """09-004 to 09-008."""
    for element in elements(reader(pdf_of(path, name))):
        if element.tag in PARTS_OF:
            assert element.below and set(element.below) <= PARTS_OF[element.tag], (element.tag, element.below)
        for whole, parts in (("/LI", {"/L"}), ("/TR", {"/Table", "/THead", "/TBody"})):
            assert element.tag != whole or element.above[-1] in parts


@EACH
def test_each_table_has_heads_that_say_what_they_stand_over(path: pathlib.Path, name: str) -> None:
    """15-003."""
    found = list(elements(reader(pdf_of(path, name))))
    heads = [element for element in found if element.tag == "/TH"]
    for head in heads:
        assert head.data["/A"]["/Scope"] == ("/Column" if "/THead" in head.above else "/Row")
    for n, table in enumerate(found):
        if table.tag == "/Table":
            inside = found[n + 1 :]
            end = next((k for k, e in enumerate(inside) if len(e.above) <= len(table.above)), len(inside))
            assert any(element.tag == "/TH" for element in inside[:end])


@EACH
def test_links_are_in_the_tree_and_say_where_they_lead(path: pathlib.Path, name: str) -> None:
    """28-002 to 28-005, 28-009, 28-011, 28-012."""
    document = reader(pdf_of(path, name))
    owned = owners(document)
    for page in document.pages:
        assert page["/Tabs"] == "/S"
        for link in (one.get_object() for one in page.get("/Annots", [])):
            (owner,) = owned[link["/StructParent"]]
            held = [kid.get_object() for kid in listed(owner.get_object()["/K"]) if not isinstance(kid, int)]
            assert any("/Obj" in kid and kid["/Obj"] == link for kid in held)
            if "/Dest" in link:
                leads = document.named_destinations[link["/Dest"]]
                number = document.get_destination_page_number(leads)
                assert number is not None and link["/Contents"].endswith(f", page {number + 1}")


@EACH
def test_fonts_are_embedded_and_their_signs_can_be_read(path: pathlib.Path, name: str) -> None:
    """31-005 to 31-009, 31-027."""
    fonts = {
        font.get_object()["/BaseFont"]: font.get_object()
        for page in reader(pdf_of(path, name)).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert fonts
    for font in fonts.values():
        assert font["/Subtype"] == "/Type0" and b"beginbfchar" in font["/ToUnicode"].get_data()
        (inner,) = font["/DescendantFonts"]
        assert "/FontFile2" in inner.get_object()["/FontDescriptor"]
        assert inner.get_object()["/CIDToGIDMap"] is not None


def heads_and_feet_of_pages_are_not_read_out(path: pathlib.Path, name: str) -> None:
    """02-001, 17: each page of the packet has at least its foot with the page's number as pagination."""
    document = reader(pdf_of(path, name))
    assert all(page.artifacts.count("/Pagination") >= 2 for page in contents(document))


OF_THE_PACKET = (
    test_all_ink_is_tagged_once_or_an_artifact,
    test_the_document_says_what_it_is,
    test_figures_say_what_they_show_and_where,
    test_headings_begin_at_the_first_level_and_leave_none_out,
    test_tables_and_lists_are_put_together_as_they_should_be,
    test_each_table_has_heads_that_say_what_they_stand_over,
    test_links_are_in_the_tree_and_say_where_they_lead,
    test_fonts_are_embedded_and_their_signs_can_be_read,
    heads_and_feet_of_pages_are_not_read_out,
)
"""Run where the packet, which takes more than a minute, is laid out anyway."""
