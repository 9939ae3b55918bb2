"""Numbers and names as people read them, the same in every document, drawing and message.

Rounding here is for reading only; verdicts are taken on the numbers themselves.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from buildspec.model import Conductor, Practice

COLOURS = {
    "BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow", "GN": "green", "BU": "blue",
    "VT": "violet", "GY": "grey", "WH": "white", "PK": "pink", "TQ": "turquoise",
}  # fmt: skip
"""IEC 60757 letters → words."""

LB_PER_KG = 1 / 0.45359237
M_PER_IN = 0.0254
M_PER_FT = 0.3048
N_PER_LBF = 0.45359237 * 9.80665


def plain(value: float, places: int) -> str:
    """Fixed places, without trailing zeros and without a negative zero."""
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def amps(value: float) -> str:
    """Current: `0.3 A`, `11.4 A`, `200 A`."""
    if 0 < abs(value) < 0.1:
        return f"{plain(value * 1000, 1)} mA"
    return f"{plain(value, 1)} A"


def volts(value: float) -> str:
    """Voltage with two places, as a meter shows it."""
    return f"{value:.2f} V"


def percent(fraction: float) -> str:
    """`2.4 %`."""
    return f"{plain(fraction * 100, 1)} %"


def size(conductor: Conductor) -> str:
    """Conductor size in the system it is sold in: `14 AWG`, `2.5 mm²`."""
    return conductor.name.replace("mm2", "mm²")


def both_sizes(conductor: Conductor) -> str:
    """Size with its area beside a gauge: `14 AWG (2.08 mm²)`."""
    return (
        size(conductor)
        if conductor.system == "metric"
        else f"{conductor.name} ({conductor.area_mm2:.3g} mm²)"
    )


def in_units(practice: Practice, metric: str, imperial: str) -> str:
    """One of two texts, or `metric (imperial)` where the practice asks for both."""
    if practice.units == "both":
        return f"{metric} ({imperial})"
    return metric if practice.units == "metric" else imperial


def length(metres: float, practice: Practice) -> str:
    """Length of a conductor in the practice's units: `3.65 m`, `12 ft 0 in`."""
    inches = round(metres / M_PER_IN)
    feet = f"{inches // 12} ft {inches % 12} in" if inches >= 12 else f"{inches} in"
    return in_units(practice, f"{metres:.2f} m", feet)


def small_length(metres: float, practice: Practice) -> str:
    """A dimension of an item: `760 mm`, `29.9 in`."""
    return in_units(practice, f"{plain(metres * 1000, 0)} mm", f"{plain(metres / M_PER_IN, 1)} in")


def diameter(metres: float, practice: Practice) -> str:
    """A diameter of wire, loom or hole, to a tenth: `12.4 mm`, `0.49 in`."""
    return in_units(practice, f"{plain(metres * 1000, 1)} mm", f"{plain(metres / M_PER_IN, 2)} in")


def mass(kilograms: float, practice: Practice) -> str:
    """`3.2 kg`, `7.1 lb`."""
    return in_units(practice, f"{plain(kilograms, 1)} kg", f"{plain(kilograms * LB_PER_KG, 1)} lb")


def fine_mass(kilograms: float, practice: Practice) -> str:
    """With two places, for sums to be followed: `0.45 kg`, `0.99 lb`."""
    metric = practice.units == "metric"
    return f"{kilograms:.2f} kg" if metric else f"{kilograms * LB_PER_KG:.2f} lb"


def fine_masses(kilograms: Sequence[float], practice: Practice) -> list[str]:
    """The same for lines that are added: they come to their sum as printed."""
    unit = 1.0 if practice.units == "metric" else LB_PER_KG
    return [fine_mass(value / unit, practice) for value in adding_up([kg * unit for kg in kilograms], 2)]


def adding_up(values: Sequence[float], places: int, total: float | None = None) -> list[float]:
    """Values rounded so that they add up to their sum as rounded, or to `total`: the largest remainders go up."""
    unit = 10**places
    floors = [math.floor(round(value * unit, 6)) for value in values]
    missing = round((sum(values) if total is None else total) * unit) - sum(floors)
    by_rest = sorted(range(len(values)), key=lambda n: (floors[n] - values[n] * unit, n))
    for n in by_rest[:missing]:
        floors[n] += 1
    return [floor / unit for floor in floors]


def colour(letters: str) -> str:
    """`RDBU` → `red, blue stripe`."""
    words = [COLOURS[letters[n : n + 2]] for n in range(0, len(letters), 2)]
    return words[0] if len(words) == 1 else f"{words[0]}, {words[1]} stripe"


FAMILIES = {
    "mini-blade": "mini blade", "blade": "blade", "maxi-blade": "maxi blade", "cartridge-a1": "cartridge A1",
    "strip-m5": "strip, M5 studs", "strip-m8": "strip, M8 studs", "post-cube": "cube, on a stud",
    "limiter-strip": "limiter strip", "class-t": "class T",
}  # fmt: skip
"""Fuse family → words."""


def family(name: str) -> str:
    """`strip-m8` → `strip, M8 studs`."""
    return FAMILIES.get(name, name.replace("-", " "))


def whole_length(metres: float, practice: Practice) -> str:
    """A length to buy, rounded up: `12 m`, `40 ft`."""
    metric, imperial = math.ceil(round(metres, 6)), math.ceil(round(metres / M_PER_FT, 6))
    return in_units(practice, f"{metric} m", f"{imperial} ft")


def surface(square_metres: float, practice: Practice) -> str:
    """`4.6 m²`, `49.5 sq ft`."""
    return in_units(
        practice, f"{plain(square_metres, 2)} m²", f"{plain(square_metres / M_PER_FT**2, 1)} sq ft"
    )


def force(newtons: float, practice: Practice) -> str:
    """`1800 N`, `405 lbf`."""
    return in_units(practice, f"{plain(newtons, 0)} N", f"{plain(newtons / N_PER_LBF, 0)} lbf")


def pull(newtons: float) -> str:
    """A pull in both units, as testers are marked in either: `222.5 N (50 lbf)`."""
    return f"{plain(newtons, 1)} N ({plain(newtons / N_PER_LBF, 0)} lbf)"


def css_string(text: str) -> str:
    """A text as a string of a style sheet that nothing in it can end, neither the string nor the sheet."""
    return '"' + "".join(c if c.isalnum() else f"\\{ord(c):06x}" for c in text) + '"'
