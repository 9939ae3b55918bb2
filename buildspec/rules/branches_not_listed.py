"""Several items share one circuit, and the conductors between them are not in the lists.

What
----
An accessory with a `quantity` above one is one circuit to the first of them. The conductors from the first to the
others depend on where each one sits; they are in no list and in no drop. This is said, so that nobody looks for them.

Why
---
A cut list that looks complete is trusted. Lamps in a row need branch conductors of the same size and colour, joints
and lengths that are measured on the vehicle, and a long row loses voltage of its own.

Bad
---
accessories:
  bed-lamps: {part: led-bed-10, at: load-bed, switch: main.3, quantity: 4}

Good
----
accessories:
  bed-lamp-left: {part: led-bed-10, at: load-bed-left, fed_from: rear.1}
  bed-lamp-right: {part: led-bed-10, at: load-bed-right, fed_from: rear.2}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "note"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for circuit in sized.build.circuits:
        if circuit.kind == "load" and circuit.quantity > 1:
            conductor = show.size(sized.sizings[circuit.key].conductor)
            yield Finding(
                circuit.at,
                f"the conductors between the {circuit.quantity} of `{circuit.item}` are in no list and in no drop",
                f"measure them on the vehicle: {conductor} like their feed, sealed joints; or write each as an item",
            )
