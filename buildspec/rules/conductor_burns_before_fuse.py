"""A dead short overheats a conductor before its device has opened.

What
----
For every dead short that is cleared in time, the energy that the device lets through, I²t at its slowest gate
from the smallest fault current up to a short right behind it, stays below k²S² of the thinnest conductor on the
way. k is 87 A·√s/mm² for insulation of 105 °C: the conductor starts at its rated temperature and ends at 160 °C.
One report a conductor, for the device that lets through most; a conductor whose ampacity is below the rating of the
device is left to `undersized-conductor` and `unprotected-conductor`.

Why
---
The device does its work and the fuse is blown, but the insulation has run off the copper, and the next thing that
touches it finds it bare.

Bad
---
accessories:
  lamp: {at: load-bed, fed_from: rear.1, fuse: {rating: 40 A}, wire: 1 mm2}

Good
----
accessories:
  lamp: {at: load-bed, fed_from: rear.1, fuse: {rating: 40 A}, wire: 6 mm2}

Sources
-------
IEC 60364-5-54, k = sqrt(Qc(b + 20)/rho20 · ln((b + Tf)/(b + Ti))); its own tables end at 90 °C, so k at 105 °C is
the same formula with a hotter start. Opening times: table fuse_gates, recalled; the shop's `fuse_gates` replace it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from buildspec import show
from buildspec.calc import adiabatic, fuses
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import faults
from buildspec.rules import _faults, _sizing
from buildspec.rules._faults import Cut

SEVERITY = "error"
SOURCES = ("iec-60364-5-54", "fuse-gates", "relay-sheet")


def check(sized: Sized) -> Iterator[Finding]:
    worst: dict[str, Cut] = {}
    for cut in _faults.cuts(sized):
        opened, before = cut.opening, worst.get(cut.opening.thinnest)
        in_time = opened.within_s is not None and opened.within_s <= _faults.MOST_S
        burns = (opened.energy_a2s or 0.0) > opened.limit_a2s
        if in_time and burns and not overloaded(sized, cut) and energy(before) < energy(cut):
            worst[opened.thinnest] = cut
    for cut in worst.values():
        yield finding(sized, cut, energy(cut))


def energy(cut: Cut | None) -> float:
    return cut.opening.energy_a2s or 0.0 if cut is not None else 0.0


def overloaded(sized: Sized, cut: Cut) -> bool:
    """Is the conductor below the rating of the device to begin with? Other rules say so."""
    amp = sized.sizings[cut.opening.thinnest].ampacity
    needed = cut.site.device.rating_a * sized.build.practice.wire_margin
    return amp is not None and amp.corrected_a < needed


def finding(sized: Sized, cut: Cut, energy: float) -> Finding:
    thin = next(c for c in sized.build.circuits if c.key == cut.opening.thinnest)
    sizing = sized.sizings[thin.key]
    k = adiabatic.insulation_k(insulation_c=sized.build.practice.insulation_c)
    lets, stands = _sizing.apart(energy, cut.opening.limit_a2s, "A² s")
    message = (
        f"{show.both_sizes(sizing.conductor)} {_sizing.way(thin)} stands {stands} "
        f"(k = {show.plain(k, 1)}, IEC 60364-5-54); in a dead short of {show.amps(cut.opening.amps)} and more the "
        f"{_sizing.title(cut.site.device)} lets through {lets}{_faults.memory(cut.opening.recalled)}"
    )
    return Finding(_sizing.wire_path(thin, sizing), message, remedy(sized, cut, energy / k**2))


def remedy(sized: Sized, cut: Cut, area_2_mm4: float) -> str:
    """The next conductor, and the largest fuse that this one outlasts."""
    device, least = cut.site.device, math.sqrt(area_2_mm4)
    larger = next((c for c in sized.build.practice.sizes if c.area_mm2 >= least), None)
    words = [f"`{larger.name}`"] if larger is not None else []
    carries = _sizing.least_rating_a(sized, cut.site.circuit, cut.site.protection)
    smaller = [
        fuse.rating_a
        for fuse in fuses.fuses(device.family)
        if carries <= fuse.rating_a < device.rating_a and holds(sized, cut, fuse.rating_a)
    ]
    words += [f"a {show.amps(smaller[-1])} {device.family} fuse"] if smaller else []
    return ", or ".join(words) or "divide the load"


def holds(sized: Sized, cut: Cut, rating_a: float) -> bool:
    most = max(near.most_a for near in sized.faults[cut.site.circuit.key].near)
    energy = faults.let_through(
        sized.build, cut.site.device._replace(rating_a=rating_a), cut.opening.amps, most
    )
    return energy is not None and energy <= cut.opening.limit_a2s
