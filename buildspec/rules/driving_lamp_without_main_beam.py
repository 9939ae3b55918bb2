"""A driving lamp can be lit without the main beam.

What
----
A lamp of kind `driving` is tied to the main beam: `with_main_beam: true` and a `trigger` that does it.

Why
---
Laws commonly allow extra driving lamps only together with the main beam, and limit their number; rules differ
from place to place. Local law and licensed practice decide; a lamp for private land is accepted with a waiver
that says so. With `main_beam_interlock` in the practice this refuses the build.

Bad
---
    accessories: {bar: {part: led-bar-760, at: grille, switch: main.2, legend: BAR}}

Good
----
    accessories:
      bar:
        part: led-bar-760
        at: grille
        switch: main.2
        legend: BAR
        trigger: main-beam
        lamp: {kind: driving, colour: white, with_main_beam: true}

Sources
-------
Lighting rules of one country, as reported by its press; local law decides.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding, Severity
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)
HELP = "let a main-beam signal trigger it and write `with_main_beam: true`, or waive it; local law decides"


def check(sized: Sized) -> Iterator[Finding]:
    strict: Severity | None = "error" if sized.build.practice.main_beam_interlock else None
    for item in sized.build.accessories.values():
        lamp = item.part.lamp
        if lamp is None or lamp.kind != "driving":
            continue
        if not lamp.with_main_beam:
            text = f"driving lamp `{item.name}` can be lit without the main beam"
            yield Finding(item.at, text, HELP, severity=strict)
        elif not item.trigger:
            yield Finding(
                (*item.at, "lamp", "with_main_beam"),
                f"driving lamp `{item.name}` is said to be lit only with the main beam, and no `trigger` does it",
                HELP,
                severity=strict,
            )
