"""The figures of a time-current chart: what a device must carry, when it opens, what its conductor stands.

Nothing is worked out anew here: opening times, dead shorts, ampacity and k are those that the rules use.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from buildspec import branches
from buildspec.calc import adiabatic, opening
from buildspec.calc.opening import Curve
from buildspec.citations import cite
from buildspec.model import Circuit, Conductor, Device, Sized
from buildspec.network import faults, surges
from buildspec.network.surges import Surge
from buildspec.size import currents
from buildspec.tabledata import rows

A_SHEET = 6
FASTEST_S, SLOWEST_S = 1e-3, 1e4
"""Range of the charts: 1 ms to nearly three hours."""
VALID_S = 5.0
"""To here heat without loss holds (IEC 60364-5-54), and by here a device must have opened."""
FAR_TIMES = 1e4
"""A curve is carried on to this multiple of its last point; the field cuts it."""

Path = tuple[tuple[float, float], ...]
"""(current [A], time [s]) along a line."""


class Wire(NamedTuple):
    """The conductor behind a device."""

    conductor: Conductor
    carries_a: float | None
    """Continuous, all factors taken; None for a size below the table."""
    k: float
    """A s^0.5/mm²."""


class Characteristic(NamedTuple):
    """One protective device with everything that its chart shows."""

    circuit: Circuit
    device: Device
    curve: Curve
    """Gates of a fuse; of a channel its trip alone; empty where no opening times are known."""
    source: str
    """Where the opening times come from."""
    recalled: bool
    usual_a: float | None
    design_a: float
    starts: tuple[Surge, ...]
    """Currents above the load, the largest and shortest first."""
    wire: Wire | None
    """None where the conductor is the vehicle's own."""
    near_a: float | None
    """Dead short right behind the device, at its most."""
    far_a: float | None
    """Dead short at the end of the circuit, through this device, at its least."""


def characteristics(sized: Sized) -> tuple[Characteristic, ...]:
    """Every protective device of a build, in the order of its circuits."""
    design = {key: sizing.design_a for key, sizing in sized.sizings.items()}
    return tuple(
        characteristic(sized, circuit, device, surges.of(sized.build, circuit, design))
        for circuit in sized.build.circuits
        if not circuit.existing
        for device in sized.sizings[circuit.key].devices
    )


def leaves(sized: Sized) -> tuple[tuple[Characteristic, ...], ...]:
    """The devices of each sheet, as many on each as on the next, so that none stands alone on a last one."""
    found = characteristics(sized)
    sheets = math.ceil(len(found) / A_SHEET)
    ends = [round(n * len(found) / sheets) for n in range(sheets + 1)] if sheets else [0]
    return tuple(found[start:end] for start, end in pairwise(ends))


def characteristic(
    sized: Sized, circuit: Circuit, device: Device, starts: tuple[Surge, ...]
) -> Characteristic:
    near, far = shorts(sized, circuit, device)
    source, recalled = source_of(sized, device)
    return Characteristic(
        circuit=circuit,
        device=device,
        curve=curve_of(sized, device),
        source=source,
        recalled=recalled,
        usual_a=usual_a(sized, circuit),
        design_a=sized.sizings[circuit.key].design_a,
        starts=longer_and_longer(starts),
        wire=wire_of(sized, circuit),
        near_a=near,
        far_a=far,
    )


def usual_a(sized: Sized, circuit: Circuit) -> float | None:
    """What a load draws as a rule [A]; None for what is no load, or draws its worst anyway."""
    if circuit.kind != "load" or circuit.load is None:
        return None
    usual = currents.typical(circuit.load, sized.build.practice) * circuit.quantity
    return usual if 0 < usual < 0.99 * sized.sizings[circuit.key].design_a else None


def longer_and_longer(starts: tuple[Surge, ...]) -> tuple[Surge, ...]:
    """Surges that none both outgrows and outlasts, the largest first."""
    kept: list[Surge] = []
    for one in sorted(starts, key=lambda s: (-s.amps, -s.for_s, s.item)):
        if not kept or one.for_s > kept[-1].for_s:
            kept.append(one)
    return tuple(kept)


def wire_of(sized: Sized, circuit: Circuit) -> Wire | None:
    """The conductor behind the device, the thinner one where branches go on from it."""
    if not circuit.feeds:
        return None
    sizing = min((sized.sizings[c.key] for c in behind(sized, circuit)), key=lambda s: s.conductor.area_mm2)
    amp = sizing.ampacity
    k = adiabatic.insulation_k(insulation_c=sized.build.practice.insulation_c)
    return Wire(sizing.conductor, amp.corrected_a if amp else None, k)


def behind(sized: Sized, circuit: Circuit) -> tuple[Circuit, ...]:
    """A circuit and the branches between its items."""
    branch = branches.of(sized.build, circuit)
    return (circuit,) if branch is None else (circuit, branch)


def shorts(sized: Sized, circuit: Circuit, device: Device) -> tuple[float | None, float | None]:
    """(most right behind the device, least through it at the end of its circuit, branches included) [A]."""
    found = sized.faults.get(circuit.key)
    if found is None:
        return None, None
    near = [one.most_a for one in found.near if one.device == device.key and one.most_a > 0]
    ends = [
        fault for c in behind(sized, circuit) if c.key in sized.faults for fault in sized.faults[c.key].far
    ]
    far = [o.amps for fault in ends for o in fault.openings if o.device == device.key and o.amps > 0]
    return max(near, default=None), min(far, default=None)


# ------------------------------------------------------------------------------ opening times


def curve_of(sized: Sized, device: Device) -> Curve:
    if device.kind != "channel":
        return faults.curve(sized.build, device.family)
    panel = sized.build.panels[device.host].part.panel
    if panel is None:
        return ()
    mark = "yes" if panel.trips.stated else "memory"
    return (opening.Gate(panel.trips.times, None, panel.trips.within_s, mark),)


def source_of(sized: Sized, device: Device) -> tuple[str, bool]:
    """(where opening times come from, do they rest on memory)."""
    curve = curve_of(sized, device)
    if not curve:
        return "no opening times known for this family", False
    recalled = opening.recalled(curve)
    if device.kind == "channel":
        part = sized.build.panels[device.host].part
        return (f"trips of its panel: {part.source}", False) if not recalled else (
            "common practice, no source", True)  # fmt: skip
    if device.family in sized.build.practice.fuse_gates:
        return "the shop's own fuse_gates", recalled
    keys = dict.fromkeys(
        key
        for row in rows("fuse_gates")
        if row["family"] == device.family and row["kind"] == "gate"
        for key in row["source"].split(";")
    )
    return "; ".join(cite(key).title for key in keys), recalled


def soonest(one: Characteristic) -> Path:
    """Below and left of it the device holds for certain; empty where no gate says.

    Below the first gate it holds for at least that gate's time, so the line comes down from there.
    """
    return carried_on(one, [(g.multiple, g.min_s) for g in one.curve])


def latest(one: Characteristic) -> Path:
    """Above and right of it the device has opened for certain; empty where no gate says.

    Below the first gate no longest time exists, so the line comes down from the top there.
    """
    return carried_on(one, [(g.multiple, g.max_s) for g in one.curve])


def carried_on(one: Characteristic, gates: list[tuple[float, float | None]]) -> Path:
    """Gates in amperes, from above down to the first, and on with I²t constant behind the last."""
    rating = one.device.rating_a
    known = [(multiple * rating, time) for multiple, time in gates if time is not None]
    if not known:
        return ()
    amps, time = known[-1]
    top = ((known[0][0], max(SLOWEST_S, known[0][1])),) if known[0][1] < SLOWEST_S else ()
    return (*top, *known, (amps * FAR_TIMES, time / FAR_TIMES**2))


def opens_s(one: Characteristic, amps: float | None) -> tuple[float | None, float | None]:
    """(no sooner than, no later than) at a current [s]; None where no gate says or nothing flows."""
    if amps is None or not one.curve:
        return None, None
    return opening.opening_s(one.curve, multiple=amps / one.device.rating_a)


# ------------------------------------------------------------------------------ load and conductor


def profile(one: Characteristic) -> Path:
    """What the device must carry, from the fastest start to the load that stays; empty where nothing draws."""
    if one.design_a <= 0:
        return ()
    found: list[tuple[float, float]] = []
    time = FASTEST_S
    for start in one.starts:
        found += [(start.amps, time), (start.amps, start.for_s)]
        time = start.for_s
    return (*found, (one.design_a, time), (one.design_a, SLOWEST_S))


def stands_s(wire: Wire, amps: float) -> float:
    """How long the conductor stands a current when no heat gets away: (k S / I)² [s]."""
    return adiabatic.let_through_limit_a2s(k=wire.k, area_mm2=wire.conductor.area_mm2) / amps**2


def stands_a(wire: Wire, time_s: float) -> float:
    """The current that it stands for a time: k S / √t [A]."""
    limit = adiabatic.let_through_limit_a2s(k=wire.k, area_mm2=wire.conductor.area_mm2)
    return float((limit / time_s) ** 0.5)


def damage(wire: Wire) -> Path:
    """The limit of heat without loss, as far as it is valid."""
    return (stands_a(wire, VALID_S), VALID_S), (stands_a(wire, FASTEST_S), FASTEST_S)


def beyond(wire: Wire) -> Path:
    """The same carried on to what the conductor carries for ever: on the safe side, since heat gets away."""
    if wire.carries_a is None:
        return ()
    return (stands_a(wire, VALID_S), VALID_S), (wire.carries_a, stands_s(wire, wire.carries_a))


def lasting(wire: Wire) -> Path:
    """The continuous ampacity, down to where heat without loss takes over."""
    if wire.carries_a is None:
        return ()
    return (wire.carries_a, SLOWEST_S), (wire.carries_a, min(SLOWEST_S, stands_s(wire, wire.carries_a)))


def reach_a(one: Characteristic) -> tuple[float, float]:
    """Smallest and largest current that the chart shows [A]."""
    return min(amounts(one)), max(amounts(one))


def amounts(one: Characteristic) -> Iterator[float]:
    yield one.device.rating_a
    yield from (gate.multiple * one.device.rating_a for gate in one.curve)
    yield from (start.amps for start in one.starts)
    yield from (v for v in (one.usual_a, one.design_a, one.near_a, one.far_a) if v)
    if one.wire is not None:
        yield one.wire.carries_a or stands_a(one.wire, VALID_S)
        yield stands_a(one.wire, VALID_S / 10)
