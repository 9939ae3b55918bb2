"""More is drawn from a vehicle signal than its data allow.

What
----
The coils and inputs on a signal together stay within its `allowance`; without one, within the practice's
`signal_allowance`, which is 0 A.

Why
---
A signal is not a power source: two bulbs are all that a gearbox switch likes, and 70 W more shortens its
life.

Bad
---
    signals: {reverse: {at: bulkhead, kind: relay output}}

Good
----
    signals: {reverse: {at: bulkhead, kind: relay output, allowance: 0.5 A, source: "data sheet DC-EL,
          revision 4"}}

Sources
-------
The vehicle's data; without them 0 A, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    for signal in build.signals.values():
        listeners = [c for c in build.circuits if c.kind == "signal" and c.source == signal.name]
        drawn = {c.item: sized.sizings[c.key].design_a for c in listeners}
        total = sum(drawn.values())
        limit = build.practice.allow_signal_a if signal.allowance_a is None else signal.allowance_a
        if drawn and total > limit:
            source = (
                "practice, nothing written" if signal.allowance_a is None else signal.source or "as written"
            )
            parts = " + ".join(f"`{name}` {show.amps(amps)}" for name, amps in drawn.items())
            yield Finding(
                (*signal.at, "allowance") if signal.allowance_a is not None else signal.at,
                f"{parts} = {show.amps(total)} from signal `{signal.name}`; {show.amps(limit)} allowed ({source})",
                "write the allowance with its document, use a coil that draws less, or another signal",
            )
