"""A conductor carries less than its protective device lets through.

What
----
The ampacity of every conductor, corrected for the hottest place and the fullest run on its way, is at
least the rating of its protective device (times the practice's `wire_margin`), and at least its load. For the branches
between the items of an accessory that is the device of the whole circuit, however little each item draws.
Table: 33 CFR 183.425 Table 5 with its engine-space and bundle factors, as good practice.

Why
---
Until the device opens, the conductor carries what the device allows. A conductor that is thinner than
that is the fuse. The same size changes its worth on the way: 14 AWG in free air carries 35 A, and 17.9 A
among five loaded conductors in an engine bay.

Bad
---
accessories:
  pump: {at: engine-bay, fed_from: front.1, fuse: {rating: 20 A}, wire: 14 AWG}

Good
----
accessories:
  pump: {at: engine-bay, fed_from: front.1, fuse: {rating: 20 A}, wire: 12 AWG}

Sources
-------
33 CFR 183.425 Table 5 with notes 1 and 2; FAA AC 43.13-1B par. 11-48: the conductor carries more than
the device. A truck maker's and a wire maker's tables differ, so the table is named in every message.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import branches, show
from buildspec.findings import Finding, Path
from buildspec.model import Ampacity, Circuit, Device, Sized, Sizing
from buildspec.rules import _sizing
from buildspec.size import conductors

SEVERITY = "error"
SOURCES = ("33cfr183-table5", "33cfr183-table5-note1", "33cfr183-table5-note2", "faa-ac-43.13-1b-device")


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing in _sizing.circuits(sized):
        amp = sizing.ampacity
        if amp is None or circuit.kind == "bond":
            continue
        needed = conductors.needed_a(
            devices=before(sized, circuit), design_a=sizing.design_a, margin=sized.build.practice.wire_margin
        )
        if amp.corrected_a < needed:
            yield finding(sized, circuit, sizing, amp, needed)


def before(sized: Sized, circuit: Circuit) -> tuple[Device, ...]:
    """Devices that the conductor must outlast: its own; of branches, those of the load that they belong to.

    What stands upstream of a circuit without a device of its own is `unprotected-conductor`'s business.
    """
    own = sized.sizings[circuit.key].devices
    return _sizing.case(sized, circuit).guard if circuit.kind == "branch" else own


def finding(sized: Sized, circuit: Circuit, sizing: Sizing, amp: Ampacity, needed_a: float) -> Finding:
    carries, needed = _sizing.apart(amp.corrected_a, needed_a, "A")
    message = (
        f"{show.size(sizing.conductor)} carries {carries} {_sizing.way(circuit)} and must carry {needed} "
        f"({behind(sized, before(sized, circuit))}): {amp.base_a:g} A × {amp.place_factor:g} ({amp.environment}) × "
        f"{amp.bundle_factor:g} ({amp.loaded} loaded in {amp.run}); {amp.table}"
    )
    help = _sizing.conductor_help(sized, circuit, smaller_device(sized, circuit, amp))
    return Finding(place(circuit, sizing), message, help)


def behind(sized: Sized, devices: tuple[Device, ...]) -> str:
    """What asks for the ampacity."""
    if not devices:
        return "its load"
    largest = max(devices, key=lambda d: d.rating_a)
    margin = sized.build.practice.wire_margin
    return _sizing.title(largest) + (f" × {margin:g}" if margin != 1 else "")


def place(circuit: Circuit, sizing: Sizing) -> Path:
    """The size where it is written, else the rating, else the item."""
    if sizing.written or not sizing.devices:
        return _sizing.wire_path(circuit, sizing)
    largest = max(range(len(sizing.devices)), key=lambda n: sizing.devices[n].rating_a)
    protection = circuit.protections[largest]
    return _sizing.rating_path(protection) if protection.kind == "fuse" else protection.at


def smaller_device(sized: Sized, circuit: Circuit, amp: Ampacity) -> str:
    """A smaller rating that this conductor outlasts and that still carries the load, or a way out."""
    most = amp.corrected_a / sized.build.practice.wire_margin
    owner = branches.trunk(sized.build, circuit) if circuit.kind == "branch" else circuit
    for protection, device in zip(owner.protections, sized.sizings[owner.key].devices, strict=True):
        least = _sizing.least_rating_a(sized, owner, protection)
        fuse = _sizing.fitting_fuse(sized, owner, protection, device.family, most) if device.family else None
        if fuse is not None:
            return f"a {show.amps(fuse.rating_a)} {device.family} fuse suits the conductor that is there"
        if device.kind == "channel" and least <= most:
            return f"set the channel to {show.plain(int(most), 0)} A or less with `fuse: {{rating: …}}`"
    return "take fewer loaded conductors through that run or lay it round the engine space"
