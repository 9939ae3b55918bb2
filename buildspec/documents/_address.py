"""Where the shop keeps the packet of a job, in words and as a QR code; nothing where the shop names no address."""

from __future__ import annotations

from urllib.parse import quote

from buildspec.drawings import qr
from buildspec.model import Resolved

ROOM_MM = 1.0
"""Between the code and what stands under it."""


def address(build: Resolved) -> str:
    """`https://packets.example/FR-0117/B`, or ``."""
    base, job = build.practice.shop.packet_address, build.job
    if not base:
        return ""
    return "/".join((base.rstrip("/"), *(quote(part, safe="") for part in (job.number, job.revision))))


def code(build: Resolved) -> qr.Code | None:
    """The address as a code, or None: a code that only repeats the job's number would help nobody."""
    where = address(build)
    return qr.code(where, title=f"QR code: {where}") if where else None


def words(build: Resolved) -> str:
    """What stands beside the code."""
    where = address(build)
    return f"Packet {build.job.number} revision {build.job.revision}: {where}" if where else ""
