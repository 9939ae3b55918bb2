"""index.html in a real browser: needs no network, every link leads somewhere, fits a phone and paper."""

from __future__ import annotations

import pathlib
import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, Request
from sample_packets import EXAMPLES, NAMES, packet

from buildspec import compile as compiling
from buildspec import output

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
LINKS = """() => [...document.querySelectorAll('a[href]')].map(a => a.getAttribute('href'))"""
IDS = """() => [...document.querySelectorAll('[id]')].map(e => e.id)"""
BEYOND = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
CUT_OFF = """() => [...document.querySelectorAll('td, th, p, li, h1, h2, h3')].filter(e => {
  const scrolls = e.closest('.table, .drawing');
  return !scrolls && e.getBoundingClientRect().right > document.documentElement.clientWidth + 1;
}).length"""


Open = Callable[[pathlib.Path], list[str]]


@pytest.fixture(scope="session")
def folders(tmp_path_factory: pytest.TempPathFactory) -> dict[pathlib.Path, pathlib.Path]:
    """Example → the folder with its packet."""
    made = {}
    for path, name in zip(EXAMPLES, NAMES, strict=True):
        made[path] = tmp_path_factory.mktemp(name)
        output.write(made[path], compiling.files_of(packet(path)))
    return made


@pytest.fixture
def opened(page: Page, folders: dict[pathlib.Path, pathlib.Path]) -> Open:
    """Opens the page of an example; gives what it asked for beside itself."""

    def open_it(path: pathlib.Path) -> list[str]:
        asked: list[str] = []
        address = (folders[path] / "index.html").as_uri()

        def note(request: Request) -> None:
            if request.url != address:
                asked.append(request.url)

        page.on("request", note)
        page.goto(address)
        return asked

    return open_it


@EACH
def test_it_asks_for_nothing_and_says_nothing_in_the_console(
    page: Page, opened: Open, path: pathlib.Path
) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    assert opened(path) == [] and said == []
    assert packet(path).sized.build.job.title in page.inner_text("h1")


@EACH
def test_every_link_has_its_target_and_every_id_is_there_once(
    page: Page, opened: Open, path: pathlib.Path
) -> None:
    opened(path)
    links, ids = page.evaluate(LINKS), page.evaluate(IDS)
    assert len(ids) == len(set(ids)), sorted(i for i in set(ids) if ids.count(i) > 1)[:5]
    assert all(link.startswith("#") for link in links)
    assert {link[1:] for link in links} <= set(ids)
    for circuit in packet(path).sized.build.circuits:
        if not circuit.existing:
            assert f"at-{circuit.number}" in ids and f"#at-{circuit.number}" in links


@EACH
def test_circuits_lead_from_list_to_schedule_and_back(page: Page, opened: Open, path: pathlib.Path) -> None:
    opened(path)
    number = packet(path).sized.build.circuits[0].number
    wire = packet(path).sized.build.circuits[0].feeds[0].designation
    for section in ("cut-list", "routing", "commissioning-record", "work-order"):
        assert page.locator(f"#{section} a[href='#at-{number}']").count() > 0, section
    page.locator(f"#cut-list a[href='#at-{number}']").first.click()
    assert page.url.endswith(f"#at-{number}")
    row = page.locator(f"#at-{number}")
    assert row.locator("xpath=ancestor::section").get_attribute("id") == "circuit-schedule"
    row.locator(f"a[href='#at-{wire}']").click()
    assert page.locator(f"#at-{wire}").locator("xpath=ancestor::section").get_attribute("id") == "cut-list"


@EACH
def test_drawings_lead_to_the_schedule(page: Page, opened: Open, path: pathlib.Path) -> None:
    opened(path)
    assert page.locator("#drawings figure.sheet svg").count() == len(packet(path).sheets) > 0
    assert page.locator("#drawings figure.sheet svg a[href^='#at-']").count() > 0


@EACH
@pytest.mark.parametrize("width", [320, 390, 768, 1280])
def test_nothing_goes_beyond_the_edge(page: Page, opened: Open, path: pathlib.Path, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    opened(path)
    assert page.evaluate(BEYOND) <= 0
    assert page.evaluate(CUT_OFF) == 0


def test_a_phone_shows_rows_as_cards_with_the_column_beside_each_value(page: Page, opened: Open) -> None:
    page.set_viewport_size({"width": 390, "height": 800})
    opened(EXAMPLES[0])
    cell = page.locator("#cut-list td[data-label='Size']").first
    assert cell.evaluate("e => getComputedStyle(e, '::before').content") == '"Size"'
    assert cell.evaluate("e => getComputedStyle(e).display") == "grid"
    page.set_viewport_size({"width": 1280, "height": 800})
    assert cell.evaluate("e => getComputedStyle(e).display") == "table-cell"


@EACH
def test_paper_has_no_navigation_and_a_sheet_of_its_own_for_each_drawing(
    page: Page, opened: Open, path: pathlib.Path
) -> None:
    opened(path)
    page.emulate_media(media="print")
    assert not page.locator("nav").is_visible() and not page.locator(".back").first.is_visible()
    assert (
        page.locator(".wide thead").first.evaluate("e => getComputedStyle(e).display") == "table-header-group"
    )
    assert page.locator("tbody tr").first.evaluate("e => getComputedStyle(e).breakInside") == "avoid"
    sizes = boxes(page.pdf(prefer_css_page_size=True, print_background=True))
    assert len(set(sizes)) == 2 and all(size in sizes for size in (paper(path), paper(path)[::-1]))
    assert sizes.count(paper(path)[::-1]) >= len(packet(path).sheets)


def boxes(pdf: bytes) -> list[tuple[int, int]]:
    found = re.findall(rb"/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]", pdf)
    return [(round(float(width)), round(float(height))) for width, height in found]


def paper(path: pathlib.Path) -> tuple[int, int]:
    """Upright page in points: ISO 216 A4, or US Letter."""
    return {"A4": (595, 842), "Letter": (612, 792)}[packet(path).sized.build.practice.paper]
