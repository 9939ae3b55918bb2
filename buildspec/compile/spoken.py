"""The packet in another of its languages."""

from __future__ import annotations

from buildspec.packet import Packet


def in_language(packet: Packet, lang: str) -> Packet:
    """The packet with its papers for owners in another language."""
    from buildspec.drawings import legend

    return packet._replace(lang=lang, strips=legend.strips(packet.sized, lang))
