"""A part that somebody's safety hangs on could be of any make.

What
----
Fuses and their holders are identified by family in the practice (`fuse_parts`: number and standard mark, `holder`);
battery links and load anchors by `maker_part` of their part. `any make` identifies nothing.

Why
---
Fuses have been recalled because they did not open at their rating; tens of millions looked right. Without a number
nobody finds the vehicles that carry them.

Bad
---
    practice: 1
    fuse_parts: {blade: {part: any make, mark: ISO 8820-3}}

Good
----
    practice: 1
    fuse_parts: {blade: {part: FR-20, mark: ISO 8820-3, holder: FR-31}}

Sources
-------
A recall of blade fuses, as its notice reports it; common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding, Path
from buildspec.fitted import items
from buildspec.model import Part, Sized
from buildspec.rules import _sizing

SEVERITY = "warning"
SOURCES = ("common practice, no source",)
ANYTHING = re.compile(r"\W*(any|various|generic|unknown|none|n/?a|tbd)\b", re.IGNORECASE)


def check(sized: Sized) -> Iterator[Finding]:
    yield from fuses(sized)
    for item in items(sized.build):
        what = safety(item.part)
        if what and not identifies(item.part.maker_part):
            yield Finding(
                item.at,
                f"{what} `{item.designation}` ({item.part.title}) is not identified{said(item.part.maker_part)}",
                "write `maker_part:` with its number, in the spec or in your own catalogue",
            )


def identifies(text: str) -> bool:
    return bool(text.strip()) and not ANYTHING.match(text)


def said(text: str) -> str:
    return f": `{text}`" if text.strip() else ""


def safety(part: Part) -> str:
    """What makes it a safety part, or ``."""
    if part.link is not None:
        return "battery link"
    return "load anchor" if part.anchor is not None else ""


def fuses(sized: Sized) -> Iterator[Finding]:
    """One finding for the fuses of a build and one for its holders on a line, at the first of them."""
    first: dict[tuple[str, str], Path] = {}
    for circuit, _, protection, device in _sizing.devices(sized):
        if device.kind == "fuse" and circuit.kind != "tie":
            first.setdefault(("fuses", device.family), protection.at)
            if not device.host:
                first.setdefault(("holders", device.family), protection.at)
    for what, key in (("fuses", "part` and `mark"), ("holders", "holder")):
        lacking = {
            family: at
            for (kind, family), at in first.items()
            if kind == what and unnamed(sized, what, family)
        }
        if lacking:
            families = "; ".join(f"{show.family(family)}{word(sized, what, family)}" for family in lacking)
            yield Finding(
                next(iter(lacking.values())),
                f"{what} are not identified: {families}",
                f"write `fuse_parts: {{{next(iter(lacking))}: …}}` with `{key}` in the practice",
            )


def word(sized: Sized, what: str, family: str) -> str:
    text = number(sized, what, family)
    return f" (`{text}`)" if text else ""


def unnamed(sized: Sized, what: str, family: str) -> bool:
    return not identifies(number(sized, what, family))


def number(sized: Sized, what: str, family: str) -> str:
    """What the practice buys as the fuses or the holder of a family, or ``."""
    part = sized.build.practice.fuse_parts.get(family)
    return "" if part is None else part.part if what == "fuses" else part.holder
