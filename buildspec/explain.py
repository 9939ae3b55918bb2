"""The manual of each rule: the docstring of its module, or a page of `manual` for what earlier stages report."""

from __future__ import annotations

import difflib
import importlib
import inspect
import pathlib

from buildspec import discover
from buildspec.errors import UsageError

PAGES = pathlib.Path(__file__).parent / "manual"
"""Manuals of what the stages before the rules report themselves, one file a rule."""


def pages() -> dict[str, pathlib.Path]:
    """Rules that have no module of their own → the file of their manual."""
    return {page.stem: page for page in sorted(PAGES.glob("*.md"))}


def manual(rule: str) -> str:
    """The manual of one rule. Raises `UsageError` for an unknown one, with the nearest names."""
    modules = _modules()
    if rule in modules:
        return inspect.cleandoc(importlib.import_module(modules[rule]).__doc__ or "")
    written = pages()
    if rule in written:
        return written[rule].read_text(encoding="utf-8").rstrip()
    near = difflib.get_close_matches(rule, [*modules, *written], n=3)
    hint = f"did you mean {', '.join(near)}?" if near else "`buildspec explain` lists all rules"
    raise UsageError(f"no rule is called {rule}; {hint}")


def listing() -> str:
    """Every rule with the first line of its manual, sorted by name."""
    names = sorted({*_modules(), *pages()})
    width = max(map(len, names))
    return "\n".join(f"{name:{width}}  {manual(name).splitlines()[0]}" for name in names)


def _modules() -> dict[str, str]:
    rules = importlib.import_module("buildspec.rules")
    return {name.replace("_", "-"): f"{rules.__name__}.{name}" for name in discover.names(rules)}
