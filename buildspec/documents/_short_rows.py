"""Dead shorts as lines: at the end of each circuit, and right behind each device."""

from __future__ import annotations

from typing import NamedTuple

from buildspec import show
from buildspec.documents import _circuits as circuits
from buildspec.documents import _words as words
from buildspec.model import Circuit, Device, Fault, Near, Opening, Protection, Resolved
from buildspec.network import faults, posts
from buildspec.network.build import Laid
from buildspec.packet import Packet

RECALLED = " ?"
"""Behind a time that rests on recalled gates."""
Line = dict[str, str]
SAME = 1.001
"""Currents within a thousandth are the same."""


class Site(NamedTuple):
    """A device in its circuit."""

    circuit: Circuit
    protection: Protection
    device: Device


def sites(packet: Packet) -> dict[str, Site]:
    """Key of a device → where it sits."""
    sized = packet.sized
    return {
        p.key: Site(c, p, d)
        for c in sized.build.circuits
        for p, d in zip(c.protections, sized.sizings[c.key].devices, strict=True)
    }


def far(packet: Packet) -> list[Line]:
    where = sites(packet)
    return [
        far_line(packet, circuit, fault, opening, where)
        for circuit in circuits.shown(packet)
        if circuit.key in packet.sized.faults
        for fault in packet.sized.faults[circuit.key].far
        for opening in fault.openings
    ]


def far_line(
    packet: Packet, circuit: Circuit, fault: Fault, opening: Opening, where: dict[str, Site]
) -> Line:
    build = packet.sized.build
    site = where.get(opening.device)
    none = words.NOT_APPLICABLE
    thinnest = next(c for c in build.circuits if c.key == opening.thinnest)
    return {
        "number": circuit.number,
        "at": fault.at.removesuffix(":+"),
        "battery": build.batteries[opening.battery].designation,
        "amps": show.amps(opening.amps) if site else none,
        "device": f"{site.device.designation} {show.amps(site.device.rating_a)}"
        if site
        else "none, by decision",
        "within": within(opening) if site else none,
        "energy": none if opening.energy_a2s is None else show.plain(opening.energy_a2s, 0),
        "stands": show.plain(opening.limit_a2s, 0),
        "thinnest": thinnest.number,
        "dead": ", ".join(c.number for c in behind(build, site)) if site else none,
        "live": live(build, site) if site else "all of it",
    }


def within(opening: Opening) -> str:
    """Longest time, and a mark where it rests on recalled gates."""
    if opening.within_s is None:
        return "need not open"
    return f"{seconds(opening.within_s)}{RECALLED if opening.recalled else ''}"


def seconds(time_s: float) -> str:
    """`100 ms`, `0.26 s`, `12.3 s`."""
    if time_s < 0.1:
        return f"{show.plain(time_s * 1000, 1)} ms"
    return f"{show.plain(time_s, 1 if time_s >= 10 else 2)} s"


def behind(build: Resolved, site: Site) -> list[Circuit]:
    """Circuits that lose their supply when a device opens: its own, and those fed from what it feeds."""
    found, fed = [site.circuit], [site.circuit.target if site.circuit.kind == "feeder" else site.circuit.key]
    while fed:
        node = fed.pop(0)
        for circuit in build.circuits:
            if circuit.source == node and circuit not in found and not circuit.existing:
                found.append(circuit)
                fed.append(circuit.target if circuit.kind == "feeder" else circuit.key)
    return found


def live(build: Resolved, site: Site) -> str:
    """What still has battery voltage on the supply side of an open device."""
    name = site.protection.source
    if site.device.host:
        hosts = build.panels if site.device.host in build.panels else build.blocks
        return f"{hosts[site.device.host].designation} but for {site.device.position}"
    lead = [
        w.designation for w in site.circuit.feeds if site.device.designation in (w.start.item, w.end.item)
    ]
    first = lead[:1] if name == site.circuit.source else lead[-1:]
    source = build.batteries.get(name) or build.blocks[name]
    return f"{source.designation} {', '.join(first)} to {site.device.designation}"


def near(packet: Packet) -> list[Line]:
    """A short right behind every device, at its most, against what the device breaks."""
    sized = packet.sized
    where, held = sites(packet), faults.while_held(Laid(sized.build, sized.sizings))
    return [
        near_line(sized.build, where[one.device], one, held.get(one.device))
        for found in sized.faults.values()
        for one in found.near
    ]


def near_line(build: Resolved, site: Site, one: Near, held: Near | None) -> Line:
    device, none = site.device, words.NOT_APPLICABLE
    return {
        "device": device.designation,
        "number": site.circuit.number,
        "rating": words.fuse(device),
        "fed": ", ".join(build.batteries[b].designation for b in one.batteries) or none,
        "most": circuits.kilo(one.most_a),
        "asked": circuits.kilo(device.prospective_a),
        "held": none if held is None else while_held(build, site.protection, one, held),
        "breaks": circuits.kilo(device.breaking_a) if device.breaking_a is not None else "not stated",
        "where": words.position(build, device),
    }


def while_held(build: Resolved, protection: Protection, one: Near, held: Near) -> str:
    """What it must break while a hand closes a link; a dash where that adds nothing."""
    if held.most_a <= one.most_a * SAME:
        return words.NOT_APPLICABLE
    return circuits.kilo(posts.asked_a(build, protection.source, most_a=held.most_a, feeding=held.batteries))
