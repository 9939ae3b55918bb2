"""Something besides the declared devices joins the start side to the house side.

What
----
No conductor, feeder or switch that can be left closed leads from a start battery to a house battery while the
key is off. Every way is searched over feeders, written conductors and manual switches; the finding spells it.
A written conductor with `open:` (the fuse that must stay out) is no way. Chargers, momentary links and
voltage relays are declared and have rules of their own; what else conducts while cranking conducts while
parked too.

Why
---
One forgotten parallel conductor defeats the whole isolation: added loads then empty both batteries, and the
engine does not start. A factory stud fuse left in the position for an auxiliary battery does just that.

Bad
---
    conductors:
      stud-70: {from: start, to: house, existing: true}

Good
----
    conductors:
      stud-70: {from: start, to: house, existing: true, open: fuse 70 stays out, plug in its place}

Sources
-------
The search is arithmetic on a graph; the case is a body builder's instruction for an auxiliary battery.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding
from buildspec.model import Sized
from buildspec.network import graph, isolation

SEVERITY = "error"
SOURCES = ("arithmetic",)
HELP = {
    "tie": "take it out, or leave it open and say how under `open`",
    "feeder": "feed it from one side only",
    "link": "use a charger or a relay that opens when the engine stops, or accept the risk with a waiver",
}


def check(sized: Sized) -> Iterator[Finding]:
    for way in isolation.joins(sized.build):
        edge = isolation.culprit(way)
        others = tuple((step.edge.at, "on the same way") for step in way if step.edge is not edge)
        said = f"`{way[0].start}` and `{way[-1].end}` are joined: {graph.spelled(way)}"
        yield Finding(edge.at, said, HELP[edge.kind], others, state="key off")
