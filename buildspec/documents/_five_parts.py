"""The five parts that buyers ask for, and what remains of the alternator."""

from __future__ import annotations

from buildspec import show
from buildspec.documents import _load_rows as loads
from buildspec.documents import _words as words
from buildspec.energy import alternator as supply
from buildspec.energy.terms import Term
from buildspec.model import Resolved, Sized

TEST_V = 14.2
"""Of the load test in KKK-A-1822E."""
FILL = "not stated; measure it"


def parts(sized: Sized) -> list[dict[str, str]]:
    """Nameplate, rating as tested, the vehicle's own minimum, added continuous, each intermittent."""
    build = sized.build
    alternator = build.vehicle.alternator
    rated = supply.given(alternator, "driving") if alternator else None
    idle = supply.given(alternator, "idle") if alternator else None
    return [
        line("1", "Alternator, nameplate", rated),
        line("2", "Alternator as tested, at idle and hot", idle),
        line("3", "Minimum continuous load of the vehicle, idling", supply.own_load(build, "idle")),
        line("3", "Minimum continuous load of the vehicle, driving", supply.own_load(build, "driving")),
        added("4", "Added continuous loads, all on, on every battery", loads.sum_a(sized, continuous=True)),
        added(
            "5", "Added intermittent loads, all on, on every battery", loads.sum_a(sized, continuous=False)
        ),
        recorded(build),
    ]


def recorded(build: Resolved) -> dict[str, str]:
    """The reading that buyers of fire apparatus and ambulances ask for."""
    return {
        "part": words.NOT_APPLICABLE,
        "what": f"Average current at {show.plain(TEST_V * build.practice.nominal_v / 12.0, 1)} V, usual loads on",
        "value": words.NOT_APPLICABLE,
        "source": "where the buyer asks: KKK-A-1822E, alternator hot, 93 °C under the bonnet, high idle",
        "measured": words.BLANK,
    }


def line(part: str, what: str, term: Term | None) -> dict[str, str]:
    return {
        "part": part,
        "what": what,
        "value": FILL if term is None else show.amps(term.value),
        "source": words.NOT_APPLICABLE if term is None else term.source,
        "measured": words.BLANK,
    }


def added(part: str, what: str, amps: float) -> dict[str, str]:
    return {
        "part": part,
        "what": what,
        "value": show.amps(amps),
        "source": "sum of the worst currents below",
        "measured": words.BLANK,
    }


def remaining(build: Resolved) -> list[dict[str, object]]:
    """For idle and driving: every term of the sum, and what remains."""
    found = [supply.budget(build, engine) for engine in supply.ENGINE]
    return [budget(build, one) for one in found if one is not None]


def budget(build: Resolved, found: supply.Budget) -> dict[str, object]:
    known = [t for t in (found.gives, found.own) if t is not None]
    first = found.gives
    terms = [
        *known,
        *found.demand.chargers,
        *found.demand.continuous,
        *found.demand.intermittent,
    ]
    return {
        "engine": words.capital(supply.WORDS[found.engine]),
        "terms": [
            {
                "what": named(build, t.what),
                "amps": ("" if t is first else "− ") + show.amps(t.value),
                "source": t.source,
            }
            for t in terms
        ],
        "remaining": verdict(found),
    }


def named(build: Resolved, what: str) -> str:
    """A charger or load by its name and mark; a phrase as it is."""
    items = (build.isolation, build.accessories, build.reserves, build.panels)
    for item in (group[what] for group in items if what in group):
        return words.capital(f"{what.replace('-', ' ')} {item.designation}, at its worst")
    return words.capital(what)


def verdict(found: supply.Budget) -> str:
    """`Remaining 30 A.` or what is missing for it."""
    if found.remaining is None:
        return f"Remaining: not known. Not stated: {'; '.join(found.missing)}."
    value = found.remaining.value
    short = "" if value >= 0 else " The start battery gives what is missing."
    return f"Remaining {show.amps(value)} of {show.amps(found.remaining.terms[0].value)}.{short}"
