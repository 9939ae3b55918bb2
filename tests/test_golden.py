"""Every document and drawing of the examples against what was last looked at; `python tests/golden.py` writes anew."""

from __future__ import annotations

import difflib
import pathlib

import golden
import pytest
from sample_packets import EXAMPLES, NAMES


@pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
def test_nothing_has_changed_unseen(path: pathlib.Path) -> None:
    kept, made = golden.kept(path), golden.made(path)
    assert len(kept) > 30
    assert list(kept) == sorted(made)
    for name, content in made.items():
        was, now = (text.decode().splitlines() for text in (kept[name], content))
        changed = list(difflib.unified_diff(was, now, "kept", "made", lineterm="", n=0))
        assert not changed, "\n".join([name, *changed[:20]])
