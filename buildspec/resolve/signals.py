"""Circuits under one ampere that command something: panel channel to coil, vehicle signal to coil or input."""

from __future__ import annotations

from buildspec import model
from buildspec.findings import Path
from buildspec.resolve.heads import head
from buildspec.resolve.plan import Plan, back, circuit, wire


def coil_circuit(
    plan: Plan, key: str, switch: str, coil: model.Terminal, amps: float, title: str, item: str, at: Path
) -> model.Circuit:
    """Panel channel → coil → ground."""
    start = head(plan, key, switch, {}, at, switch=True)
    returns, ground = back(plan, key, coil, "own")
    returns = tuple(piece._replace(start=piece.start._replace(pin="85")) for piece in returns)
    return circuit(
        plan,
        key=key,
        title=title,
        kind="coil",
        source=start.node,
        target=item,
        item=item,
        target_designation=coil.item,
        protections=start.protections,
        contacts=start.contacts,
        feeds=(
            wire(
                plan,
                key=f"{key}/feed",
                role="coil",
                start=start.point,
                end=coil,
                colour=plan.practice.colours["switched"],
            ),
        ),
        returns=returns,
        ground=ground,
        environment=plan.places[start.point.place].environment,
        fixed_a=amps,
        at=at,
    )


def signal_circuit(
    plan: Plan, key: str, signal: str, end: model.Terminal, amps: float, title: str, item: str, at: Path
) -> model.Circuit:
    """Vehicle signal, tapped and fused → coil or logic input."""
    source = plan.signals[signal]
    tap = model.Terminal(source.name, "tap", source.place)
    designation = plan.numbers.name(f"{key}/fuse", "F")
    device = model.Protection(
        f"{key}/fuse",
        designation,
        "fuse",
        source.place,
        "",
        0,
        0.1,
        False,
        signal,
        "",
        plan.practice.signal_fuse_a,
        None,
        True,
        at,
    )
    enter = model.Terminal(designation, "1", source.place)
    colour = plan.practice.colours["signal"]
    lead = wire(plan, key=f"{key}/lead", role="signal", start=tap, end=enter, colour=colour, cut_m=0.1)
    rest = wire(plan, key=f"{key}/feed", role="signal", start=enter._replace(pin="2"), end=end, colour=colour)
    returns, ground = back(plan, key, end, "own") if end.pin == "86" else ((), "")
    returns = tuple(piece._replace(start=piece.start._replace(pin="85")) for piece in returns)
    return circuit(
        plan,
        key=key,
        title=f"{source.words} to {title}",
        kind="signal",
        source=signal,
        target=item,
        item=item,
        target_designation=end.item,
        protections=(device,),
        feeds=(lead, rest),
        returns=returns,
        ground=ground,
        environment=plan.places[source.place].environment,
        fixed_a=amps,
        at=at,
    )
