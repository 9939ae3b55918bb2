"""The findings that a packet was made with, sorted by what they are."""

from __future__ import annotations

from buildspec.documents import _words as words
from buildspec.findings import Diagnostic
from buildspec.packet import Packet


def waived(packet: Packet) -> tuple[Diagnostic, ...]:
    return tuple(d for d in packet.diagnostics if d.waiver is not None)


def warnings(packet: Packet) -> tuple[Diagnostic, ...]:
    return tuple(d for d in packet.diagnostics if d.waiver is None and d.severity == "warning")


def notes(packet: Packet) -> tuple[Diagnostic, ...]:
    return tuple(d for d in packet.diagnostics if d.waiver is None and d.severity == "note")


def line(one: Diagnostic) -> dict[str, str]:
    """A finding without file and line: the packet must not say where it was made."""
    return {
        "rule": one.rule,
        "of": ".".join(str(part) for part in one.path) or words.NOT_APPLICABLE,
        "message": words.quoted(one.message),
        "help": words.quoted(one.help) or words.NOT_APPLICABLE,
        "reason": one.waiver.reason if one.waiver else words.NOT_APPLICABLE,
        "until": one.waiver.until if one.waiver else words.NOT_APPLICABLE,
    }
