"""What a meter should show when one circuit is switched on alone, and what is still a pass."""

from __future__ import annotations

from typing import NamedTuple

from buildspec import branches
from buildspec.model import Circuit, Sized
from buildspec.size import currents

OVER_SHARE, OVER_V = 0.2, 0.05
"""A reading may be this much above the prediction, the larger of the two; common practice, no source."""


class Prediction(NamedTuple):
    """At the test current: expected drop, the most that passes, and the limit of the design."""

    current_a: float
    drop_v: float
    pass_v: float
    limit_v: float


def drop(sized: Sized, circuit: Circuit, current_a: float) -> Prediction:
    """Drop from the battery's posts to the device at a test current, everything else off.

    Where branches join several items, to the worst of them.
    """
    expected = current_a * path_ohm(sized, circuit)
    limit = sized.sizings[circuit.key].drop_limit_v
    passes = min(max(expected * (1 + OVER_SHARE), expected + OVER_V), limit)
    return Prediction(current_a, expected, passes, limit)


def test_current_a(sized: Sized, circuit: Circuit) -> float:
    """What a circuit usually draws [A]."""
    if circuit.load is not None:
        return currents.typical(circuit.load, sized.build.practice) * circuit.quantity
    return sized.sizings[circuit.key].design_a


def path_ohm(sized: Sized, circuit: Circuit) -> float:
    """The circuit's own loop, the feeders before it, the battery's negative if it returns that way [ohm].

    Branches carry a part of its current and count by that part.
    """
    build = sized.build
    battery, before = upstream(sized, circuit.source)
    own = sized.sizings[circuit.key].loop_ohm
    branch = branches.of(build, circuit)
    if branch is not None:
        own += sized.sizings[branch.key].loop_ohm * branches.carried(branch)[0] / circuit.quantity
    ground = build.grounds.get(circuit.ground)
    by_body = circuit.body_return or (ground is not None and not ground.post_of)
    bond = next((c for c in build.circuits if c.kind == "bond" and c.source == battery), None)
    return own + before + (sized.sizings[bond.key].loop_ohm if bond is not None and by_body else 0.0)


def upstream(sized: Sized, node: str) -> tuple[str, float]:
    """(battery, resistance of the feeders) in front of a node; of two feeders the worse one [ohm]."""
    feeders = [c for c in sized.build.circuits if c.kind == "feeder" and c.target == node]
    if node in sized.build.batteries or not feeders:
        return node, 0.0
    ways = []
    for feeder in feeders:
        battery, before = upstream(sized, feeder.source)
        ways.append((before + sized.sizings[feeder.key].loop_ohm, battery))
    ohm, battery = max(ways)
    return battery, ohm
