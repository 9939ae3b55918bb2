"""Knees, bags or cargo can press a key.

What
----
Keys that are not `guarded`, and hard power-off switches, are not at a place with `bump_risk`.

Why
---
A handlebar starts the compressor; a bag kills the data radio. Nobody notices until it matters.

Bad
---
    places: {bench: {environment: cabin, bump_risk: true}}
    panels: {bank: {part: rocker-bank-6, fed_from: house, module_at: bench}}

Good
----
    places: {header: {environment: cabin, words: above the side door}}
    panels: {bank: {part: rocker-bank-6, fed_from: house, module_at: header}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for panel in build.panels.values():
        place = build.places[panel.keypad_at]
        if place.bump_risk and not panel.guarded:
            yield Finding(
                (*panel.at, "module_at" if panel.keypad_at == panel.module_at else "keypad_at"),
                f"the keys of `{panel.name}` are in `{place.name}`, where they can be bumped",
                "move them, or guard or recess them and write `guarded: true`",
                (((*place.at, "bump_risk"), "can be bumped"),),
            )
    for circuit in build.circuits:
        for contact in (c for c in circuit.contacts if c.key.endswith("/power_off")):
            if build.places[contact.place].bump_risk:
                yield Finding(
                    (*contact.at, "at"),
                    f"the power-off switch of `{circuit.item}` is in `{contact.place}`, where it can be bumped",
                    "move it; where it has a guard of its own, accept this with a waiver that says so",
                    (((*build.places[contact.place].at, "bump_risk"), "can be bumped"),),
                )
