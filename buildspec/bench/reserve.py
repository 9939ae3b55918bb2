"""What may be put on a reserve: its allowance, the most that still keeps every rule, and how it is brought into use."""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping
from typing import NamedTuple

from buildspec import model, rules, size
from buildspec.discover import modules
from buildspec.errors import UsageError
from buildspec.findings import Finding, Path

STEP_A = 0.1
"""The largest current is found to this step, always rounded down."""

Broken = Mapping[tuple[str, Path], Finding]


class Reserve(NamedTuple):
    """A reserve of a sized build with its largest current."""

    sized: model.Sized
    circuit: model.Circuit
    item: model.Reserve
    largest_a: float
    """With conductors and devices as they are laid, everything else on."""
    limited_by: str
    """The rule that breaks one step further on, or `device` where the protective device itself ends."""
    message: str

    @property
    def sizing(self) -> model.Sizing:
        return self.sized.sizings[self.circuit.key]


def reserve(sized: model.Sized, name: str) -> Reserve:
    """Answer for one reserve of a build without errors; raises UsageError for a name that is none."""
    circuit = next((c for c in sized.build.circuits if c.kind == "reserve" and c.item == name), None)
    if circuit is None:
        raise UsageError(unknown(name, sorted(sized.build.reserves)))
    laid = frozen(sized)
    before = broken(laid)
    first, last = steps(circuit.allow_a or 0.0, cap_a(sized.sizings[circuit.key]))
    while first < last:
        middle = (first + last + 1) // 2
        if more(laid, name, middle * STEP_A, before):
            last = middle - 1
        else:
            first = middle
    beyond = more(laid, name, (first + 1) * STEP_A, before)
    rule, message = next(((key[0], finding.message) for key, finding in beyond.items()), ("device", ""))
    largest = max(first * STEP_A, circuit.allow_a or 0.0)
    return Reserve(sized, circuit, sized.build.reserves[name], largest, rule, message)


def unknown(name: str, names: list[str]) -> str:
    if not names:
        return f"no reserve `{name}`: the spec has no reserves"
    near = difflib.get_close_matches(name, names, n=1)
    return f"no reserve `{name}`; " + (
        f"did you mean `{near[0]}`?" if near else "there are " + ", ".join(f"`{n}`" for n in names)
    )


def steps(allow_a: float, most_a: float) -> tuple[int, int]:
    """Where the search begins and ends, in steps: at the allowance, and at what the device lets through."""
    first = math.floor(allow_a / STEP_A + 1e-9)
    return first, max(first, math.floor(most_a / STEP_A + 1e-9))


def cap_a(sizing: model.Sizing) -> float:
    """Smallest device of the circuit, or what the conductor carries where there is none [A]."""
    carries = sizing.ampacity.corrected_a if sizing.ampacity else sizing.design_a
    return min((d.rating_a for d in sizing.devices), default=carries)


def frozen(sized: model.Sized) -> model.Resolved:
    """The build with every conductor and device as sized, so that a larger load finds what lies in the vehicle."""
    circuits = tuple(
        circuit._replace(
            conductor=sized.sizings[circuit.key].conductor,
            protections=tuple(
                p._replace(rating_a=d.rating_a, family=d.family)
                for p, d in zip(circuit.protections, sized.sizings[circuit.key].devices, strict=True)
            ),
        )
        for circuit in sized.build.circuits
    )
    return sized.build._replace(circuits=circuits)


def populated(build: model.Resolved, name: str, amps: float) -> model.Resolved:
    """The build with another current on one reserve."""
    circuits = tuple(
        c._replace(allow_a=amps, fixed_a=amps) if c.kind == "reserve" and c.item == name else c
        for c in build.circuits
    )
    return build._replace(
        circuits=circuits, reserves={**build.reserves, name: build.reserves[name]._replace(allow_a=amps)}
    )


def broken(build: model.Resolved) -> Broken:
    """Errors of a build, by rule and place."""
    sized = size.size(build)
    return {
        (name.replace("_", "-"), finding.at): finding
        for name, rule in modules(rules).items()
        for finding in rule.check(sized)
        if (finding.severity or rule.SEVERITY) == "error"
    }


def more(laid: model.Resolved, name: str, amps: float, before: Broken) -> Broken:
    """Errors that this current on the reserve brings."""
    return {key: finding for key, finding in broken(populated(laid, name, amps)).items() if key not in before}
