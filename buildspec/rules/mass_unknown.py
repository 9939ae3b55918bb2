"""Something is fitted of which nobody says what it weighs.

What
----
Where the spec states a gross rating or the axles, every item has a mass.

Why
---
Payload, axle loads and the figure of the load label are one sum. What has no mass counts as nothing in it, and
a sum that is short makes a label that is wrong.

Bad
---
    vehicle: {gross_mass: 3100 kg}
    accessories: {box: {title: Steel box, at: load-bed}}

Good
----
    vehicle: {gross_mass: 3100 kg}
    accessories: {box: {title: Steel box, at: load-bed, mass: 11 kg}}

Sources
-------
49 CFR 571.110 S10: the values are within 1 % of the added mass.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import mass
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("49cfr571-110-s10",)


def check(sized: Sized) -> Iterator[Finding]:
    if not mass.is_wanted(sized.build.vehicle):
        return
    for line in mass.of_parts(sized.build):
        if line.kg is None and line.kind == "item":
            yield Finding(
                line.at,
                f"cannot check payload, axles and load label: the mass of {line.what} is not stated",
                "write `mass:`, weighed or from its sheet",
            )
