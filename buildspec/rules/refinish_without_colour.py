"""Something is to be painted, and nobody says in which colour.

What
----
A work step `refinish` has a `colour` note: which, how glossy, after which sample.

Why
---
The painter cannot start, or guesses.

Bad
---
    works:
      - {do: refinish, what: housings of the lamps}

Good
----
    works:
      - {do: refinish, what: housings of the lamps, colour: "frame grey, satin, as the sample card"}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    steps = [*build.works, *(step for item in build.accessories.values() for step in item.works)]
    for step in steps:
        if step.do == "refinish" and not step.colour.strip():
            yield Finding(
                (*step.at, "do"),
                f"{step.what} is to be refinished, in no colour",
                "write `colour:` with the colour, its gloss and the sample it follows",
            )
