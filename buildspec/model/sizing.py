"""What sizing adds: conductor, devices, drop, faults and the reason of each."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from buildspec.model.circuits import Resolved
from buildspec.model.practice import Conductor


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
