"""The manual of each rule: its module's docstring, or the text below for what reading and shape report."""

from __future__ import annotations

import difflib
import importlib
import inspect

from buildspec import discover
from buildspec.errors import UsageError

EARLY = {
    "alias-bomb": """Values repeated with `*name` multiply into too many.

        A short file of repeats of repeats can stand for millions of values; such a file is refused unread.
        """,
    "complex-key": """A key is not a plain name.

        Keys are words or texts: no lists, groups or repeated values before the colon.
        """,
    "duplicate-key": """The same key is written twice in one group.

        Most readers of YAML keep the last one silently, and a whole circuit is lost. Both places are named.
        """,
    "empty-file": "The file holds nothing.",
    "encoding": """The file is not UTF-8 text, or holds control characters.

        Save it as UTF-8 with an ordinary editor.
        """,
    "invisible-character": """The text holds characters that cannot be seen, or that turn the writing round.

        Two names can then look the same and differ, or a line read otherwise than it is.
        """,
    "merge-key": """The merge key `<<` is used.

        It is not part of YAML 1.2, and readers differ in what it does. Write the keys out.
        """,
    "schema": """The file does not have the shape of its schema.

        Unknown, missing and misplaced keys, wrong kinds of value, values outside a list of choices, and
        quantities without their unit. The schemas ship with the program, for editors as well.
        """,
    "several-documents": "A file holds more than one document (`---`).",
    "syntax": """The text is not YAML.

        The place is where reading stopped; the slip is there or shortly before.
        """,
    "tag": """A type tag (`!name`) is used.

        The schema says what kind a value is; quote a value to make it a text.
        """,
    "too-deep": "Groups and lists are nested deeper than any build needs.",
    "too-large": "The file is larger than is read.",
    "unknown-anchor": "`*name` repeats a value that no `&name` marks above it.",
}
"""Rules that have no module of their own: what `read` and `validate` report."""


def manual(rule: str) -> str:
    """The manual of one rule. Raises `UsageError` for an unknown one, with the nearest names."""
    modules = _modules()
    if rule in modules:
        return inspect.cleandoc(importlib.import_module(modules[rule]).__doc__ or "")
    if rule in EARLY:
        return inspect.cleandoc(EARLY[rule])
    near = difflib.get_close_matches(rule, [*modules, *EARLY], n=3)
    hint = f"did you mean {', '.join(near)}?" if near else "`buildspec explain` lists all rules"
    raise UsageError(f"no rule is called {rule}; {hint}")


def listing() -> str:
    """Every rule with the first line of its manual, sorted by name."""
    names = sorted({*_modules(), *EARLY})
    width = max(map(len, names))
    return "\n".join(f"{name:{width}}  {manual(name).splitlines()[0]}" for name in names)


def _modules() -> dict[str, str]:
    rules = importlib.import_module("buildspec.rules")
    return {name.replace("_", "-"): f"{rules.__name__}.{name}" for name in discover.names(rules)}
