"""Sheets in a real browser: its own text measurement against the sheet, the table of widths and the neighbours."""

from __future__ import annotations

import pathlib
from typing import Any

import pytest
from playwright.sync_api import Page
from sample_builds import CASES, built, example, spec

from buildspec import drawings
from buildspec.drawings import measure, titleblock
from buildspec.model import Sized
from buildspec.packet import Sheet

EXAMPLES = sorted((pathlib.Path(__file__).parents[2] / "examples").glob("*/*.build.yaml"))
PRINTED_FROM = 38
"""From the edge of the paper [tenths of a millimetre]: most printers reach further."""
GENERATED = ("usual", "three house batteries", "sixty")
MEASURE = """() => {
  const inverse = document.querySelector('svg').getScreenCTM().inverse();
  const place = e => {
    const r = e.getBoundingClientRect();
    const a = new DOMPoint(r.left, r.top).matrixTransform(inverse);
    const b = new DOMPoint(r.right, r.bottom).matrixTransform(inverse);
    return [a.x, a.y, b.x, b.y];
  };
  return [...document.querySelectorAll('text')].map(e => ({
    text: e.textContent, box: place(e), length: e.getComputedTextLength(), family: getComputedStyle(e).fontFamily,
    size: parseFloat(e.getAttribute('font-size')), bold: e.getAttribute('font-weight') === 'bold',
    group: e.closest('g').id,
  }));
}"""


def build_of(name: str) -> Sized:
    if name in CASES:
        return built(spec(**CASES[name]))
    return example(next(p for p in EXAMPLES if p.stem == name))


@pytest.fixture(scope="module", params=[*GENERATED, *(p.stem for p in EXAMPLES)])
def sheets(request: pytest.FixtureRequest) -> tuple[Sheet, ...]:
    return drawings.sheets(build_of(request.param))


def measured(page: Page, sheet: Sheet) -> list[dict[str, Any]]:
    page.set_viewport_size({"width": 1300, "height": 1000})
    page.set_content(f'<!doctype html><body style="margin:0">{sheet.svg}</body>')
    found: list[dict[str, Any]] = page.evaluate(MEASURE)
    assert found
    return found


def test_every_text_stands_inside_the_frame(page: Page, sheets: tuple[Sheet, ...]) -> None:
    edge = titleblock.MARGIN
    for sheet in sheets:
        right, bottom = sheet.width_mm * 10 - edge, sheet.height_mm * 10 - edge
        for item in measured(page, sheet):
            x0, y0, x1, y1 = item["box"]
            if item["group"].endswith(("-zones", "-checks")):
                least = PRINTED_FROM
                assert least <= x0 and x1 <= sheet.width_mm * 10 - least, (sheet.title, item)
                assert least <= y0 and y1 <= sheet.height_mm * 10 - least, (sheet.title, item)
                continue
            assert edge <= x0 and x1 <= right and edge <= y0 and y1 <= bottom, (sheet.title, item)


def test_no_text_is_wider_than_the_table_says(page: Page, sheets: tuple[Sheet, ...]) -> None:
    for sheet in sheets:
        for item in measured(page, sheet):
            room = measure.width(item["text"], item["size"], bold=item["bold"])
            assert item["length"] <= room + 0.5, (sheet.title, item)


def test_no_text_touches_another(page: Page, sheets: tuple[Sheet, ...]) -> None:
    """Boxes from the browser, cut down to the height of capitals and short descenders."""
    for sheet in sheets:
        found = measured(page, sheet)
        boxes = []
        for item in found:
            x0, y0, x1, y1 = item["box"]
            middle = (y0 + y1) / 2
            boxes.append((item["text"], x0, middle - item["size"] * 0.36, x1, middle + item["size"] * 0.42))
        hits = [
            (a[0], b[0])
            for n, a in enumerate(boxes)
            for b in boxes[n + 1 :]
            if a[1] < b[3] and b[1] < a[3] and a[2] < b[4] and b[2] < a[4]
        ]
        assert hits == [], sheet.title


def test_the_sheet_has_its_true_size_and_runs_nothing(page: Page, sheets: tuple[Sheet, ...]) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    for sheet in sheets:
        measured(page, sheet)
        width, height = page.evaluate(
            "() => { const r = document.querySelector('svg').getBoundingClientRect(); return [r.width, r.height] }"
        )
        assert abs(width - sheet.width_mm * 96 / 25.4) < 0.5
        assert abs(height - sheet.height_mm * 96 / 25.4) < 0.5
    assert said == []
