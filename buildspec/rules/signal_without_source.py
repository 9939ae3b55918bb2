"""The allowance of a vehicle signal has no document.

What
----
A signal with an `allowance` names the document and revision it is from under `source`; a survey or a test is
one.

Why
---
A figure that nobody can look up is a guess with a unit, and it loads an output of the vehicle.

Bad
---
    signals: {reverse: {at: bulkhead, kind: relay output, allowance: 0.5 A}}

Good
----
    signals: {reverse: {at: bulkhead, kind: relay output, allowance: 0.5 A, source: "data sheet DC-EL,
          revision 4"}}

Sources
-------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "warning"
SOURCES = ("common practice, no source",)


def check(sized: Sized) -> Iterator[Finding]:
    for signal in sized.build.signals.values():
        if signal.allowance_a is not None and signal.allowance_a > 0 and not signal.source.strip():
            yield Finding(
                (*signal.at, "allowance"),
                f"{show.amps(signal.allowance_a)} from signal `{signal.name}` is allowed by no document",
                "write `source:` with document and revision, or the test that was made",
            )
