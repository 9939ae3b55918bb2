"""What a vehicle offers and forbids, by its data: feeds, anchor points, zones where nobody works."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.findings import Path


class Feed(NamedTuple):
    """A point where the vehicle gives current for accessories."""

    name: str
    words: str
    place: str
    battery: str
    """Name of the battery behind it."""
    fuse_a: float | None
    """The vehicle's own fuse in front of it; None where nobody has looked."""
    family: str
    fitted_a: float | None
    """Fuse that the survey found there, where it is another one."""
    allows_a: float | None
    """What may be taken for good, by the vehicle's data."""
    state: str
    """Live at `any` time, with the `ignition`, or with the `engine`."""
    area_mm2: float | None
    """The vehicle's own wire at this point."""
    length_m: float | None
    """That wire from the battery, one way."""
    circuits: int | None
    """Most circuits that may be joined to it."""
    group: str
    switch: str
    """The vehicle's own switch in it, for people, or ``."""
    occupied: str
    """What its fuse feeds already, or ``."""
    source: str
    at: Path
    fuse_at: str = ""
    """Where its fuse is, for people, or ``."""


class FeedGroup(NamedTuple):
    """Feeds that share one limit."""

    name: str
    allows_a: float | None
    circuits: int | None
    source: str
    at: Path


class TieDown(NamedTuple):
    """An anchor point that the vehicle came with."""

    name: str
    words: str
    place: str
    rating_n: float | None
    source: str
    at: Path


class Zone(NamedTuple):
    """Where nobody works."""

    name: str
    what: str
    """`airbag`, `fuel`, `high voltage`, `sensor`, `structure`."""
    places: tuple[str, ...]
    forbids: tuple[str, ...]
    """`drill`, `mount`, `route`."""
    words: str
    source: str
    at: Path
    fixed_by: str = ""
    """How things are held there without drilling."""


class Origin(NamedTuple):
    """The vehicle data file that a build was laid over."""

    name: str
    variant: str
    document: str
    """Document and revision of what is in it."""
    facts: frozenset[tuple[str, str]]
    """(`feeds`, name) or (`vehicle`, key) of everything that comes from it."""
