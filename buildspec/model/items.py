"""What is fitted: batteries, links, panels, blocks, accessories, reserves, works, holes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from buildspec.findings import Path
from buildspec.model.parts import Envelope, Part
from buildspec.model.points import Feed
from buildspec.model.vehicle import Neighbour
from buildspec.money import Money


class Battery(NamedTuple):
    name: str
    designation: str
    part: Part
    place: str
    role: str
    """`start` or `house`."""
    existing: bool
    at: Path
    stud: str = ""
    """Thread of each post's stud, `post` for a tapered post, `` where nobody states it."""
    studs: int = 1
    """At each post."""
    torque_nm: float | None = None
    """By the battery's label."""
    tray: Envelope | None = None
    """What it stands in: width is its length, depth its width."""


class Isolation(NamedTuple):
    """A declared way between the start and the house side."""

    name: str
    designation: str
    type: str
    """`dc-dc`, `momentary-link`, `voltage-relay`, `manual-switch`."""
    part: Part
    place: str
    ends: tuple[str, str]
    """(from, to) for a charger; the two batteries for a link."""
    wake: str
    """Name of the signal that wakes a charger, `voltage`, or ``."""
    switch: str
    """`panel.channel` that commands a link, or ``."""
    crank: str
    """State while cranking as written: `open`, `closed` or `` when not stated."""
    at: Path
    tap: str = ""
    """Feed of the vehicle that a charger takes its input from, or `` for the post of the battery."""


class Supply(NamedTuple):
    """A charger that brings current from outside: shore or solar."""

    name: str
    designation: str
    type: str
    part: Part
    place: str
    to: str
    """Battery that it charges."""
    per_day_ah: float | None
    """Charge that it brings on a usual day, as stated."""
    at: Path


class OwnState(NamedTuple):
    """An operating state that the spec names, to be worked out and printed."""

    name: str
    words: str
    key: str
    engine: str
    closed: frozenset[str]
    sources: frozenset[str]
    on: tuple[str, ...]
    """Accessories that are on."""
    hours: float | None
    at: Path


class Panel(NamedTuple):
    name: str
    designation: str
    part: Part
    fed_from: tuple[str, ...]
    module_at: str
    keypad_at: str
    words: str
    """Where the owner finds the keys."""
    placement_reason: str
    guarded: bool
    at: Path


class Block(NamedTuple):
    name: str
    designation: str
    part: Part
    fed_from: tuple[str, ...]
    place: str
    empty: Mapping[int, str]
    """Position → why it must stay empty."""
    at: Path
    feed: Feed | None = None
    """The vehicle's own point that this stands for: nothing is fitted there."""


class Channel(NamedTuple):
    """One key of a panel, used or not."""

    panel: str
    number: int
    limit_a: float
    use: str
    """`accessory`, `reserve`, `link`, `blank`."""
    item: str
    """Name of the accessory, reserve or link; `` for a blank."""
    legend: str
    pictogram: str
    mode: str
    """`latching`, `momentary`, `triggered`."""
    hint: str
    """Second line under the legend."""
    trigger: str
    """Vehicle signal that works it too, or ``."""
    circuit: str
    """Key of the circuit behind it, or ``."""


class Work(NamedTuple):
    """A step of bodywork or trim: cut, fill, drill, refinish, move, fit."""

    do: str
    what: str
    where: str
    note: str
    colour: str
    reversal: str
    at: Path
    loom: bool = False
    """The vehicle's own loom is moved."""
    secured: str = ""
    """Where and how that loom is held afterwards."""
    price: Money | None = None
    working_s: int | None = None
    replaces: str = ""
    """Function of the vehicle that this takes the place of or changes."""
    document: str = ""
    """What allows that, with its revision."""


class Hole(NamedTuple):
    name: str
    place: str
    what: str
    size_m: float | None
    protection: str
    seal: str
    at: Path
    bore_m: float | None = None
    """Inside diameter that its grommet or gland leaves, as written."""
    rust: str = ""
    """Rust treatment, where `seal` does not say it."""
    reused: bool = False
    removed_item: bool = False
    """What it was made for has been taken out."""
    closed_with: str = ""
    """What closes it, or will close it when the fitting is taken out."""
    near: tuple[Neighbour, ...] = ()
    behind: str = ""
    """How what lies behind the panel is kept from the drill."""


class Fastening(NamedTuple):
    """How an item is held: one kind of bolt, and what takes its thread."""

    bolt: str
    """Thread, `M8`."""
    grade: str
    """Property class, `8.8`, or `A2-70`."""
    quantity: int
    into: str
    """`sheet`, `rivet nut`, `weld nut`, `tapped`, `through bolt with plate`."""
    sheet_m: float | None
    metal: str
    """`steel` or `aluminium`."""
    body: str
    """Of a rivet nut: `round` or `hexagon`."""
    bearing_m: float | None
    """Diameter of a washer or side of a plate."""
    engagement_m: float | None
    lubrication: str
    """`dry` or `oiled`."""
    pull: str
    """`out`, `along` or `any`."""
    holds_n: float | None
    """One point of it, by its maker or by test."""
    spin_out_nm: float | None
    """Torque at which a rivet nut turns in this sheet, by its maker."""
    torque_nm: float | None
    """As written."""
    at: Path


class Accessory(NamedTuple):
    """Something the customer gets, with or without current. Reserves are not accessories."""

    name: str
    designation: str
    part: Part
    place: str
    quantity: int
    switch: str
    """`panel.channel`, or ``."""
    fed_from: str
    """Battery name, `block.position`, or ``."""
    trigger: str
    legend: str
    owner: str
    works_when: str
    """For people: `any time`, `engine on`, `ignition on`."""
    surface_m2: float | None
    opening: Envelope | None
    clearance_m: float
    placement_reason: str
    note: str
    works: tuple[Work, ...]
    anchored_load_n: float | None
    hours_per_day: float | None
    beside: str
    """The vehicle's own lamp that stays as it is beside this one."""
    at: Path
    option: str = ""
    """Option code in the quote."""
    replaces: str = ""
    """Function of the vehicle that this takes the place of or changes."""
    document: str = ""
    """What allows that, with its revision."""
    fastening: Fastening | None = None
    restrains: str = ""
    """`cargo` or `people`, or ``."""
    stacked: bool = False
    """Stands on, or under, the other stacked items of its place."""
    tie_downs: tuple[str, ...] = ()
    """The vehicle's own anchor points that hold it."""
    passes: tuple[str, ...] = ()
    """Names of the holes that its own leads go through."""


class Reserve(NamedTuple):
    """A pre-wire: laid, capped and labelled, not populated."""

    name: str
    designation: str
    place: str
    switch: str
    fed_from: str
    allow_a: float
    legend: str
    purpose: str
    end: str
    """Where and how its far end lies: `capped behind the left trim`."""
    cap: str
    connector: str
    """`none` or what is on the end."""
    shrouded: bool
    powered: bool
    pictogram: str
    drop_class: str
    at: Path
    coil_m: float = 0.0
    """Length left coiled at its far end."""
    price: Money | None = None
    working_s: int | None = None
    option: str = ""
