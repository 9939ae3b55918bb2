"""A page of the supply as boxes and what joins them: what the layout engine sees.

Columns: 0 sources, 1 protection at the source, 2 what joins two sources (or a contact), 3 what is fed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from buildspec.drawings import device_cards, labels, load_words, rows, strands, supply_words
from buildspec.drawings.pieces import Piece, pieces
from buildspec.drawings.placement import Edge, Node
from buildspec.drawings.strands import Scene
from buildspec.drawings.units import Leaf, Unit, charged, sources
from buildspec.model import Circuit

SOURCE_WIDTH = 430.0


STRIP = 96.0


STRIP_GAP = 26.0
"""Height of a strip, and the least distance between two boxes of a column."""


OWN = 46.0
"""For the vehicle's own negative."""


DEVICE_WIDTH = 520.0


TARGET_WIDTH = 600.0


LEAST_DEVICE, LEAST_TARGET = 420.0, 400.0
"""Where a page is narrow; heights are reckoned for these."""


class Strip(NamedTuple):
    """A row of pieces in column 1, from a source to something in column 2."""

    key: str
    source: str
    target: str
    circuit: Circuit | None
    """None where it only leads to another sheet."""
    pieces: tuple[Piece, ...]
    numbered: bool


class Thing(NamedTuple):
    """What stands in column 0, 2 or 3."""

    key: str
    kind: str
    """`battery`, `alternator`, `signal`, `node`; `device`, `tie`, `pass`, `contact`; `flag`, `load`, `more`."""
    rank: int
    name: str
    height: float
    circuit: Circuit | None = None
    pieces: tuple[Piece, ...] = ()
    head: float = 0.0
    """Of the height, for the name of the place."""
    foot: float = 0.0
    """Of the height, for a return that hangs down."""


class Graph(NamedTuple):
    things: tuple[Thing, ...]
    strips: tuple[Strip, ...]
    links: tuple[tuple[str, str], ...]
    """Column 2 → column 3, by key."""


def graph(scene: Scene, page: Leaf) -> Graph:
    """Everything of one page."""
    build = scene.sized.build
    things: list[Thing] = []
    if page.alternator:
        things.append(alternator_thing(scene))
    for name in sources(build, page.units):
        things.append(source_thing(scene, name, page.bonds))
    made = [unit_parts(scene, unit) for unit in page.units if unit.kind != "source"]
    return Graph(
        (*things, *(t for part in made for t in part.things)),
        tuple(s for part in made for s in part.strips),
        tuple(pair for part in made for pair in part.links),
    )


def alternator_thing(scene: Scene) -> Thing:
    head = supply_words.headroom(supply_words.alternator_place(scene), SOURCE_WIDTH)
    return Thing("alternator", "alternator", 0, "alternator", 150 + head, head=head)


def source_thing(scene: Scene, name: str, bonds: Sequence[Circuit]) -> Thing:
    build = scene.sized.build
    head = supply_words.headroom(labels.place(build, labels.node_place(build, name)), SOURCE_WIDTH)
    if name in build.batteries:
        bond = next((c for c in bonds if c.source == name), None)
        foot = supply_words.foot(scene, bond, SOURCE_WIDTH) if bond else OWN
        card = supply_words.battery_height(scene, name, SOURCE_WIDTH)
        return Thing(name, "battery", 0, name, head + card + foot, bond, head=head, foot=foot)
    kind = "signal" if name in build.signals else "node"
    high = supply_words.signal_height(scene, name, SOURCE_WIDTH)
    return Thing(name, kind, 0, name, high + head, head=head)


def unit_parts(scene: Scene, unit: Unit) -> Graph:
    if unit.kind == "device":
        return device_parts(scene, unit)
    if unit.kind == "more":
        key = f"more-{unit.name}"
        high = load_words.flag_height(*supply_words.more_words(scene, unit.name), LEAST_TARGET)
        return Graph(
            (Thing(f"pass-{key}", "pass", 2, unit.name, 40), Thing(key, "more", 3, unit.name, high)),
            (Strip(key, unit.name, f"pass-{key}", None, (), False),),
            ((f"pass-{key}", key),),
        )
    circuit = unit.circuits[0]
    batteries = scene.sized.build.batteries
    if unit.kind == "tie" and circuit.source in batteries and circuit.target in batteries:
        return tie_parts(circuit, supply_words.tie_height(circuit, LEAST_DEVICE))
    return chain_parts(scene, circuit)


def device_parts(scene: Scene, unit: Unit) -> Graph:
    """Charger or link: every conductor comes from a source at its left."""
    strips: list[Strip] = []
    for circuit in unit.circuits:
        if circuit.kind == "link":
            first, second = halves(pieces(circuit))
            target = circuit.target
            strips.append(Strip(f"{circuit.key}:1", circuit.source, unit.name, circuit, first, True))
            strips.append(Strip(f"{circuit.key}:2", target, unit.name, circuit, second, False))
        else:
            strips.append(Strip(circuit.key, circuit.source, unit.name, circuit, pieces(circuit), True))
    back = next((c for c in unit.circuits if c.returns), None)
    foot = supply_words.foot(scene, back, LEAST_DEVICE) if back else 0.0
    build = scene.sized.build
    head = supply_words.headroom(labels.place(build, labels.node_place(build, unit.name)), LEAST_DEVICE)
    height = (STRIP + STRIP_GAP) * (len(strips) - 1) + 60 + head + foot
    thing = Thing(unit.name, "device", 2, unit.name, height, unit.circuits[0], head=head, foot=foot)
    return Graph((thing,), tuple(strips), ())


def with_words(scene: Scene, found: Graph, width: float) -> Graph:
    """The same page with devices as high as their words need at this width."""
    made: list[Thing] = []
    for thing in found.things:
        if thing.kind == "device":
            mine = [s for s in found.strips if s.target == thing.key]
            item = device_cards.found(scene.sized.build, thing.name)
            card = device_cards.device_height(scene, item, len(mine), width)
            thing = thing._replace(height=max(thing.height, card + thing.head + thing.foot))
        made.append(thing)
    return found._replace(things=tuple(made))


def halves(found: tuple[Piece, ...]) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Pieces up to the link's contact, and those from the other end up to it."""
    middle = next((n for n, piece in enumerate(found) if piece.contact), len(found))
    return found[:middle], tuple(reversed(found[middle + 1 :]))


def tie_parts(circuit: Circuit, height: float) -> Graph:
    """A conductor between two batteries, its own piece drawn in column 2."""
    found = pieces(circuit)
    middle = next((n for n, p in enumerate(found) if p.wire and p.wire.key.endswith("/feed")), 0)
    key = f"tie-{circuit.key}"
    strips = (
        Strip(f"{circuit.key}:1", circuit.source, key, circuit, found[:middle], True),
        Strip(f"{circuit.key}:2", circuit.target, key, circuit, tuple(reversed(found[middle + 1 :])), False),
    )
    return Graph(
        (Thing(key, "tie", 2, circuit.item, height, circuit, found[middle : middle + 1]),), strips, ()
    )


def chain_parts(scene: Scene, circuit: Circuit) -> Graph:
    """A conductor that leaves for a block, a panel or a load: straight on through every column."""
    found = pieces(circuit)
    middle = next((n for n, piece in enumerate(found) if piece.contact), len(found))
    first, rest = found[:middle], found[middle:]
    key, across = f"to-{circuit.key}", f"pass-{circuit.key}"
    end = end_thing(scene, key, circuit)
    below = max([0.0, *(strands.contact_depth(scene, p.contact) for p in rest if p.contact)])
    height = 2 * max(50.0, below + 8) if rest else 60
    through = Thing(across, "contact" if rest else "pass", 2, circuit.item, height, circuit, rest)
    strip = Strip(circuit.key, circuit.source, across, circuit, first, True)
    return Graph((end, through), (strip,), ((across, key),))


def end_thing(scene: Scene, key: str, circuit: Circuit) -> Thing:
    """What a conductor that leaves the sheet, or feeds a load on it, ends at."""
    if circuit.kind in ("load", "reserve"):
        high = device_cards.load_height(scene, circuit, LEAST_TARGET)
        build = scene.sized.build
        head = supply_words.headroom(
            labels.place(build, labels.node_place(build, circuit.target)), LEAST_TARGET
        )
        return Thing(key, "load", 3, circuit.target, high + head, circuit, head=head)
    high = load_words.flag_height(*load_words.flag_words(scene, circuit), LEAST_TARGET)
    return Thing(key, "flag", 3, circuit.target, high, circuit)


def strip_widths(scene: Scene, strips: Iterable[Strip]) -> dict[str, float]:
    return rows.widths(scene, [(s.circuit, s.pieces) for s in strips if s.circuit])


def number_width(strips: Iterable[Strip]) -> float:
    return (
        max([0.0, *(strands.pill_width(s.circuit.number) for s in strips if s.circuit and s.numbered)]) + 20
    )


def engine_graph(scene: Scene, found: Graph) -> tuple[tuple[Node, ...], tuple[Edge, ...]]:
    """What the layout engine sees."""
    wide = number_width(found.strips) + sum(strip_widths(scene, found.strips).values())
    across = {0: SOURCE_WIDTH, 2: DEVICE_WIDTH, 3: TARGET_WIDTH}
    nodes = [Node(t.key, t.rank, across[t.rank], t.height) for t in found.things]
    nodes += [Node(f"strip {s.key}", 1, max(wide, 100), STRIP) for s in found.strips]
    present = {t.key for t in found.things}
    edges = [Edge(s.source, f"strip {s.key}", 2) for s in found.strips if s.source in present]
    edges += [Edge(f"strip {s.key}", s.target, 4) for s in found.strips]
    edges += [Edge(a, b, 8) for a, b in found.links]
    edges += [Edge("alternator", charged(scene.sized.build), 4)] if "alternator" in present else []
    return tuple(nodes), tuple(edges)
