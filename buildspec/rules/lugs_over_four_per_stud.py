"""More than four lugs meet on one stud.

What
----
The lugs of this job on a ground or on one post of a battery are at most four a stud; a point with several studs
says so (`studs`). The cables that the vehicle had there before are not counted, and take room too.

Why
---
A stack of lugs grips by the few turns of thread that are left, works loose and heats; the lug at the top carries
through all the others. Whoever takes one off loosens all.

Bad
---
    grounds: {bed-stud: {at: load-bed, stud: M8}}

Good
----
    grounds: {bed-stud: {at: load-bed, stud: M8, studs: 3, words: "ground bar with three studs"}}

Sources
-------
ABYC E-11, at most four conductors on one terminal stud, as marine suppliers quote it; good practice in a vehicle.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.calc.terminations import MOST_LUGS
from buildspec.findings import Finding
from buildspec.joints import joints
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("abyc-e11-lugs",)


def check(sized: Sized) -> Iterator[Finding]:
    for joint in joints(sized.build):
        count = len(joint.lugs)
        if count > joint.room:
            wires = ", ".join(lug.wire.designation for lug in joint.lugs)
            studs = f"{joint.studs} stud{'s' if joint.studs > 1 else ''}"
            needed = -(-count // MOST_LUGS)
            pin = f" `{joint.pin}`" if joint.battery else ""
            yield Finding(
                joint.at,
                f"{count} lugs ({wires}) on {studs} of `{joint.at[-1]}`{pin}; at most {MOST_LUGS} a stud (ABYC E-11)",
                f"a bar or a second point with {needed} studs in all (`studs: {needed}`), or take them to other points",
            )
