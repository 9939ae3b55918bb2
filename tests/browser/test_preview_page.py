"""The preview in a real browser: it loads itself again at each save, shows the findings, and says when it is over."""

from __future__ import annotations

import pathlib

from playwright.sync_api import Page, expect
from previews import PATIENCE_S, SPEC, job, running

PATIENCE_MS = PATIENCE_S * 1000


def test_the_page_follows_the_spec_by_itself(page: Page, tmp_path: pathlib.Path) -> None:
    page.context.set_offline(False)
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: said.append(str(error)))
    spec = job(tmp_path / "job")
    with running(spec) as preview:
        preview.line("^build 1: ")
        page.goto(f"http://localhost:{preview.port}/")
        panel, title = page.locator("#preview"), page.locator("h1")
        expect(panel).to_have_class("good")
        expect(title).to_have_text("Trial")

        spec.write_text(
            SPEC.replace("at: bed, fed_from", "at: roof, fed_from").replace("title: Trial", "title: Other")
        )
        expect(panel).to_have_class("refused", timeout=PATIENCE_MS)
        expect(panel.locator(".head")).to_contain_text("OLD, from 1 build ago")
        expect(panel.locator("li.error .place")).to_have_text(f"{spec.name}:8:47")
        expect(panel.locator("li.error")).to_be_visible()
        expect(title).to_have_text("Trial")
        over = "() => document.querySelector('#preview').getBoundingClientRect().bottom"
        assert page.evaluate(over) <= page.locator("h1").evaluate("e => e.getBoundingClientRect().top")
        page.emulate_media(media="print")
        expect(panel).to_be_visible()
        page.emulate_media(media="screen")

        spec.write_text(SPEC.replace("title: Trial", "title: Second trial"))
        expect(title).to_have_text("Second trial", timeout=PATIENCE_MS)
        expect(panel).to_have_class("good")
        page.emulate_media(media="print")
        expect(panel).to_be_hidden()
        page.emulate_media(media="screen")

        expect(panel.locator(".lost")).to_be_hidden()
        assert preview.stop() == 0
        expect(panel.locator(".lost")).to_be_visible(timeout=PATIENCE_MS)
    assert said == []
    assert all(url.startswith(f"http://localhost:{preview.port}/") for url in asked)
