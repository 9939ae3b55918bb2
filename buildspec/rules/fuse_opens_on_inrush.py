"""A fuse may open when its load is switched on.

What
----
With the inrush that a load states (`inrush: {times, for}`), one load at a time and everything else at its worst
current, no fuse on its way is asked for more than it carries for that time by its fastest gate; no electronic
channel for more than its `trips`. A device that the compiler chooses is chosen so.

Why
---
Halogen lamps start at ten times their current, motors and inverters at three to six. A fuse that goes now and then
is replaced by the next size that somebody finds, and then the conductor is no longer protected.

Bad
---
accessories:
  lamp:
    at: grille
    fed_from: rear.1
    fuse: {rating: 10 A}
    electrical: {model: resistive, power: 100 W, inrush: {times: 12, for: 20 ms}}

Good
----
accessories:
  lamp:
    at: grille
    fed_from: rear.1
    fuse: {rating: 25 A}
    electrical: {model: resistive, power: 100 W, inrush: {times: 12, for: 20 ms}}

Sources
-------
Opening times by family: table fuse_gates, recalled; the shop's `fuse_gates` take their place. Channels without
stated `trips`: 150 % within 100 ms, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fuses, opening
from buildspec.findings import Finding
from buildspec.model import Device, Sized
from buildspec.network import faults, surges
from buildspec.network.surges import Surge
from buildspec.rules import _faults, _sizing
from buildspec.rules._faults import Site

SEVERITY = "warning"
SOURCES = ("fuse-gates", "common practice, no source: 150 % within 100 ms for a channel")


def check(sized: Sized) -> Iterator[Finding]:
    amps = {key: sizing.design_a for key, sizing in sized.sizings.items()}
    for circuit, _, protection, device in _sizing.devices(sized):
        if circuit.kind == "link":
            continue
        opened = [
            (s, time)
            for s in surges.of(sized.build, circuit, amps)
            if (time := opens_s(sized, device, s)) is not None
        ]
        if opened:
            surge, time = max(opened, key=lambda one: one[0].for_s / max(one[1], 1e-9))
            yield finding(sized, Site(circuit, protection, device), surge, time)


def opens_s(sized: Sized, device: Device, surge: Surge) -> float | None:
    """When a device may open in a surge [s]; None where it is sure to carry it."""
    multiple = surge.amps / device.rating_a
    if device.kind == "channel":
        time = faults.within_s(sized.build, device, surge.amps)
        return time if time is not None and time <= surge.for_s else None
    own = faults.curve(sized.build, device.family)
    if opening.holds(own, multiple=multiple, for_s=surge.for_s) is not False:
        return None
    return opening.opening_s(own, multiple=multiple)[0]


def finding(sized: Sized, site: Site, surge: Surge, time: float) -> Finding:
    stated = site.device.kind == "channel" and panel_states(sized, site.device)
    rests = "" if stated else _faults.RECALLED
    message = (
        f"when `{surge.item}` is switched on the {_sizing.title(site.device)} carries {show.amps(surge.amps)} for "
        f"{_faults.seconds(surge.for_s)}; it may open after {_faults.seconds(time)}{rests}"
    )
    return Finding(_sizing.rating_path(site.protection), message, remedy(sized, site, surge))


def panel_states(sized: Sized, device: Device) -> bool:
    panel = sized.build.panels[device.host].part.panel
    return panel is not None and panel.trips.stated


def remedy(sized: Sized, site: Site, surge: Surge) -> str:
    if site.device.kind == "channel":
        return "a channel with a higher limit, or a relay with a fuse of its own"
    least = surges.least_rating_a(faults.curve(sized.build, site.device.family), [surge])
    bigger = fuses.smallest(site.device.family, at_least_a=least)
    if bigger is None:
        return "a slower family, or a load that starts softly"
    return f"a {show.amps(bigger.rating_a)} {bigger.family} fuse with a conductor for it, or a slower family"
