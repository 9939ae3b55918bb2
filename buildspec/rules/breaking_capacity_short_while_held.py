"""While a link between the batteries is held closed, a fuse cannot break what both of them can give.

What
----
With every momentary link held, both batteries feed a short. Where that is more than the fuses of a place can break,
although they can break what one battery gives, the place is pointed out.

Why
---
The link is closed for seconds, with somebody at the key, and a short in those very seconds is rare. It is not
impossible, and a fuse that cannot break the current goes on burning. A longer or thinner feeder, or a block with
fuses of a larger breaking capacity, takes the doubt away; a waiver states that it is accepted.

Bad
---
isolation:
  assist: {type: momentary-link, joins: [start, house], rating: 200 A, at: engine-bay, switch: main.8}
blocks:
  front: {part: block-12-blade, fed_from: house, at: engine-bay}

Good
----
waivers:
  - {rule: breaking-capacity-short-while-held, of: front, reason: held ten seconds by hand, by: shop lead,
     until: 2027-10-01}

Sources
-------
ABYC E-11 table V-A; public data on fuse families.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Device, Protection, Sized
from buildspec.network import faults
from buildspec.network.build import Laid
from buildspec.rules import _sizing

SEVERITY = "note"
SOURCES = ("abyc-e11-table-va", "off-grid-fuse-article")


def check(sized: Sized) -> Iterator[Finding]:
    found = faults.while_held(Laid(sized.build, sized.sizings))
    worst: dict[str, tuple[float, Device, Protection]] = {}
    for _, _, protection, device in _sizing.devices(sized):
        near = found.get(device.key)
        if near is None or device.breaking_a is None or device.breaking_a < (device.prospective_a or 0.0):
            continue
        amps = near.most_a
        if amps > device.breaking_a and amps > worst.get(protection.source, (0.0,))[0]:
            worst[protection.source] = (amps, device, protection)
    for source, (amps, device, protection) in worst.items():
        yield finding(sized, source, amps, device, protection)


def finding(sized: Sized, source: str, amps: float, device: Device, protection: Protection) -> Finding:
    build = sized.build
    host = build.blocks.get(source) or build.panels.get(source)
    breaks, flows = _sizing.apart(device.breaking_a or 0.0, amps, "A")
    held = " and ".join(f"`{w.name}`" for w in build.isolation.values() if w.type == "momentary-link")
    return Finding(
        host.at if host is not None else protection.at,
        f"the {device.family} fuses at `{source}` break {breaks}; {flows} may flow there from both batteries while "
        f"{held} is held",
        f"a longer or thinner feed, fuses of a larger breaking capacity than {show.plain(amps, 0)} A, or a waiver "
        "that accepts the seconds for which it is held",
    )
