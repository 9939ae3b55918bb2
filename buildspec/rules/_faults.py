"""What the rules about dead shorts share: which device, on what times it rests, and how a time is printed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import show
from buildspec.model import Circuit, Device, Fault, Opening, Protection, Sized

MOST_S = 5.0
"""Longest opening time: to here the equation of heat without loss is valid (IEC 60364-5-54)."""
RECALLED = " (gate from memory; the device's own curve decides)"


class Site(NamedTuple):
    """A device, the circuit that it sits in, and what was written for it."""

    circuit: Circuit
    protection: Protection
    device: Device


class Cut(NamedTuple):
    """One battery that feeds a dead short, and the device that has to cut it off."""

    circuit: Circuit
    fault: Fault
    opening: Opening
    site: Site


def sites(sized: Sized) -> dict[str, Site]:
    """Key of a device → where it sits."""
    return {
        p.key: Site(c, p, d)
        for c in sized.build.circuits
        for p, d in zip(c.protections, sized.sizings[c.key].devices, strict=True)
    }


def cuts(sized: Sized) -> Iterator[Cut]:
    """Every battery at every dead short that a device stands against; where none does, other rules say so."""
    where = sites(sized)
    for circuit in sized.build.circuits:
        if circuit.key not in sized.faults:
            continue
        for fault in sized.faults[circuit.key].far:
            for opening in fault.openings:
                if opening.device:
                    yield Cut(circuit, fault, opening, where[opening.device])


def seconds(time_s: float) -> str:
    """A time as people say it: `0.26 s`, `3 ms`."""
    return (
        f"{show.plain(time_s * 1000, 1)} ms"
        if time_s < 0.1
        else f"{show.plain(time_s, 1 if time_s >= 10 else 2)} s"
    )


def energy(a2s: float) -> str:
    return f"{show.plain(a2s, 0)} A² s"


def memory(recalled: bool) -> str:
    """The remark of a message that rests on gates from memory."""
    return RECALLED if recalled else ""
