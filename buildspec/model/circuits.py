"""Circuits from source to load and back, and the whole resolved build."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from buildspec.findings import Path, Waiver
from buildspec.model.items import (
    Accessory,
    Battery,
    Block,
    Channel,
    Hole,
    Isolation,
    OwnState,
    Panel,
    Reserve,
    Supply,
    Work,
)
from buildspec.model.parts import Electrical, Part
from buildspec.model.practice import Conductor, Practice
from buildspec.model.vehicle import Ground, Place, Route, Run, Signal, Vehicle


class Terminal(NamedTuple):
    """One end of a conductor: the designation and pin it goes to, and the place."""

    item: str
    pin: str
    place: str


class Wire(NamedTuple):
    """One piece of conductor as it is cut."""

    key: str
    designation: str
    role: str
    """`feed`, `return`, `signal`, `coil`."""
    start: Terminal
    end: Terminal
    route: Route
    cut_m: float
    colour: str


class Protection(NamedTuple):
    """A protective device: where it sits and what was written. `host` is a block or panel name."""

    key: str
    designation: str
    kind: str
    """`fuse`, `channel` (electronic limit of a panel)."""
    place: str
    host: str
    position: int
    lead_m: float
    """Conductor between its source and it."""
    sheathed: bool
    source: str
    """Node whose current it stops: battery, block or panel name."""
    family: str
    """Written family, or `` to choose."""
    rating_a: float | None
    """Written rating, or the limit of a channel; None to choose."""
    holder_a: float | None
    fitted: bool
    at: Path


class Contact(NamedTuple):
    """A contact in the way of the current: relay, rocker, hard power-off, link."""

    key: str
    designation: str
    kind: str
    """`relay`, `switch`, `link`."""
    title: str
    place: str
    rating_a: float
    motor_a: float | None
    momentary: bool
    part: Part | None
    at: Path
    blocking: bool = False
    """Each command of its coil comes through a diode."""


class Circuit(NamedTuple):
    """From a source to a load and back. Feeds and returns are in the order of the current.

    `kind`: `feeder` (to a block or panel), `load`, `reserve`, `charge-in`, `charge-out` (from a charger or
    an outside source to a battery; its device sits at the battery), `link`,
    `signal` (vehicle signal to a coil or logic input), `coil` (channel to relay coil), `module` (a
    panel's own negative), `bond` (battery negative to body), `tie` (alternator, or a conductor written
    under `conductors`), `branch` (the links between the items of one load; see `branches.py`).
    """

    key: str
    number: str
    title: str
    kind: str
    source: str
    """Node: name of a battery, block, panel, charger or signal."""
    target: str
    """Node, or name of the accessory or reserve."""
    item: str
    """Name of the accessory, reserve, panel, block or isolation device it belongs to."""
    target_designation: str
    protections: tuple[Protection, ...]
    contacts: tuple[Contact, ...]
    feeds: tuple[Wire, ...]
    returns: tuple[Wire, ...]
    ground: str
    """Name of the ground at the end of the return, or ``."""
    body_return: bool
    """The return is the vehicle body from the device itself, without a conductor."""
    environment: str
    """Around its first protective device."""
    load: Electrical | None
    quantity: int
    allow_a: float | None
    """What a reserve may carry."""
    fixed_a: float | None
    """Design current given by the device itself: charger, link, coil."""
    drop_class: str
    conductor: Conductor | None
    """Written size, or None to choose."""
    unprotected: bool
    """The spec says that there is no protective device."""
    existing: bool
    """The vehicle's own: drawn, not sized, not cut."""
    open_reason: str
    """Why it stays open (a fuse that must stay out), or ``."""
    at: Path
    form: str = ""
    """How a `branch` joins the items: `star` from a common point, `chain` from one to the next; else ``."""


class Job(NamedTuple):
    number: str
    title: str
    revision: str
    date: str
    state: str
    prepared_by: str
    approved_by: str
    owner: str
    owner_contact: str
    user: str
    notes: tuple[str, ...]
    spare_fuses: str = ""
    """Where the owner finds them, or ``."""


class Quote(NamedTuple):
    """What the quote says beyond its lines."""

    excluded: tuple[str, ...] = ()
    instructions: tuple[str, ...] = ()


class Resolved(NamedTuple):
    """The whole build with names looked up, routes found, circuits made and designations given."""

    job: Job
    practice: Practice
    vehicle: Vehicle
    places: Mapping[str, Place]
    runs: tuple[Run, ...]
    grounds: Mapping[str, Ground]
    signals: Mapping[str, Signal]
    batteries: Mapping[str, Battery]
    isolation: Mapping[str, Isolation]
    panels: Mapping[str, Panel]
    blocks: Mapping[str, Block]
    accessories: Mapping[str, Accessory]
    reserves: Mapping[str, Reserve]
    channels: tuple[Channel, ...]
    circuits: tuple[Circuit, ...]
    holes: tuple[Hole, ...]
    works: tuple[Work, ...]
    waivers: tuple[Waiver, ...]
    supplies: Mapping[str, Supply]
    states: Mapping[str, OwnState]
    numbers: Mapping[str, str]
    """Stable key → designation, for the numbering file: old ones kept, new ones added."""
    quote: Quote = Quote()
    language: str = "en"
    """Of the spec's own words."""
    translations: Mapping[str, Mapping[str, str]] = MappingProxyType({})
    """Language → own words → in that language."""
