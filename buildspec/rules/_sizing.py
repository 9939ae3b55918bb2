"""What several rules about sizing need: how a circuit is named, where a fault is shown, what would fit."""

from __future__ import annotations

import math
from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fuses
from buildspec.findings import Path
from buildspec.model import Circuit, Conductor, Device, Practice, Protection, Resolved, Sized, Sizing
from buildspec.size import bonds, conductors, currents, loom
from buildspec.size import devices as chosen

AREA_TOLERANCE = 1.005
"""Two areas within half a percent name the same size."""
WORDS = {
    "feeder": "the supply of ",
    "charge-in": "the input of ",
    "charge-out": "the output of ",
    "bond": "the negative of ",
    "module": "the negative of ",
    "coil": "the coil of ",
    "signal": "the signal to ",
    "branch": "the branches of ",
}


def name(circuit: Circuit) -> str:
    """A circuit by the item that the spec names: `bar`, the supply of `main`."""
    return f"{WORDS.get(circuit.kind, '')}`{circuit.item}`"


def way(circuit: Circuit) -> str:
    """Where a conductor is: in the supply of `main`, on the way to `bar`."""
    return f"in {name(circuit)}" if circuit.kind in WORDS else f"on the way to {name(circuit)}"


def circuits(sized: Sized) -> Iterator[tuple[Circuit, Sizing]]:
    """Every circuit that is added; the vehicle's own are not sized."""
    for circuit in sized.build.circuits:
        if not circuit.existing:
            yield circuit, sized.sizings[circuit.key]


def devices(sized: Sized) -> Iterator[tuple[Circuit, Sizing, Protection, Device]]:
    """Every protective device with the circuit that it sits in."""
    for circuit, sizing in circuits(sized):
        for protection, device in zip(circuit.protections, sizing.devices, strict=True):
            yield circuit, sizing, protection, device


def title(device: Device) -> str:
    """A device as people ask for it: 15 A blade fuse `F3`, channel `S1.2` set to 15 A."""
    if device.kind == "channel":
        return f"channel `{device.designation}` at {show.amps(device.rating_a)}"
    return f"{show.amps(device.rating_a)} {device.family} fuse `{device.designation}`"


def wire_path(circuit: Circuit, sizing: Sizing) -> Path:
    """Where the size is written, or the item when the compiler chose it."""
    if not sizing.written:
        return circuit.at
    return (*circuit.at, "negative_wire" if circuit.kind == "bond" else "wire")


def fuse_path(protection: Protection, key: str) -> Path:
    """A key of a device that the spec writes, or the nearest place that leads to the device."""
    written = "fuse" in protection.at[2:] or "fuses" in protection.at[2:]
    return (*protection.at, key) if written else protection.at


def rating_path(protection: Protection) -> Path:
    """Where the rating is written, or the nearest place that leads to the device."""
    return protection.at if protection.rating_a is None else fuse_path(protection, "rating")


def apart(value: float, limit: float, unit: str) -> tuple[str, str]:
    """Both numbers with as many places as it takes to tell them apart: never rounded into a pass."""
    for places in range(1, 9):
        texts = (show.plain(round(value, 9), places), show.plain(round(limit, 9), places))
        if texts[0] != texts[1]:
            break
    return f"{texts[0]} {unit}", f"{texts[1]} {unit}"


def short_lengths(value_m: float, limit_m: float, practice: Practice) -> tuple[str, str]:
    """Both lengths in the practice's unit, told apart."""
    if practice.units != "imperial":
        return apart(value_m * 1000, limit_m * 1000, "mm")
    return apart(value_m / show.M_PER_IN, limit_m / show.M_PER_IN, "in")


def within(limit_m: float, practice: Practice) -> str:
    """A length that still holds the limit: rounded down."""
    if practice.units != "imperial":
        return f"{math.floor(limit_m * 1000 + 1e-6)} mm"
    return f"{show.plain(math.floor(limit_m / show.M_PER_IN * 10 + 1e-6) / 10, 1)} in"


def case(sized: Sized, circuit: Circuit) -> conductors.Case:
    """What bears on the conductor of a circuit, as it was when it was sized."""
    build, sizing = sized.build, sized.sizings[circuit.key]
    amps = {key: s.design_a for key, s in sized.sizings.items()}
    return conductors.Case(
        build=build,
        circuit=circuit,
        design_a=sizing.design_a,
        devices=sizing.devices,
        stretch=loom.hottest(build, circuit, loom.loaded(build, amps), sizing.design_a),
        upstream_v=sizing.drop_v - sizing.own_drop_v,
        least_mm2=bonds.floors(build, dict(sized.sizings)).get(circuit.key, 0.0),
        guard=chosen.upstream(build, {key: s.devices for key, s in sized.sizings.items()}, circuit),
    )


def terminal_mm2(build: Resolved, circuit: Circuit) -> float | None:
    """Largest conductor that the output terminal of a panel or block takes [mm²]; None elsewhere."""
    if circuit.source in build.panels and circuit.kind != "module":
        panel = build.panels[circuit.source].part.panel
        return panel.max_area_mm2 if panel else None
    if circuit.source in build.blocks and circuit.kind != "tie":
        block = build.blocks[circuit.source].part.block
        return block.max_area_mm2 if block else None
    return None


def fitting(sized: Sized, circuit: Circuit) -> Conductor | None:
    """The smallest conductor in stock within every limit of the circuit and its terminal."""
    around, most = case(sized, circuit), terminal_mm2(sized.build, circuit)
    for conductor in conductors.candidates(around):
        enters = most is None or conductor.area_mm2 <= most * AREA_TOLERANCE
        if enters and all(limit.margin >= 0 for limit in conductors.limits(around, conductor)):
            return conductor
    return None


def conductor_help(sized: Sized, circuit: Circuit, otherwise: str) -> str:
    """The conductor that fits, or what else to do."""
    found = fitting(sized, circuit)
    if found is None:
        return f"no conductor in stock fits here; {otherwise}"
    return f"`{found.name}` fits here, or {otherwise}"


def least_rating_a(sized: Sized, circuit: Circuit, protection: Protection) -> float:
    """Smallest rating that may carry the circuit's load for good [A]."""
    share = chosen.share(sized.build, circuit, protection)
    return sized.sizings[circuit.key].design_a / share


def most_rating_a(sized: Sized, circuit: Circuit, protection: Protection) -> float:
    """Largest rating that the device behind, its position and a written conductor allow together [A]."""
    build, sizing = sized.build, sized.sizings[circuit.key]
    limits = [circuit.load.max_fuse_a if circuit.load else None, position_a(build, protection)]
    if sizing.written and sizing.ampacity is not None:
        limits.append(sizing.ampacity.corrected_a / build.practice.wire_margin)
    return min((limit for limit in limits if limit is not None), default=math.inf)


def position_a(build: Resolved, protection: Protection) -> float | None:
    """Limit of the position that hosts a device [A]; None for a device on its own."""
    block = build.blocks[protection.host].part.block if protection.host in build.blocks else None
    panel = build.panels[protection.host].part.panel if protection.host in build.panels else None
    return block.position_a if block else panel.channel_a[protection.position - 1] if panel else None


def fitting_fuse(
    sized: Sized, circuit: Circuit, protection: Protection, family: str, most_a: float
) -> fuses.Fuse | None:
    """The largest fuse of a family that carries the load and stays within `most_a` [A] and every other limit."""
    least = least_rating_a(sized, circuit, protection)
    most = min(most_a, most_rating_a(sized, circuit, protection))
    return next((f for f in reversed(fuses.fuses(family)) if least <= f.rating_a <= most), None)


def fuse_help(family: str, at_least_a: float) -> str:
    """The next fuse of a family for a current, or the family that reaches so far."""
    found = fuses.smallest(family, at_least_a=at_least_a)
    if found is not None:
        return f"a {show.amps(found.rating_a)} {family} fuse"
    for other in fuses.families():
        further = fuses.smallest(other, at_least_a=at_least_a)
        if further is not None:
            return f"a {show.amps(further.rating_a)} {other} fuse; the {family} family ends below"
    return f"no fuse reaches {show.amps(at_least_a)}: divide the load"


def contributors(sized: Sized, node: str) -> list[tuple[float, str]]:
    """What is drawn from a node, largest first: current [A] and circuit."""
    drawn = [
        (sized.sizings[c.key].design_a, f"`{node}` itself" if c.kind == "module" else name(c))
        for c in sized.build.circuits
        if c.source == node and c.kind in currents.DRAWING and sized.sizings[c.key].design_a > 0
    ]
    return sorted(drawn, key=lambda part: (-part[0], part[1]))


def sum_words(sized: Sized, node: str) -> str:
    """The sum of what is drawn from a node, largest first."""
    parts = contributors(sized, node)
    return " + ".join(f"{show.amps(amps)} {who}" for amps, who in parts)


def reserved_a(sized: Sized, node: str) -> float:
    """Current of the reserves on a node [A]."""
    return sum(
        sized.sizings[c.key].design_a
        for c in sized.build.circuits
        if c.source == node and c.kind == "reserve"
    )
