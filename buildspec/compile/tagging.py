"""What the PDF engine's tags lack for a reader who listens: set right on the finished objects, before they are written.

Sources: ISO 14289-1 (PDF/UA-1) clauses 7.1 to 7.5 and 7.18, ISO 32000-1 clause 14.8.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

PX_PT = 0.75
HEADING = re.compile(r"/H([1-6])")
CELLS = ("/TD", "/TH")
MAY_BE_EMPTY = (*CELLS, "/TR")
IN_ITEM = ("/Lbl", "/LBody", "/L")
PRINTED = 4
"""Flag of an annotation that is printed as it is shown (ISO 32000-1, table 165)."""


def finish(_document: Any, pdf: Any) -> None:
    """Set right the tree of tags, what stands outside of it, and the links of a document."""
    root = _at(pdf, pdf.catalog["StructTreeRoot"])
    before = set(_references(pdf, root))
    for one in root["K"]:
        _mend(pdf, _at(pdf, one), ())
    _raise_headings(pdf, before)
    kept = set(_references(pdf, root))
    _set_apart(pdf, _at(pdf, root["ParentTree"])["Nums"], before=before, kept=kept)
    for element in _of(pdf, "Type", "/StructElem"):
        if element.reference not in kept:
            element.clear()
    _name_links(pdf)


def _at(pdf: Any, reference: bytes) -> Any:
    """What a reference leads to."""
    return pdf.objects[int(reference.split()[0])]


def _of(pdf: Any, key: str, kind: str) -> list[Any]:
    """All objects of a kind, in the order of their numbers."""
    return [thing for thing in pdf.objects if isinstance(thing, dict) and thing.get(key) == kind]


def _kids(pdf: Any, element: Any) -> list[tuple[bytes, Any]]:
    """(reference, element) of what stands right below an element; content and links are not elements."""
    found = [(kid, _at(pdf, kid)) for kid in element["K"] if isinstance(kid, bytes)]
    return [(kid, below) for kid, below in found if below.get("Type") == "/StructElem"]


def _references(pdf: Any, element: Any) -> Iterator[bytes]:
    """References of all elements below one."""
    for reference, below in _kids(pdf, element):
        yield reference
        yield from _references(pdf, below)


def _mend(pdf: Any, element: Any, above: tuple[str, ...]) -> bool:
    """Set right an element and all below it; False where nothing in it is to be read."""
    tag = element["S"]
    if tag == "/Figure" and "Alt" not in element:
        return False
    if tag == "/Figure":
        element["A"]["BBox"][:] = _in_points(element["A"]["BBox"], _at(pdf, element["Pg"])["MediaBox"])
    elif tag == "/L":
        _join_columns(pdf, element)
        _pair_terms(pdf, element)
    elif tag == "/LI":
        for _, body in _kids(pdf, element):
            body["S"] = body["S"] if body["S"] in IN_ITEM else "/LBody"
    elif tag == "/Table":
        _name_rows(pdf, element)
    elif tag == "/TH":
        element["A"].setdefault("Scope", "/Column" if "/THead" in above else "/Row")
    elif HEADING.match(tag) and any(map(HEADING.match, above)):
        element["S"] = "/Span"
    empty = {kid for kid, below in _kids(pdf, element) if not _mend(pdf, below, (*above, tag))}
    element["K"][:] = [kid for kid in element["K"] if kid not in empty]
    return bool(element["K"]) or tag in MAY_BE_EMPTY


def _in_points(box: list[float], page: list[float]) -> list[float]:
    """Pixels from the top of the page → points from its foot."""
    left, top, right, bottom = (PX_PT * side for side in box)
    return [left, page[3] - bottom, right, page[3] - top]


def _join_columns(pdf: Any, element: Any) -> None:
    """A list that is set in columns is one list, not one of lists."""
    for reference, column in _kids(pdf, element):
        if column["S"] == "/L":
            at = element["K"].index(reference)
            element["K"][at : at + 1] = column["K"]
            for _, item in _kids(pdf, column):
                item["P"] = element.reference


def _pair_terms(pdf: Any, element: Any) -> None:
    """A group in a list of terms becomes one item: the term is its label, what is said of it its body."""
    for reference, group in _kids(pdf, element):
        if group["S"] != "/Div":
            continue
        bodies = [body for _, item in _kids(pdf, group) for body in _kids(pdf, item)]
        group |= {"S": "/LI"}
        group["K"][:] = [body for body, _ in bodies]
        for n, (_, body) in enumerate(bodies):
            body |= {"S": "/LBody" if n else "/Lbl", "P": reference}


def _name_rows(pdf: Any, table: Any) -> None:
    """In a table without heads the first cell of each row is its head."""
    elements = [_at(pdf, reference) for reference in _references(pdf, table)]
    if any(element["S"] == "/TH" for element in elements):
        return
    for row in (element for element in elements if element["S"] == "/TR"):
        first = _kids(pdf, row)[0][1]
        first["S"] = "/TH"
        first["A"] |= {"Scope": "/Row"}


def _raise_headings(pdf: Any, references: set[bytes]) -> None:
    """Headings begin at the first level (ISO 14289-1, 7.4.2), though a page keeps that for its own head."""
    elements = [_at(pdf, reference) for reference in references]
    levels = {int(found[1]) for element in elements if (found := HEADING.match(element["S"]))}
    for element in elements:
        if found := HEADING.match(element["S"]):
            element["S"] = f"/H{int(found[1]) - min(levels) + 1}"


def _set_apart(pdf: Any, numbers: list[Any], *, before: set[bytes], kept: set[bytes]) -> None:
    """Content that no element reads is marked as an artifact: heads and feet of pages, and what only decorates."""
    pages = [_at(pdf, reference) for reference in pdf.page_references]
    for page, owners in zip(pages, numbers[1::2], strict=False):
        stream = _at(pdf, page["Contents"]).stream
        for n, part in enumerate(stream):
            owner = owners[part["MCID"]] if isinstance(part, dict) and "MCID" in part else None
            if owner is not None and owner not in kept:
                stream[n - 1] = "/Artifact"
                owners[part.pop("MCID")] = "null"
                part["Type"] = "/Layout" if owner in before else "/Pagination"


def _name_links(pdf: Any) -> None:
    """Each link says what it leads to and on which page."""
    names = pdf.catalog.get("Names", {}).get("Dests", {}).get("Names", [])
    page = {reference: n for n, reference in enumerate(pdf.page_references, start=1)}
    pages = {name.string: page[place[0]] for name, place in zip(names[::2], names[1::2], strict=True)}
    for link in _of(pdf, "Subtype", "/Link"):
        link["F"] = PRINTED
        target = link["Contents"].string
        if target in pages:
            link["Contents"].string = f"{target.removeprefix('at-')}, page {pages[target]}"
