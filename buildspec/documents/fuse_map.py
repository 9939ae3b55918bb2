"""Where each fuse is, what may go in, what it feeds, and what must stay empty."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec.documents import _fuse_lid as lid
from buildspec.documents import _fuses as fuses
from buildspec.documents import _page as own
from buildspec.documents import _words as words
from buildspec.packet import Packet

TITLE = "Fuse map"
ORDER = 60
WIDE = True


def anchors(packet: Packet) -> tuple[str, ...]:
    """Fuse designations; an electronic limit is named by its key."""
    return tuple(f.device.designation for f in fuses.fitted(packet) if f.device.kind == "fuse")


def view(packet: Packet) -> dict[str, Any]:
    return {
        "intro": (
            "Never fit more than the rating listed: the wire behind it is sized for that and no more. One spare of "
            "each kind and rating goes into the bag. A position marked free has no wire: it may be used once the spec "
            "is changed and checked; one that must stay empty may not. The vehicle's own fuses are never "
            "changed; only those in front of what was joined to them are listed."
        ),
        "groups": [{"heading": heading, "positions": lines} for heading, lines in fuses.groups(packet)],
        "nothing": "No position.",
        "sketch": [{"place": heading, "sketch": words.BLANK} for heading, _ in fuses.groups(packet)],
    }


def pages(packet: Packet) -> Iterator[tuple[str, str]]:
    """`fuse-lid.html`: a card for the lid of each block and panel."""
    yield "fuse-lid.html", own.html(packet, "fuse-lid", cards=lid.cards(packet))
