"""Protective devices: rating, family, colour, holder, and the fault current where each one sits."""

from __future__ import annotations

from collections.abc import Iterable

from buildspec.calc import fuses, interrupting
from buildspec.model import Battery, Circuit, Device, Protection, Resolved, Sizing
from buildspec.size.order import upwards

HOLDER_A = {
    "mini-blade": 20.0, "blade": 30.0, "maxi-blade": 60.0, "cartridge-a1": 60.0, "strip-m5": 200.0, "strip-m8": 500.0,
    "post-cube": 300.0, "limiter-strip": 750.0, "class-t": 400.0,
}  # fmt: skip
"""Continuous rating of an in-line or stud holder [A]; common practice, no source. `fuse.holder` overrides."""
HOLDER_SHARE = 0.8
"""A holder carries this share of its rating for good; case of melted holders with sound fuses."""
LEAST_CHOSEN_A = 2.0
"""Smallest rating that is chosen when none is written: smaller ones are rarely stocked; common practice."""
TABLE_AH = 500.0
TABLE_CHEMISTRIES = ("flooded", "agm", "gel")
"""Reach of ABYC E-11 table V-A: lead-acid, at most 500 Ah."""
OPEN_CIRCUIT_V = 12.8
"""Full battery at rest, 12 V system."""


def choose(build: Resolved, amps: dict[str, float]) -> dict[str, tuple[Device, ...]]:
    """Circuit key → its devices, from the loads upwards."""
    found: dict[str, tuple[Device, ...]] = {}
    for circuit in upwards(build):
        behind = [d for c in build.circuits if c.source == circuit.target for d in found.get(c.key, ())]
        above = max((d.rating_a for d in behind), default=0.0) if circuit.kind == "feeder" else 0.0
        found[circuit.key] = tuple(
            device(build, circuit, p, amps[circuit.key], above) for p in circuit.protections
        )
    return found


def is_continuous(circuit: Circuit) -> bool:
    """Counts as a continuous load on its device; a momentary link and small signals do not."""
    if circuit.load is not None:
        return circuit.load.continuous
    if circuit.kind == "link":
        return not circuit.contacts[0].momentary
    return circuit.kind not in ("signal", "coil")


def share(build: Resolved, circuit: Circuit, protection: Protection) -> float:
    """Largest share of the device's rating that this circuit may draw for good."""
    if protection.kind == "channel" or not is_continuous(circuit):
        return 1.0
    return build.practice.fuse_share[build.places[protection.place].environment]


def device(
    build: Resolved, circuit: Circuit, protection: Protection, design_a: float, above_a: float
) -> Device:
    """The device as written, or the smallest one that carries the load and stands above those behind it."""
    if protection.kind == "channel":
        assert protection.rating_a is not None
        return made(protection, "", protection.rating_a, "", None, "device")
    needed = max(design_a / share(build, circuit, protection), above_a * 1.01, LEAST_CHOSEN_A)
    family = protection.family or choose_family(build, circuit, protection, needed, design_a)
    if protection.rating_a is not None:
        exact = fuses.standard(family, protection.rating_a)
        return (
            from_fuse(build, protection, exact)
            if exact
            else made(protection, family, protection.rating_a, "", None, "no")
        )
    best = fuses.smallest(family, at_least_a=needed) or fuses.fuses(family)[-1]
    return from_fuse(build, protection, best)


def choose_family(
    build: Resolved, circuit: Circuit, protection: Protection, needed_a: float, design_a: float
) -> str:
    """First family of the practice whose range, holder and breaking capacity hold here."""
    battery = build.batteries.get(protection.source)
    families = build.practice.battery_families if battery else build.practice.fuse_families
    fault_a = (battery_fault_a(battery) or 0.0) if battery else 0.0
    for family in families:
        fuse = fuses.smallest(family, at_least_a=protection.rating_a or needed_a)
        if fuse is None or fuse.rating_a > HOLDER_A[family]:
            continue
        if HOLDER_A[family] * HOLDER_SHARE < design_a and is_continuous(circuit):
            continue
        if (fuses.breaking_a_at(fuse, nominal_v=build.practice.nominal_v) or 0.0) >= fault_a:
            return family
    return families[-1]


def from_fuse(build: Resolved, protection: Protection, fuse: fuses.Fuse) -> Device:
    breaking = fuses.breaking_a_at(fuse, nominal_v=build.practice.nominal_v)
    return made(protection, fuse.family, fuse.rating_a, fuse.colour, breaking, fuse.verified)


def made(
    p: Protection, family: str, rating_a: float, colour: str, breaking_a: float | None, verified: str
) -> Device:
    holder = p.holder_a if p.holder_a is not None else HOLDER_A.get(family, rating_a)
    return Device(
        p.designation, p.key, p.kind, family, rating_a, colour, breaking_a, None, holder, p.host, p.position, p.place,
        p.rating_a is not None, verified,
    )  # fmt: skip


def battery_fault_a(battery: Battery) -> float | None:
    """Short-circuit current at a battery's post [A]: its maker's, or ABYC E-11 table V-A by cranking current.

    The table holds for lead-acid up to 500 Ah; beyond, only the maker's figure counts.
    """
    trait = battery.part.battery
    if trait is None:
        return None
    if trait.short_circuit_a is not None:
        return trait.short_circuit_a
    if trait.cranking_a is None or trait.capacity_ah > TABLE_AH or trait.chemistry not in TABLE_CHEMISTRIES:
        return None
    return interrupting.required_breaking_a(cranking_a=trait.cranking_a, main=True)


def with_prospective(build: Resolved, sizings: dict[str, Sizing]) -> dict[str, Sizing]:
    """The sizings with the fault current at each device filled in."""
    return {
        circuit.key: sizings[circuit.key]._replace(
            devices=tuple(
                d._replace(prospective_a=fault_at(build, sizings, p.source)) if d.kind == "fuse" else d
                for d, p in zip(sizings[circuit.key].devices, circuit.protections, strict=True)
            )
        )
        for circuit in build.circuits
    }


def fault_at(build: Resolved, sizings: dict[str, Sizing], node: str) -> float | None:
    """Dead-short current at a node [A]: the battery's, less what the feeders between let through.

    Returns through the body are left out, which errs to the high side. Where a battery's figure comes
    from the table by cranking current, its branch column caps what is asked of a device behind a feeder.
    """
    if node in build.batteries:
        return battery_fault_a(build.batteries[node])
    found: list[float] = []
    for path in paths_to(build, node):
        battery = build.batteries[path[0].source]
        at_post = battery_fault_a(battery)
        if at_post is None:
            return None
        open_v = OPEN_CIRCUIT_V * build.practice.nominal_v / 12.0
        loop = sum(cold_feed_ohm(c, sizings[c.key]) for c in path)
        here = interrupting.prospective_a(open_circuit_v=open_v, source_ohm=open_v / at_post, loop_ohm=loop)
        found.append(min(here, branch_cap_a(battery)))
    return max(found, default=None)


def branch_cap_a(battery: Battery) -> float:
    trait = battery.part.battery
    if trait is None or trait.short_circuit_a is not None or trait.cranking_a is None:
        return float("inf")
    return interrupting.required_breaking_a(cranking_a=trait.cranking_a, main=False) or float("inf")


def paths_to(build: Resolved, node: str) -> Iterable[tuple[Circuit, ...]]:
    """Every chain of feeders from a battery to a node, battery end first."""
    for circuit in build.circuits:
        if circuit.kind == "feeder" and circuit.target == node:
            if circuit.source in build.batteries:
                yield (circuit,)
            else:
                yield from ((*rest, circuit) for rest in paths_to(build, circuit.source))


def cold_feed_ohm(circuit: Circuit, sizing: Sizing) -> float:
    """Feed conductors at 20 °C: the lowest resistance, so the highest fault current."""
    return sum(w.cut_m for w in circuit.feeds) * sizing.conductor.r20_ohm_per_m
