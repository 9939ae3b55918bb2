"""A low-voltage disconnect opens on every short sag.

What
----
A disconnect states how long the voltage stays low before it opens.

Why
---
A compressor that starts, or a starter motor, lowers the voltage for a moment. Without a delay that moment
counts as an empty battery, and what is fed goes dead.

Bad
---
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed,
          cut_off: {opens_at: 12.2 V, closes_at: 13.4 V}}}

Good
----
    blocks: {rear: {part: block-6-blade, fed_from: house, at: bed,
          cut_off: {opens_at: 12.2 V, closes_at: 13.4 V, delay: 60 s}}}

Sources
-------
Common practice, no source; one fleet opens after 30 s.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.energy import cut_offs
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for one in cut_offs.disconnects(sized):
        if one.trait.delay_s <= 0:
            yield Finding(
                one.at,
                f"`{one.name}` opens at once below {show.volts(one.trait.opens_v)}: a motor that starts on "
                f"`{one.battery.name}` switches it off",
                "set a delay, such as `delay: 60 s`",
            )
