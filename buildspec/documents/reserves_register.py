"""The pre-wires: where both ends are, what they may carry, what is needed to use one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import show
from buildspec.documents import _circuits as circuits
from buildspec.documents import _fuses as fuses
from buildspec.documents import _labels as labels
from buildspec.documents import _words as words
from buildspec.model import Circuit, Reserve, Resolved
from buildspec.packet import Packet

TITLE = "Reserves register"
ORDER = 100


def view(packet: Packet) -> dict[str, Any]:
    found = [c for c in packet.sized.build.circuits if c.kind == "reserve"]
    return {
        "intro": (
            "A reserve is wire that already lies in the vehicle for something to come. Every one was "
            "checked with all of them in use at once, up to what each allows. To use one, change the spec "
            "and print the packet again; nothing is added on the quiet."
        ),
        "reserves": [line(packet, c) for c in found],
        "cards": [card(packet, c) for c in found],
        "free": list(free(packet)),
        "no_free": "No position is free.",
        "nothing": "This build has no reserves.",
    }


def line(packet: Packet, circuit: Circuit) -> dict[str, str]:
    build = packet.sized.build
    reserve, fields = build.reserves[circuit.item], circuits.line(packet, circuit)
    return {
        "id": reserve.designation,
        "circuit": circuit.number,
        "purpose": words.capital(reserve.purpose or "unspecified"),
        "place": words.place(build, reserve.place),
        "allow": show.amps(reserve.allow_a),
        "protection": protection(packet, circuit),
        "fitted": fitted(circuit),
        "state": "reserved",
        "size": fields["size"],
    }


def protection(packet: Packet, circuit: Circuit) -> str:
    devices = packet.sized.sizings[circuit.key].devices
    return ", ".join(f"{d.designation} {words.fuse(d)}" for d in devices) or "none, by decision"


def fitted(circuit: Circuit) -> str:
    if not circuit.protections:
        return words.NOT_APPLICABLE
    first = circuit.protections[0]
    return (
        ("on" if first.fitted else "off until used")
        if first.kind == "channel"
        else ("yes" if first.fitted else "no")
    )


def card(packet: Packet, circuit: Circuit) -> dict[str, Any]:
    """Everything that the next fitter needs to find and use one."""
    build = packet.sized.build
    reserve = build.reserves[circuit.item]
    heading = f"{reserve.designation} {reserve.legend or words.capital(reserve.name.replace('-', ' '))}"
    rows = [*where(packet, circuit, reserve), *carries(packet, circuit, reserve), *kept(build, reserve)]
    return {"heading": heading, "rows": [{"what": what, "is": value} for what, value in rows]}


def where(packet: Packet, circuit: Circuit, reserve: Reserve) -> list[tuple[str, str]]:
    build = packet.sized.build
    return [
        ("Purpose", words.capital(reserve.purpose or "unspecified")),
        ("Far end", f"{words.capital(words.place(build, reserve.place))}: {reserve.end}"),
        ("Supply end", words.capital(labels.supply(build, reserve))),
        ("End treatment", treatment(reserve)),
        ("Powered", "yes, live" if reserve.powered else "no"),
        ("Protection", f"{protection(packet, circuit)}; {fuse_words(circuit)}"),
    ]


def carries(packet: Packet, circuit: Circuit, reserve: Reserve) -> list[tuple[str, str]]:
    practice, fields = packet.sized.build.practice, circuits.line(packet, circuit)
    long = show.length(circuit.feeds[-1].cut_m, practice)
    return [
        ("At most", f"{show.amps(reserve.allow_a)}, for good, with everything else on"),
        ("Wire", f"{fields['both_sizes']}, {fields['colours']}, {long} from the supply end"),
        (
            "Left coiled at the far end",
            show.length(reserve.coil_m, practice) if reserve.coil_m else "nothing",
        ),
        ("Thinnest part", thinnest(packet, circuit)),
        ("Returns to", fields["return_to"]),
        ("Drop at that current", f"{fields['drop']} of {fields['drop_limit']}"),
        ("Key", fields["key"]),
        ("Label on both ends", labels.reserve_text(reserve)),
        ("Circuit and wires", f"{circuit.number}: {fields['wires']}"),
    ]


def kept(build: Resolved, reserve: Reserve) -> list[tuple[str, str]]:
    return [
        ("State", "reserved"),
        ("Reserved by, date", f"{build.job.owner}, {build.job.date}"),
        ("Reserved for", reserve.purpose or words.BLANK),
        ("Used or withdrawn by, date, revision, circuit", words.BLANK),
        ("Pictures of both ends, numbers", words.BLANK),
    ]


def thinnest(packet: Packet, circuit: Circuit) -> str:
    """What carries least: the wire where it lies, or what protects it."""
    sizing = packet.sized.sizings[circuit.key]
    parts = [(d.rating_a, d.designation) for d in sizing.devices]
    if sizing.ampacity is not None:
        parts.append((sizing.ampacity.corrected_a, "wire where it lies"))
    if not parts:
        return "not known: below the table, no device"
    amps, what = min(parts)
    return f"{what}: {show.amps(amps)}"


def free(packet: Packet) -> Iterator[dict[str, str]]:
    """Positions and keys without a wire."""
    for heading, lines in fuses.groups(packet):
        found = [line["position"] for line in lines if line["state"] == "free"]
        if found:
            yield {"host": heading, "count": f"{len(found)} of {len(lines)}", "positions": ", ".join(found)}


def treatment(reserve: Reserve) -> str:
    parts = [reserve.cap or "no cap stated"]
    if reserve.connector != "none":
        parts.append(f"connector: {reserve.connector}")
        parts.append("supply half shrouded" if reserve.shrouded else "supply half not shrouded")
    return "; ".join(parts)


def fuse_words(circuit: Circuit) -> str:
    state = fitted(circuit)
    return {"yes": "fuse is in", "no": "fuse is out until used", "on": "channel is on"}.get(state, state)
