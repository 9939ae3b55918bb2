"""Do the translations of a spec belong to words that it uses?"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.catalogue import Catalogue
from buildspec.findings import Finding
from buildspec.resolve.channels import HINTS
from buildspec.resolve.names import Data, Fault

NOT_WORDS = ("translations",)
KINDS = ("", " battery", " panel")
"""What a title says after the name of an item that has none written."""


def check(data: Data, parts: Catalogue) -> Iterator[Fault]:
    """Every translation of words that stand nowhere; the nearest ones are offered."""
    written = data.get("translations", {})
    if not written:
        return
    own = {key: value for key, value in data.items() if key not in NOT_WORDS}
    known = {*words(own), *words(parts), *HINTS.values()}
    for lang, pairs in written.items():
        for text in (t for t in pairs if t not in known):
            near = difflib.get_close_matches(text, sorted(known), 1)
            help = (
                f"did you mean `{near[0]}`?"
                if near
                else "write the words as they stand in the spec or in its parts"
            )
            message = f"`{text}` is translated and stands nowhere"
            yield "translation-unused", Finding(("translations", lang, text), message, help)


def words(value: Any) -> Iterator[str]:
    """Every text inside, its beginning up to the first comma, and names as they are printed."""
    if isinstance(value, str):
        yield from (value, value.partition(",")[0].strip())
    elif isinstance(value, Mapping):
        for key, one in value.items():
            spaced = str(key).replace("-", " ")
            yield from (spaced, spaced.upper(), *(f"{spaced}{kind}".capitalize() for kind in KINDS))
            yield from words(one)
    elif isinstance(value, (list, tuple)):
        for one in value:
            yield from words(one)
