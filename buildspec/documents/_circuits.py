"""One circuit as documents print it: each figure is formatted here once, and every document takes it from here."""

from __future__ import annotations

import re

from buildspec import branches, show
from buildspec.calc.ampacity_bases import BOAT
from buildspec.documents import _words as words
from buildspec.model import Ampacity, Circuit, Device, Resolved, Sizing
from buildspec.packet import Packet
from buildspec.size import loom

AROUND_C = {"engine": 50}
"""33 CFR 183.425 Table 5 is made for 30 °C, its engine-space factor for 50 °C: sqrt((T-50)/(T-30)) of note 1."""
USUAL_C = 30
ENVIRONMENTS = {
    "engine": "engine space",
    "cabin": "cabin",
    "outside": "outside",
    "underbody": "under the body",
}
STATES = {"reserve": "reserved"}


def shown(packet: Packet) -> tuple[Circuit, ...]:
    """Circuits that this build lays, in order."""
    return tuple(c for c in packet.sized.build.circuits if not c.existing)


def line(packet: Packet, circuit: Circuit) -> dict[str, str]:
    """Every field of a circuit, as text."""
    build, sizing = packet.sized.build, packet.sized.sizings[circuit.key]
    return {
        **identity(packet, circuit),
        **protection(build, branches.devices(packet.sized, circuit)),
        **conductor(build, circuit, sizing),
        **ampacity(sizing, branches.devices(packet.sized, circuit), build),
        **drop(build, circuit, sizing),
        **reason(sizing),
    }


def identity(packet: Packet, circuit: Circuit) -> dict[str, str]:
    build = packet.sized.build
    relays = [f"{c.designation} {c.title}" for c in circuit.contacts if c.kind in ("relay", "link")]
    cuts = [f"{c.designation} {c.title}" for c in circuit.contacts if c.kind == "switch" and c.part]
    reserve = build.reserves.get(circuit.item) if circuit.kind == "reserve" else None
    return {
        "number": circuit.number,
        "function": words.capital(circuit.title),
        "from": source(build, circuit),
        "to": towards(build, circuit),
        "key": words.key_of(packet, circuit),
        "relay": ", ".join((*relays, *cuts)) or words.NOT_APPLICABLE,
        "connector": reserve.connector if reserve else words.NOT_APPLICABLE,
        "state": circuit.open_reason or STATES.get(circuit.kind, "in use"),
        "wires": ", ".join(w.designation for w in (*circuit.feeds, *circuit.returns)) or words.NOT_APPLICABLE,
        "sheet": ", ".join(sheets_of(packet, circuit)) or words.NOT_APPLICABLE,
    }


def source(build: Resolved, circuit: Circuit) -> str:
    """What it comes from: of branches the common point or the first item, with the number of its circuit."""
    if circuit.kind == "branch":
        return f"{circuit.feeds[0].start.item}, in {branches.trunk(build, circuit).number}"
    return words.capital(words.node(build, circuit.source))


def towards(build: Resolved, circuit: Circuit) -> str:
    """What it goes to, and where that is."""
    if circuit.kind == "branch":
        names = list(dict.fromkeys((circuit.feeds[0].end.item, circuit.feeds[-1].end.item)))
        return f"{' to '.join(names)}, {words.place(build, far_place(circuit))}"
    if circuit.kind in ("link", "tie", "bond", "module"):
        return words.capital(words.node(build, circuit.target))
    return f"{circuit.target_designation}, {words.place(build, far_place(circuit))}"


def far_place(circuit: Circuit) -> str:
    """Place of the far end of the feed, or of the return where there is no feed."""
    return circuit.feeds[-1].end.place if circuit.feeds else circuit.returns[0].start.place


def sheets_of(packet: Packet, circuit: Circuit) -> list[str]:
    """Numbers of the drawing sheets that show one of the circuit's wires: `D1`."""
    names = [re.escape(w.designation) for w in (*circuit.feeds, *circuit.returns)]
    if not names:
        return []
    pattern = re.compile(rf"(?<![\w.])(?:{'|'.join(names)})(?![\w.])")
    return [f"D{sheet.number}" for sheet in packet.sheets if pattern.search(sheet.svg)]


def protection(build: Resolved, devices: tuple[Device, ...]) -> dict[str, str]:
    none = words.NOT_APPLICABLE
    return {
        "device": ", ".join(d.designation for d in devices) or none,
        "rating": ", ".join(show.amps(d.rating_a) for d in devices) or none,
        "type": ", ".join(dict.fromkeys(device_type(d.kind, d.family) for d in devices)) or none,
        "position": "; ".join(words.position(build, d) for d in devices) or none,
        "reset": "; ".join(dict.fromkeys(words.after_trip(build, d) for d in devices)) or none,
        "holder": ", ".join(dict.fromkeys(show.amps(d.holder_a) for d in devices)) or none,
        "breaking": ", ".join(dict.fromkeys(kilo(d.breaking_a) for d in devices)) or none,
        "prospective": ", ".join(dict.fromkeys(kilo(d.prospective_a) for d in devices)) or none,
    }


def device_type(kind: str, family: str) -> str:
    return "electronic limit" if kind == "channel" else f"{show.family(family)} fuse"


def kilo(value_a: float | None) -> str:
    """A fault current; a dash where nobody states it."""
    return words.NOT_APPLICABLE if value_a is None else f"{show.plain(value_a / 1000, 2)} kA"


def row(build: Resolved, sizing: Sizing) -> str:
    """The row of the table in use that holds for a conductor."""
    found = loom.rated(build, sizing.conductor)
    return found.row.replace("mm2", "mm²") if found is not None else "below the table"


def conductor(build: Resolved, circuit: Circuit, sizing: Sizing) -> dict[str, str]:
    out_m, back_m = (sum(w.cut_m for w in part) for part in branches.way(circuit))
    colours = list(dict.fromkeys(w.colour for w in (*circuit.feeds, *circuit.returns)))
    return {
        "size": show.size(sizing.conductor),
        "both_sizes": show.both_sizes(sizing.conductor),
        "gauge": row(build, sizing),
        "written": "as written" if sizing.written else "chosen",
        "insulation": f"{show.plain(build.practice.insulation_c, 0)} °C",
        "colours": ", ".join(colours) or words.NOT_APPLICABLE,
        "one_way": show.length(out_m, build.practice) if circuit.feeds else words.NOT_APPLICABLE,
        "loop": show.length(out_m + back_m, build.practice),
        "return_to": return_to(build, circuit) or words.NOT_APPLICABLE,
        "return_size": show.size(sizing.conductor) if circuit.returns else words.NOT_APPLICABLE,
    }


def return_to(build: Resolved, circuit: Circuit) -> str:
    """Where the current goes back; `` where the circuit has no way back of its own."""
    ground = build.grounds.get(circuit.ground)
    if ground is not None:
        return f"{ground.letter_name}, {ground.words}"
    if circuit.body_return:
        return "vehicle body at the device"
    if circuit.kind == "branch":
        return f"{circuit.feeds[0].start.item}:−"
    charger = build.isolation.get(circuit.item)
    shared = circuit.kind == "charge-out" and charger is not None
    return f"common negative at {charger.designation}:−" if shared and charger else ""


def ampacity(sizing: Sizing, devices: tuple[Device, ...], build: Resolved) -> dict[str, str]:
    amp = sizing.ampacity
    if amp is None:
        none = words.NOT_APPLICABLE
        keys = (
            "loaded",
            "environment",
            "zone",
            "worst_run",
            "base",
            "factors",
            "corrected",
            "table",
            "margin",
        )
        return dict.fromkeys(keys, none)
    rating = max((d.rating_a for d in devices), default=sizing.design_a)
    needed = max(rating * build.practice.wire_margin, sizing.design_a)
    return {
        "loaded": str(amp.loaded),
        "environment": ENVIRONMENTS[amp.environment],
        "zone": zone(build, amp),
        "worst_run": amp.run,
        "base": show.amps(amp.base_a),
        "factors": f"× {amp.place_factor:g} × {amp.bundle_factor:g}",
        "corrected": show.amps(amp.corrected_a),
        "table": amp.table,
        "margin": show.percent(amp.corrected_a / needed - 1) if needed else words.NOT_APPLICABLE,
    }


def zone(build: Resolved, amp: Ampacity) -> str:
    """Around the worst run, with the temperature that the table in use stands for."""
    where = ENVIRONMENTS[amp.environment]
    if build.practice.ampacity != BOAT:
        return where
    return f"{where}, {AROUND_C.get(amp.environment, USUAL_C)} °C"


def drop(build: Resolved, circuit: Circuit, sizing: Sizing) -> dict[str, str]:
    """Drop at the design current, shared feeders included; a battery negative is counted in the others."""
    counted = circuit.kind not in ("bond", "tie") and sizing.design_a > 0
    share = sizing.drop_v / build.practice.nominal_v
    return {
        "design": show.amps(sizing.design_a),
        "drop": show.volts(sizing.drop_v) if counted else words.NOT_APPLICABLE,
        "drop_share": show.percent(share) if counted else words.NOT_APPLICABLE,
        "drop_limit": show.volts(sizing.drop_limit_v) if counted else words.NOT_APPLICABLE,
        "at_load": show.volts(sizing.volts_at_load) if counted else words.NOT_APPLICABLE,
        "drop_state": words.quoted(sizing.state) or words.NOT_APPLICABLE,
        "lowest": show.volts(sizing.lowest_v) if counted and sizing.lowest_v else words.NOT_APPLICABLE,
        "lowest_state": words.quoted(sizing.lowest_in) or words.NOT_APPLICABLE,
        "temperature": f"{show.plain(sizing.temp_c, 0)} °C",
    }


def reason(sizing: Sizing) -> dict[str, str]:
    why = sizing.reason
    return {
        "governed": why.governed_by,
        "left": show.percent(why.margin),
        "second": why.runner_up or words.NOT_APPLICABLE,
        "sum": why.sum.replace("mm2", "mm²"),
    }
