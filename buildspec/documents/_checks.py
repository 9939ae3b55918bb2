"""Checks of the supply side, each with what should be read: batteries, chargers, links, key-off current."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import energy, show
from buildspec.documents import _owner as owner
from buildspec.documents import _words as words
from buildspec.energy.alternator import CONTROLLED_V, CONVENTIONAL_V
from buildspec.model import Isolation, Resolved, Sized, Supply

REST_V = 12.6
"""Lead-acid at rest, 8 h without load; published battery tables."""
CHARGER_BAND_V = 0.2
SAME_V = 0.05
"""Two readings count as the same; both common practice, no source."""
ASLEEP = "key off, doors latched, asleep 20 to 60 min; settled after … min"
LOAD_A = 10.0
"""Drawn from the house side while the start side is watched; common practice, no source."""


def row(what: str, how: str, expected: str) -> dict[str, str]:
    return {"what": what, "how": how, "expected": expected, "measured": words.BLANK, "passed": words.TICK}


def supply(build: Resolved) -> Iterator[dict[str, str]]:
    """Voltages at rest and with the engine running."""
    scale = build.practice.nominal_v / 12.0
    for name, battery in build.batteries.items():
        trait = battery.part.battery
        lead = trait is not None and not trait.chemistry.startswith("lithium")
        expected = f"{show.volts(REST_V * scale)} or more" if lead else "as its maker states for full"
        yield row(words.capital(words.node(build, name)), "at rest, 8 h without load", expected)
    alternator = build.vehicle.alternator
    for name, battery in build.batteries.items():
        if battery.role == "start" and alternator is not None:
            low, high = CONTROLLED_V if alternator.controlled else CONVENTIONAL_V
            kind = "controlled alternator" if alternator.controlled else "alternator"
            expected = f"{show.volts(low * scale)} to {show.volts(high * scale)}"
            where = words.capital(words.node(build, name))
            yield row(where, f"engine at raised idle, {kind}", expected)
            yield row(where, f"engine idling, every added load on, {kind}", expected)
    for way in build.isolation.values():
        yield from charging(build, way)
    for supply_ in build.supplies.values():
        yield from from_outside(build, supply_)


GIVES = {"shore": "mains lead in", "solar": "panel in the sun"}
SILENT = {"shore": "mains lead out", "solar": "panel covered"}


def from_outside(build: Resolved, item: Supply) -> Iterator[dict[str, str]]:
    """A shore or solar charger: it charges, and it does nothing without its source."""
    trait, name = item.part.charger, words.capital(words.node(build, item.name))
    if trait is None:
        return
    given, at = GIVES[item.type], words.node(build, item.to)
    low, high = trait.output_v - CHARGER_BAND_V, trait.output_v + CHARGER_BAND_V
    full = f"{given}, at the posts of {at}, battery nearly full"
    yield row(f"{name}, output", full, f"{show.volts(low)} to {show.volts(high)}")
    yield row(f"{name}, output", f"{given}, battery half full", f"up to {show.amps(trait.output_a)}")
    yield row(
        f"{name}: asleep", f"{SILENT[item.type]}, key off", "0 A out of the battery, but for its standby"
    )


def charging(build: Resolved, way: Isolation) -> Iterator[dict[str, str]]:
    trait = way.part.charger
    if way.type != "dc-dc" or trait is None:
        return
    low, high = trait.output_v - CHARGER_BAND_V, trait.output_v + CHARGER_BAND_V
    name = words.capital(words.node(build, way.name))
    taker = words.node(build, way.ends[1])
    yield row(
        f"{name}, output",
        f"engine running, at the posts of {taker}, battery nearly full",
        f"{show.volts(low)} to {show.volts(high)}",
    )
    for engine in ("idling", "at raised idle"):
        yield row(
            f"{name}, output", f"engine {engine}, battery half full", f"up to {show.amps(trait.output_a)}"
        )
    yield row(
        f"{name}, input", "engine running, battery half full", f"at most {show.amps(trait.input_max_a)}"
    )


def isolation(sized: Sized) -> Iterator[dict[str, str]]:
    """What must happen, and not happen, between start and house side."""
    for way in sized.build.isolation.values():
        yield from {
            "dc-dc": one_way,
            "momentary-link": held,
            "voltage-relay": by_voltage,
            "manual-switch": by_hand,
        }[way.type](sized, way)


def one_way(sized: Sized, way: Isolation) -> Iterator[dict[str, str]]:
    build, name = sized.build, words.capital(words.node(sized.build, way.name))
    giver, taker = (words.node(build, end) for end in way.ends)
    load = f"engine stopped, key off, {show.amps(LOAD_A)} drawn from {taker} for 5 min"
    yield row(f"{name}: apart", load, f"{giver} unchanged within {show.volts(SAME_V)}")
    yield row(f"{name}: asleep", "engine stopped, key off", "0 A into its input, but for its standby")
    if way.wake in build.signals:
        yield row(
            f"{name}: wakes",
            f"{words.node(build, way.wake)}, then off again",
            "starts with it, stops with it",
        )
    elif way.wake == "voltage":
        yield row(f"{name}: wakes", "engine started, then stopped", "starts with the voltage, stops with it")


def held(sized: Sized, way: Isolation) -> Iterator[dict[str, str]]:
    build, name = sized.build, words.capital(words.node(sized.build, way.name))
    first, second = (words.node(build, end) for end in way.ends)
    load = f"engine stopped, not held, {show.amps(LOAD_A)} drawn from {second}"
    yield row(f"{name}: apart", load, f"{first} unchanged within {show.volts(SAME_V)}; 0 A in the link")
    yield row(
        f"{name}: joined",
        f"engine stopped, held {owner.HOLD_S} s, nothing switched on",
        f"both batteries within {show.volts(SAME_V)}",
    )
    yield row(f"{name}: let go", "engine stopped", "opens at once; both batteries part again")


def by_voltage(sized: Sized, way: Isolation) -> Iterator[dict[str, str]]:
    build, name = sized.build, words.capital(words.node(sized.build, way.name))
    trait = way.part.link
    join = show.volts(trait.join_v) if trait and trait.join_v else "its stated voltage"
    part = show.volts(trait.part_v) if trait and trait.part_v else "its stated voltage"
    yield row(
        f"{name}: joins", f"engine started, {words.node(build, way.ends[0])} rising", f"closes at {join}"
    )
    yield row(
        f"{name}: parts", f"engine stopped, {words.node(build, way.ends[0])} falling", f"opens at {part}"
    )


def by_hand(sized: Sized, way: Isolation) -> Iterator[dict[str, str]]:
    build, name = sized.build, words.capital(words.node(sized.build, way.name))
    first = words.node(build, way.ends[0])
    yield row(
        f"{name}: open",
        f"engine stopped, {show.amps(LOAD_A)} drawn from the other side",
        f"{first} unchanged within {show.volts(SAME_V)}",
    )
    yield row(
        f"{name}: closed",
        "engine stopped, nothing switched on",
        f"both batteries within {show.volts(SAME_V)}",
    )


def assist(sized: Sized) -> Iterator[dict[str, str]]:
    """Start from the second battery: what the link may lose at its rating."""
    for circuit in sized.build.circuits:
        way = sized.build.isolation.get(circuit.item)
        if circuit.kind != "link" or way is None or way.part.link is None:
            continue
        sizing, name = sized.sizings[circuit.key], words.capital(words.node(sized.build, way.name))
        yield row(
            f"{name}: drop while cranking",
            "held, engine cranked; from post to post; drew … A",
            f"at most {show.volts(sizing.design_a * sizing.loop_ohm)} at {show.amps(sizing.design_a)}; at other "
            f"currents limit = amperes × {sizing.loop_ohm * 1000:.2f} mΩ",
        )
        yield row(
            f"{name}: time cranked",
            f"pressed and held {owner.HOLD_S} s, then the key turned while holding; stopwatch",
            f"cranking at most {owner.try_s(way)} s a try",
        )
        yield row(
            f"{name}: warm",
            "by hand, at both fuses and both studs after one start",
            "no hotter than the hand bears",
        )


def key_off(build: Resolved) -> Iterator[dict[str, str]]:
    """Added standby, item by item summed, and the budget for the whole vehicle."""
    for name, battery in build.batteries.items():
        added = sum(d.standby_a for d in energy.draws_on(build, name))
        where = words.capital(words.node(build, name))
        yield row(f"{where}: added", ASLEEP, show.amps(added))
        if battery.role == "start":
            budget = show.amps(build.practice.key_off_a)
            yield row(f"{where}: whole vehicle before work", "from the condition report", f"at most {budget}")
            yield row(
                f"{where}: whole vehicle", ASLEEP, f"as before and {show.amps(added)} more; at most {budget}"
            )
