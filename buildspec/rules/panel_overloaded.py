"""A panel's channels together, with every reserve populated, draw more than the panel carries.

What
----
The worst case of everything on a panel, its own electronics and every reserve at what it allows included,
is at most the panel's total.

Why
---
Each channel may be within its limit and the bar behind them still too hot. Reserves count now, because
nobody will do this sum again when the owner buys the lamp.

Bad
---
panels:
  main: {fed_from: house, panel: {kind: solid-state, channels: 3, channel_limit: 20 A, total: 45 A}}

Good
----
panels:
  main: {fed_from: house, panel: {kind: solid-state, channels: 3, channel_limit: 20 A, total: 60 A}}

Sources
-------
The panel maker's total; a bulletin for one vehicle gives 45 A for three circuits of up to 20 A.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.rules import _sizing

SEVERITY = "error"
SOURCES = ("bus-bar-bulletin",)


def check(sized: Sized) -> Iterator[Finding]:
    for name, panel in sized.build.panels.items():
        trait = panel.part.panel
        if trait is None or sized.loads_a[name] <= trait.total_a:
            continue
        total, limit = _sizing.apart(sized.loads_a[name], trait.total_a, "A")
        reserved = _sizing.reserved_a(sized, name)
        later = f", {show.amps(reserved)} of it reserves" if reserved else ""
        message = (
            f"`{name}` carries {total}{later}, and its total is {limit}: {_sizing.sum_words(sized, name)}"
        )
        over = show.plain(sized.loads_a[name] - trait.total_a, 2)
        largest = _sizing.contributors(sized, name)[0][1]
        help = (
            f"move {over} A or more elsewhere, {largest} first: onto a relay with `fed_from` of its "
            "own, or another panel"
        )
        yield Finding(panel.at, message, help)
