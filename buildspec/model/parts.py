"""Parts and their traits: what a thing is made of, not a hierarchy of classes."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.money import Money


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
    max_voltage_v: float | None = None
    """Highest charging voltage by its maker."""


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
    layer: str = ""
    """`deadening`, `insulation`, `floor`, `lining`, or `` where nobody states it."""


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
