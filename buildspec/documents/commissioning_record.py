"""The tests before handing over: beside each blank stands what should be read and what passes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import branches, show
from buildspec.documents import _checks as checks
from buildspec.documents import _circuits as circuits
from buildspec.documents import _cranked as cranked
from buildspec.documents import _cut_off_checks as cut_offs
from buildspec.documents import _labels as labels
from buildspec.documents import _owner as owner
from buildspec.documents import _predict as predict
from buildspec.documents import _words as words
from buildspec.model import Accessory, Channel, Circuit, Resolved
from buildspec.packet import Packet

TITLE = "Commissioning record"
ORDER = 95
WIDE = True
OWN_PAGE = True

TESTED = ("load", "charge-in", "charge-out")
BEFORE_POWER = (
    ("Polarity at every device and outlet, fuses out", "plus on +, minus on −"),
    ("Plus to minus of each circuit, fuses out, devices off", "no continuity"),
    ("Every joint torqued to its maker's figure and marked", "all marked"),
    ("Every crimp tugged by hand", "none moves"),
)
FUSES_IN = checks.row(
    "Fuses in, one at a time, with the rating of the fuse map",
    "after “Before power” has passed",
    "none blows",
)
TOGETHER = (
    ("Radio on, every added item switched on in turn", "no new noise, no flicker, no warning tone"),
    ("Warning tones and messages while everything is switched in turn", "none, or noted here"),
)
AFTERWARDS = (
    ("Warning lamps and stored codes", "none new; airbag lamp goes out"),
    ("The vehicle's own lamps, wipers, camera, parking aids", "work as before"),
    ("Rear camera with the engine running", "picture at once, steady"),
    ("Road test of 15 min with everything in usual use", "no smell, no rattle, no hot connector"),
)


INTRO = (
    "Drops are predicted for one circuit at a time with everything else off, between the "
    "battery's posts and the device's terminals, at the current listed. Measure the current "
    "first: another current means another drop. A cold wire reads a little less. Above the pass "
    "figure look for a bad joint, even below the limit."
)
SOURCE = (
    "Pass: a fifth or 0.05 V over the prediction, common practice, no source; limit: the drop "
    "limit of the practice. Voltages at rest and while charging are published figures; the "
    "vehicle maker's own come first."
)


def view(packet: Packet) -> dict[str, Any]:
    sized = packet.sized
    return {
        "intro": f"{INTRO} “Device reads” is told for {show.volts(full_v(packet))} at the posts.",
        "source": SOURCE,
        "instruments": [
            {"what": what, "which": words.BLANK, "checked": words.BLANK}
            for what in ("Voltmeter", "Clamp ammeter, d.c., 10 mA", "Torque wrench")
        ],
        "before": [checks.row(what, "before power", expected) for what, expected in BEFORE_POWER],
        "supply": [FUSES_IN, *checks.supply(sized.build)],
        "isolation": list(checks.isolation(sized)),
        "cranking": list(cranked.plain(sized)),
        "assist": [*cranked.helped(sized), *checks.assist(sized)],
        "drops": [drop_line(packet, c) for c in sized.build.circuits if c.kind in TESTED],
        "key_off": list(checks.key_off(sized.build)),
        "cut_offs": list(cut_offs.lines(packet)),
        "keys": list(key_lines(packet)),
        "trips": list(cut_offs.trips(packet)),
        "triggers": list(trigger_lines(packet)),
        "reserves": list(reserve_lines(packet)),
        "together": [checks.row(what, "trim still off", expected) for what, expected in TOGETHER],
        "afterwards": [checks.row(what, "all reassembled", expected) for what, expected in AFTERWARDS],
        "signatures": [
            {"role": role, "name": words.BLANK, "date": words.BLANK, "signature": words.BLANK}
            for role in ("Fitter", "Checker", "Owner or user, shown how to use it")
        ],
        "nothing": "Does not apply to this build.",
    }


def drop_line(packet: Packet, circuit: Circuit) -> dict[str, str]:
    sized = packet.sized
    current = predict.test_current_a(sized, circuit)
    expected = predict.drop(sized, circuit, current)
    return {
        "number": circuit.number,
        "function": circuits.identity(packet, circuit)["function"],
        "where": measured_at(sized.build, circuit),
        "current": show.amps(expected.current_a),
        "measured_current": words.BLANK,
        "expected": show.volts(expected.drop_v),
        "passes": f"≤ {show.volts(expected.pass_v)}",
        "limit": show.volts(expected.limit_v),
        "device": show.volts(full_v(packet) - expected.drop_v),
        "least": show.volts(full_v(packet) - expected.pass_v),
        "posts": words.BLANK,
        "at_device": words.BLANK,
        "measured": words.BLANK,
        "passed": words.TICK,
    }


def measured_at(build: Resolved, circuit: Circuit) -> str:
    """Place of the device; of several on branches, with the one that reads lowest."""
    there = words.place(build, circuits.far_place(circuit))
    branch = branches.of(build, circuit)
    return there if branch is None else f"{branches.farthest(branch).item}, {there}"


def full_v(packet: Packet) -> float:
    """A full battery at rest, for a reading at the device to be told beforehand [V]."""
    return checks.REST_V * packet.sized.build.practice.nominal_v / 12.0


def key_lines(packet: Packet) -> Iterator[dict[str, str]]:
    """Each key of each panel: what it should do, or that nothing happens."""
    build = packet.sized.build
    for channel in build.channels:
        name = f"{build.panels[channel.panel].designation}.{channel.number} {channel.legend}".strip()
        how = "press" if channel.mode != "momentary" else "hold, let go"
        yield checks.row(name, how, by_key(packet, channel))


def by_key(packet: Packet, channel: Channel) -> str:
    """What a key does by itself and with the signal that works, or frees, its item."""
    build = packet.sized.build
    item = build.accessories.get(channel.item)
    expected = what_happens(packet, channel.use, channel.item)
    if item is None or not item.trigger:
        return expected
    signal = owner.short(build.signals[item.trigger].words)
    if only_with_trigger(item):
        return f"{signal} on: {expected}; off: nothing"
    return f"{expected}; {signal} on, without the key: works too"


def what_happens(packet: Packet, use: str, item: str) -> str:
    build = packet.sized.build
    if use == "blank":
        return "nothing; no wire"
    if use == "reserve":
        return "nothing; reserved, the far end stays dead"
    if use == "link":
        return (
            f"{words.node(build, item)} closes while it is pressed" if item in build.isolation else "closes"
        )
    return f"works: {build.accessories[item].part.title}"


def trigger_lines(packet: Packet) -> Iterator[dict[str, str]]:
    build = packet.sized.build
    for item in build.accessories.values():
        if item.trigger:
            yield {
                "what": f"{item.designation} {item.part.title}",
                "trigger": words.capital(words.node(build, item.trigger)),
                "expected": with_trigger(item),
                "key_off": words.BLANK,
                "ignition": words.BLANK,
                "running": words.BLANK,
            }


def with_trigger(item: Accessory) -> str:
    if only_with_trigger(item):
        return "on only with it"
    return "on with it, or by its key" if item.switch else "on with it, off without it"


def only_with_trigger(item: Accessory) -> bool:
    return item.part.lamp is not None and item.part.lamp.with_main_beam


def reserve_lines(packet: Packet) -> Iterator[dict[str, str]]:
    for reserve in packet.sized.build.reserves.values():
        expected = "battery voltage" if reserve.powered else "0 V"
        yield {
            "id": reserve.designation,
            "end": f"{words.capital(words.place(packet.sized.build, reserve.place))}: {reserve.end}",
            "expected": expected,
            "measured": words.BLANK,
            "cap": reserve.cap or "no cap stated",
            "capped": words.TICK,
            "label": labels.reserve_text(reserve),
            "labelled": words.TICK,
        }
