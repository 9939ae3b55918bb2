"""A device upstream may open before the one that stands nearer to the fault.

What
----
For every device behind a feeder, from the smallest to the largest fault current that it can see, its slowest
opening time lies below the fastest one of each device upstream that feeds other things as well. Two devices with
the same curve are taken to discriminate from a ratio of 1 to 2. An electronic channel upstream may trip at once.

Why
---
One chafed lamp lead takes down the whole block, at night, and the fuse that everybody looks at is whole. A device
behind another of the same circuit serves nothing else and is left out. (Ratings that do not rise at all: see
`fuse-not-above-those-behind`.)

Bad
---
blocks:
  rear: {fed_from: house, at: load-bed, fuse: {rating: 40 A, family: maxi-blade}}
accessories:
  winch: {at: load-bed, fed_from: rear.1, fuse: {rating: 30 A, family: maxi-blade}}

Good
----
blocks:
  rear: {fed_from: house, at: load-bed, fuse: {rating: 100 A, family: strip-m8}}
accessories:
  winch: {at: load-bed, fed_from: rear.1, fuse: {rating: 30 A, family: maxi-blade}}

Sources
-------
Opening times by family: table fuse_gates, recalled; the shop's `fuse_gates` take their place. Ratio of 1 to 2 for
one and the same curve: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import show
from buildspec.calc import fuses, opening
from buildspec.findings import Finding
from buildspec.model import Circuit, Device, Sized
from buildspec.network import faults
from buildspec.rules import _faults, _sizing
from buildspec.rules._faults import Site

SEVERITY = "warning"
SOURCES = ("fuse-gates", "common practice, no source: ratio of 1 to 2 for one curve")
RATIO = 2.0


def check(sized: Sized) -> Iterator[Finding]:
    """One report for each device upstream, with all that stand behind it."""
    found: dict[str, list[Pair]] = {}
    for circuit, _, protection, device in _sizing.devices(sized):
        span = currents(sized, circuit, device)
        if span is None:
            continue
        for above in upstream(sized, circuit.source):
            if above.device.rating_a > device.rating_a and not apart(sized, device, above.device, span):
                pair = Pair(Site(circuit, protection, device), above, span)
                found.setdefault(above.device.key, []).append(pair)
    for pairs in found.values():
        yield finding(sized, pairs)


class Pair(NamedTuple):
    """Two devices in a row, and the fault currents that both may see."""

    below: Site
    above: Site
    span: tuple[float, float]


def upstream(sized: Sized, node: str) -> Iterator[Site]:
    """Devices in the feeders of a node, and in theirs."""
    for circuit in sized.build.circuits:
        if circuit.kind == "feeder" and circuit.target == node:
            for protection, device in zip(
                circuit.protections, sized.sizings[circuit.key].devices, strict=True
            ):
                if circuit.existing and protection.rating_a is None:
                    continue  # nobody has surveyed the vehicle's own fuse; `feed-unsurveyed` says so
                yield Site(circuit, protection, device)
            yield from upstream(sized, circuit.source)


def currents(sized: Sized, circuit: Circuit, device: Device) -> tuple[float, float] | None:
    """Smallest and largest fault current through a device [A]."""
    if circuit.key not in sized.faults:
        return None
    found = sized.faults[circuit.key]
    least = [fault.amps for fault in found.far]
    most = [near.most_a for near in found.near if near.device == device.key]
    return (min(least), max(most)) if least and most and min(least) > 0 else None


def apart(sized: Sized, below: Device, above: Device, span: tuple[float, float]) -> bool:
    """Does the lower device open first at every current of a span?"""
    build = sized.build
    alike = below.kind == above.kind and faults.curve(build, below.family) == faults.curve(
        build, above.family
    )
    if alike and below.kind == "fuse" and above.rating_a >= RATIO * below.rating_a:
        return True
    return all(first(sized, below, above, amps) for amps in points(sized, (below, above), span))


def points(sized: Sized, pair: tuple[Device, Device], span: tuple[float, float]) -> list[float]:
    """Both ends of a span and each gate of both devices in it: between them the curves run straight."""
    gates = [
        gate.multiple * device.rating_a
        for device in pair
        for gate in faults.curve(sized.build, device.family)
    ]
    return sorted({span[0], *(a for a in gates if span[0] < a < span[1]), span[1]})


def first(sized: Sized, below: Device, above: Device, amps: float) -> bool:
    """Is the lower one sure to be open before the upper one may be?"""
    slowest = faults.within_s(sized.build, below, amps)
    if amps <= above.rating_a or slowest is None:
        return True
    fastest = 0.0
    if above.kind == "fuse":
        fastest = (
            opening.opening_s(faults.curve(sized.build, above.family), multiple=amps / above.rating_a)[0]
            or 0.0
        )
    return slowest < fastest


def finding(sized: Sized, pairs: list[Pair]) -> Finding:
    """The largest device behind is the hardest to tell apart; the others are named beside it."""
    below, above, span = max(pairs, key=lambda pair: pair.below.device.rating_a)
    amps = next(
        a for a in points(sized, (below.device, above.device), span)
        if not first(sized, below.device, above.device, a)
    )  # fmt: skip
    slowest = faults.within_s(sized.build, below.device, amps) or 0.0
    message = (
        f"in a short of {show.amps(amps)} at {_sizing.name(below.circuit)} the {_sizing.title(above.device)} in the "
        f"feed of `{above.circuit.target}` may open {soonest(sized, above.device, amps)}, the "
        f"{_sizing.title(below.device)} takes up to {_faults.seconds(slowest)}{_faults.RECALLED}"
    )
    others = tuple(
        (pair.below.circuit.at, f"the {_sizing.title(pair.below.device)} behind it too")
        for pair in pairs
        if pair.below is not below
    )
    return Finding(_sizing.rating_path(above.protection), message, remedy(sized, below, above, span), others)


def soonest(sized: Sized, above: Device, amps: float) -> str:
    """When a device may open at a current, in words."""
    if above.kind != "fuse":
        return "at once"
    shortest, _ = opening.opening_s(faults.curve(sized.build, above.family), multiple=amps / above.rating_a)
    return f"after {_faults.seconds(shortest or 0.0)}"


def remedy(sized: Sized, below: Site, above: Site, span: tuple[float, float]) -> str:
    """The next size upstream that waits long enough."""
    device = above.device
    if above.circuit.existing:
        return "a smaller or faster device behind it; the vehicle's own fuse stays as it is"
    larger = (f.rating_a for f in fuses.fuses(device.family) if f.rating_a > device.rating_a)
    for rating in larger:
        if apart(sized, below.device, device._replace(rating_a=rating), span):
            larger_one = f"a {show.amps(rating)} {device.family} fuse upstream with its conductor"
            return f"{larger_one}, or a smaller or faster one behind it"
    return "a smaller or faster device behind it, or its own feed from the battery"
