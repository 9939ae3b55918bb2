"""A dead short at the far end of a circuit does not open its device in time.

What
----
A dead short is put at the far end of every circuit, and at both ends of what joins two batteries. The current
is that of the whole network at its least: conductors at their rated temperature, contacts, fuses and body with
their resistance, battery cold and low, engine stopped, links open (a link's own short with the link closed).
For each battery that feeds it some device on the way opens, by its slowest gate, within 5 s; later only as long as
the thinnest conductor stands the energy without losing any heat, which errs to the safe side the more the longer it
takes. (A device that opens in time and lets through too much: see `conductor-burns-before-fuse`.)

Why
---
A long thin run behind a large fuse limits the fault to a current that the fuse carries for minutes, and the
loom is the heater. A larger fuse makes it worse.

Bad
---
accessories:
  lamp: {at: load-bed, fed_from: rear.1, fuse: {rating: 40 A}, wire: 1 mm2}

Good
----
accessories:
  lamp: {at: load-bed, fed_from: rear.1, fuse: {rating: 5 A}, wire: 1 mm2}

Sources
-------
IEC 60364-5-54: heat in a short without loss is valid to about 5 s. Opening times by family: table fuse_gates,
ISO 8820-3, -4 and -5 recalled; the shop's `fuse_gates` take their place. Electronic channels by their `trips`.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import branches, show
from buildspec.calc import copper, fuses, opening
from buildspec.findings import Finding
from buildspec.model import Conductor, Sized
from buildspec.network import faults
from buildspec.network.build import rest_v
from buildspec.rules import _faults, _sizing
from buildspec.rules._faults import Cut

SEVERITY = "error"
SOURCES = ("iec-60364-5-54", "fuse-gates", "relay-sheet")


def check(sized: Sized) -> Iterator[Finding]:
    told: set[tuple[str, str]] = set()
    for cut in _faults.cuts(sized):
        if late(cut) and (cut.circuit.key, cut.opening.device) not in told:
            told.add((cut.circuit.key, cut.opening.device))
            yield finding(sized, cut)


def late(cut: Cut) -> bool:
    """Does the device open too late, or not for certain?"""
    opened = cut.opening
    if opened.within_s is None or opened.energy_a2s is None:
        return True
    if opened.within_s <= _faults.MOST_S:
        return False
    return opened.energy_a2s > opened.limit_a2s


def finding(sized: Sized, cut: Cut) -> Finding:
    device, needed = cut.site.device, needed_a(sized, cut)
    opens = (
        "which need not open it at all"
        if cut.opening.within_s is None
        else f"which opens it within {_faults.seconds(cut.opening.within_s)}"
    )
    draws = _sizing.apart(cut.opening.amps, needed, "A") if needed else (show.amps(cut.opening.amps), "")
    limit = f"; {draws[1]} would within {_faults.MOST_S:g} s" if needed else ""
    message = (
        f"a dead short at the end of {_sizing.name(cut.circuit)} draws {draws[0]} through the "
        f"{_sizing.title(device)}, {opens}{limit}{_faults.memory(cut.opening.recalled)}"
    )
    return Finding(_sizing.rating_path(cut.site.protection), message, remedy(sized, cut, needed))


def needed_a(sized: Sized, cut: Cut) -> float | None:
    """Current at which the device is sure to open in time [A]."""
    device = cut.site.device
    if device.kind == "channel":
        panel = sized.build.panels[device.host].part.panel
        return panel.trips.times * device.rating_a if panel is not None else None
    times = opening.least_multiple(faults.curve(sized.build, device.family), within_s=_faults.MOST_S)
    return times * device.rating_a if times is not None else None


def remedy(sized: Sized, cut: Cut, needed: float | None) -> str:
    """A smaller fuse, a larger conductor, or the longest run that still opens it."""
    if needed is None:
        return "a fuse of a family whose opening times are known"
    parts = [
        smaller_fuse(sized, cut, needed),
        larger_conductor(sized, cut, needed),
        shorter(sized, cut, needed),
    ]
    return (
        ", or ".join(part for part in parts if part)
        or "feed it from a stronger source nearby, behind a smaller fuse"
    )


def smaller_fuse(sized: Sized, cut: Cut, needed: float) -> str:
    device = cut.site.device
    if device.kind != "fuse":
        return ""
    least = _sizing.least_rating_a(sized, cut.site.circuit, cut.site.protection)
    most = cut.opening.amps * device.rating_a / needed
    fits = [f.rating_a for f in fuses.fuses(device.family) if least <= f.rating_a <= most]
    return f"a {show.amps(fits[-1])} {device.family} fuse" if fits else ""


def spare_ohm(sized: Sized, cut: Cut, needed: float) -> float:
    """What the circuit's own conductor may have at most for the device to open in time [ohm]."""
    volts = rest_v(sized.build, sized.build.batteries[cut.opening.battery])
    return conductor_ohm(sized, cut, sized.sizings[cut.circuit.key].conductor) - (
        volts / cut.opening.amps - volts / needed
    )


def conductor_ohm(sized: Sized, cut: Cut, conductor: Conductor) -> float:
    """Resistance of a circuit's conductors out and back, hot [ohm]."""
    return length_m(cut) * hot_ohm_per_m(sized, conductor)


def hot_ohm_per_m(sized: Sized, conductor: Conductor) -> float:
    return copper.resistance_at(r20_ohm=conductor.r20_ohm_per_m, temp_c=sized.build.practice.insulation_c)


def length_m(cut: Cut) -> float:
    return branches.way_m(cut.circuit)


def larger_conductor(sized: Sized, cut: Cut, needed: float) -> str:
    spare, now = spare_ohm(sized, cut, needed), sized.sizings[cut.circuit.key].conductor
    for conductor in sized.build.practice.sizes:
        if conductor.area_mm2 > now.area_mm2 and conductor_ohm(sized, cut, conductor) <= spare:
            return f"`{conductor.name}`"
    return ""


def shorter(sized: Sized, cut: Cut, needed: float) -> str:
    spare = spare_ohm(sized, cut, needed)
    if spare <= 0:
        return ""
    conductor = sized.sizings[cut.circuit.key].conductor
    most = spare / hot_ohm_per_m(sized, conductor)
    both = show.length(most, sized.build.practice), show.length(length_m(cut), sized.build.practice)
    return f"at most {both[0]} of {show.size(conductor)} out and back instead of {both[1]}"
