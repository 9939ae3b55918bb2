"""The figures of the charts as rows of tables: what a chart shows, for print and for whoever cannot see it."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc.opening import Curve
from buildspec.documents import _words as words
from buildspec.drawings.charts import time_current
from buildspec.drawings.charts.axle import Stack
from buildspec.drawings.charts.battery import DAY_H, Line, State
from buildspec.drawings.charts.time_current import Characteristic
from buildspec.drawings.charts.voltage import Fall
from buildspec.model import Practice

FOR_S = 1.0
"""For this long the table says what a conductor stands."""
MARKS = {"memory": "from memory", "shop": "the shop's", "yes": "read"}
"""How far a gate is to be trusted."""


def amps(value: float | None) -> str:
    return words.NOT_APPLICABLE if value is None else show.amps(value)


def seconds(time_s: float | None) -> str:
    """`30 µs`, `4 ms`, `0.26 s`, `1800 s`: three figures below a thousand seconds."""
    if time_s is None:
        return words.NOT_APPLICABLE
    if time_s < 1e-3:
        return f"{time_s * 1e6:.3g} µs"
    if time_s < 0.1:
        return f"{time_s * 1000:.3g} ms"
    return f"{time_s:.3g} s" if time_s < 1000 else f"{time_s:.0f} s"


# ------------------------------------------------------------------------------------ time and current


def device(one: Characteristic) -> dict[str, str]:
    wire, start = one.wire, "; ".join(f"{show.amps(s.amps)} for {seconds(s.for_s)}" for s in one.starts)
    return {
        "device": f"{one.device.designation} {words.fuse(one.device)}",
        "circuit": f"{one.circuit.number} {one.circuit.title}",
        "usual": amps(one.usual_a),
        "load": show.amps(one.design_a),
        "start": start or words.NOT_APPLICABLE,
        "wire": show.size(wire.conductor) if wire else "vehicle’s own",
        "carries": amps(wire.carries_a if wire else None),
        "stands": amps(time_current.stands_a(wire, FOR_S) if wire else None),
        "far": amps(one.far_a),
        "far_s": opens(one, one.far_a),
        "near": amps(one.near_a),
        "near_s": opens(one, one.near_a),
        "times": times(one),
    }


def times(one: Characteristic) -> str:
    """How far the opening times are to be trusted; their source stands in a table of its own."""
    if not one.curve:
        return "unknown: cannot draw"
    return "from memory" if one.recalled else "stated"


def opens(one: Characteristic, current_a: float | None) -> str:
    """No sooner than, and no later than."""
    least, most = time_current.opens_s(one, current_a)
    if current_a is None or (least is None and most is None):
        return words.NOT_APPLICABLE
    if most is None:
        return "need not open"
    return seconds(most) if least is None else f"{seconds(least)} to {seconds(most)}"


def gates(found: tuple[Characteristic, ...]) -> list[dict[str, str]]:
    """Opening times by kind of device, each kind once."""
    kinds: dict[str, tuple[Curve, str]] = {}
    for one in found:
        name = "electronic limit" if one.device.kind == "channel" else show.family(one.device.family)
        kinds.setdefault(name, (one.curve, one.source))
    return [
        {
            "kind": words.capital(name),
            "multiple": f"{gate.multiple * 100:.0f} %",
            "least": seconds(gate.min_s),
            "most": seconds(gate.max_s),
            "mark": MARKS.get(gate.verified, gate.verified),
            "source": source,
        }
        for name, (curve, source) in kinds.items()
        for gate in curve
    ]


# ------------------------------------------------------------------------------------ batteries


def battery(one: State) -> Iterator[dict[str, str]]:
    days, level = one.kind == "standing", show.percent(one.level)
    name = words.capital(f"{one.battery.name} battery {one.battery.designation}")
    for line in one.lines:
        yield {
            "battery": name,
            "what": line.words,
            "from": "100 %",
            "to": level,
            "time": time(line, days=days),
        }
    usual = one.lines[0]
    for cut in one.cuts:
        hours = usual.hours * (1 - cut.left) / (1 - one.level)
        yield {
            "battery": name,
            "what": f"{cut.words}, {usual.words}",
            "from": "100 %",
            "to": f"about {show.percent(cut.left)}",
            "time": f"about {time(usual._replace(hours=hours), days=days)}",
        }
    for line in one.refills:
        yield {"battery": name, "what": f"refilling, {line.words}", "from": level, "to": "100 %",
               "time": time(line, days=False)}  # fmt: skip


def time(line: Line, *, days: bool) -> str:
    value, unit = (line.hours / DAY_H, "days") if days else (line.hours, "h")
    return f"{show.plain(value, 1)} {unit}"


def battery_notes(one: State) -> str:
    name = f"{one.battery.name} battery {one.battery.designation}"
    taken = f"{words.capital(name)}: {show.plain(one.usable_ah, 1)} Ah taken at {show.percent(one.level)}."
    return " ".join((taken, *(f"{words.capital(note)}." for note in one.notes)))


# ------------------------------------------------------------------------------------ voltage


def steps(one: Fall) -> Iterator[dict[str, str]]:
    left = one.rest_v
    for n, step in enumerate(one.steps, start=1):
        left -= step.drop_v
        yield {
            "step": f"{n}",
            "what": f"{step.name} {step.detail}".strip(),
            "way": "back" if step.back else "out",
            "takes": f"{show.plain(step.drop_v * 1000, 1)} mV",
            "left": show.volts(left),
        }


def fall(one: Fall) -> str:
    """The verdict in one line."""
    stops = f"; it stops below {show.volts(one.stops_v)}" if one.stops_v is not None else ""
    start = (
        f"{one.circuit.number} {one.circuit.title}, from battery {one.battery} at {show.volts(one.rest_v)}"
    )
    limit = f"the drop limit of {show.percent(one.limit)} leaves {show.volts(one.limit_v)}{stops}"
    lowest = f"{show.volts(one.lowest_v)} ({words.quoted(one.lowest_in)})"
    return (
        f"{start}, worst in the state {words.quoted(one.state)}: {show.volts(one.end_v)} arrive, {limit}. "
        f"Lowest in any state, the battery's own resistance included: {lowest}."
    )


# ------------------------------------------------------------------------------------ mass


def stack(one: Stack, practice: Practice) -> dict[str, str]:
    def mass(kg: float) -> str:
        return show.mass(kg, practice).replace("-", "−")

    return {
        "of": words.capital(one.name),
        **{bar.name: mass(bar.kg) for bar in one.bars},
        "laden": mass(one.laden_kg),
        "limit": mass(one.limit_kg),
        "left": mass(one.left_kg),
    }
