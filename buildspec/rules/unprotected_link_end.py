"""A conductor that joins two sources has no protective device at one of its ends.

What
----
Links, charger leads and conductors written between batteries, blocks and panels have a device at each end
that can push current into them. The vehicle's own conductors (`existing: true`) are left out.

Why
---
A device protects only what lies behind it. A conductor with a battery at each end has two ends that are
behind nothing: cut in the middle, each half is fed by its own battery. Large batteries side by side need
a device each, for one common device cannot break the sum of both.

Bad
---
isolation:
  assist: {type: momentary-link, joins: [start, house], rating: 200 A, at: engine-bay, fuses: {house: {none: short}}}

Good
----
isolation:
  assist: {type: momentary-link, joins: [start, house], rating: 200 A, at: engine-bay}

Sources
-------
33 CFR 183.455(b) and ABYC E-11: a device at each source; the 2025 revision asks for one a battery above
500 Ah in parallel.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding, Path
from buildspec.model import Circuit, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("33cfr183-455", "abyc-e11-battery-device", "parallel-battery-revision")


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, _ in _sizing.circuits(sized):
        protected = {protection.source for protection in circuit.protections}
        for end in ends(circuit):
            if end not in protected:
                yield finding(sized, circuit, end)


def ends(circuit: Circuit) -> tuple[str, ...]:
    """The ends of a circuit that are sources; none for what is fed from one side only."""
    if circuit.kind in ("link", "tie"):
        return (circuit.source, circuit.target)
    return (circuit.source,) if circuit.kind in ("charge-in", "charge-out") else ()


def finding(sized: Sized, circuit: Circuit, end: str) -> Finding:
    others = [d for d in sized.sizings[circuit.key].devices if d.kind == "fuse"]
    rest = f"; the {_sizing.title(others[0])} is at the other end" if others else ""
    message = (
        f"no protective device at the `{end}` end of {_sizing.name(circuit)}{rest} (33 CFR "
        "183.455(b): one at each source)"
    )
    practice = sized.build.practice
    near = _sizing.within(practice.unprotected_m, practice)
    size = (
        f"{others[0].rating_a:g} A like the other end" if others else "a rating that the conductor outlasts"
    )
    return Finding(place(circuit, end), message, f"a device within {near} of `{end}`, {size}")


def place(circuit: Circuit, end: str) -> Path:
    return (*circuit.at, "fuses", end)
