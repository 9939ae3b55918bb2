"""A rivet nut turns in its sheet before its screw is tight.

What
----
The torque of the screw (written, or what a maker suggests for its size) is below the torque at which the rivet nut
turns: `spin_out` by its maker, else test values in 0.76 mm steel sheet. Thicker sheet holds more; without a figure
that is not counted on. A body that is not stated counts as round.

Why
---
A round-bodied M6 or M8 in thin sheet spins at 4.4 and 6.6 N m, its screw wants 8.6 and 21 N m. A nut that has
turned once never holds again, and the screw cannot be taken out.

Bad
---
    accessories: {shelf: {part: shelf-unit, at: wall,
                  fastening: {bolt: M6, class: "8.8", quantity: 6, into: rivet nut, body: round, sheet: 0.8 mm}}}

Good
----
    accessories: {shelf: {part: shelf-unit, at: wall,
                  fastening: {bolt: M6, class: "8.8", quantity: 6, into: rivet nut, body: hexagon, sheet: 0.8 mm}}}

Sources
-------
Rivet-nut maker's sheet of mechanical properties: average test values and suggested screw torques.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import fastenings, show
from buildspec.calc import fasteners
from buildspec.findings import Finding
from buildspec.model import Fastening, Sized

SEVERITY = "error"
SOURCES = ("rivet-nut-sheet",)


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        held = item.fastening
        if held is None or held.into != "rivet nut":
            continue
        tight, turns = fastenings.tightening(held), fastenings.spin_out_nm(held)
        if turns is None:
            yield Finding(
                held.at,
                f"cannot check whether the rivet nuts {held.bolt} of `{item.name}` turn: no figure for them",
                "write `spin_out:` from their maker",
            )
        elif tight is not None and tight.nm >= turns:
            yield Finding(
                held.at,
                f"the rivet nuts of `{item.name}` turn at {show.plain(turns, 1)} N m ({basis(held)}); their screw "
                f"{held.bolt} is tightened to {show.plain(tight.nm, 1)} N m ({tight.source})",
                better(held, tight.nm),
            )


def basis(held: Fastening) -> str:
    return (
        "by their maker" if held.spin_out_nm is not None else f"{held.body or 'round'} body in 0.76 mm steel"
    )


def better(held: Fastening, torque_nm: float) -> str:
    hexagon = fasteners.spin_out_nm(thread=held.bolt, body="hexagon")
    if held.body != "hexagon" and hexagon is not None and hexagon > torque_nm:
        return (
            f"hexagon bodies turn at {show.plain(hexagon, 1)} N m; or a smaller `torque` with a thread locker"
        )
    return "a weld nut, a through bolt with a plate, a smaller `torque` with a thread locker, or `spin_out`"
