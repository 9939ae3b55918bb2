"""packet.json: the whole sized build for programs, in base units, with the unit in the name of each key.

Keys are those of the records in `model`; `schemas/packet.schema.json` describes every one. Places in the
spec's text are left out, so that the packet says nothing of where it was made.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any

from buildspec import __version__
from buildspec.findings import Diagnostic
from buildspec.model import Part, Route, Sized
from buildspec.packet import Packet, Sheet

FORMAT = 1
LEFT_OUT = ("at",)
DIGITS = 9
"""Significant digits: enough for anybody, and the same on every machine."""


def text(packet: Packet, files: Sequence[str]) -> str:
    """The file. `files`: names of all files of the packet, this one included."""
    return json.dumps(whole(packet, files), indent=1, ensure_ascii=False) + "\n"


def whole(packet: Packet, files: Sequence[str]) -> dict[str, Any]:
    """The packet as plain values."""
    build = packet.sized.build
    return {
        "buildspec": __version__,
        "format": FORMAT,
        "files": list(files),
        **{name: plain(getattr(build, name)) for name in ("job", "vehicle", "practice")},
        **{
            name: listed(getattr(build, name).values())
            for name in ("places", "grounds", "signals", "batteries")
        },
        **{name: listed(getattr(build, name).values()) for name in ("isolation", "supplies", "states")},
        **{name: listed(getattr(build, name).values()) for name in ("panels", "blocks")},
        **{name: listed(getattr(build, name).values()) for name in ("accessories", "reserves")},
        **{name: listed(getattr(build, name)) for name in ("runs", "channels", "holes", "works", "waivers")},
        "circuits": circuits(packet.sized),
        "drawn_a": plain(packet.sized.loads_a),
        "findings": [finding(d) for d in packet.diagnostics],
        "drawings": [drawing(sheet) for sheet in (*packet.sheets, *packet.strips, *packet.charts)],
        "drawing_checks": [checks(sheet) for sheet in packet.sheets],
        "numbers": plain(build.numbers),
        "quote": plain(build.quote),
    }


def listed(records: Iterable[Any]) -> list[Any]:
    return [plain(record) for record in records]


def circuits(sized: Sized) -> list[dict[str, Any]]:
    """Each circuit with what was chosen for it under `sizing`."""
    found = []
    for circuit in sized.build.circuits:
        sizing = plain(sized.sizings[circuit.key])
        del sizing["circuit"]
        found.append({**plain(circuit), "sizing": sizing})
    return found


def plain(value: Any) -> Any:
    """A record, mapping or sequence as what JSON knows."""
    if isinstance(value, Route):
        return {
            "places": list(value.places),
            "runs": [r.name for r in value.runs],
            "length_m": plain(value.length_m),
        }
    if isinstance(value, Part):
        return {key: plain(v) for key, v in value._asdict().items() if v is not None or key == "mass_kg"}
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return {key: plain(v) for key, v in value._asdict().items() if key not in LEFT_OUT}
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, Mapping):
        return {str(key): plain(v) for key, v in value.items()}
    if isinstance(value, frozenset):
        return sorted(value)
    if isinstance(value, (tuple, list)):
        return [plain(v) for v in value]
    return float(f"{value:.{DIGITS}g}") if isinstance(value, float) else value


def finding(one: Diagnostic) -> dict[str, Any]:
    """A finding without file and line."""
    return {
        "severity": one.severity,
        "rule": one.rule,
        "path": [str(part) for part in one.path],
        "message": one.message,
        "help": one.help,
        "waived_by": one.waiver.by if one.waiver else None,
    }


def drawing(sheet: Sheet) -> dict[str, Any]:
    return {
        "file": f"drawings/{sheet.id}.svg",
        "title": sheet.title,
        "width_mm": plain(sheet.width_mm),
        "height_mm": plain(sheet.height_mm),
    }


def checks(sheet: Sheet) -> dict[str, Any]:
    """Crossings and overlaps of one sheet, by its file."""
    return {"file": f"drawings/{sheet.id}.svg", **(sheet.checks._asdict() if sheet.checks else {})}
