"""Several items share one circuit, and the conductors between them are not in the lists.

What
----
An accessory with a `quantity` above one is one circuit to the first of them, or to their common point. The conductors
from there to the others depend on where each one sits: until `branches` says how they are joined and how long each
link is, they are in no list and in no drop. This is said, so that nobody looks for them.

Why
---
A cut list that looks complete is trusted. Lamps in a row need branch conductors that outlast the fuse of the whole
circuit, joints, and lengths that are measured on the vehicle, and a long row loses voltage of its own.

Bad
---
accessories:
  bed-lamps: {part: led-bed-10, at: load-bed, switch: main.3, quantity: 4}

Good
----
accessories:
  bed-lamps: {part: led-bed-10, at: load-bed, switch: main.3, quantity: 4,
              branches: {form: chain, lengths: [0.8 m, 1.4 m, 0.8 m]}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import branches
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "note"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit in sized.build.circuits:
        if circuit.kind == "load" and circuit.quantity > 1 and branches.of(sized.build, circuit) is None:
            count = circuit.quantity
            yield Finding(
                circuit.at,
                f"the conductors between the {count} of `{circuit.item}` are in no list and in no drop",
                "measure each link on the vehicle and write them under "
                f"`branches: {{form: chain, lengths: […]}}` ({count - 1}, from each to the next) or `form: star` "
                f"({count}, from a common point)",
            )
