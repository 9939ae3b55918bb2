"""What the code says to owners and what the catalogues hold; run it to bring the catalogues up to date.

`python tests/catalogues.py` adds new messages to every catalogue without a translation and drops those that are gone.
A catalogue of a region holds only what that region says otherwise; it is asked for nothing more.
"""

from __future__ import annotations

import ast
import io
import pathlib
from collections.abc import Iterator
from typing import NamedTuple

import yaml
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from buildspec.drawings.pictograms import PICTURES, name_of

ROOT = pathlib.Path(__file__).parent.parent
PACKAGE = ROOT / "buildspec"
LOCALE = PACKAGE / "locale"
LANGUAGES = ("de", "es", "fr")
REGIONS = ("en_US", "es_US")
HEAD = """msgid ""
msgstr ""
"Language: {lang}\\n"
"Plural-Forms: {plural}\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"

"""
CALLS = ("say", "many", "mark")


class Message(NamedTuple):
    """A message and its plural, `` where it has none."""

    one: str
    more: str = ""


def spoken(source: str) -> Iterator[Message]:
    """Messages of a module: literal first arguments of `say`, `many` and `mark`."""
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call):
            continue
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        texts = [a.value for a in node.args if isinstance(a, ast.Constant) and isinstance(a.value, str)]
        if name in CALLS and texts and isinstance(node.args[0], ast.Constant):
            yield Message(*texts[:2]) if name == "many" else Message(texts[0])


def of_code() -> dict[str, Message]:
    found = [m for path in sorted(PACKAGE.rglob("*.py")) for m in spoken(path.read_text(encoding="utf-8"))]
    found += [Message(name_of(name)) for name in PICTURES]
    return {m.one: m for m in found}


def of_parts() -> dict[str, Message]:
    """Titles up to the first comma, texts for owners, what to do after a trip."""
    found = []
    for path in sorted((PACKAGE / "parts").glob("*.yaml")):
        for part in yaml.safe_load(path.read_text(encoding="utf-8"))["parts"].values():
            trip = part.get("panel", {}).get("after_trip", "")
            found += [part["title"].partition(",")[0].strip(), part["owner"], trip]
    return {text: Message(text) for text in found if text}


DOMAINS = {"owner": of_code, "parts": of_parts}


def catalogue(lang: str, domain: str) -> Catalog:
    with (LOCALE / lang / "LC_MESSAGES" / f"{domain}.po").open("rb") as file:
        return read_po(file, locale=lang, domain=domain)


def refreshed(lang: str, domain: str) -> Catalog:
    """The catalogue with every message of the code, or of those that its region says otherwise, and no other."""
    old = catalogue(lang, domain)
    new = Catalog(locale=lang, domain=domain, fuzzy=False)
    for message in DOMAINS[domain]().values():
        kept = old.get(message.one)
        if lang in REGIONS and not (kept and kept.string):
            continue
        key = (message.one, message.more) if message.more else message.one
        new.add(key, string=kept.string if kept else "", flags=kept.flags if kept else ())
    return new


def write(lang: str, domain: str, made: Catalog) -> None:
    """The catalogue as it is kept: a head that names no day and no tool, then the messages."""
    body = io.BytesIO()
    write_po(body, made, width=110, omit_header=True)
    head = HEAD.format(lang=lang, plural=made.plural_forms)
    path = LOCALE / lang / "LC_MESSAGES" / f"{domain}.po"
    path.write_text(head + body.getvalue().decode(), encoding="utf-8")


if __name__ == "__main__":
    for lang in (*LANGUAGES, *REGIONS):
        for domain in DOMAINS:
            write(lang, domain, refreshed(lang, domain))
