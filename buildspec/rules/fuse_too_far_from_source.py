"""The protective device sits too far along the wire from its source.

What
----
Measured along the wire, a device is within 178 mm (7 in) of its source; within 1016 mm (40 in) where the
wire is sheathed all the way and does not come straight off a battery post; within 1829 mm (72 in) where
it comes off a post and is sheathed all the way. The practice may set other lengths.

Why
---
The piece between post and fuse is protected by nothing. Each centimetre of it is a centimetre that may
chafe.

Bad
---
panels:
  main: {fed_from: house, module_at: bulkhead, fuse: {lead: 900 mm}}

Good
----
panels:
  main: {fed_from: house, module_at: bulkhead, fuse: {lead: 150 mm}}

Sources
-------
33 CFR 183.455(b); ABYC E-11 as a marine surveyor quotes it.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Protection, Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("33cfr183-455", "abyc-e11-battery-device")


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for circuit, _, protection, device in _sizing.devices(sized):
        limit_m = longest_m(sized, protection)
        if protection.lead_m > limit_m:
            lead, limit = _sizing.short_lengths(protection.lead_m, limit_m, practice)
            message = (
                f"{lead} of {'sheathed' if protection.sheathed else 'unsheathed'} wire between "
                f"`{protection.source}` and "
                f"the {_sizing.title(device)} of {_sizing.name(circuit)}; limit {limit} "
                f"({practice.sources['unprotected']})"
            )
            yield Finding(_sizing.fuse_path(protection, "lead"), message, ways_out(sized, protection))


def longest_m(sized: Sized, protection: Protection) -> float:
    """Longest wire that may be without protection [m]."""
    practice = sized.build.practice
    if not protection.sheathed:
        return practice.unprotected_m
    on_post = protection.source in sized.build.batteries
    return practice.unprotected_battery_sheathed_m if on_post else practice.unprotected_sheathed_m


def ways_out(sized: Sized, protection: Protection) -> str:
    """A nearer place, or a sheath where that is enough."""
    practice, sheathed = sized.build.practice, longest_m(sized, protection._replace(sheathed=True))
    nearer = (
        f"move it to within {_sizing.within(longest_m(sized, protection), practice)} of `{protection.source}`"
    )
    if not protection.sheathed and protection.lead_m <= sheathed:
        return f"{nearer}, or sheathe that wire all the way and write `sheathed: true`"
    return nearer
