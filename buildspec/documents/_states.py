"""Operating states as the load analysis prints them: how many, how covered, the worst of each, own ones worked out."""

from __future__ import annotations

from typing import Any

from buildspec import energy, show
from buildspec.documents import _words as words
from buildspec.energy import capacity, modes, working
from buildspec.energy.terms import spelled
from buildspec.model import OwnState, Resolved, Sized
from buildspec.network import states

NOTHING_A = 1e-4
"""Less than a meter shows."""
METHOD = (
    "Each combination of key, engine, links, chargers and outside sources is a network of its own. In each, every "
    "group of loads is on or off by itself: a switch, a vehicle signal, a panel's electronics. With every load at its "
    "worst current the network is linear, and by the superposition theorem a voltage is the sum of what each group "
    "adds to it. A group is on in the worst case exactly where it makes the figure worse, so n + 1 solutions of one "
    "network cover its 2ⁿ states. None is skipped."
)


def coverage(build: Resolved) -> str:
    """`58,720,256 states of switches and signals in 16 networks.`"""
    found = states.coverage(build)
    return (
        f"{found.states:,} states of switches and signals in {found.modes} networks, with at most {found.groups} "
        "groups in one."
    )


def table(sized: Sized) -> list[dict[str, str]]:
    """Every mode with the worst current of each source and the lowest voltage at a device."""
    by_key = {c.key: c for c in sized.build.circuits}
    found = []
    for line in modes.lines(sized):
        low = line.low
        found.append(
            {
                "mode": words.quoted(line.mode.name),
                "states": f"{2**line.groups:,}",
                "drawn": ", ".join(source(sized.build, name, amps) for name, amps in line.drawn_a.items()),
                "low": show.volts(low.volts) if low else words.NOT_APPLICABLE,
                "at": by_key[low.circuit].number + " " + by_key[low.circuit].title
                if low
                else words.NOT_APPLICABLE,
            }
        )
    return found


def source(build: Resolved, name: str, amps: float) -> str:
    """`house battery G3 92.1 A`."""
    return f"{words.node(build, name)} {current(amps)}"


def current(amps: float) -> str:
    """A current that is taken, or that a battery is charged with; less than a tenth of a milliampere is none."""
    if amps < -NOTHING_A:
        return f"charged with {show.amps(-amps)}"
    return show.amps(amps if amps > NOTHING_A else 0.0)


def own(sized: Sized) -> list[dict[str, Any]]:
    """The states of the spec, each worked out with loads at their usual draw."""
    return [state(sized, one) for one in sized.build.states.values()]


def state(sized: Sized, one: OwnState) -> dict[str, Any]:
    found = working.worked(sized, one)
    return {
        "title": words.capital(one.words),
        "conditions": conditions(sized.build, one, found),
        "devices": [device(sized, reading) for reading in found.readings],
        "batteries": [battery(sized.build, one, found, name) for name in found.drawn_a],
        "collapse": failed(sized, found),
    }


def conditions(build: Resolved, one: OwnState, found: working.Worked) -> str:
    said = f"{words.capital(words.quoted(found.mode.name))}."
    if one.hours is not None:
        said += f" Lasts {show.plain(one.hours, 1)} h."
    if found.held_off:
        names = ", ".join(build.accessories[name].designation for name in found.held_off)
        said += f" Held dead by the key: {names}."
    return said


def device(sized: Sized, reading: working.Reading) -> dict[str, str]:
    circuit = next(c for c in sized.build.circuits if c.key == reading.circuit)
    return {
        "number": circuit.number,
        "what": words.capital(circuit.title),
        "amps": show.amps(reading.amps),
        "volts": show.volts(reading.volts),
        "cut_out": show.volts(circuit.load.cut_out_v)
        if circuit.load is not None and circuit.load.cut_out_v is not None
        else words.NOT_APPLICABLE,
    }


def battery(build: Resolved, one: OwnState, found: working.Worked, name: str) -> dict[str, str]:
    drawn, mean, item = found.drawn_a[name], found.mean_a[name], build.batteries[name]
    known = item.part.battery is not None and mean > NOTHING_A and one.engine == "stopped"
    return {
        "battery": words.capital(words.node(build, name)),
        "drawn": current(drawn),
        "mean": current(mean),
        "volts": show.volts(found.post_v[name]),
        "takes": taken(build, one, name, mean),
        "lasts": spelled(capacity.hours(item, mean)) if known else words.NOT_APPLICABLE,
    }


def taken(build: Resolved, one: OwnState, name: str, mean_a: float) -> str:
    """`14 Ah = 3.5 A × 4 h; 37.5 Ah may be taken`."""
    if mean_a < -NOTHING_A:
        return "nothing: it is charged until it is full"
    if one.engine != "stopped" and name == modes.charged(build):
        return "nothing: the alternator gives it"
    if one.hours is None:
        return words.NOT_APPLICABLE
    item = build.batteries[name]
    allowed = (
        "" if item.part.battery is None else f"; {show.plain(capacity.usable(item).value, 1)} Ah may be taken"
    )
    whole = show.plain(mean_a * one.hours, 1)
    return f"{whole} Ah = {show.plain(mean_a, 3)} A × {show.plain(one.hours, 1)} h{allowed}"


def failed(sized: Sized, found: working.Worked) -> str:
    if found.collapse is None:
        return ""
    return "The supply cannot give what these loads ask for: the voltage has no working point."


def parked(sized: Sized) -> list[dict[str, Any]]:
    """Batteries that feed things while the vehicle stands: what draws, how long it lasts, what refills it."""
    build = sized.build
    return [
        {
            "battery": words.capital(words.node(build, one.battery)),
            "draws": [draw(build, d) for d in one.draws],
            "sums": list(sums(build, one)),
        }
        for one in energy.energy(build).parked
    ]


def draw(build: Resolved, one: energy.Draw) -> dict[str, str]:
    item = build.accessories.get(one.item) or build.panels[one.item]
    return {
        "item": f"{item.designation} {one.words}",
        "running": show.amps(one.running_a),
        "duty": show.percent(one.duty),
        "hours": f"{show.plain(one.hours_per_day, 1)} h",
        "standby": show.amps(one.standby_a),
        "mean": show.amps(one.mean_a),
    }


def sums(build: Resolved, one: energy.Parked) -> list[dict[str, str]]:
    """Each result with its terms, in words."""
    alone = [
        (f"Lasts with {build.accessories[name].designation} alone", spelled(result))
        for name, result in one.alone
    ]
    known = "not covered: no published figure for this chemistry"
    found = [
        ("Usable charge", spelled(one.usable)),
        ("Lasts with a usual day's use", spelled(one.hours)),
        ("Whole nights", f"{one.nights}, parked from {energy.EVENING}:00 to {energy.MORNING}:00"),
        ("The same at 0 °C", spelled(one.cold) if one.cold else known),
        *alone,
        ("Refilled by driving", refill(one.refill, one.refill_note)),
    ]
    for out in one.outside:
        mark = build.supplies[out.supply].designation
        if out.lasts is not None:
            found.append((f"Lasts with {mark} in the sun", spelled(out.lasts)))
        else:
            what = "Refilled by" if build.supplies[out.supply].type == "shore" else "The sun on"
            found.append((f"{what} {mark}", refill(out.refill, out.note)))
    return [{"what": what, "sum": text} for what, text in found]


def refill(result: energy.Sum | None, note: str) -> str:
    return note if result is None else "; ".join(filter(None, (spelled(result), note)))


def standing(build: Resolved) -> list[dict[str, str]]:
    found = energy.energy(build)
    return [
        {"battery": words.capital(words.node(build, one.battery)), "sum": spelled(one.days)}
        for one in (*found.standing, *found.resting)
    ]
