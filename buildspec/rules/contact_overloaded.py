"""A relay, rocker or power-off switch carries more than its contact is rated for.

What
----
The load of every contact is at most its rating; a motor's is held against the motor rating. A relay or
switch in front of a motor that states no motor rating cannot be checked. A rocker of a bank states one
limit for all loads: half of it counts for motors.

Why
---
Motors draw a multiple at the start and keep an arc when they stop: a 30 A lighting relay welds shut on a
compressor, and what it switched never goes off again.

Bad
---
accessories:
  compressor: {fed_from: house, switch: main.4, relay: {at: load-bed, contact: {rating: 30 A, motor: 20 A}}}

Good
----
accessories:
  compressor: {fed_from: house, switch: main.4, relay: {at: load-bed, part: relay-70}}

Sources
-------
Relay maker's sheet: continuous current at 85 °C and not the figure on the case. Factor 2 for motors:
FAA AC 43.13-1B table 11-4, recalled.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.catalogue import shipped
from buildspec.findings import Finding, Path
from buildspec.model import Circuit, Contact, Sized
from buildspec.rules import _sizing
from buildspec.values import maybe

SEVERITY = "error"
SOURCES = ("relay-sheet", "faa-ac-43.13-1b-switches")
MOTOR_FACTOR = 2.0
"""Switch rating over motor current, 12 V (FAA AC 43.13-1B table 11-4, recalled)."""


def check(sized: Sized) -> Iterator[Finding]:
    for circuit, sizing in _sizing.circuits(sized):
        for contact in circuit.contacts:
            if contact.kind == "link":
                continue
            usable = usable_a(circuit, contact)
            if usable is None:
                message = (
                    f"cannot check: {_sizing.name(circuit)} is a motor of "
                    f"{show.amps(sizing.design_a)}, and the motor rating "
                    f"of {titled(contact)} ({show.amps(contact.rating_a)} for lamps) is not stated"
                )
                yield Finding(
                    place(circuit, contact),
                    message,
                    "write `contact: {motor: …}` from its sheet, or name a part",
                )
            elif sizing.design_a > usable:
                yield finding(circuit, contact, sizing.design_a, usable)


def is_motor(circuit: Circuit) -> bool:
    return circuit.load is not None and circuit.load.model == "motor"


def usable_a(circuit: Circuit, contact: Contact) -> float | None:
    """What the contact may carry of this load [A]; None when nobody has said."""
    if not is_motor(circuit):
        return contact.rating_a
    return contact.rating_a / MOTOR_FACTOR if contact.part is None else contact.motor_a


def titled(contact: Contact) -> str:
    return f"{contact.kind} `{contact.designation}`"


def finding(circuit: Circuit, contact: Contact, design_a: float, usable_a: float) -> Finding:
    load, limit = _sizing.apart(design_a, usable_a, "A")
    halved = (
        f" (half of {show.amps(contact.rating_a)}, FAA AC 43.13-1B table 11-4)"
        if contact.part is None
        else ""
    )
    kind = f"for motors{halved}" if is_motor(circuit) else "at 85 °C"
    message = (
        f"{load} for {_sizing.name(circuit)} through {titled(contact)}; its contact carries {limit} {kind}"
    )
    return Finding(place(circuit, contact), message, larger(circuit, contact, design_a))


def place(circuit: Circuit, contact: Contact) -> Path:
    return contact.at if contact.part is not None else (*circuit.at, "switch")


def larger(circuit: Circuit, contact: Contact, design_a: float) -> str:
    """The smallest relay of the catalogue that carries it, and the way that always works."""
    if contact.kind == "switch" and contact.part is not None:
        return f"a switch whose contact carries {show.amps(design_a)} or more, or a relay that this switch commands"
    key = "motor" if is_motor(circuit) else "rating"
    rated = {
        n: maybe(p["contact"], key, "current") for n, p in shipped().items() if p.get("category") == "relay"
    }
    fits = sorted((a, n) for n, a in rated.items() if a is not None and a >= design_a)
    if not fits:
        return "divide the load over two circuits"
    return (
        f"`relay: {{part: {fits[0][1]}, at: …}}` carries {show.amps(fits[0][0])}; or divide the load "
        "over two circuits"
    )
