"""More mass is added than the load label forgives; after the first sale, correcting it is advice.

What
----
The same sum and limit as `load-label-due`, for a vehicle that is already in use or of which nobody says whether
it was sold. `label: corrected` ends the advice.

Why
---
After the first retail sale nobody is obliged to replace the label, but the next driver still loads by it.

Bad
---
    vehicle: {gross_mass: 7000 lb, sold: after first sale}
    accessories: {canopy: {at: load-bed, mass: 140 lb}}

Good
----
    vehicle: {gross_mass: 7000 lb, sold: after first sale, label: corrected}
    accessories: {canopy: {at: load-bed, mass: 140 lb}}

Sources
-------
49 CFR 571.110 S10: the duty ends with the first retail sale.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import mass
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _weights as weights

SEVERITY = "warning"
SOURCES = ("49cfr571-110-s10",)


def check(sized: Sized) -> Iterator[Finding]:
    vehicle, practice, label = sized.build.vehicle, sized.build.practice, mass.label(sized)
    if label is None or not label.due or vehicle.sold == "before first sale" or vehicle.label:
        return
    sums = (
        f"{weights.shown(label.added_kg, practice, against=label.limit_kg)} added, the load label forgives "
        f"{weights.shown(label.limit_kg, practice)} (49 CFR 571.110 S10)"
    )
    if not vehicle.sold:
        yield Finding(
            ("vehicle",),
            f"cannot check whether the load label must be corrected: {sums}, and nobody says whether the vehicle "
            "was sold",
            "write `sold:` as `before first sale` or `after first sale`",
        )
        return
    yield Finding(
        ("vehicle", "sold"),
        f"{sums}; advice only, the vehicle is past its first retail sale",
        "write `label: corrected` when the label of the mass sheet goes beside the old one",
    )
