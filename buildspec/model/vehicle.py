"""The vehicle, its places, runs, studs and signals."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from buildspec.findings import Path
from buildspec.model.parts import Envelope
from buildspec.model.points import Feed, FeedGroup, Origin, TieDown, Zone


class Alternator(NamedTuple):
    designation: str
    rated_a: float
    controlled: bool
    idle_a: float | None
    """Output at idle, hot."""
    allowance_a: float | None
    """What the vehicle's data or a test says may be taken for accessories."""
    source: str
    voltage_v: float | None = None
    """The most that it charges with, by the vehicle's data or as measured."""


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
    origin: Origin | None = None
    document: str = ""
    """Survey, with its revision, behind what the spec itself says of the vehicle."""
    forbids: Mapping[str, str] = MappingProxyType({})
    """`battery_posts`, `occupied_fuses`, `unlisted_points` → the document that forbids them."""
    feeds: Mapping[str, Feed] = MappingProxyType({})
    """Every point where the vehicle gives current, used or not."""
    feed_groups: Mapping[str, FeedGroup] = MappingProxyType({})
    tie_downs: Mapping[str, TieDown] = MappingProxyType({})
    zones: Mapping[str, Zone] = MappingProxyType({})


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
    access: str = ""
    """How an owner gets at the fuses there, or ``."""


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
    source: str = ""
    """Document that permits it."""


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
