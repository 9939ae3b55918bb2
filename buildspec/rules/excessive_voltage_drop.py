"""More voltage is lost on the way to a device and back than its class allows.

What
----
From the battery to the device and back, feeders, fuses, contacts, joints and body included, with the
copper at its working temperature and everything on: at most 3 % of the nominal voltage for feeders,
chargers, electronics and anything with a cut-out, 10 % for the rest, or what the practice says. Where
`branches` join several items the device is the worst of them.

Why
---
Lost volts are heat in the loom and a weak lamp, a slow charger, a motor that stalls. Where the device
also falls below its own cut-out, `voltage-below-cut-out` reports instead of this rule.

Bad
---
accessories:
  compressor: {at: load-bed, fed_from: house, wire: 10 AWG, electrical: {model: motor, worst: 30 A, drop: critical}}

Good
----
accessories:
  compressor: {at: load-bed, fed_from: house, wire: 4 AWG, electrical: {model: motor, worst: 30 A, drop: critical}}

Sources
-------
ABYC E-11 as publicly quoted: 3 % and 10 % over the round trip. Resistance: IEC 60228 and IEC 60028.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import branches, show
from buildspec.findings import Finding
from buildspec.model import Circuit, Sized, Sizing
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("abyc-e11-drop", "iec-60228", "iec-60028")
WITHOUT = ("bond", "tie", "branch")
"""Counted in the drop of what they feed, or of the load that they belong to."""


def check(sized: Sized) -> Iterator[Finding]:
    supplies = [c for c in sized.build.circuits if c.kind == "feeder"]
    late = {c.target for c in supplies if sized.sizings[c.key].drop_v > sized.sizings[c.key].drop_limit_v}
    for circuit, sizing in _sizing.circuits(sized):
        if circuit.kind in WITHOUT or sizing.design_a <= 0 or sizing.drop_v <= sizing.drop_limit_v:
            continue
        upstream_v = sizing.drop_v - sizing.own_drop_v
        if circuit.source in late and upstream_v > sizing.drop_limit_v:
            continue
        if (
            circuit.load is None
            or circuit.load.cut_out_v is None
            or sizing.volts_at_load >= circuit.load.cut_out_v
        ):
            yield finding(sized, circuit, sizing)


def finding(sized: Sized, circuit: Circuit, sizing: Sizing) -> Finding:
    nominal = sized.build.practice.nominal_v
    lost, limit = _sizing.apart(sizing.drop_v / nominal * 100, sizing.drop_limit_v / nominal * 100, "%")
    length = branches.loop_m(circuit)
    copper = f"{show.length(length, sized.build.practice)} of {show.size(sizing.conductor)}"
    message = (
        f"{lost} lost {_sizing.way(circuit)} at {show.amps(sizing.design_a)}: "
        f"{show.volts(sizing.own_drop_v)} in {copper}, its joints and the "
        f"body{elsewhere(sized, circuit, sizing)}; limit {limit} ({circuit.drop_class}, "
        f"{sized.build.practice.sources['drop_limit']})"
    )
    otherwise = "a shorter way, a source nearer to it, or a larger conductor in what feeds it"
    part = at_fault(sized, circuit)
    path = _sizing.wire_path(part, sized.sizings[part.key])
    return Finding(path, message, _sizing.conductor_help(sized, part, otherwise))


def at_fault(sized: Sized, circuit: Circuit) -> Circuit:
    """The branches where only their size is written, else the circuit itself."""
    branch = branches.of(sized.build, circuit)
    if branch is None or sized.sizings[circuit.key].written or not sized.sizings[branch.key].written:
        return circuit
    return branch


def elsewhere(sized: Sized, circuit: Circuit, sizing: Sizing) -> str:
    """What is lost before a circuit, and in its branches as far as the worst item."""
    branch = branches.of(sized.build, circuit)
    links = sized.sizings[branch.key] if branch is not None else None
    behind_v = links.own_drop_v if links is not None else 0.0
    before_v = sizing.drop_v - sizing.own_drop_v - behind_v
    before = f" and {show.volts(before_v)} before it" if before_v > 1e-9 else ""
    if links is None:
        return before
    return f"{before} and {show.volts(behind_v)} in its branches of {show.size(links.conductor)} to the worst item"
