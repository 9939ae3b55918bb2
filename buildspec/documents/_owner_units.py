"""Masses, distances, temperatures and times for the owner, in the practice's units and the reader's decimal sign."""

from __future__ import annotations

import math
from collections.abc import Callable

from buildspec import show
from buildspec.tongues import Tongue

MILE_KM = 1.609344
STEP_MIN = 5


def in_units(t: Tongue, metric: str, imperial: str) -> str:
    """One of two texts, or `metric (imperial)` where the practice asks for both."""
    if t.units == "both":
        return f"{metric} ({imperial})"
    return imperial if t.units == "imperial" else metric


def at_most(kilograms: float, t: Tongue) -> str:
    """A mass that may be, rounded down: `203 kg`, `447 lb`."""
    return mass(kilograms, math.floor, t)


def at_least(kilograms: float, t: Tongue) -> str:
    """A mass that is there, rounded up."""
    return mass(kilograms, math.ceil, t)


def mass(kilograms: float, rounded: Callable[[float], int], t: Tongue) -> str:
    metric, imperial = rounded(kilograms), rounded(kilograms * show.LB_PER_KG)
    return in_units(t, f"{t.number(metric)} kg", f"{t.number(imperial)} lb")


def road(kilometres: float, t: Tongue) -> str:
    """A distance that is not to be passed: `500 km`; miles rounded down to tens."""
    miles = math.floor(kilometres / MILE_KM / 10) * 10
    return in_units(t, f"{t.number(kilometres)} km", t.say("{miles} miles", miles=t.number(miles)))


def warmth(celsius: float, t: Tongue) -> str:
    """A temperature: `20 °C`, `68 °F`."""
    return in_units(t, f"{t.number(celsius)} °C", f"{t.number(celsius * 9 / 5 + 32)} °F")


def power(amps: float, volts: float, t: Tongue) -> str:
    """`at most 4 A, that is 48 W`: what an owner compares with a label."""
    return t.say("at most {amps}, that is {watts} W", amps=t.amps(amps), watts=t.number(amps * volts))


def down(hours: float) -> str:
    """A time that is safe to promise: whole hours, or minutes below two hours, rounded down."""
    if hours >= 2:
        return f"{int(hours)} h"
    return f"{int(hours * 60 // STEP_MIN) * STEP_MIN} min"


def up(hours: float) -> str:
    """A time that is enough: rounded up to five minutes."""
    whole, minutes = divmod(math.ceil(round(hours * 60 / STEP_MIN, 6)) * STEP_MIN, 60)
    if not whole:
        return f"{minutes} min"
    return f"{whole} h {minutes} min" if minutes else f"{whole} h"
