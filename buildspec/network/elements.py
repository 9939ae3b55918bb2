"""What a DC network is made of. Nodes are names; `BODY` is the reference, the vehicle body at the start battery."""

from __future__ import annotations

from typing import NamedTuple

BODY = "body"


class Resistor(NamedTuple):
    """A conductor, contact, termination or heater [ohm, above 0]."""

    key: str
    a: str
    b: str
    ohm: float


class Source(NamedTuple):
    """A battery or regulator: `volts` behind `ohm` (above 0), plus at `a`."""

    key: str
    a: str
    b: str
    volts: float
    ohm: float


class Current(NamedTuple):
    """Draws `amps` from `a` and gives them back at `b`, whatever the voltage."""

    key: str
    a: str
    b: str
    amps: float


class Power(NamedTuple):
    """Draws `watts` between `a` and `b`: the more current, the lower the voltage."""

    key: str
    a: str
    b: str
    watts: float


class Network(NamedTuple):
    """One network in one operating state."""

    resistors: tuple[Resistor, ...]
    sources: tuple[Source, ...]
    currents: tuple[Current, ...]
    powers: tuple[Power, ...]


class Solution(NamedTuple):
    """Node → voltage against the body [V]; element key → current from its `a` to its `b` [A]."""

    volts: dict[str, float]
    amps: dict[str, float]


class Collapse(NamedTuple):
    """No working point: the constant-power loads ask for more than the supply can give.

    `worst` is the load whose voltage fell furthest, `volts` where it stood when the search ended.
    """

    worst: str
    volts: float
