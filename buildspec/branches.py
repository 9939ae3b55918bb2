"""The conductors between the items of one load, as a circuit of their own behind the load's.

A `branch` circuit has one link an item (`star`) or one between each item and the next (`chain`). Its feeds and
returns are links in that order, each feed with the return of the same place; without returns each item ends at
the body. What feeds it is the load's own circuit, its trunk, which ends at the common point or at the first item.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec.model import Circuit, Device, Resolved, Sized, Terminal, Wire


class Joint(NamedTuple):
    """Conductors joined for good, one joint a pole."""

    terminal: Terminal
    conductors: int
    """Those of the build; the lead of an item comes on top where it is in a chain."""
    lead: bool


def of(build: Resolved, circuit: Circuit) -> Circuit | None:
    """The branches of a load; None where it is one item, or where nobody says how the items are joined."""
    return next((c for c in build.circuits if c.kind == "branch" and c.source == circuit.key), None)


def trunk(build: Resolved, branch: Circuit) -> Circuit:
    """The load whose items a branch circuit joins."""
    return next(c for c in build.circuits if c.key == branch.source)


def items(branch: Circuit) -> tuple[Terminal, ...]:
    """Positive terminal of each item, in order."""
    first = (branch.feeds[0].start,) if branch.form == "chain" else ()
    return (*first, *(wire.end for wire in branch.feeds))


def carried(branch: Circuit) -> tuple[int, ...]:
    """Number of items whose current each link carries."""
    count = len(branch.feeds)
    return tuple(range(count, 0, -1)) if branch.form == "chain" else (1,) * count


def loop_m(circuit: Circuit) -> float:
    """Length [m] that loses, at the current of the circuit, what is lost on its way out and back.

    Of a star the longest link; of a chain each link by its share of what the first one carries, so that the drop
    is that at the last item. Everything else is in series.
    """
    if circuit.form != "chain":
        return way_m(circuit)
    shares = carried(circuit)
    return sum(link_m(circuit, n) * share / shares[0] for n, share in enumerate(shares))


def way(circuit: Circuit) -> tuple[tuple[Wire, ...], tuple[Wire, ...]]:
    """Conductors out to the farthest item, and back from it: one link of a star, everything of any other circuit."""
    if circuit.form != "star":
        return circuit.feeds, circuit.returns
    longest = max(range(len(circuit.feeds)), key=lambda n: (link_m(circuit, n), -n))
    return circuit.feeds[longest : longest + 1], circuit.returns[longest : longest + 1]


def way_m(circuit: Circuit) -> float:
    """Length of conductor out to the farthest item and back [m]."""
    return sum(wire.cut_m for part in way(circuit) for wire in part)


def link_m(branch: Circuit, number: int) -> float:
    """Length of one link out and back [m]."""
    back = branch.returns[number].cut_m if branch.returns else 0.0
    return branch.feeds[number].cut_m + back


def farthest(branch: Circuit) -> Terminal:
    """Positive terminal of the item at the end of the longest way."""
    return way(branch)[0][-1].end


def joints(branch: Circuit) -> Iterator[Joint]:
    """Where more than two ends meet: the common point of a star, every item of a chain but the last."""
    poles = ("+", "−") if branch.returns else ("+",)
    star = branch.form == "star"
    places = (branch.feeds[0].start,) if star else items(branch)[:-1]
    for terminal in places:
        for pin in poles:
            yield Joint(terminal._replace(pin=pin), len(branch.feeds) + 1 if star else 2, not star)


def devices(sized: Sized, circuit: Circuit) -> tuple[Device, ...]:
    """Devices of a circuit; of branches those of the load that they belong to."""
    owner = trunk(sized.build, circuit) if circuit.kind == "branch" else circuit
    return sized.sizings[owner.key].devices
