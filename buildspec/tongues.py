"""What a paper for owners says, in their language: messages by gettext, numbers and dates by CLDR locale data.

Messages are written in English in the code, marked by `say`, `many` or `mark`, and translated in
`locale/<language>/LC_MESSAGES/owner.po`; words of the shipped parts in `parts.po` beside it. A spec's own words
are translated by its `translations`; what nobody translates stays as written, between `OPEN` and `CLOSE`, and a
page marks it with its language.
"""

from __future__ import annotations

import gettext
import math
import re
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple

from buildspec import show
from buildspec.model import Resolved

FOLDER = Path(__file__).parent / "locale"
TRANSLATED = ("de", "es", "fr")
"""Languages with catalogues; English is the language of the code."""
REGIONS = ("en-US", "es-US")
"""Regions whose catalogues hold what they say otherwise than the language."""
GROUPED_FROM = {"es": 10000, "es-US": 1000}
"""CLDR's `minimumGroupingDigits`, where it is not 1."""
OPEN, CLOSE = "\ue000", "\ue001"
"""Private characters around words that stay in the spec's language."""
_TOKEN = re.compile(r"'([^']*)'|(d+|M+|y+)")
_KILOGRAMS = re.compile(r"(\d+)[ \u00a0]kg")
_DATE = re.compile(r"(\d{4})-(\d\d)-(\d\d)")


class Messages(NamedTuple):
    """A catalogue: message → its forms, and which form a count takes."""

    forms: Mapping[str, tuple[str, ...]]
    form_of: Callable[[int], int]


class Local(NamedTuple):
    """What CLDR says of a locale."""

    decimal: str
    group: str
    """Between thousands."""
    grouped_from: int
    """The least number that is grouped."""
    date: str
    """Pattern of a long date."""
    months: Mapping[int, str]
    halves: tuple[str, str]
    """`a.m.` and `p.m.` where the day has two halves, else `` and ``."""


class Tongue(NamedTuple):
    """A language as papers speak it."""

    lang: str
    """As a practice writes it: `es`, `es-MX`."""
    source: str
    """Language of the spec's own words."""
    units: str
    messages: Messages
    parts: Messages
    known: frozenset[str]
    """English words of the shipped parts."""
    glossary: Mapping[str, str]
    engraved: Mapping[str, str]
    """Own word → what stands on the keys, in the first language of the practice."""
    local: Local

    def say(self, message: str, **values: object) -> str:
        """A message with its `{places}` filled."""
        found = self.messages.forms.get(message, (message,))[0]
        return found.format(**values)

    def many(self, one: str, more: str, count: int, **values: object) -> str:
        """A message in the form that `count` takes; `{count}` is filled as well."""
        forms = self.messages.forms.get(one, (one, more))
        return forms[self.messages.form_of(count)].format(count=count, **values)

    def own(self, text: str) -> str:
        """Words of a spec or part: translated where somebody has, else as written and marked."""
        found = self.translated(text)
        if found is not None or not text:
            return found or ""
        return text if self.base == self.source else f"{OPEN}{text}{CLOSE}"

    def own_short(self, text: str) -> str:
        """The same of what comes before the first comma."""
        head = text.partition(",")[0].strip()
        found = self.translated(head) or (self.translated(text) or "").partition(",")[0]
        return found or self.own(head)

    def title(self, text: str) -> str:
        """A part's title: whole in its own language, in another one what comes before the first comma."""
        return text if self.base == self.source else self.own_short(text)

    def translated(self, text: str) -> str | None:
        """Words in this language, or None where nobody has translated them."""
        if text in self.glossary:
            return self.glossary[text]
        if text in self.known:
            return self.pounds(text, self.parts.forms.get(text, (text,))[0])
        return None

    def pounds(self, english: str, here: str) -> str:
        """Words of a shipped part with their masses in pounds, where the practice asks for them; limits round down."""
        if self.units == "metric":
            return here
        rounded = math.floor if "at most" in english else math.ceil

        def said(found: re.Match[str]) -> str:
            imperial = f"{self.number(rounded(int(found[1]) * show.LB_PER_KG))} lb"
            return imperial if self.units == "imperial" else f"{found[0]} ({imperial})"

        return _KILOGRAMS.sub(said, here)

    def legend(self, text: str) -> str:
        """Text of a key as it is engraved, with this language's word beside it where that differs."""
        first, here = self.engraved.get(text, text), self.glossary.get(text, "")
        return first if here in ("", first) else f"{first} / {here}"

    def small(self, text: str) -> str:
        """First letter small as inside a sentence; German nouns and abbreviations keep theirs."""
        start = 1 if text.startswith(OPEN) else 0
        if self.base == "de" or text[start + 1 : start + 2].isupper() or text[start : start + 1].isdigit():
            return text
        return text[:start] + text[start : start + 1].lower() + text[start + 1 :]

    @staticmethod
    def large(text: str) -> str:
        """First letter large, as at the start of a sentence."""
        start = 1 if text.startswith(OPEN) else 0
        return text[:start] + text[start : start + 1].upper() + text[start + 1 :]

    def number(self, value: float, places: int = 0) -> str:
        """A number with at most so many places, with this locale's decimal sign and thousands."""
        whole, dot, rest = show.plain(value, places).partition(".")
        if abs(value) >= self.local.grouped_from:
            whole = f"{int(whole):,}".replace(",", self.local.group)
        return whole + (self.local.decimal if dot else "") + rest

    def amps(self, value: float) -> str:
        return show.amps(value).replace(".", self.local.decimal)

    def clock(self, hour: int) -> str:
        """A full hour: `18:00`, `6 p.m.`."""
        before, after = self.local.halves
        return f"{(hour - 1) % 12 + 1} {after if hour >= 12 else before}" if before else f"{hour}:00"

    def date(self, text: str) -> str:
        """`2026-10-05` → `5 de octubre de 2026`; anything else stays as written."""
        found = _DATE.fullmatch(text)
        if found is None:
            return self.own(text)
        year, month, day = found[1], self.local.months[int(found[2])], str(int(found[3]))
        words = {"y": year, "M": month, "d": day}
        return _TOKEN.sub(lambda m: m[1] if m[2] is None else words[m[2][0]], self.local.date)

    @property
    def base(self) -> str:
        """`es-MX` → `es`."""
        return base_of(self.lang)


def mark(message: str) -> str:
    """A message that is said elsewhere; marks it for the catalogues."""
    return message


def plain(text: str) -> str:
    """Without the marks around words of another language."""
    return text.replace(OPEN, "").replace(CLOSE, "")


def base_of(lang: str) -> str:
    return lang.partition("-")[0]


def of(build: Resolved, lang: str = "") -> Tongue:
    """The tongue of a build's papers in `lang`, the practice's first language where none is named."""
    first = build.practice.languages[0]
    lang = lang or first
    return Tongue(
        lang=lang,
        source=build.language,
        units=build.practice.units,
        messages=messages(lang, "owner"),
        parts=messages(lang, "parts"),
        known=frozenset(messages(TRANSLATED[0], "parts").forms),
        glossary=glossary(build, lang),
        engraved=glossary(build, first),
        local=local(lang),
    )


def glossary(build: Resolved, lang: str) -> Mapping[str, str]:
    """The spec's translations into a language, those of its region over those of the language."""
    return {**build.translations.get(base_of(lang), {}), **build.translations.get(lang, {})}


@cache
def messages(lang: str, domain: str) -> Messages:
    """A catalogue of the package, that of a region over that of its language; English needs none."""
    base = base_of(lang)
    found = read(base, domain) if base in TRANSLATED else Messages({}, lambda count: int(count != 1))
    if lang not in REGIONS:
        return found
    return found._replace(forms={**found.forms, **read(lang.replace("-", "_"), domain).forms})


@cache
def read(name: str, domain: str) -> Messages:
    """A catalogue as it is kept, without what is not translated."""
    from babel.messages.pofile import read_po

    with (FOLDER / name / "LC_MESSAGES" / f"{domain}.po").open("rb") as file:
        catalog = read_po(file, locale=name, domain=domain)
    forms: dict[str, tuple[str, ...]] = {}
    for entry in catalog:
        key = entry.id[0] if isinstance(entry.id, (tuple, list)) else entry.id
        if key and entry.string and not entry.fuzzy:
            forms[key] = tuple(entry.string) if isinstance(entry.string, (tuple, list)) else (entry.string,)
    return Messages(forms, gettext.c2py(catalog.plural_expr))


@cache
def local(lang: str) -> Local:
    """CLDR's data of a locale. Raises babel.UnknownLocaleError for a tag that it does not know."""
    from babel import Locale

    found = Locale.parse(lang, sep="-")
    numbers, halves = found.number_symbols["latn"], found.day_periods["format"]["abbreviated"]
    return Local(
        numbers["decimal"],
        numbers["group"],
        GROUPED_FROM.get(lang, GROUPED_FROM.get(base_of(lang), 1000)),
        found.date_formats["long"].pattern,
        dict(found.months["format"]["wide"]),
        (halves["am"], halves["pm"]) if "a" in found.time_formats["short"].pattern else ("", ""),
    )
