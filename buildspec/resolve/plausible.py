"""Figures that no vehicle has: outside what is physically possible, or at odds with one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any, NamedTuple

from buildspec.figures import Decision, Spot
from buildspec.findings import Finding, Path
from buildspec.layers import builtin
from buildspec.quantity import show
from buildspec.resolve.names import Fault
from buildspec.values import maybe, number

RULE = "implausible-figure"


class Bound(NamedTuple):
    """Base units; voltages of a 12 V system."""

    dimension: str
    least: float
    most: float
    why: str


BOUNDS = {
    "resting_voltage": Bound(
        "voltage", 11.5, 13.4,
        "a battery at rest stands between 11.8 V (flooded, empty) and 13.4 V (lithium iron phosphate, 90 % full)",
    ),
    "lowest_voltage": Bound(
        "voltage", 9.0, 12.0, "the lowest working voltage is that of a battery under load, below any battery at rest"
    ),
    "alternator_share": Bound("ratio", 0.01, 1.0, "an alternator has no more than its rating to give"),
    "signal_allowance": Bound(
        "current", 0.0, 2.0, "a signal works a coil; a contactor's takes 1 to 2 A (common practice, no source)"
    ),
    "key_off_current": Bound("current", 0.001, 1.0, "at 1 A an 80 Ah battery is half gone in 40 h"),
    "fuse_share": Bound("ratio", 0.1, 1.0, "a device does not carry more than its rating for good"),
    "drop_limit": Bound("ratio", 0.001, 0.2, "with 20 % lost, 9.6 V of 12 V are left"),
    "wire_margin": Bound(
        "ratio", 1.0 / 1.5, 10.0, "33 CFR 183.455(c)(1) allows a device of at most 150 % of the conductor's ampacity"
    ),
    "unprotected": Bound("length", 0.0, 1.8288, "ABYC E-11 as publicly quoted: 72 in at the very most, sheathed"),
    "min_wire": Bound("area", 0.3, 10.0, "thinner than 22 AWG a conductor breaks in a vehicle"),
    "signal_wire": Bound("area", 0.2, 10.0, "thinner than 24 AWG a conductor breaks in a vehicle"),
}  # fmt: skip
"""Figure of a practice → what it can be, whatever document is named for it."""
LAXER_ABOVE = ("resting_voltage", "lowest_voltage")
"""Voltages that follow the system: a higher one asks for less."""


def check(data: Mapping[str, Any], decided: Decision) -> tuple[Fault, ...]:
    """Every figure of the layers that holds in the end, and the vehicle's own; one fault a figure."""
    scale = number(data["vehicle"]["system"], "voltage") / 12.0
    return (
        *(
            fault
            for figure, spot in decided.spots.items()
            for fault in of_layer(decided, figure, spot, scale)
        ),
        *gates(decided),
        *stock(decided),
        *alternator(data["vehicle"]),
        *lengths(data),
        *links(data),
        *cut_outs(data, scale),
    )


def of_layer(decided: Decision, figure: str, spot: Spot, scale: float) -> Iterator[Fault]:
    key, _, part = figure.partition(".")
    bound = BOUNDS.get(key)
    if bound is None:
        return
    written = str(decided.written[key][part] if part else decided.written[key])
    value, factor = number(written, bound.dimension), scale if bound.dimension == "voltage" else 1.0
    least, most = bound.least * factor, bound.most * factor
    if not least <= value <= most:
        yield outside(spot, f"{figure}: {written}", bound, (least, most), value)
    elif key in LAXER_ABOVE and not spot.document and value > number(builtin()[key], "voltage") * factor:
        yield laxer(spot, key, written, number(builtin()[key], "voltage") * factor)


def outside(spot: Spot, said: str, bound: Bound, limits: tuple[float, float], value: float) -> Fault:
    least, most = (show(limit, bound.dimension, against=value) for limit in limits)
    return RULE, Finding(
        spot.path,
        f"`{said}` is outside {least} to {most}: {bound.why}",
        f"write a figure from {least} to {most}; no document makes another one true",
        doc=spot.doc,
    )


def laxer(spot: Spot, key: str, written: str, before_v: float) -> Fault:
    before = show(before_v, "voltage")
    return "laxer-without-document", Finding(
        spot.path,
        f"`{key}: {written}` asks for less than the built-in basis's {before} and names no document",
        f"name the document and its revision under `documents: {{{key}: …}}`, or keep {before}",
        doc=spot.doc,
    )


def gates(decided: Decision) -> Iterator[Fault]:
    """Opening times of a fuse: the soonest is before the latest, and more current opens no later."""
    spot = decided.spots.get("fuse_gates")
    for family, rows in decided.written.get("fuse_gates", {}).items() if spot else ():
        assert spot is not None
        for index, said in crossed(rows):
            yield (
                RULE,
                Finding(
                    (*spot.path, family, index),
                    f"{family}: {said}",
                    "copy the row from the maker's curve again: `min` is the soonest, `max` the latest opening",
                    doc=spot.doc,
                ),
            )


def crossed(rows: Sequence[Mapping[str, Any]]) -> Iterator[tuple[int, str]]:
    """(index of the row, what is wrong with it)."""
    for index, row in enumerate(rows):
        soonest, latest = maybe(row, "min", "time"), maybe(row, "max", "time")
        if soonest is not None and latest is not None and soonest > latest:
            yield index, f"at {row['at']} it opens no sooner than {row['min']} and no later than {row['max']}"
    ordered = sorted(range(len(rows)), key=lambda n: number(rows[n]["at"], "ratio"))
    for key in ("min", "max"):
        timed = [n for n in ordered if key in rows[n]]
        for before, after in pairwise(timed):
            if number(rows[after][key], "time") > number(rows[before][key], "time"):
                here, there = rows[after], rows[before]
                yield (
                    after,
                    (
                        f"`{key}: {here[key]}` at {here['at']} is longer than {there[key]} at {there['at']}; "
                        "a fuse opens sooner at more current"
                    ),
                )
    for before, after in pairwise(ordered):
        if number(rows[before]["at"], "ratio") == number(rows[after]["at"], "ratio"):
            yield after, f"two rows at {rows[after]['at']}"


def stock(decided: Decision) -> Iterator[Fault]:
    """A list of sizes in stock that holds none that a load may have: said once, not at every conductor."""
    spot, sizes = decided.spots.get("stock"), decided.written.get("stock", ())
    least = str(decided.written.get("min_wire", builtin()["min_wire"]))
    if spot and max(number(size, "area") for size in sizes) < number(least, "area") * 0.995:
        yield (
            RULE,
            Finding(
                spot.path,
                f"no size in stock ({', '.join(sizes)}) is as large as {least}, the least for a load (`min_wire`)",
                f"list the sizes that the shop keeps, some of them {least} or larger, or leave `stock` out",
                doc=spot.doc,
            ),
        )


LEAST_RUN_M = 0.05
"""Between two places; shorter is a wrong unit. Common practice, no source."""


def lengths(data: Mapping[str, Any]) -> Iterator[Fault]:
    """Runs that are shorter than any."""
    for index, run in enumerate(data.get("runs", ())):
        (a, b), length = run["between"], run["length"]
        if number(length, "length") < LEAST_RUN_M:
            yield (
                RULE,
                Finding(
                    ("runs", index, "length"),
                    f"`length: {length}` between `{a}` and `{b}`: two places are at least "
                    f"{show(LEAST_RUN_M, 'length')} apart (common practice, no source)",
                    "measure it along the loom, and look at the unit",
                ),
            )


LINK_M = (0.05, 20.0)
"""Of a link between two items of an accessory; longer than any of these vehicles. Common practice, no source."""


def links(data: Mapping[str, Any]) -> Iterator[Fault]:
    """Lengths of branches that no vehicle has room for, or that no two items have between them."""
    least, most = LINK_M
    for name, item in data.get("accessories", {}).items():
        for index, length in enumerate(item.get("branches", {}).get("lengths", ())):
            if not least <= number(length, "length") <= most:
                limits = f"{show(least, 'length')} and {show(most, 'length')}"
                yield (
                    RULE,
                    Finding(
                        ("accessories", name, "branches", "lengths", index),
                        f"`{length}` of branch conductor: a link is between {limits} long (common practice, no source)",
                        "measure it on the vehicle, and look at the unit",
                    ),
                )


CUT_OUT_V = (6.0, 12.8)
"""Of a device for 12 V; common practice, no source."""


def cut_outs(data: Mapping[str, Any], scale: float) -> Iterator[Fault]:
    """Voltages below which a device stops: a lost digit makes every drop pass."""
    least, most = (limit * scale for limit in CUT_OUT_V)
    for name, item in data.get("accessories", {}).items():
        written = item.get("electrical", {}).get("cut_out")
        if written is not None and not least <= number(written, "voltage") <= most:
            yield (
                RULE,
                Finding(
                    ("accessories", name, "electrical", "cut_out"),
                    f"`cut_out: {written}`: a device of this system stops between {show(least, 'voltage')} and "
                    f"{show(most, 'voltage')} (common practice, no source)",
                    "copy it again from its maker's sheet",
                ),
            )


def alternator(vehicle: Mapping[str, Any]) -> Iterator[Fault]:
    """What an alternator gives and what may be taken of it, against its nameplate."""
    own: Mapping[str, Any] = vehicle.get("alternator", {})
    for key, words in (("idle", "gives at idle"), ("allowance", "lets accessories take")):
        if key in own and number(own[key], "current") > number(own["rated"], "current"):
            yield (
                RULE,
                Finding(
                    ("vehicle", "alternator", key),
                    f"`{key}: {own[key]}`: an alternator of {own['rated']} {words} at most what it is rated for",
                    f"write at most {own['rated']} from the vehicle's data, or correct `rated`",
                    ((("vehicle", "alternator", "rated"), "its nameplate"),),
                ),
            )
    yield from regulated(vehicle)
    yield from starter(vehicle)


CHARGING_V = (13.0, 16.0)
"""Highest charging voltage of any alternator of a 12 V vehicle; common practice, no source."""


def regulated(vehicle: Mapping[str, Any]) -> Iterator[Fault]:
    """The highest voltage of an alternator: with a lost digit every battery would stand it."""
    written = vehicle.get("alternator", {}).get("voltage")
    scale = number(vehicle["system"], "voltage") / 12.0
    least, most = (limit * scale for limit in CHARGING_V)
    if written is not None and not least <= number(written, "voltage") <= most:
        yield (
            RULE,
            Finding(
                ("vehicle", "alternator", "voltage"),
                f"`voltage: {written}`: the alternator of such a vehicle charges with {show(least, 'voltage')} to "
                f"{show(most, 'voltage')} at its highest (common practice, no source)",
                "copy it again from the vehicle's data, or measure it while the vehicle slows down",
            ),
        )


LEAST_STARTER_A = 50.0
"""A starter of 0.6 kW at 12 V; common practice, no source."""


def starter(vehicle: Mapping[str, Any]) -> Iterator[Fault]:
    own: Mapping[str, Any] = vehicle.get("own_loads", {})
    least_a = LEAST_STARTER_A * 12.0 / number(vehicle["system"], "voltage")
    if "cranking" in own and number(own["cranking"], "current") < least_a:
        path: Path = ("vehicle", "own_loads", "cranking")
        yield (
            RULE,
            Finding(
                path,
                f"`cranking: {own['cranking']}`: no starter turns an engine with less than {show(least_a, 'current')} "
                "(0.6 kW; common practice, no source)",
                "measure it at the starter cable with a clamp meter that holds the peak",
            ),
        )
