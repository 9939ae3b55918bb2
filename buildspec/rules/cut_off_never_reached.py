"""A low-voltage disconnect opens only after everything behind it has stopped by itself.

What
----
A disconnect opens above the cut-out of at least one device that it feeds, and above the voltage at which the
battery's own manager opens.

Why
---
What has stopped already cannot be disconnected. Somebody trusts a setting that never acts, and the devices'
own cut-outs, often lower or higher than wanted, decide.

Bad
---
    accessories: {fridge: {at: bed, fed_from: house, electrical: {model: motor, worst: 5 A, cut_out: 11.8 V},
          cut_off: {opens_at: 11.5 V, closes_at: 13 V, delay: 60 s}}}

Good
----
    accessories: {fridge: {at: bed, fed_from: house, electrical: {model: motor, worst: 5 A, cut_out: 10.4 V},
          cut_off: {opens_at: 12.3 V, closes_at: 13.4 V, delay: 60 s}}}

Sources
-------
Arithmetic; cut-outs and settings are those of the makers' sheets.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.energy import cut_offs
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("arithmetic",)


def check(sized: Sized) -> Iterator[Finding]:
    for one in cut_offs.disconnects(sized):
        opens, manager = one.trait.opens_v, one.battery.part.cut_off
        if manager is not None and opens + cut_offs.drop_v(sized, one) <= manager.opens_v:
            what = f"the manager of `{one.battery.name}` opens at {show.volts(manager.opens_v)} before it"
        elif stopped := earlier(sized, one):
            what = f"{stopped} before it"
        else:
            continue
        yield Finding(
            (*one.at, "opens_at"),
            f"`{one.name}` opens at {show.volts(opens)} and never acts: {what}",
            "set it higher, or leave it out",
        )


def earlier(sized: Sized, one: cut_offs.Disconnect) -> str:
    """The devices' own cut-outs, where every device has one that comes first; else ``."""
    loads = [c for c in cut_offs.loads(sized, one) if c.kind == "load"]
    outs = {c.item: c.load.cut_out_v for c in loads if c.load is not None and c.load.cut_out_v is not None}
    if not loads or len(outs) < len({c.item for c in loads}) or min(outs.values()) < one.trait.opens_v:
        return ""
    return ", ".join(f"`{name}` stops at {show.volts(volts)}" for name, volts in outs.items())
