"""Each load as the load analysis prints it, and the totals of panels, blocks, feeders and batteries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from buildspec import show
from buildspec.documents import _words as words
from buildspec.energy import battery_behind
from buildspec.energy.working import USUAL_V
from buildspec.model import Circuit, Electrical, Resolved, Sized
from buildspec.network import states
from buildspec.size import currents

KINDS = ("load", "reserve")


def rows(sized: Sized) -> list[dict[str, str]]:
    """Every load and reserve, in the order of the circuits."""
    return [row(sized, c) for c in sized.build.circuits if c.kind in KINDS]


def row(sized: Sized, circuit: Circuit) -> dict[str, str]:
    build = sized.build
    return {
        "number": circuit.number,
        "what": words.capital(circuit.title),
        "worst": show.amps(sized.sizings[circuit.key].design_a),
        "group": group(build, circuit),
        "fed": words.node(build, circuit.source),
        "battery": battery_behind(build, circuit.source) or words.NOT_APPLICABLE,
        **use(sized, circuit),
    }


def use(sized: Sized, circuit: Circuit) -> dict[str, str]:
    """How a load draws and how long; a reserve draws nothing yet."""
    load, item = circuit.load, sized.build.accessories.get(circuit.item)
    if load is None or item is None:
        none = dict.fromkeys(("watts", "typical", "start", "duty", "hours"), words.NOT_APPLICABLE)
        return {**none, "kind": "reserved", "when": "once it is used"}
    return {
        "watts": watts(sized.build, load, circuit.quantity),
        "typical": show.amps(typical_a(sized.build, circuit)),
        "start": start(load, sized.sizings[circuit.key].design_a),
        "kind": "continuous" if load.continuous else "intermittent",
        "duty": show.percent(load.duty),
        "hours": hours(item.hours_per_day),
        "when": item.works_when or "any time",
    }


def typical_a(build: Resolved, circuit: Circuit) -> float:
    assert circuit.load is not None
    return currents.typical(circuit.load, build.practice) * circuit.quantity


def watts(build: Resolved, load: Electrical, quantity: int) -> str:
    """Power at the voltage at which it holds: `120 W at any voltage`, `47.5 W at 12.5 V`."""
    scale = build.practice.nominal_v / 12
    if load.power_w is not None and load.model == "constant-power":
        return f"{show.plain(load.power_w * quantity, 1)} W at any voltage"
    if load.power_w is not None and load.model == "resistive":
        return f"{show.plain(load.power_w * quantity, 1)} W at {show.plain(build.practice.nominal_v, 1)} V"
    volts = USUAL_V * scale
    amps = currents.typical(load, build.practice) * quantity
    return f"{show.plain(amps * volts, 1)} W at {show.plain(volts, 1)} V"


def start(load: Electrical, worst_a: float) -> str:
    """Current at switch-on, where it is stated."""
    if load.inrush is None:
        return words.NOT_APPLICABLE
    return f"{show.amps(worst_a * load.inrush.times)} for {show.plain(load.inrush.for_s * 1000, 0)} ms"


def hours(per_day: float | None) -> str:
    return words.NOT_APPLICABLE if per_day is None else f"{show.plain(per_day, 1)} h"


def group(build: Resolved, circuit: Circuit) -> str:
    """What turns it on together with others."""
    name = states.commander(build, circuit)
    return words.node(build, name) if name in build.signals else "by itself"


def totals(sized: Sized) -> list[dict[str, str]]:
    """Panels, blocks and batteries: what hangs on each, against what it may carry."""
    return [total(sized, node) for node in (*sized.build.panels, *sized.build.blocks, *sized.build.batteries)]


def total(sized: Sized, node: str) -> dict[str, str]:
    """Everything at once, by kind. A feeder or charger input counts as what hangs behind it."""
    continuous, intermittent, reserved, rest = parts(sized, node)
    limit = limit_a(sized.build, node)
    whole = sized.loads_a[node]
    return {
        "node": words.capital(words.node(sized.build, node)),
        "continuous": show.amps(continuous),
        "intermittent": show.amps(intermittent),
        "reserved": show.amps(reserved),
        "rest": show.amps(rest),
        "total": show.amps(whole),
        "limit": words.NOT_APPLICABLE if limit is None else show.amps(limit),
        "left": words.NOT_APPLICABLE if limit is None else show.amps(limit - whole),
    }


def parts(sized: Sized, node: str) -> tuple[float, float, float, float]:
    """Continuous, intermittent and reserved loads behind a node, and chargers, coils and modules [A]."""
    found = [0.0, 0.0, 0.0, 0.0]
    for circuit in behind(sized.build, node):
        found[column(circuit)] += sized.sizings[circuit.key].design_a
    return found[0], found[1], found[2], found[3]


def column(circuit: Circuit) -> int:
    if circuit.kind == "reserve":
        return 2
    if circuit.kind != "load" or circuit.load is None:
        return 3
    return 0 if circuit.load.continuous else 1


def behind(build: Resolved, node: str) -> Iterator[Circuit]:
    """What draws from a node in the end."""
    for circuit in build.circuits:
        if circuit.source == node and circuit.kind in currents.DRAWING:
            if circuit.kind == "feeder":
                yield from behind(build, circuit.target)
            else:
                yield circuit


def limit_a(build: Resolved, node: str) -> float | None:
    """What a panel, block or battery may carry [A], where it is stated."""
    if node in build.panels:
        panel = build.panels[node].part.panel
        return panel.total_a if panel else None
    if node in build.blocks:
        block = build.blocks[node].part.block
        return block.total_a if block else None
    trait = build.batteries[node].part.battery
    return trait.max_discharge_a if trait else None


def feeders(sized: Sized) -> list[dict[str, str]]:
    """Feeders: what each carries with everything on, and its device."""
    return [
        {
            "number": circuit.number,
            "what": words.capital(circuit.title),
            "from": words.node(sized.build, circuit.source),
            "design": show.amps(sized.sizings[circuit.key].design_a),
            "device": listed(show.amps(d.rating_a) for d in sized.sizings[circuit.key].devices),
        }
        for circuit in sized.build.circuits
        if circuit.kind == "feeder"
    ]


def listed(texts: Iterable[str]) -> str:
    return ", ".join(texts) or words.NOT_APPLICABLE


def sum_a(sized: Sized, *, continuous: bool) -> float:
    """All added loads of one kind, reserves left out [A]."""
    wanted = 0 if continuous else 1
    return sum(
        sized.sizings[c.key].design_a
        for c in sized.build.circuits
        if c.kind == "load" and column(c) == wanted
    )
