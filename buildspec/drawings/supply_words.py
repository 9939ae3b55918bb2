"""How high the words of the supply sheet stand: cards, names of places, returns that hang down."""

from __future__ import annotations

from buildspec.drawings import labels, load_words
from buildspec.drawings.measure import BODY, SMALL, width, wrap
from buildspec.drawings.strands import FAR, LEADING, Scene
from buildspec.model import Circuit

HEADROOM = 40.0
"""For one line of the name of the place above what stands in a band."""
BAND_EDGE = 30.0
RETURN = 97.0
"""For a return that hangs down, up to the first line of words at its ground."""
SYMBOL_X, TEXT_X = 62.0, 120.0
"""In a card: its symbol, its words."""
CARD_END = 14.0
BATTERY_LINE = 33.0
SHORTEST_BATTERY = 220.0


def headroom(place: str, wide: float) -> float:
    return HEADROOM + LEADING * max(0, len(place_lines(place, wide)) - 1)


def place_lines(place: str, wide: float) -> tuple[str, ...]:
    """The name of a place over a column of some width."""
    return wrap(place, wide - BAND_EDGE, SMALL, bold=True)


def alternator_place(scene: Scene) -> str:
    """Its place is that of the battery it charges."""
    build = scene.sized.build
    return labels.place(build, next((b.place for b in build.batteries.values() if b.role == "start"), ""))


def foot(scene: Scene, circuit: Circuit, wide: float) -> float:
    """Room under a card for a return with its ground."""
    return RETURN + LEADING * max(1, len(hanging_lines(scene, circuit, wide - SYMBOL_X)))


def hanging_lines(scene: Scene, circuit: Circuit, room: float) -> tuple[str, ...]:
    """Where the ground under a return is, beside its designation; `room` from its symbol on."""
    name, where = load_words.ground_words(scene, circuit)
    return wrap(where, room - 36 - width(name, bold=True) - 8)


def battery_lines(scene: Scene, name: str, wide: float) -> tuple[str, ...]:
    """(bold, quiet …): name, facts, and what comes back to its negative post from elsewhere."""
    room = wide - TEXT_X - CARD_END
    facts = [*labels.battery_facts(scene.sized.build, name), *again(scene, name), *post_returns(scene, name)]
    return tuple(line for fact in facts for line in wrap(fact, room))


def battery_names(name: str, wide: float) -> tuple[str, ...]:
    return wrap(f"{name} battery", wide - TEXT_X - CARD_END, BODY, bold=True)


def battery_height(scene: Scene, name: str, wide: float) -> float:
    lines = len(battery_names(name, wide)) + len(battery_lines(scene, name, wide))
    return max(SHORTEST_BATTERY, 46 + 48 + BATTERY_LINE * lines + 24)


def again(scene: Scene, name: str) -> list[str]:
    """`goes on → sheet 2/C1` of a battery that is drawn on later sheets too."""
    if scene.supply_sheet.get(name, scene.number) not in (scene.number, FAR):
        return []
    sheets = [n for key, n in scene.supply_sheet.items() if key.startswith(f"again:{name}:")]
    return [f"goes on → {scene.sheet(n, f'again:{name}:{n}')}" for n in sheets]


def post_returns(scene: Scene, name: str) -> list[str]:
    """`− takes W18, W20 ← sheet 2/F5` of a battery, one line a place."""
    build = scene.sized.build
    if scene.supply_sheet.get(name, scene.number) not in (scene.number, FAR):
        return []
    found: dict[str, list[str]] = {}
    for circuit in build.circuits:
        ground = build.grounds.get(circuit.ground)
        if ground is None or ground.post_of != name or not circuit.returns or circuit.kind == "bond":
            continue
        sheet = scene.circuit_sheet.get(circuit.key, scene.number)
        there = f" ← {scene.sheet(sheet, f'ground:{circuit.key}')}" if sheet != scene.number else ""
        found.setdefault(there, []).append(circuit.returns[-1].designation)
    return [f"− takes {', '.join(wires)}{there}" for there, wires in found.items()]


def signal_words(scene: Scene, name: str) -> tuple[str, str]:
    """A signal of the vehicle, or a block or panel from which a written conductor leaves."""
    build = scene.sized.build
    found = build.signals.get(name)
    if found:
        return found.words, f"vehicle signal, {found.kind}"
    head = f"{labels.designation(build, name)} {labels.title(build, name)}"
    sheet = scene.node_sheet.get(name)
    feeder = only_here(scene, name)
    if feeder is not None:
        back = scene.circuit_sheet.get(feeder.key, scene.number)
        there = "this sheet" if back == scene.number else scene.sheet(back, f"to:{feeder.key}")
        return head, f"← {there}"
    return head, f"→ {scene.sheet(sheet, f'host:{name}')}" if sheet else ""


def only_here(scene: Scene, name: str) -> Circuit | None:
    """The feeder of a vehicle's feed that has no sheet of its own: it ends where the feed is tapped."""
    build = scene.sized.build
    if name not in build.blocks or scene.node_sheet.get(name) != scene.number:
        return None
    return next((c for c in build.circuits if c.kind == "feeder" and c.target == name), None)


def signal_lines(scene: Scene, name: str, wide: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    head, below = signal_words(scene, name)
    return wrap(head, wide - 40), wrap(below, wide - 40)


def signal_height(scene: Scene, name: str, wide: float) -> float:
    above, below = signal_lines(scene, name, wide)
    return 2 * max(31.0 * (len(above) - 1) + 19, 31.0 * (len(below) - 1) + 50)


def more_words(scene: Scene, name: str) -> tuple[str, str]:
    """A battery's own loads on another sheet."""
    sheet = scene.node_sheet.get(name, 0)
    head = f"Circuits straight from {labels.designation(scene.sized.build, name)}"
    return head, f"→ {scene.sheet(sheet, f'post:{name}')}"


def tie_lines(circuit: Circuit, wide: float) -> tuple[str, ...]:
    """What a conductor between two sources is for, under its tag."""
    return wrap(circuit.title, wide - 60)


def tie_height(circuit: Circuit, wide: float) -> float:
    return max(150.0, 2 * (58 + LEADING * len(tie_lines(circuit, wide))))
