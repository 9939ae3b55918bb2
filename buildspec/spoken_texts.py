"""What the owner's sheet and the switch legend print of the spec's own words, and where each stands."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from buildspec import catalogue, tongues
from buildspec.findings import Path
from buildspec.model import Accessory, Channel, Circuit, Panel, Protection, Resolved


class Spoken(NamedTuple):
    """A text that owners read. Of a short one only what comes before the first comma is printed."""

    text: str
    at: Path
    short: bool = False

    @property
    def printed(self) -> str:
        return self.text.partition(",")[0].strip() if self.short else self.text


@cache
def of_shipped_parts() -> frozenset[str]:
    """Words of the shipped parts that every catalogue of a language has: titles up to a comma, texts, trips."""
    found: set[str] = set()
    for part in catalogue.shipped().values():
        found |= {part["title"].partition(",")[0].strip(), part["owner"]}
        found.add(part.get("panel", {}).get("after_trip", ""))
    return frozenset(found - {""})


def missing(build: Resolved, lang: str) -> tuple[Spoken, ...]:
    """Texts that nobody has translated into a language, the place where each stands first."""
    if tongues.base_of(lang) == build.language:
        return ()
    known = {**dict.fromkeys(of_shipped_parts(), ""), **tongues.glossary(build, lang)}
    return tuple(s for s in spoken(build) if s.printed not in known and s.text not in known)


def spoken(build: Resolved) -> tuple[Spoken, ...]:
    """Every text once, in the order of the spec's sections; whole where it is printed whole anywhere."""
    found: dict[str, Spoken] = {}
    every = [s for s in _every(build) if s.text]
    for one in (*(s for s in every if not s.short), *(s for s in every if s.short)):
        found.setdefault(one.printed, one)
    first = {s.printed: n for n, s in reversed(list(enumerate(every)))}
    return tuple(sorted(found.values(), key=lambda s: first[s.printed]))


def _every(build: Resolved) -> Iterator[Spoken]:
    yield Spoken(build.job.title, ("job", "title"))
    for index, note in enumerate(build.job.notes):
        yield Spoken(note, ("job", "notes", index))
    yield Spoken(build.job.spare_fuses, ("job", "spare_fuses"))
    yield Spoken(build.vehicle.description, ("vehicle", "description"), short=True)
    yield from _panels(build)
    yield from _accessories(build)
    yield from _ways(build)
    yield from _reserves(build)
    yield from _fuses(build)
    yield from _own_fuses(build)


# ------------------------------------------------------------------------------------------- keys


def legend_of(channel: Channel) -> str:
    """Text of a key: its legend, or the item's name where none is written."""
    return "" if channel.use == "blank" else channel.legend or channel.item.replace("-", " ").upper()


def where(build: Resolved, panel: Panel) -> str:
    """Where the keys are, in words."""
    place = build.places[panel.keypad_at]
    return panel.words or place.words or place.name


def _panels(build: Resolved) -> Iterator[Spoken]:
    for panel in (p for p in build.panels.values() if p.part.panel):
        assert panel.part.panel is not None
        named = (*panel.at, "words") if panel.words else ("places", panel.keypad_at, "words")
        yield Spoken(where(build, panel), named)
        yield Spoken(panel.part.title, panel.at, short=True)
        yield Spoken(panel.part.panel.after_trip, panel.at)
    for channel in build.channels:
        yield from _key(build, channel)


def _key(build: Resolved, channel: Channel) -> Iterator[Spoken]:
    at: Path
    if channel.use == "accessory":
        at = build.accessories[channel.item].at
    elif channel.use == "link":
        at = build.isolation[channel.item].at
    elif channel.use == "reserve":
        at = build.reserves[channel.item].at
    else:
        return
    yield Spoken(legend_of(channel), (*at, "legend"))
    if channel.use != "reserve":
        yield Spoken(channel.hint, (*at, "hint"))


# ------------------------------------------------------------------------------------------ things


def _accessories(build: Resolved) -> Iterator[Spoken]:
    titles = Counter(item.part.title.partition(",")[0] for item in build.accessories.values())
    for item in build.accessories.values():
        yield Spoken(item.part.title, (*item.at, "title"), short=True)
        yield Spoken(item.owner, (*item.at, "owner"))
        if item.trigger:
            yield Spoken(build.signals[item.trigger].words, ("signals", item.trigger, "words"), short=True)
        if item.part.anchor or (not item.owner and not item.switch and not item.trigger):
            yield _place(build, item.place)
        elif _is_outlet(item) or titles[item.part.title.partition(",")[0]] > 1:
            yield _place(build, item.place, short=True)
        if item.part.category == "inverter" and not item.switch:
            yield _place(build, item.place)
    for circuit in build.circuits:
        if circuit.item in build.accessories and not build.accessories[circuit.item].switch:
            yield from (_place(build, c.place) for c in circuit.contacts if c.kind == "switch")


def _is_outlet(item: Accessory) -> bool:
    return item.part.category == "outlet" or item.part.outlet is not None


def _ways(build: Resolved) -> Iterator[Spoken]:
    """Chargers and links between the batteries, and what charges from outside."""
    for way in build.isolation.values():
        yield Spoken(way.part.owner, (*way.at, "owner"))
        if way.type == "manual-switch":
            yield _place(build, way.place)
        if way.switch:
            yield Spoken(way.part.title, (*way.at, "title"), short=True)
        elif way.type == "momentary-link":
            yield _place(build, way.place)
    for supply in build.supplies.values():
        yield Spoken(supply.part.owner, (*supply.at, "owner"))
        if supply.type == "shore":
            yield _place(build, supply.place)


def _reserves(build: Resolved) -> Iterator[Spoken]:
    for item in build.reserves.values():
        if item.purpose:
            yield Spoken(item.purpose, (*item.at, "purpose"))
        else:
            yield Spoken(item.name.replace("-", " "), item.at)
        yield Spoken(item.end, (*item.at, "end")) if item.end else _place(build, item.place)


def _place(build: Resolved, name: str, *, short: bool = False) -> Spoken:
    return Spoken(build.places[name].words, ("places", name, "words"), short)


# ------------------------------------------------------------------------------------------- fuses


def _fuses(build: Resolved) -> Iterator[Spoken]:
    """Where every fuse sits, and names of what only a fuse is named for."""
    for circuit in (c for c in build.circuits if not c.existing):
        for protection in (p for p in circuit.protections if p.kind == "fuse"):
            yield from _fuse_place(build, protection)
            yield from _fed(build, circuit, protection)


def _fuse_place(build: Resolved, protection: Protection) -> Iterator[Spoken]:
    yield _place(build, protection.place)
    panel = build.panels.get(protection.host)
    yield _access(build, panel.module_at if panel else protection.place)
    if panel and panel.words:
        yield Spoken(panel.words, (*panel.at, "words"))
    elif panel:
        yield _place(build, panel.module_at)


def _access(build: Resolved, name: str) -> Spoken:
    """How to get at the fuses of a place."""
    return Spoken(build.places[name].access, ("places", name, "access"))


def _own_fuses(build: Resolved) -> Iterator[Spoken]:
    """Where the vehicle's own fuses of the feeds in use are."""
    for feed in (block.feed for block in build.blocks.values()):
        if feed is not None:
            yield Spoken(feed.fuse_at, (*feed.at, "fuse_at"))


def _fed(build: Resolved, circuit: Circuit, protection: Protection) -> Iterator[Spoken]:
    if circuit.kind in ("reserve", "charge-in", "charge-out") or circuit.item in build.supplies:
        return
    if circuit.target in build.blocks:
        yield _place(build, build.blocks[circuit.target].place)
    elif circuit.kind == "feeder":
        if circuit.target not in build.panels:
            yield Spoken(circuit.target.replace("-", " "), circuit.at)
    elif circuit.kind == "link":
        if protection.source not in build.batteries:
            yield Spoken(protection.source.replace("-", " "), circuit.at)
    elif circuit.item not in build.accessories:
        yield Spoken(circuit.item.replace("-", " "), circuit.at)
