"""The supply sheet: what the layout engine placed, drawn with the same strands as every sheet."""

from __future__ import annotations

from buildspec.drawings import device_cards, load_words, loads, source_cards, supply_words, units
from buildspec.drawings.graph import Strip, Thing
from buildspec.drawings.marks import Box, Group
from buildspec.drawings.strands import Scene
from buildspec.drawings.supply_bands import bands
from buildspec.drawings.supply_foot import foot
from buildspec.drawings.supply_spread import Spread, body_of, box_of, inside, placed, port, ports, spread
from buildspec.drawings.supply_wires import wires
from buildspec.drawings.units import Leaf


def draw(scene: Scene, leaf: Leaf, area: Box) -> tuple[Group, ...]:
    """One supply page."""
    inner = inside(scene, area, first=leaf.first)
    at = spread(scene, *placed(scene, leaf, inner), inner)
    made: list[Group] = [*bands(scene, at)]
    made += sources(scene, at, leaf)
    made += targets(scene, at)
    made += wires(scene, at)
    return (*made, *(foot(scene, area) if leaf.first else ()))


def sources(scene: Scene, at: Spread, leaf: Leaf) -> tuple[Group, ...]:
    made: list[Group] = []
    charged = units.charged(scene.sized.build)
    for thing in at.graph.things:
        y = port(at, thing)
        if thing.kind == "battery":
            made += source_cards.battery(
                scene, thing.name, body_of(at, thing), y, thing.circuit, new=thing.name in leaf.new
            )
        elif thing.kind == "alternator":
            made += source_cards.alternator(scene, body_of(at, thing), y, charged)
        elif thing.kind in ("signal", "node"):
            made += source_cards.signal(scene, thing.name, body_of(at, thing), y)
    return tuple(made)


def targets(scene: Scene, at: Spread) -> tuple[Group, ...]:
    """Devices in column 2, flags and loads in column 3."""
    made: list[Group] = []
    for thing in at.graph.things:
        if thing.kind == "device":
            mine = list(
                dict.fromkeys(s.circuit for s in at.graph.strips if s.circuit and s.target == thing.key)
            )
            labelled = [(pin(s), y) for s, y in ports(at, thing)]
            item = device_cards.found(scene.sized.build, thing.name)
            made += device_cards.device(scene, item, body_of(at, thing), labelled, mine)
        elif thing.kind == "load" and thing.circuit:
            made += device_cards.direct_load(scene, thing.circuit, box_of(at, thing), port(at, thing))
        elif thing.kind in ("flag", "more"):
            made.append(flag(scene, thing, box_of(at, thing)))
    return tuple(made)


def flag(scene: Scene, thing: Thing, box: Box) -> Group:
    """Reference to the sheet of a block or panel, or of a battery's own loads."""
    circuit = thing.circuit
    if circuit is None:
        head, below = supply_words.more_words(scene, thing.name)
        return loads.reference(scene, thing.key, head, below, box, anchor=f"more:{thing.name}")
    head, below = load_words.flag_words(scene, circuit)
    name = f"to-{circuit.target_designation}-{circuit.number}"
    return loads.reference(scene, name, head, below, box, circuit.number, anchor=f"to:{circuit.key}")


def pin(strip: Strip) -> str:
    """Terminal of a device at which a strip arrives."""
    wires = [piece.wire for piece in strip.pieces if piece.wire]
    if not wires:
        return ""
    return wires[-1].start.pin if strip.key.endswith(":2") else wires[-1].end.pin
