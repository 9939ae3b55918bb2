"""The shop's practice with the layers that decided it, and the conductors in stock."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from buildspec.money import Money


class Shop(NamedTuple):
    name: str
    contact: str
    packet_address: str = ""
    """Where the shop keeps its packets for later readers, or ``."""
    phone: str = ""


class LabelSheet(NamedTuple):
    """A sheet of self-adhesive labels by its measures, centred on the paper."""

    width_m: float
    height_m: float
    columns: int
    rows: int
    gap_across_m: float
    gap_down_m: float


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
    breaking_a: float | None = None
    """By its own sheet, at the vehicle's voltage; else the figure of the family stands."""
    breaking_source: str = ""


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
    """`metric`, `imperial` or `both`: what documents print."""
    paper: str
    """`A4` or `Letter`."""
    languages: tuple[str, ...]
    """Of the owner's sheet and the switch legend; the first one has the plain file names."""
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
    label_sheet: LabelSheet | None = None
    """Sheet that tags are printed on; None: one by the paper."""


class Conductor(NamedTuple):
    """A conductor size. `awg` is the row of the ampacity table used for it (None: below the table)."""

    name: str
    system: str
    area_mm2: float
    r20_ohm_per_m: float
    awg: int | None
    source: str
