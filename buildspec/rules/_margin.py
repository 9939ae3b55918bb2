"""The remainder of the alternator, as two rules check it."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.energy import alternator as supply
from buildspec.findings import Finding
from buildspec.model import Sized


def negative(sized: Sized, engine: str, help: str) -> Iterator[Finding]:
    """A remainder below zero in one engine state, unless the allowance is exceeded already."""
    build, found = sized.build, supply.budget(sized.build, engine)
    alternator = build.vehicle.alternator
    if alternator is None or found is None or found.remaining is None or found.remaining.value >= 0:
        return
    if found.demand.total_a > supply.allowance(build, alternator)[0]:
        return
    first, *rest = found.remaining.terms
    terms = " − ".join([show.amps(first.value), *(f"{show.amps(t.value)} {named(t.what)}" for t in rest)])
    text = f"{terms} = {show.amps(found.remaining.value)}: nothing remains of the {first.what}"
    related = ((("vehicle", "own_loads"), "the vehicle's own load"),)
    yield Finding(("vehicle", "alternator"), text, help, related)


def named(what: str) -> str:
    """An item in backticks; a phrase as it is."""
    return what if " " in what else f"`{what}`"
