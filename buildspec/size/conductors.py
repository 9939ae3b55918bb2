"""The conductor of a circuit: the smallest in stock that every limit allows, and why."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from buildspec import branches
from buildspec.calc import adiabatic, copper
from buildspec.model import Ampacity, Circuit, Conductor, Device, Reason, Resolved, Sizing
from buildspec.network import faults
from buildspec.size import loom

FEEDER_BUDGET = 0.5
"""Share of the critical drop limit that a feeder may use when the compiler chooses it; common practice, no source."""
SMALL = ("signal",)
AMBIENT_C = {"engine": 50.0}
USUAL_AMBIENT_C = 30.0
"""Base ambient of 33 CFR 183 Table 5; 50 °C in the engine space."""
ENGINE_LINK_MM2 = {"small": 16.0, "large": 25.0}
"""Least jump-link conductor: petrol up to 2.5 l, and larger or diesel (a repair manual's minimum)."""


class Case(NamedTuple):
    """One circuit with everything that bears on its conductor."""

    build: Resolved
    circuit: Circuit
    design_a: float
    devices: tuple[Device, ...]
    stretch: loom.Stretch | None
    """Where its conductors carry least."""
    upstream_v: float
    least_mm2: float
    """A limit: no smaller than the battery's positives."""
    grown_mm2: float = 0.0
    """Where the search starts: what an earlier round has settled on."""
    guard: tuple[Device, ...] = ()
    """Devices upstream that protect it, where it has none of its own."""
    branch_share: float = 1.0
    """Of what may be lost from here on, the part that branches lose where they are as thick as their trunk."""


class Limit(NamedTuple):
    """One limit as it stands for one conductor; `margin` is a fraction, negative when it fails."""

    name: str
    margin: float
    sum: str


def choose(case: Case) -> Sizing:
    """The written conductor, or the smallest in stock within every limit, or the largest when none is."""
    written = case.circuit.conductor
    if written is not None:
        tried = limits(case, written)
        return sizing(case, written, reason(tried, tried))
    stock = candidates(case)
    least = next((n for n, c in enumerate(stock) if c.area_mm2 >= case.grown_mm2), len(stock) - 1)
    before = limits(case, stock[least - 1]) if least else []
    for conductor in stock[least:]:
        tried = limits(case, conductor)
        if all(limit.margin >= 0 for limit in tried):
            return sizing(case, conductor, reason(tried, [b for b in before if b.margin < 0] or tried))
        before = tried
    return sizing(case, stock[-1], reason(before, before))


def candidates(case: Case) -> list[Conductor]:
    """Stock sizes that the use allows: signals may use the small signal size, power needs a row of the table."""
    practice = case.build.practice
    small = case.circuit.kind in SMALL
    least = practice.signal_area_mm2 if small else practice.min_area_mm2
    able = [c for c in practice.sizes if c.area_mm2 >= least * 0.995]
    from_stock = [c for c in able if small or loom.rated(case.build, c) is not None]
    return from_stock or [practice.sizes[-1]]


def limits(case: Case, conductor: Conductor) -> list[Limit]:
    """Every limit on a conductor of this circuit."""
    amp = loom.carried(case.build, case.stretch, conductor)
    return [
        *carrying(case, conductor, amp),
        *dropping(case, conductor, amp),
        *shorting(case, conductor),
        *allowed(case, conductor),
    ]


def carrying(case: Case, conductor: Conductor, amp: Ampacity | None) -> Iterable[Limit]:
    """The conductor outlasts its protective device (or its load, where the device is not a fuse of its own)."""
    if amp is None:
        return
    before, margin = case.devices or case.guard, case.build.practice.wire_margin
    needed = needed_a(devices=before, design_a=case.design_a, margin=margin)
    if needed > 0:
        yield Limit("ampacity", amp.corrected_a / needed - 1, ampacity_sum(amp, conductor, needed))


def needed_a(*, devices: tuple[Device, ...], design_a: float, margin: float) -> float:
    """What a conductor must carry [A]: its largest device times the margin, or its load where that is more."""
    return max(max((d.rating_a for d in devices), default=design_a) * margin, design_a)


def ampacity_sum(amp: Ampacity, conductor: Conductor, needed_a: float) -> str:
    return (
        f"{conductor.name}: {amp.base_a:g} A × {amp.place_factor:g} ({amp.environment}) × {amp.bundle_factor:g} "
        f"({amp.loaded} loaded, {amp.run}) = {round(amp.corrected_a, 9):.1f} A for {needed_a:g} A; {amp.table}"
    )


def shorting(case: Case, conductor: Conductor) -> Iterable[Limit]:
    """The conductor stands what its fuses let through in a short that opens them at their fastest."""
    k = adiabatic.insulation_k(insulation_c=case.build.practice.insulation_c)
    stands = adiabatic.let_through_limit_a2s(k=k, area_mm2=conductor.area_mm2)
    for device in case.devices or case.guard:
        lets = faults.least_energy_a2s(case.build, device)
        if lets:
            yield Limit(
                "short circuit", stands / lets - 1,
                f"stands {stands:.0f} A² s (k = {k:.1f}), the {device.rating_a:g} A {device.family} fuse lets through "
                f"{lets:.0f} A² s",
            )  # fmt: skip


def dropping(case: Case, conductor: Conductor, amp: Ampacity | None) -> Iterable[Limit]:
    """Voltage drop from the battery and back, and the device's own cut-out."""
    if case.circuit.kind in ("bond", "tie") or case.design_a <= 0:
        return
    drop = case.upstream_v + case.design_a * loop_ohm(case, conductor, amp)
    allowed_v = chosen_limit(case)
    nominal = case.build.practice.nominal_v
    yield Limit(
        "voltage drop",
        1 - drop / allowed_v,
        f"{drop:.2f} V of {allowed_v:.2f} V ({allowed_v / nominal:.1%} of {nominal:g} V) at {case.design_a:.1f} A",
    )
    cut_out = case.circuit.load.cut_out_v if case.circuit.load else None
    if cut_out is not None:
        left = case.build.practice.resting_v - drop
        yield Limit(
            "cut-out", (left - cut_out) / nominal, f"{left:.2f} V at the device, it stops at {cut_out:g} V"
        )


def allowed(case: Case, conductor: Conductor) -> Iterable[Limit]:
    """Smallest and largest conductor by its maker, and the least for a jump link."""
    branch = case.circuit.kind == "branch"
    load = branches.trunk(case.build, case.circuit).load if branch else case.circuit.load
    least = [("maker's smallest", load.min_area_mm2)] if load and load.min_area_mm2 else []
    if case.circuit.kind == "link":
        least.append(("least for a jump link", link_least(case.build)))
    if (joined := joined_mm2(case.build, case.circuit)) is not None:
        least.append(("the vehicle's own wire", joined))
    if case.least_mm2:
        least.append(("battery's largest positive", case.least_mm2))
    for name, area in least:
        if area:
            yield Limit(
                name,
                conductor.area_mm2 * 1.005 / area - 1,
                f"{conductor.area_mm2:.3g} mm² for at least {area:g} mm²",
            )
    if load and load.max_area_mm2:
        yield Limit(
            "maker's largest", load.max_area_mm2 * 1.005 / conductor.area_mm2 - 1,
            f"{conductor.area_mm2:.3g} mm² for at most {load.max_area_mm2:g} mm²",
        )  # fmt: skip


def joined_mm2(build: Resolved, circuit: Circuit) -> float | None:
    """The vehicle's wire that a circuit lengthens, behind the vehicle's own fuse [mm²]; None elsewhere."""
    source = build.blocks.get(circuit.source)
    return source.feed.area_mm2 if circuit.unprotected and source is not None and source.feed else None


def link_least(build: Resolved) -> float:
    """Least area of a jump link [mm²] for this engine; the larger one where the engine is not known."""
    engine = build.vehicle.engine
    small = engine is not None and engine.fuel == "petrol" and (engine.displacement_l or 9.9) <= 2.5
    return ENGINE_LINK_MM2["small" if small else "large"]


def reason(tried: list[Limit], against: list[Limit]) -> Reason:
    """What governed: the limit that the next smaller size fails most, and the margin that it has now."""
    if not tried:
        return Reason("smallest in stock", 1.0, "", "below the ampacity table; protected by its device")
    failing = min(against, key=lambda limit: limit.margin)
    now = {limit.name: limit for limit in tried}
    governing = now.get(failing.name, min(tried, key=lambda limit: limit.margin))
    others = [limit for limit in tried if limit.name != governing.name]
    second = min(others, key=lambda limit: limit.margin).name if others else ""
    return Reason(governing.name, governing.margin, second, "; ".join(limit.sum for limit in tried))


def sizing(case: Case, conductor: Conductor, why: Reason) -> Sizing:
    amp = loom.carried(case.build, case.stretch, conductor)
    loop = loop_ohm(case, conductor, amp)
    own = case.design_a * loop
    drop = case.upstream_v + own
    practice = case.build.practice
    return Sizing(
        circuit=case.circuit.key,
        design_a=case.design_a,
        conductor=conductor,
        written=case.circuit.conductor is not None,
        ampacity=amp,
        devices=case.devices,
        temp_c=temperature(case, amp),
        loop_ohm=loop,
        own_drop_v=own,
        drop_v=drop,
        drop_limit_v=practice.drop_limit[case.circuit.drop_class] * practice.nominal_v,
        volts_at_load=practice.resting_v - drop,
        reason=why,
    )


def chosen_limit(case: Case) -> float:
    """Drop limit [V]; a feeder that the compiler chooses leaves half of what is left to what it feeds."""
    practice = case.build.practice
    whole = practice.drop_limit[case.circuit.drop_class] * practice.nominal_v
    if case.circuit.kind == "branch":
        return case.upstream_v + (whole - case.upstream_v) * case.branch_share
    if case.circuit.kind != "feeder" or case.circuit.conductor is not None:
        return whole
    return case.upstream_v + (whole - case.upstream_v) * FEEDER_BUDGET


def temperature(case: Case, amp: Ampacity | None) -> float:
    """Conductor temperature at the design current [°C]."""
    if amp is None:
        return USUAL_AMBIENT_C
    ambient = AMBIENT_C.get(amp.environment, USUAL_AMBIENT_C)
    current = min(case.design_a, amp.corrected_a)
    return copper.operating_temp_c(
        current_a=current,
        ampacity_a=amp.corrected_a,
        ambient_c=ambient,
        rated_c=case.build.practice.insulation_c,
    )


def loop_ohm(case: Case, conductor: Conductor, amp: Ampacity | None) -> float:
    """Conductors out and back at their temperature, body, terminations and contacts [ohm]."""
    circuit = case.circuit
    length = branches.loop_m(circuit)
    copper_ohm = copper.resistance_at(r20_ohm=conductor.r20_ohm_per_m * length, temp_c=temperature(case, amp))
    return copper_ohm + fixed_ohm(case.build, circuit)


def fixed_ohm(build: Resolved, circuit: Circuit) -> float:
    """What a circuit has besides its conductors: body, terminations and contacts [ohm]."""
    practice = build.practice
    at_post = circuit.ground in build.grounds and build.grounds[circuit.ground].post_of
    by_ground = circuit.ground and not at_post and circuit.kind != "bond"
    through_body = by_ground or (circuit.body_return and circuit.kind != "branch")
    body = practice.body_ohm if through_body else 0.0
    joints = len(circuit.protections) + len(circuit.contacts)
    return body + joints * practice.contact_ohm
