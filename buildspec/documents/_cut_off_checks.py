"""What switches itself off when the voltage falls or the current rises, and what brings it back."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.documents import _checks as checks
from buildspec.documents import _words as words
from buildspec.packet import Packet

BAND_V = 0.3
"""Tolerance that makers of cut-offs state, one published manual."""
HOW = "supply lowered slowly from a bench source, voltage at its own terminals"


def lines(packet: Packet) -> Iterator[dict[str, str]]:
    """Cut-offs of blocks, batteries and other parts, then the items that stop by themselves."""
    build = packet.sized.build
    hosts = (build.batteries, build.blocks, build.isolation, build.accessories)
    for item in (item for group in hosts for item in group.values()):
        trait = item.part.cut_off
        if trait is not None:
            name = f"{item.designation} {item.part.title}"
            delay = f", after {show.plain(trait.delay_s, 0)} s" if trait.delay_s else ""
            yield checks.row(
                f"{name}: cuts off", HOW, f"{band(trait.opens_v)}{delay}; load is off, told by: …"
            )
            back = band(trait.closes_v) if trait.closes_v is not None else "as its maker states"
            yield checks.row(f"{name}: returns", "raised again", back)
    for item in build.accessories.values():
        electrical = item.part.electrical
        if electrical is not None and electrical.cut_out_v is not None:
            name = f"{item.designation} {item.part.title}"
            yield checks.row(f"{name}: stops by itself", HOW, band(electrical.cut_out_v))
            yield checks.row(f"{name}: starts again", "raised again", "at its maker's figure, by itself: …")


def band(volts: float) -> str:
    """`10.70 V ± 0.30 V`."""
    return f"{show.volts(volts)} ± {show.volts(BAND_V)}"


def trips(packet: Packet) -> Iterator[dict[str, str]]:
    """Each panel once: one key overloaded on purpose, and how it comes back."""
    build = packet.sized.build
    for name, panel in build.panels.items():
        trait = panel.part.panel
        if trait is not None:
            limit = f"{show.amps(max(trait.channel_a))}" if trait.channel_a else "its limit"
            yield checks.row(
                f"{words.capital(words.node(build, name))}: one key",
                f"load box on a free key, raised above its limit of at most {limit}",
                trait.after_trip,
            )
