"""What people would rather look at than read, each chart with its figures."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import mass
from buildspec.documents import _chart_rows as rows
from buildspec.documents import _words as words
from buildspec.drawings.charts import axle, battery, time_current, voltage
from buildspec.model import Sized
from buildspec.packet import Packet

TITLE = "Charts"
ORDER = 25
WIDE = True
TIMES = (
    "Opening times decide what is drawn between the two solid lines of a device. Those from memory are defaults: the "
    "device's own curve decides, and the shop's practice takes their place. The dashed line of a wire is heat without "
    "loss: right for the seconds of a short. Its thin end at small overloads lies too low, since heat gets away "
    "meanwhile. Where it runs below “no later” it does not say when the wire is damaged; there the wire is held by its "
    "size, which carries the rating of the device for good (the line that falls straight)."
)


def view(packet: Packet) -> dict[str, Any]:
    sized = packet.sized
    return {
        "intro": (
            "Each chart is a file of its own in the folder drawings, at true size. Its figures stand in the table "
            "behind it. Nothing is worked out for a chart alone: the figures are those that rules, schedule and load "
            "analysis use."
        ),
        "index": [
            {"number": f"C{c.number}", "title": c.title, "file": f"drawings/{c.id}.svg"}
            for c in packet.charts
        ],
        "missing": list(missing(sized)),
        "nothing": "No chart.",
        "times": TIMES,
        "gates": rows.gates(time_current.characteristics(sized)),
        "charts": [found for chart in packet.charts for found in [table(sized, chart.number, chart.id)]],
    }


def table(sized: Sized, number: int, name: str) -> dict[str, Any]:
    """The figures of one sheet, by the name of the sheet."""
    kind, _, last = name.partition("-")[2].rpartition("-")
    found: dict[str, Any] = {"number": f"C{number}", "kind": kind or last}
    if kind == "time-current":
        return found | {"rows": [rows.device(one) for one in time_current.leaves(sized)[int(last) - 1]]}
    if kind == "battery":
        leaf = battery.leaves(sized)[int(last) - 1]
        return found | {
            "rows": [line for one in leaf for line in rows.battery(one)],
            "notes": [rows.battery_notes(one) for one in leaf],
        }
    if kind == "voltage":
        loads = voltage.leaves(sized)[int(last) - 1]
        return found | {"loads": [{"words": rows.fall(one), "rows": list(rows.steps(one))} for one in loads]}
    return found | {"rows": [rows.stack(one, sized.build.practice) for one in axle.stacks(sized)]}


def missing(sized: Sized) -> Iterator[str]:
    """What has no chart, and why."""
    devices = time_current.characteristics(sized)
    if not devices:
        yield "No chart of time and current: this build adds no protective device."
    bare = [one.device.designation for one in devices if not one.curve]
    if bare:
        yield f"No opening times known for the family of {', '.join(bare)}: cannot draw."
    if not battery.states(sized):
        yield "No chart of a battery: nothing runs while parked, and no start battery is described."
    if not voltage.falls(sized):
        yield "No chart of voltage: no load in this build has a drop."
    yield from missing_masses(sized)


def missing_masses(sized: Sized) -> Iterator[str]:
    build = sized.build
    bare = mass.without_station(sized)
    if build.vehicle.axles is None:
        yield "No chart of the axles: wheelbase, limits and kerb loads are not stated."
    elif bare:
        yield f"No chart of the axles: no station for {', '.join(words.place(build, name) for name in bare)}."
    if mass.payload(sized) is None:
        yield "No chart of the whole vehicle: gross rating or kerb mass is not stated."
