"""Text with a unit <-> a number in the base unit: the border where units stop being text.

A quantity is one number and one unit of the table in `units.py`. Nothing is guessed: a bare number, a decimal
comma or a trade size with two meanings is a `Fault` that says what to write.
"""

from __future__ import annotations

import difflib
import math
import re
from decimal import Decimal
from typing import NamedTuple

from buildspec.units import DIMENSION_OF, DIMENSIONS, MEANT, Dimension, System, awg_area_mm2, awg_number

LONGEST = 60
_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_ONE = re.compile(rf"([+-]?)({_NUMBER})\s*(.*)")
_FEET_AND_INCHES = re.compile(rf"([0-9]+)\s*ft\s+({_NUMBER})\s*in")
_GAUGE = re.compile(r"([0-9./]+)\s*AWG", re.IGNORECASE)
_GAUGE_FIRST = re.compile(r"AWG\s*([0-9./]+)", re.IGNORECASE)
_OTHER_GAUGE = re.compile(r"#?\s*[0-9/]+\s*(b\s*&\s*s|s\.?w\.?g\.?|sae|gauge|ga\.?|g)", re.IGNORECASE)
_FRACTION = re.compile(r"(?:([0-9]{1,6})[ -])?([0-9]{1,6})/([0-9]{1,6})\s*(\D.*)")
_AREA_HELP = "write the copper area, such as `2.5 mm2`, or a gauge of that system, such as `14 AWG`"
_SPACES = re.compile(r"[\s\u00a0\u2007\u2009\u202f]+")


class Quantity(NamedTuple):
    """A number in its base unit (`units.py`), with the unit and the text it was written in."""

    value: float
    unit: str
    text: str
    system: System


class Fault(NamedTuple):
    """Why a text is not a quantity of the dimension that is needed, and what to write."""

    message: str
    help: str


def parse(text: str, dimension: str, *, signed: bool = False) -> Quantity | Fault:
    """Read a quantity of `dimension` (a key of `units.DIMENSIONS`); the value is in the base unit.

    Only a temperature may be negative, and what is `signed`: a place before a datum. `12 ft 6 in` is one
    length; a gauge is an area by ASTM B258.
    """
    needed = DIMENSIONS[dimension]
    plain = _SPACES.sub(" ", text).strip().replace("\u2126", "Ω").replace("\u2212", "-")
    if len(plain) > LONGEST:
        return Fault(f"`{quote(plain)}` is too long for {needed.a}", _like(needed))
    if signed and plain.startswith("-"):
        rest = plain[1:].lstrip()
        found = parse(rest, dimension)
        if isinstance(found, Fault):
            return Fault(*(text.replace(f"`{rest}", f"`-{rest}") for text in found))
        return found._replace(value=-found.value, text=plain)
    special = {"area": _area, "length": _feet}.get(dimension)
    return (special(plain) if special else None) or _simple(plain, needed)


def show(
    value: float, dimension: str, *, unit: str | None = None, digits: int = 3, against: float | None = None
) -> str:
    """A value in the base unit as text for people, in `unit` or the dimension's usual one.

    Three rules. Digits before the decimal point are never dropped, after it `digits` significant ones stay;
    trailing zeros go. No exponents. With `against` (the limit, base unit) digits are added until value and
    limit read differently, so 10.04 % is never printed as the 10 % that would pass.
    Raises ValueError for a value that is not finite.
    """
    shown = unit or DIMENSIONS[dimension].shown
    number = _in_unit(value, dimension, shown)
    if against is not None and against != value:
        other = _in_unit(against, dimension, shown)
        while digits < 15 and _digits(number, digits) == _digits(other, digits):
            digits += 1
    return f"{_digits(number, digits)} {shown}"


def quote(text: str) -> str:
    """Text cut to a length that fits a message."""
    return text if len(text) <= 40 else text[:37] + "..."


def _in_unit(value: float, dimension: str, spelling: str) -> float:
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be shown as {DIMENSIONS[dimension].a}")
    unit = DIMENSIONS[dimension].units[spelling]
    return float(Decimal(value) / unit.factor - unit.offset)


def _digits(number: float, digits: int) -> str:
    if number == 0:
        return "0"
    decimals = max(0, digits - 1 - math.floor(math.log10(abs(number))))
    text = f"{number:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _simple(plain: str, needed: Dimension) -> Quantity | Fault:
    found = _ONE.fullmatch(plain)
    if not found:
        return _not_one_number(plain, needed)
    sign, number, spelling = found.groups()
    if not spelling:
        return _bare(plain, needed)
    if spelling not in needed.units:
        return _wrong_unit(plain, number=number, spelling=spelling, needed=needed)
    if sign and needed.name != "temperature":
        return Fault(
            f"`{plain}` has a sign; {needed.a} is written without one", f"write `{number} {spelling}`"
        )
    unit = needed.units[spelling]
    value = (Decimal(sign + number) + unit.offset) * unit.factor
    return Quantity(float(value), spelling, plain, unit.system)


def _feet(plain: str) -> Quantity | Fault | None:
    found = _FEET_AND_INCHES.fullmatch(plain)
    if not found:
        return None
    feet, inches = Decimal(found[1]), Decimal(found[2])
    if inches >= 12:
        return Fault(f"`{plain}` has {found[2]} in after the feet", "inches after feet are below 12")
    return Quantity(float((feet * 12 + inches) * Decimal("0.0254")), "ft", plain, "imperial")


def _area(plain: str) -> Quantity | Fault | None:
    """Gauges, and the trade sizes that are not areas; None when it is an ordinary number with a unit."""
    if found := _GAUGE.fullmatch(plain):
        number = awg_number(found[1])
        if number is None:
            return Fault(f"`{plain}` is not a gauge", "gauges run from `4/0 AWG` to `40 AWG`")
        return Quantity(awg_area_mm2(number), "AWG", plain, "awg")
    if found := _GAUGE_FIRST.fullmatch(plain):
        return Fault(f"`{plain}` has its unit in front", f"write `{found[1]} AWG`")
    if _OTHER_GAUGE.fullmatch(plain):
        return Fault(f"`{plain}` has two published meanings or names no gauge system", _AREA_HELP)
    if re.fullmatch(rf"{_NUMBER}\s*mm", plain):
        return Fault(
            f"`{plain}` is a diameter, not a conductor cross-section",
            f"{_AREA_HELP}; cable sold by its outside diameter holds less copper than the number suggests",
        )
    return None


def _bare(plain: str, needed: Dimension) -> Fault:
    message = f"`{plain}` has no unit; {needed.a} is needed"
    if needed.name == "area":
        return Fault(message, _AREA_HELP)
    if needed.name == "ratio":
        return Fault(message, "write the share of a hundred, such as `3 %`")
    return Fault(message, _write(needed, plain.lstrip("+-")))


def _write(needed: Dimension, number: str) -> str:
    return "write " + " or ".join(f"`{number} {unit}`" for unit in needed.write)


def _like(needed: Dimension) -> str:
    return f"write it like `4 {needed.write[0]}`"


def _not_one_number(plain: str, needed: Dimension) -> Fault:
    if found := re.fullmatch(rf"\.([0-9]+)\s*({'|'.join(map(re.escape, needed.units))})", plain):
        return Fault(f"`{plain}` has nothing before the point", f"write `0.{found[1]} {found[2]}`")
    if not plain:
        return Fault(f"empty text; {needed.a} is needed", _like(needed))
    return Fault(f"`{quote(plain)}` is not {needed.a}: one number and one unit", _like(needed))


def _wrong_unit(plain: str, *, number: str, spelling: str, needed: Dimension) -> Fault:
    if spelling[0] == ",":
        return _comma(plain)
    if fraction := _FRACTION.fullmatch(plain):
        return _fraction(plain, fraction, needed)
    other = DIMENSION_OF.get(spelling)
    if other:
        listed = ", ".join(f"`{unit}`" for unit in needed.units)
        return Fault(
            f"`{plain}` is {DIMENSIONS[other].a}; {needed.a} is needed", f"units of {needed.name}: {listed}"
        )
    meant = _meant(spelling, needed)
    if meant:
        return Fault(f"`{spelling}` is not a unit here", f"write `{number} {meant}`")
    if re.search(r"[0-9]", spelling):
        return _not_one_number(plain, needed)
    listed = ", ".join(f"`{unit}`" for unit in needed.units)
    return Fault(f"`{quote(spelling)}` is not a unit of {needed.name}", f"units of {needed.name}: {listed}")


def _comma(plain: str) -> Fault:
    thousands = re.search(r",[0-9]{3}(?![0-9])", plain)
    as_decimal = f"write `{plain.replace(',', '.')}`"
    return Fault(
        f"`{plain}` has a comma",
        "write a point for decimals and nothing between thousands" if thousands else as_decimal,
    )


def _fraction(plain: str, found: re.Match[str], needed: Dimension) -> Fault:
    whole, over, under, spelling = found.groups()
    message = f"`{plain}` is a fraction; a decimal number is needed"
    if not int(under) or spelling not in needed.units:
        return Fault(message, _like(needed))
    decimal = Decimal(whole or 0) + Decimal(over) / Decimal(under)
    return Fault(message, f"write `{round(decimal, 4).normalize():f} {spelling}`")


def _meant(spelling: str, needed: Dimension) -> str | None:
    """The spelling to write instead, when the one used is common, differs in case only or is a slip."""
    word = spelling.casefold()
    same = [unit for unit in needed.units if unit.casefold() == word]
    meant = MEANT.get(word)
    if len(same) == 1:
        return same[0]
    if meant in needed.units:
        return meant
    close = difflib.get_close_matches(spelling, list(needed.units), n=1, cutoff=0.8)
    return close[0] if close else None
