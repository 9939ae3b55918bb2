"""Battery negatives: as large as the largest positive conductor of the battery, and counted in every drop."""

from __future__ import annotations

from buildspec.model import Resolved, Sizing
from buildspec.size.currents import through_body


def drops(build: Resolved, sizings: dict[str, Sizing], amps: dict[str, float]) -> dict[str, float]:
    """Battery → drop in its negative conductor at all that returns through it [V]; empty before the first round."""
    bonds = (c for c in build.circuits if c.kind == "bond" and c.key in sizings)
    return {c.source: sizings[c.key].loop_ohm * through_body(build, c.source, amps) for c in bonds}


def floors(build: Resolved, sizings: dict[str, Sizing]) -> dict[str, float]:
    """Bond key → area of the battery's largest positive conductor [mm²]; empty before the first round."""
    found: dict[str, float] = {}
    for bond in (c for c in build.circuits if c.kind == "bond"):
        positives = [
            sizings[c.key].conductor.area_mm2
            for c in build.circuits
            if bond.source in (c.source, c.target)
            and c.kind not in ("bond", "signal", "tie")
            and c.key in sizings
        ]
        found[bond.key] = max(positives, default=0.0)
    return found
