"""What of a page goes on paper, and how it is laid out without needless work."""

from __future__ import annotations

import contextlib
import gc
import re
from collections.abc import Iterator

FOR_SCREENS = re.compile(
    r'<a class="skip".*?</a>|<header id="top">.*?</header>|<nav aria-label="Contents">.*?</nav>'
    r'|<p class="back">.*?</p>|<p id="traced".*?</p>|<script>.*?</script>| data-(?:label|circuit)="[^"]*"',
    re.DOTALL,
)
"""What print styles hide, and what only narrow screens and the page's script read."""


def for_paper(html: str) -> str:
    """The page without what is never printed, which would be read and styled all the same."""
    return FOR_SCREENS.sub("", html)


@contextlib.contextmanager
def no_collection() -> Iterator[None]:
    """Without searches for cycles: a document's boxes live until it is written, so there is nothing to find."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
