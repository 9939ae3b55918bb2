"""What the rules of low-voltage disconnects need: which there are, what they protect, where they measure."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec.energy.draws import battery_behind, mean_a
from buildspec.findings import Path
from buildspec.model import Battery, Circuit, CutOffTrait, Part, Resolved, Sized
from buildspec.network import build as made
from buildspec.network import isolation


class Disconnect(NamedTuple):
    """A panel, block or accessory that opens below a voltage."""

    name: str
    trait: CutOffTrait
    battery: Battery
    supply: Circuit
    """The circuit at whose end it measures."""
    at: Path


def disconnects(sized: Sized) -> Iterator[Disconnect]:
    """Every low-voltage disconnect with its battery; a battery's own manager is none of them."""
    build = sized.build
    items: list[tuple[str, Part, Path]] = [
        *((p.name, p.part, p.at) for p in build.panels.values()),
        *((b.name, b.part, b.at) for b in build.blocks.values()),
        *((a.name, a.part, a.at) for a in build.accessories.values()),
    ]
    for name, part, at in items:
        supply = next(supplies(build, name), None)
        battery = build.batteries.get(battery_behind(build, supply.source)) if supply else None
        if part.cut_off is not None and supply is not None and battery is not None:
            yield Disconnect(name, part.cut_off, battery, supply, (*at, "cut_off"))


def supplies(build: Resolved, name: str) -> Iterator[Circuit]:
    """The circuits that feed a panel, block or accessory."""
    return (c for c in build.circuits if c.item == name and c.kind in ("feeder", "load"))


def loads(sized: Sized, one: Disconnect) -> tuple[Circuit, ...]:
    """Loads and reserves that it cuts."""
    return isolation.loads_behind(sized.build, one.supply)


def drop_v(sized: Sized, one: Disconnect) -> float:
    """Largest drop between the battery's posts and where it measures [V]."""
    return sized.sizings[one.supply.key].drop_v


def internal_ohm(sized: Sized, one: Disconnect) -> float:
    return made.internal_ohm(sized.build, one.battery)


def mean_sag_v(sized: Sized, one: Disconnect) -> tuple[float, float]:
    """Mean current of a usual day [A], and by how much it lowers the reading at the disconnect [V]."""
    sizing, amps = sized.sizings[one.supply.key], mean_a(sized.build, one.battery)
    path_ohm = sizing.drop_v / sizing.design_a if sizing.design_a else 0.0
    return amps, amps * (path_ohm + internal_ohm(sized, one))


def scale(sized: Sized) -> float:
    """Of published 12 V figures to the vehicle's system."""
    return sized.build.practice.nominal_v / 12.0
