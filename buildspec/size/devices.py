"""Protective devices: rating, family, colour, holder, and the fault current where each one sits."""

from __future__ import annotations

from collections.abc import Mapping

from buildspec import branches
from buildspec.calc import fuses
from buildspec.model import Circuit, Device, FaultSet, Near, Protection, Resolved, Sizing
from buildspec.network import faults, posts, surges
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


def choose(build: Resolved, amps: dict[str, float]) -> dict[str, tuple[Device, ...]]:
    """Circuit key → its devices, from the loads upwards."""
    found: dict[str, tuple[Device, ...]] = {}
    for circuit in upwards(build):
        behind = [d for c in build.circuits if c.source == circuit.target for d in found.get(c.key, ())]
        above = max((d.rating_a for d in behind), default=0.0) if circuit.kind == "feeder" else 0.0
        found[circuit.key] = tuple(
            device(build, circuit, p, amps[circuit.key], above, surges.of(build, circuit, amps))
            for p in circuit.protections
        )
    return found


def upstream(
    build: Resolved, fitted: Mapping[str, tuple[Device, ...]], circuit: Circuit
) -> tuple[Device, ...]:
    """Devices that protect a circuit without one of its own: those of the one feeder of its source.

    Those of the load's circuit, or before it, for its branches. Empty behind a battery post, behind several
    feeders, and for a circuit with a device of its own.
    """
    if circuit.kind == "branch":
        trunk = branches.trunk(build, circuit)
        return fitted[trunk.key] or upstream(build, fitted, trunk)
    feeders = [c for c in build.circuits if c.kind == "feeder" and c.target == circuit.source]
    return fitted[feeders[0].key] if circuit.unprotected and len(feeders) == 1 else ()


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
    build: Resolved,
    circuit: Circuit,
    protection: Protection,
    design_a: float,
    above_a: float,
    surging: tuple[surges.Surge, ...] = (),
) -> Device:
    """The device as written, or the smallest that carries the load, survives its surges and stands above others."""
    if protection.kind == "channel":
        assert protection.rating_a is not None
        return made(protection, "", protection.rating_a, "", None, "device")
    needed = max(design_a / share(build, circuit, protection), above_a * 1.01, LEAST_CHOSEN_A)
    family = protection.family or choose_family(build, circuit, protection, needed, design_a, surging)
    if protection.rating_a is not None:
        exact = fuses.standard(family, protection.rating_a)
        return (
            from_fuse(build, protection, exact)
            if exact
            else made(protection, family, protection.rating_a, "", None, "no")
        )
    least = surges.least_rating_a(faults.curve(build, family), surging)
    best = fuses.smallest(family, at_least_a=max(needed, least)) or fuses.fuses(family)[-1]
    return from_fuse(build, protection, best)


def choose_family(
    build: Resolved,
    circuit: Circuit,
    protection: Protection,
    needed_a: float,
    design_a: float,
    surging: tuple[surges.Surge, ...] = (),
) -> str:
    """First family of the practice whose range, holder and breaking capacity hold here."""
    battery = build.batteries.get(protection.source)
    families = build.practice.battery_families if battery else build.practice.fuse_families
    if (
        circuit.existing and circuit.kind == "feeder"
    ):  # the vehicle's own: in a fuse box, as far as anybody says
        families = (*build.practice.fuse_families, *build.practice.battery_families)
    fault_a = posts.joined_fault_a(build, battery.name, held=True) if battery else 0.0
    block = build.blocks.get(protection.source)
    if block is not None and block.feed is not None:
        families = (*families, *build.practice.battery_families)
        fault_a = posts.feed_fault_a(build, block.feed)
    for family in families:
        least = max(needed_a, surges.least_rating_a(faults.curve(build, family), surging))
        fuse = fuses.smallest(family, at_least_a=protection.rating_a or least)
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


def with_prospective(
    build: Resolved, sizings: dict[str, Sizing], faults: Mapping[str, FaultSet]
) -> dict[str, Sizing]:
    """The sizings with the fault current at each device filled in."""
    near = {one.device: one for found in faults.values() for one in found.near}
    return {
        circuit.key: sizings[circuit.key]._replace(
            devices=tuple(
                d._replace(prospective_a=prospective(build, p, near.get(p.key))) if d.kind == "fuse" else d
                for d, p in zip(sizings[circuit.key].devices, circuit.protections, strict=True)
            )
        )
        for circuit in build.circuits
    }


def prospective(build: Resolved, protection: Protection, near: Near | None) -> float | None:
    """What a device must be able to break [A]; None where a battery that feeds it has no figure.

    On a battery it is no less than the battery's figure at its post. Behind a feeder, where all figures come from
    ABYC E-11 table V-A, its branch column caps what is asked.
    """
    if near is None or not near.batteries:
        return None
    feeding = [build.batteries[name] for name in near.batteries]
    if any(posts.battery_fault_a(battery) is None for battery in feeding):
        return None
    own = build.batteries.get(protection.source)
    if own is not None:
        return max(near.most_a, posts.battery_fault_a(own) or 0.0)
    return min(near.most_a, posts.branch_cap_a(feeding))
