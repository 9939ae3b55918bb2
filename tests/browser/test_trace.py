"""A circuit under the mouse or the keyboard's focus is marked everywhere in the page, and nothing needs the script."""

from __future__ import annotations

import base64
import hashlib
import pathlib
import re

import pytest
from playwright.sync_api import Browser, Page
from sample_packets import EXAMPLES, NAMES, packet, written

from buildspec.compile import page as pages
from buildspec.model import Circuit

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
LIT = "() => [...document.querySelectorAll('.lit')].map(e => e.dataset.circuit)"
LIT_ROWS = """() => [...document.querySelectorAll('tr.lit')].map(e => e.closest('section').id)"""
TABLES = ("circuit-schedule", "cut-list", "fuse-map")


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[pathlib.Path, pathlib.Path]:
    folder = tmp_path_factory.mktemp("traced")
    made = {}
    for path, name in zip(EXAMPLES, NAMES, strict=True):
        made[path] = folder / f"{name}.html"
        made[path].write_text(pages.html(packet(path), written(path)), encoding="utf-8")
    return made


def load_of(path: pathlib.Path) -> Circuit:
    """A circuit with a fuse of its own, so that it stands in every table."""
    circuits = packet(path).sized.build.circuits
    return next(c for c in circuits if c.kind == "load" and any(p.kind == "fuse" for p in c.protections))


def carriers(page: Page, number: str) -> int:
    return page.locator(f"[data-circuit~='{number}']").count()


@EACH
@pytest.mark.parametrize("where", ["drawing", *TABLES])
def test_the_mouse_marks_a_circuit_in_drawings_and_tables(
    page: Page, files: dict[pathlib.Path, pathlib.Path], path: pathlib.Path, where: str
) -> None:
    page.goto(files[path].as_uri())
    number = load_of(path).number
    there = (
        f"figure.sheet text >> text='{number}'"
        if where == "drawing"
        else f"#{where} tr[data-circuit='{number}']"
    )
    page.locator(there).first.hover()
    marked = page.evaluate(LIT)
    assert len(marked) == carriers(page, number) > 5
    assert all(number in numbers.split() for numbers in marked)
    assert set(TABLES) <= set(page.evaluate(LIT_ROWS))
    assert number in page.locator("#traced").inner_text()
    page.locator("h1").hover()
    assert page.evaluate(LIT) == [] and page.locator("#traced").inner_text() == ""


@EACH
def test_the_keyboard_marks_and_escape_clears(
    page: Page, files: dict[pathlib.Path, pathlib.Path], path: pathlib.Path
) -> None:
    page.goto(files[path].as_uri())
    number = load_of(path).number
    link = page.locator(f"figure.sheet svg g[data-circuit='{number}'] a").first
    link.focus()
    assert len(page.evaluate(LIT)) == carriers(page, number)
    row = page.locator(f"#at-{number}")
    assert row.get_attribute("aria-current") == "true"
    page.keyboard.press("Escape")
    assert page.evaluate(LIT) == [] and row.get_attribute("aria-current") is None
    page.keyboard.press("Tab")
    here = page.evaluate("() => document.activeElement.closest('[data-circuit]')?.dataset.circuit")
    assert here and page.evaluate(LIT) and all(set(here.split()) & set(n.split()) for n in page.evaluate(LIT))


@EACH
def test_every_circuit_that_is_drawn_can_be_reached_with_tab(
    page: Page, files: dict[pathlib.Path, pathlib.Path], path: pathlib.Path
) -> None:
    page.goto(files[path].as_uri())
    reached = page.evaluate(
        """() => [...document.querySelectorAll('figure.sheet [data-circuit] a[href]')]
          .filter(a => a.tabIndex >= 0).map(a => a.closest('[data-circuit]').dataset.circuit)"""
    )
    assert {c.number for c in packet(path).sized.build.circuits if not c.existing} <= set(reached)


@EACH
def test_marking_tells_more_than_by_colour(
    page: Page, files: dict[pathlib.Path, pathlib.Path], path: pathlib.Path
) -> None:
    page.goto(files[path].as_uri())
    number = load_of(path).number
    page.locator(f"#at-{number} a").first.focus()
    assert page.locator(f"#at-{number} td").first.evaluate("e => getComputedStyle(e).boxShadow") != "none"
    other = page.locator(f"figure.sheet .drawing g[data-circuit]:not([data-circuit~='{number}'])").first
    assert float(other.evaluate("e => getComputedStyle(e).opacity")) < 0.5
    mine = page.locator(f"figure.sheet .drawing g[data-circuit='{number}']").first
    assert mine.evaluate("e => getComputedStyle(e).opacity") == "1"


def test_the_page_allows_its_own_script_and_no_other(
    page: Page, files: dict[pathlib.Path, pathlib.Path]
) -> None:
    text = files[EXAMPLES[0]].read_text(encoding="utf-8")
    scripts = re.findall(r"<script>(.*?)</script>", text, flags=re.DOTALL)
    assert len(scripts) == 1 and not re.search(r"\son[a-z]+=", text)
    allowed = re.findall(r"script-src '([^']+)'", text)
    assert allowed == ["sha256-" + base64.b64encode(hashlib.sha256(scripts[0].encode()).digest()).decode()]
    page.set_content(text.replace('"use strict";', '"use strict"; window.changed = 1;'))
    assert page.evaluate("() => window.changed") is None


@EACH
def test_without_script_the_page_is_whole(
    browser: Browser, files: dict[pathlib.Path, pathlib.Path], path: pathlib.Path
) -> None:
    plain = browser.new_page(java_script_enabled=False)
    plain.goto(files[path].as_uri())
    shown = plain.locator("main").inner_text()
    assert not plain.locator("#traced").is_visible()
    assert all(c.number in shown for c in packet(path).sized.build.circuits if not c.existing)
    plain.close()
