"""The records of a build: what the later stages read. Immutable, in base units, no behaviour.

Base units: A, V, W, ohm, m, mm² (conductor sections only), m² (surfaces), kg, N, s, Ah, °C, and
fractions between 0 and 1. Every record that comes from a file carries `at`, the path it was read
from, so that any later stage can point at it.

Three layers of records, each made by one stage from the last:
`Resolved` (names, parts, routes, circuits, designations), `Sized` (conductor, device and holder of
each circuit with the reason), and the diagnostics of the rules.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

from buildspec.findings import Path, Waiver

Environment = Literal["engine", "cabin", "outside", "underbody"]
State = Literal["as designed", "as built"]

# --------------------------------------------------------------------------- parts and their traits


class Inrush(NamedTuple):
    """Current at switch-on: a multiple of the running current, for a time."""

    times: float
    for_s: float


class Electrical(NamedTuple):
    """What a device draws. `worst_a` is the most it draws while working, at any allowed voltage."""

    model: str
    """`constant-power`, `resistive`, `constant-current` or `motor`."""
    power_w: float | None
    typical_a: float | None
    worst_a: float | None
    inrush: Inrush | None
    duty: float
    continuous: bool
    standby_a: float
    cut_out_v: float | None
    """The device stops working below this voltage at its terminals."""
    drop_class: str
    """`critical` (3 % by default) or `general` (10 % by default)."""
    min_area_mm2: float | None
    max_area_mm2: float | None
    max_fuse_a: float | None
    """The largest protective device that the maker allows in front of it."""
    steady: bool
    """Needs a steady supply: a pulsed feed or trigger is a fault."""


class Lamp(NamedTuple):
    kind: str
    """`driving`, `work`, `beacon`, `interior`, `reverse`, `tail`, `marker`."""
    colour: str
    with_main_beam: bool
    """The installation ties it to the main beam."""


class BatteryTrait(NamedTuple):
    chemistry: str
    capacity_ah: float
    cranking_a: float | None
    short_circuit_a: float | None
    case: str
    max_charge_a: float | None
    max_discharge_a: float | None


class ChargerTrait(NamedTuple):
    output_a: float
    output_v: float
    input_max_a: float
    wake_a: float
    min_input_v: float | None


class LinkTrait(NamedTuple):
    rating_a: float
    """Continuous."""
    short_time_a: float | None
    short_time_s: float | None
    momentary: bool
    coil_a: float
    join_v: float | None
    part_v: float | None


class Trips(NamedTuple):
    """What an electronic channel does above its limit."""

    times: float
    """Multiple of its limit from which it trips."""
    within_s: float
    then: str
    """`latching`: stays off until somebody resets it. `retrying`: tries again by itself."""
    stated: bool


class PanelTrait(NamedTuple):
    kind: str
    """`solid-state` (channels limit and switch) or `rocker` (a fuse and a contact per position)."""
    channels: int
    channel_a: tuple[float, ...]
    """Limit of each channel, channel 1 first."""
    total_a: float
    modes: tuple[str, ...]
    """What a channel can do: `latching`, `momentary`, `triggered`."""
    after_trip: str
    key_width_mm: float
    key_height_mm: float
    legend_characters: int
    columns: int
    fuse_family: str
    keypad_lead_m: float
    trigger_a: float
    """Into one trigger input."""
    max_area_mm2: float
    trips: Trips = Trips(1.5, 0.1, "latching", False)
    """Where nothing is stated: 150 % within 100 ms, latching; common practice, no source."""


class BlockTrait(NamedTuple):
    positions: int
    position_a: float
    total_a: float
    family: str
    max_area_mm2: float


class ContactTrait(NamedTuple):
    rating_a: float
    motor_a: float | None
    coil_a: float
    momentary: bool


class OutletTrait(NamedTuple):
    rating_a: float


class Envelope(NamedTuple):
    width_m: float
    height_m: float
    depth_m: float


class AnchorTrait(NamedTuple):
    working_load_n: float
    points: int


class MaterialTrait(NamedTuple):
    kg_per_m2: float
    sheet_m2: float
    """Surface of the unit in which it is bought."""


class CutOffTrait(NamedTuple):
    """A low-voltage disconnect: measures at its own terminals."""

    opens_v: float
    closes_v: float | None
    delay_s: float


class Part(NamedTuple):
    """A catalogue part, or an item written out in the spec: traits, not a class hierarchy."""

    id: str
    title: str
    letter: str
    """IEC 81346-2 class letter of what it is in the circuit or in the vehicle."""
    category: str
    mass_kg: float | None
    source: str
    owner: str
    """What it is, in the owner's words."""
    pictogram: str
    systems_v: tuple[float, ...] = ()
    """Nominal voltages that it is made for; empty for an item that the spec writes out for its own vehicle."""
    electrical: Electrical | None = None
    lamp: Lamp | None = None
    battery: BatteryTrait | None = None
    charger: ChargerTrait | None = None
    link: LinkTrait | None = None
    panel: PanelTrait | None = None
    block: BlockTrait | None = None
    contact: ContactTrait | None = None
    outlet: OutletTrait | None = None
    envelope: Envelope | None = None
    anchor: AnchorTrait | None = None
    material: MaterialTrait | None = None
    cut_off: CutOffTrait | None = None


# ------------------------------------------------------------------------------------- practice


class Shop(NamedTuple):
    name: str
    contact: str


class Practice(NamedTuple):
    """The shop's defaults. Each figure's source is in `sources` under the same name."""

    shop: Shop
    units: str
    """`metric` or `imperial`: what documents print first."""
    paper: str
    """`A4` or `Letter`."""
    prefix: str
    """Printed before each circuit number; shows that the shop fitted the circuit."""
    sizes: tuple[Conductor, ...]
    """Conductors in stock, ascending."""
    insulation_c: float
    wire_margin: float
    """A conductor's corrected ampacity is at least this multiple of its protective device."""
    fuse_share: Mapping[str, float]
    """Environment of the device → the largest share of its rating that a continuous load may be."""
    drop_limit: Mapping[str, float]
    """`critical`, `general` → fraction of the nominal voltage."""
    nominal_v: float
    lowest_v: float
    """Voltage at which constant-power loads are taken at their worst."""
    resting_v: float
    """Battery voltage for the check against a device's own cut-out."""
    unprotected_m: float
    unprotected_sheathed_m: float
    unprotected_battery_sheathed_m: float
    fuse_lead_m: float
    service_loop_m: float
    """Added at each end of a conductor."""
    local_m: float
    """Length between two items at the same place, before service loops."""
    min_area_mm2: float
    signal_area_mm2: float
    signal_fuse_a: float
    body_ohm: float
    """Vehicle body between two studs."""
    contact_ohm: float
    """One termination pair or fuse holder."""
    alternator_share: float
    allow_signal_a: float
    fuse_families: tuple[str, ...]
    battery_families: tuple[str, ...]
    colours: Mapping[str, str]
    """Use → IEC 60757 letters: `battery`, `supply`, `switched`, `lamp`, `return`, `signal`, `link`, `reserve`."""
    battery_cables_apart: bool
    """Feeders and battery cables are tied beside the loom, spaced, and do not count in its bundle."""
    key_off_a: float
    retorque_km: float
    sources: Mapping[str, str]


class Conductor(NamedTuple):
    """A conductor size. `awg` is the row of the ampacity table used for it (None: below the table)."""

    name: str
    system: str
    area_mm2: float
    r20_ohm_per_m: float
    awg: int | None
    source: str


# ------------------------------------------------------------------------------------- the vehicle


class Alternator(NamedTuple):
    designation: str
    rated_a: float
    controlled: bool
    idle_a: float | None
    """Output at idle, hot."""
    allowance_a: float | None
    """What the vehicle's data or a test says may be taken for accessories."""
    source: str


class Engine(NamedTuple):
    fuel: str
    displacement_l: float | None


class Vehicle(NamedTuple):
    description: str
    registration: str
    system_v: float
    alternator: Alternator | None
    engine: Engine | None
    sensed_post: str
    """Name of the battery whose negative post carries the vehicle's battery sensor, or ``."""
    sold: str
    """`before first sale`, `after first sale` or ``."""
    gross_kg: float | None
    kerb_kg: float | None
    own_a: Mapping[str, float]
    """What the vehicle itself draws [A]: `off`, `stopped` (key on), `idle`, `driving`, `crank`."""
    own_source: str
    at: Path


class Place(NamedTuple):
    name: str
    words: str
    """Where it is, for people: `under the left seat`."""
    environment: str
    bump_risk: bool
    at: Path


class Run(NamedTuple):
    a: str
    b: str
    length_m: float
    through: str
    """What the loom passes at a panel: `grommet`, `gland`, `bare hole`, or `` when it passes none."""
    sheathed: bool
    at: Path

    @property
    def name(self) -> str:
        """Both ends, as printed."""
        return f"{self.a} – {self.b}"


class Route(NamedTuple):
    """Shortest way over the runs. `places` has one more member than `runs`."""

    places: tuple[str, ...]
    runs: tuple[Run, ...]
    length_m: float


class Ground(NamedTuple):
    name: str
    letter_name: str
    """Designation, `X3`."""
    place: str
    words: str
    post_of: str
    """Name of the battery when the point is its negative post, else ``."""
    at: Path


class Signal(NamedTuple):
    """A signal of the vehicle that something here listens to."""

    name: str
    words: str
    place: str
    kind: str
    """`logic`, `relay output`, `lamp output`, `ignition`."""
    allowance_a: float | None
    pulsed: bool
    source: str
    at: Path


# ------------------------------------------------------------------------------------ what is fitted


class Battery(NamedTuple):
    name: str
    designation: str
    part: Part
    place: str
    role: str
    """`start` or `house`."""
    existing: bool
    at: Path


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


class Hole(NamedTuple):
    name: str
    place: str
    what: str
    size_m: float | None
    protection: str
    seal: str
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


# --------------------------------------------------------------------------------------- circuits


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
    under `conductors`).
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


# ------------------------------------------------------------------------------------------- sizing


class Ampacity(NamedTuple):
    """What a conductor may carry on its worst run."""

    base_a: float
    place_factor: float
    bundle_factor: float
    corrected_a: float
    run: str
    """Run or place that governs."""
    loaded: int
    """Loaded conductors that share it, returns included."""
    environment: str
    table: str


class Device(NamedTuple):
    """A protective device as chosen or as written."""

    designation: str
    key: str
    kind: str
    family: str
    rating_a: float
    colour: str
    breaking_a: float | None
    prospective_a: float | None
    """Current of a dead short right behind it."""
    holder_a: float
    host: str
    position: int
    place: str
    written: bool
    verified: str
    """How far the family's figures are to be trusted: `yes`, `memory`, `device`."""


class Reason(NamedTuple):
    """Why this size: the limit that governed, its margin, what came second."""

    governed_by: str
    margin: float
    """Fraction left to the governing limit, 0.08 = 8 %."""
    runner_up: str
    sum: str
    """The sum in words, to be printed."""


class Sizing(NamedTuple):
    """One sized circuit."""

    circuit: str
    design_a: float
    conductor: Conductor
    written: bool
    ampacity: Ampacity | None
    """None for a conductor below the table (signals)."""
    devices: tuple[Device, ...]
    temp_c: float
    loop_ohm: float
    """Feeds, returns, body and terminations of this circuit alone."""
    own_drop_v: float
    drop_v: float
    """From the battery to the load, shared feeders included."""
    drop_limit_v: float
    volts_at_load: float
    """At the resting voltage of the battery."""
    reason: Reason
    state: str = ""
    """The operating state of the largest drop."""
    lowest_v: float = 0.0
    """At the device in the worst state, the battery's own resistance included."""
    lowest_in: str = ""
    """The operating state of that."""


class Sized(NamedTuple):
    """The build with every circuit sized: what rules, drawings and documents read."""

    build: Resolved
    sizings: Mapping[str, Sizing]
    """Circuit key → sizing."""
    loads_a: Mapping[str, float]
    """Node → worst-case current drawn from it with every reserve populated."""
