"""A circuit as the row of things that its current passes: conductors, protective devices, contacts."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.model import Circuit, Contact, Protection, Wire


class Piece(NamedTuple):
    """One conductor, one protective device or one contact; exactly one of the three is given."""

    wire: Wire | None = None
    protection: Protection | None = None
    contact: Contact | None = None

    @property
    def designation(self) -> str:
        found = self.wire or self.protection or self.contact
        return found.designation if found else ""


def pieces(circuit: Circuit) -> tuple[Piece, ...]:
    """Everything from the source to the load in the order of the current; nothing is left out."""
    devices = [
        *(Piece(protection=p) for p in circuit.protections if p.host),
        *(Piece(contact=c) for c in circuit.contacts if hosted(circuit, c)),
    ]
    rest = [
        *(Piece(protection=p) for p in circuit.protections if not p.host),
        *(Piece(contact=c) for c in circuit.contacts if not hosted(circuit, c)),
    ]
    made = list(devices)
    for wire in circuit.feeds:
        made.append(Piece(wire=wire))
        met = [piece for piece in rest if piece.designation == wire.end.item]
        made += met
        rest = [piece for piece in rest if piece not in met]
    return (*made, *rest)


def hosted(circuit: Circuit, contact: Contact) -> bool:
    """Is this contact a part of the panel from which the circuit starts?"""
    return bool(circuit.feeds) and contact.designation.partition(".")[0] == circuit.feeds[0].start.item
