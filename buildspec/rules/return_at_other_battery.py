"""A return ends on the post of a battery that does not feed it.

What
----
A return that is written to a negative post ends on the post of a battery that feeds the circuit.

Why
---
The current goes on from there through the negative cable of that battery and the body to its own source. No cable on
that way is sized for it, and a battery monitor on either post counts it wrong.

Bad
---
    grounds: {minus-house: {at: engine-bay, post_of: house}}
    accessories: {winch: {at: grille, fed_from: start, return: minus-house, electrical: {model: motor, worst: 300 A}}}

Good
----
    accessories: {winch: {at: grille, fed_from: start, return: own, electrical: {model: motor, worst: 300 A}}}

Sources
-------
Engineering principle: current comes back to the source that it left.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import isolation
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("engineering principle: current comes back to the source that it left",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for circuit in build.circuits:
        ground = build.grounds.get(circuit.ground)
        if ground is None or not ground.post_of or circuit.kind not in ("load", "reserve"):
            continue
        feeding = isolation.batteries_behind(build, circuit.source)
        sensed = ground.post_of == build.vehicle.sensed_post
        if feeding and ground.post_of not in feeding and not sensed:
            names = ", ".join(f"`{name}`" for name in sorted(feeding))
            yield Finding(
                (*circuit.at, "return"),
                f"the return of {_sizing.name(circuit)} ends on the negative post of `{ground.post_of}`; "
                f"{names} feeds it",
                "`return: own`, which ends it on the nearest point of the body, or the post of its own battery",
                ((ground.at, "this post"),),
            )
