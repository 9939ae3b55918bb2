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
from types import MappingProxyType
from typing import Literal, NamedTuple

from buildspec.findings import Path, Waiver
from buildspec.money import Money

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
    sections: int = 1
    """Parts that are switched separately; each counts as one lamp."""
    faces: str = ""
    """`front`, `rear`, `side`, `down`, or `` when not stated."""
    only_when: str = ""
    """`reverse` or `stationary`: the installation lets it be lit only then."""
    centred: bool = False
    covered: bool = False
    """Under a cover on public roads."""


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
    indicators: bool = False
    """Each key shows by a light that its output is on."""


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
    own_number: str = ""
    """The shop's own number."""
    supplier: str = ""
    price: Money | None = None
    """Of one, without tax; of one unit for sheet goods."""
    fitting_s: int | None = None
    """Working time to fit one."""
    substitutes: tuple[str, ...] = ()
    maker_part: str = ""
    """What identifies it: maker's or drawing number."""
    mark: str = ""
    """Standard whose mark it carries."""
    revision: str = ""
    supplied_by: str = "shop"
    """`shop` or `customer`."""


# ------------------------------------------------------------------------------------- practice


class Shop(NamedTuple):
    name: str
    contact: str


class Gate(NamedTuple):
    """Of a fuse family as the shop has it from the maker: opening times at a multiple of the rating."""

    multiple: float
    min_s: float | None
    max_s: float | None
    verified: str = "shop"


class FusePart(NamedTuple):
    """What a shop buys as the fuses of one family, and the holder of one on the line."""

    part: str
    mark: str
    price: Money | None
    holder: str
    holder_price: Money | None


class Beaten(NamedTuple):
    """A figure that a more specific layer has replaced."""

    layer: str
    value: str
    source: str


class Choice(NamedTuple):
    """The figure that is used, its layer and source, and what it replaced, weakest first."""

    figure: str
    value: str
    layer: str
    source: str
    beaten: tuple[Beaten, ...]


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
    fuse_gates: Mapping[str, tuple[Gate, ...]] = MappingProxyType({})
    """Fuse family → opening times that the shop has from its maker; the built-in table for the others."""
    support_m: float = 0.45
    """Largest distance between two supports of a loom."""
    cable_support_m: float = 0.3
    """The same of a battery cable or feeder."""
    clearance_m: Mapping[str, float] = MappingProxyType({})
    """`exhaust`, `moving`, `brake`, `fuel` → least distance of a loom."""
    loom_spare: float = 0.2
    """Room for more wires as a share of a loom's section."""
    fuse_parts: Mapping[str, FusePart] = MappingProxyType({})
    """Fuse family → what it is bought as."""
    labour: Money | None = None
    """For one hour."""
    small_parts: Money | None = None
    """Conductor, terminals, sleeves, seals and labels of one job together."""
    tax_note: str = ""
    validity: str = ""
    lamps_max: int | None = None
    """Most extra driving lamps where the vehicle is used."""
    main_beam_interlock: bool = False
    """A driving lamp that can be lit without the main beam refuses the build."""
    lamps_symmetric: bool = False
    rear_white: str = "caution"
    """`caution` or `reverse only`: white light to the rear while driving is pointed out, or refused."""
    covers: bool = False
    """Driving lamps that are not tied to the main beam need covers on public roads."""
    relay_from_a: float | None = None
    """From this current a key or switch works a relay and does not carry the load itself."""
    indicators: bool = False
    choices: tuple[Choice, ...] = ()
    """Every figure that is used, with its layer, its source and what it replaced."""
    reset_demanded: str = ""
    """How every added protective device must come back: `replace`, `latching`, `retrying`, or ``."""
    reset_refused: tuple[str, ...] = ()
    ampacity: str = "boat"
    """Key of the table that ampacities are taken from."""
    profiles: tuple[str, ...] = ()
    """Names of the customer profiles in force."""


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


class Axle(NamedTuple):
    limit_kg: float
    kerb_kg: float
    """As weighed or by the vehicle's data, nobody in it."""


class Axles(NamedTuple):
    wheelbase_m: float
    front: Axle
    rear: Axle
    source: str


class Carried(NamedTuple):
    """People, cargo, or something that was taken out: a mass at a place."""

    what: str
    mass_kg: float
    place: str
    at: Path


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
    untouched: tuple[str, ...] = ()
    """Functions of the vehicle that stay as they came."""
    axles: Axles | None = None
    occupants: tuple[Carried, ...] = ()
    cargo: tuple[Carried, ...] = ()
    removed: tuple[Carried, ...] = ()
    label: str = ""
    """`corrected`: the load label is corrected with this job."""
    placard_kg: float | None = None
    """People and cargo that the load label allows before this job."""


class Place(NamedTuple):
    name: str
    words: str
    """Where it is, for people: `under the left seat`."""
    environment: str
    bump_risk: bool
    at: Path
    station_m: float | None = None
    """Distance behind the front axle, negative ahead of it."""
    clear: Envelope | None = None
    """Free space that it offers."""


class Neighbour(NamedTuple):
    """Something that a run or a hole comes near: it can burn, cut or soak a loom, or be hit by a drill."""

    what: str
    """`exhaust`, `heat`, `moving`, `brake`, `fuel`."""
    distance_m: float
    shield: bool
    words: str
    """Which part, for people, or ``."""
    at: Path


class Run(NamedTuple):
    a: str
    b: str
    length_m: float
    through: str
    """What the loom passes at a panel: `grommet`, `gland`, `bare hole`, or `` when it passes none."""
    sheathed: bool
    at: Path
    passes: tuple[str, ...] = ()
    """Names of the holes that it passes, as written."""
    conduit_m: float | None = None
    """Written inside diameter of its conduit or sleeve."""
    near: tuple[Neighbour, ...] = ()
    bend_m: float | None = None
    """Tightest bend on the path, inside radius."""
    support_m: float | None = None
    """Written distance between supports."""

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
    stud: str = ""
    """Thread, `M8`, or `` where nobody states it."""
    studs: int = 1
    torque_nm: float | None = None


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


class Near(NamedTuple):
    """A dead short right behind a protective device, at its most: cold conductors, every source joined."""

    device: str
    """Key of the device."""
    most_a: float
    """Through the device."""
    batteries: tuple[str, ...]
    """Those that feed it, over what stays joined by itself; a link held by hand is left out."""


class Opening(NamedTuple):
    """How one battery is cut off from a dead short: the device on its way that is sure to open first."""

    battery: str
    device: str
    """Key of that device; `` where none stands in the way."""
    amps: float
    """Through it, at the least."""
    within_s: float | None
    """Longest time that it may take; None where it need not open."""
    energy_a2s: float | None
    """The most that it lets through, from this current up to a short right behind it."""
    limit_a2s: float
    """What the thinnest conductor on the way stands: k²S²."""
    thinnest: str
    """Circuit of that conductor."""
    recalled: bool
    """Times and energy rest on gates from memory."""


class Fault(NamedTuple):
    """A dead short at the end of a circuit, at its least: hot conductors, cold battery, fewest sources."""

    circuit: str
    at: str
    """Node of the network, `E4:+`."""
    amps: float
    openings: tuple[Opening, ...]
    """One for each battery that feeds it."""


class FaultSet(NamedTuple):
    """The dead shorts of one circuit."""

    near: tuple[Near, ...]
    """One for each protective device, in order."""
    far: tuple[Fault, ...]
    """At its far end; between two batteries, at each end."""


class Sized(NamedTuple):
    """The build with every circuit sized: what rules, drawings and documents read."""

    build: Resolved
    sizings: Mapping[str, Sizing]
    """Circuit key → sizing."""
    loads_a: Mapping[str, float]
    """Node → worst-case current drawn from it with every reserve populated."""
    faults: Mapping[str, FaultSet] = MappingProxyType({})
    """Circuit key → its dead shorts; empty before they are worked out."""
