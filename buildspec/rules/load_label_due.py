"""More mass is added before the first sale than the load label forgives, and the label stays as it is.

What
----
Before the first retail sale the mass that a job adds, less what it takes out, stays within the lesser of 1.5 %
of the gross rating and 100 lb (45.4 kg), or the spec says `label: corrected`. The mass sheet then gives the
figure of the corrected label from the same sum. The rule holds for gross ratings up to 10 000 lb (4536 kg).

Why
---
The label tells the owner how many people and how much cargo may go in. A van that was lined, racked and
wired carries that much less, and an overloaded tyre fails at speed. The regulator asks for masses within 1 %;
shipping weights serve as evidence.

Bad
---
    vehicle: {gross_mass: 6000 lb, sold: before first sale}
    accessories: {rack: {at: roof, mass: 95 lb}}

Good
----
    vehicle: {gross_mass: 6000 lb, sold: before first sale, label: corrected, label_capacity: 1400 lb}
    accessories: {rack: {at: roof, mass: 95 lb}}

Sources
-------
49 CFR 571.110 S10, as in 72 FR 68442 and 75 FR 22532. Local law elsewhere differs; the law where the vehicle
is sold decides.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import mass
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _weights as weights

SEVERITY = "error"
SOURCES = ("49cfr571-110-s10",)


def check(sized: Sized) -> Iterator[Finding]:
    vehicle, practice, label = sized.build.vehicle, sized.build.practice, mass.label(sized)
    if label is None or not label.due or vehicle.sold != "before first sale" or vehicle.label:
        return
    assert vehicle.gross_kg is not None
    yield Finding(
        ("vehicle",),
        f"{weights.shown(label.added_kg, practice, against=label.limit_kg)} added before the first sale exceed "
        f"{weights.shown(label.limit_kg, practice)}, the lesser of 1.5 % of "
        f"{weights.shown(vehicle.gross_kg, practice)} and 100 lb (49 CFR 571.110 S10): a corrected load label is due",
        "write `label: corrected` and put on the label of the mass sheet, or add less",
        ((("vehicle", "gross_mass"), "the gross rating"),),
    )
