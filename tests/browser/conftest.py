"""A page in a real browser. Without chromium these tests are skipped, except in CI, where that is a failure."""

from __future__ import annotations

import os
import pathlib
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

CHROMIUM = pathlib.Path("/usr/bin/chromium")
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    if not CHROMIUM.exists() and os.environ.get("CI") != "true":
        pytest.skip(f"{CHROMIUM} is not there")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        yield started
        started.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page without a network: a request that leaves the machine fails."""
    opened = browser.new_page()
    opened.context.set_offline(True)
    yield opened
    opened.close()
