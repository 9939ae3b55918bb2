"""Floors, insulation and linings: which goes in before the wires, and which closes what must be tested first."""

from __future__ import annotations

from buildspec.model import Accessory, Resolved

UNDER, OVER = "under", "over"
LAYERS = {"deadening": UNDER, "insulation": UNDER, "floor": UNDER, "lining": OVER}
"""Layer of a part → in front of the wires or behind them, in the order in which they are laid; common practice,
no source."""


def of_phase(build: Resolved, phase: str) -> list[Accessory]:
    """What is laid in a phase, from the metal inwards; parts that state no layer are fitted by place."""
    order = list(LAYERS)
    found = [item for item in build.accessories.values() if LAYERS.get(layer(item)) == phase]
    return sorted(found, key=lambda item: order.index(layer(item)))


def layer(item: Accessory) -> str:
    return item.part.material.layer if item.part.material is not None else ""


def when(item: Accessory) -> str:
    """`in phase 9, after the tests`, or `` for what is fitted by place."""
    return {UNDER: "in phase 4, before the wires", OVER: "in phase 9, after the tests"}.get(
        LAYERS.get(layer(item), ""), ""
    )
