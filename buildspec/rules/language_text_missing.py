"""A declared language lacks words of the spec that its owners read.

What
----
Every text that the owner's sheet and the switch legend print of a spec has a translation into each language of
the practice: titles, places, keys, what things do, reserves, notes. Words of the shipped parts have theirs.

Why
---
What nobody translates is printed as it was written. Whoever was promised a sheet in their own language then
cannot read where a fuse is, or what a key does.

Bad
---
    practice: {languages: [en, fr]}
    places: {roof-rail: {environment: cabin, words: above the mirror}}

Good
----
    practice: {languages: [en, fr]}
    places: {roof-rail: {environment: cabin, words: above the mirror}}
    translations: {fr: {above the mirror: au-dessus du rétroviseur}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import spoken_texts
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)
SHOWN = 3
"""Texts that a message names; the places of as many are shown."""


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for lang in build.practice.languages:
        lacking = spoken_texts.missing(build, lang)
        if not lacking:
            continue
        first, rest = lacking[:SHOWN], len(lacking) - SHOWN
        named = ", ".join(f"`{one.printed}`" for one in first)
        more = f" and {rest} more" if rest > 0 else ""
        are = "text for owners has" if len(lacking) == 1 else "texts for owners have"
        yield Finding(
            ("translations", lang) if lang in build.translations else ("translations",),
            f"{len(lacking)} {are} no translation into `{lang}`: {named}{more}",
            f"write under `translations:`, `{lang}:` a line such as `{first[0].printed}: ...`; "
            "a name that stays as it is, such as that of a key, is its own translation",
            related=tuple((one.at, f"`{one.printed}` stands here") for one in first),
        )
