"""Quantities against an independent unit library, published gauge areas, and themselves both ways."""

from __future__ import annotations

from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildspec.quantity import Fault, Quantity, parse, show
from buildspec.units import DIMENSIONS, MEANT, awg_area_mm2, awg_number

PINT_BASE = {
    "current": "ampere",
    "voltage": "volt",
    "power": "watt",
    "resistance": "ohm",
    "length": "meter",
    "area": "millimeter**2",
    "surface": "meter**2",
    "mass": "kilogram",
    "force": "newton",
    "torque": "newton * meter",
    "charge": "ampere * hour",
    "time": "second",
    "temperature": "degree_Celsius",
    "ratio": "dimensionless",
    "volume": "liter",
}
PINT_UNIT = {
    "A": "ampere", "mA": "milliampere", "kA": "kiloampere", "V": "volt", "mV": "millivolt", "W": "watt",
    "kW": "kilowatt", "ohm": "ohm", "Ω": "ohm", "mohm": "milliohm", "mΩ": "milliohm", "m": "meter",
    "mm": "millimeter", "cm": "centimeter", "ft": "foot", "in": "inch", "mm2": "millimeter**2",
    "mm²": "millimeter**2", "m2": "meter**2", "m²": "meter**2", "ft2": "foot**2", "ft²": "foot**2",
    "kg": "kilogram", "g": "gram", "lb": "pound", "oz": "ounce", "N": "newton", "kN": "kilonewton",
    "daN": "decanewton", "lbf": "pound_force", "N m": "newton * meter", "Nm": "newton * meter",
    "N·m": "newton * meter", "lbf ft": "pound_force * foot", "lbf in": "pound_force * inch",
    "Ah": "ampere * hour", "mAh": "milliampere * hour", "s": "second", "ms": "millisecond", "min": "minute",
    "h": "hour", "d": "day", "°C": "degree_Celsius", "degC": "degree_Celsius", "°F": "degree_Fahrenheit",
    "degF": "degree_Fahrenheit", "%": "percent", "L": "liter", "l": "liter", "mL": "milliliter",
    "ml": "milliliter",
}  # fmt: skip
EVERY_UNIT = [(name, unit) for name, dimension in DIMENSIONS.items() for unit in dimension.units]

# NEC chapter 9 table 8, stranded, circular mils as printed (rounded there).
NEC_TABLE_8_CMIL = {
    "18": 1620, "16": 2580, "14": 4110, "12": 6530, "10": 10380, "8": 16510, "6": 26240, "4": 41740,
    "3": 52620, "2": 66360, "1": 83690, "1/0": 105600, "2/0": 133100, "3/0": 167800, "4/0": 211600,
}  # fmt: skip
MM2_PER_CMIL = 5.067075e-4  # area of a circle of one thousandth of an inch, NIST SP 811 appendix B


@pytest.fixture(scope="module")
def ureg() -> Any:
    return pint.UnitRegistry()


def value(text: str, dimension: str) -> float:
    found = parse(text, dimension)
    assert isinstance(found, Quantity), found
    return found.value


def fault(text: str, dimension: str) -> Fault:
    found = parse(text, dimension)
    assert isinstance(found, Fault), found
    return found


@pytest.mark.parametrize(("dimension", "unit"), EVERY_UNIT)
def test_every_unit_agrees_with_pint(ureg: Any, dimension: str, unit: str) -> None:
    expected = ureg.Quantity(12.5, PINT_UNIT[unit]).to(PINT_BASE[dimension]).magnitude
    assert value(f"12.5 {unit}", dimension) == pytest.approx(expected, rel=1e-12)


def test_each_spelling_belongs_to_one_dimension() -> None:
    spellings = [unit for _, unit in EVERY_UNIT]
    assert len(spellings) == len(set(spellings)) > 50


def test_hints_lead_to_units_and_never_shadow_one() -> None:
    spellings = {unit for _, unit in EVERY_UNIT}
    assert set(MEANT.values()) <= spellings
    assert not set(MEANT) & spellings


@pytest.mark.parametrize(("gauge", "cmil"), NEC_TABLE_8_CMIL.items())
def test_gauges_agree_with_nec_table_8(gauge: str, cmil: int) -> None:
    assert value(f"{gauge} AWG", "area") == pytest.approx(cmil * MM2_PER_CMIL, rel=0.004)


@pytest.mark.parametrize(("gauge", "mm2"), [("14", 2.08), ("10", 5.26), ("4", 21.15), ("4/0", 107.2)])
def test_gauges_agree_with_published_square_millimetres(gauge: str, mm2: float) -> None:
    assert value(f"{gauge} AWG", "area") == pytest.approx(mm2, abs=0.5 * 10 ** -len(str(mm2).split(".")[1]))


@pytest.mark.parametrize(("text", "number"), [("0", 0), ("00", -1), ("4/0", -3), ("0000", -3), ("14", 14)])
def test_gauge_numbers(text: str, number: int) -> None:
    assert awg_number(text) == number


@pytest.mark.parametrize("text", ["41", "5/0", "00000", "014", "1.5", "", "-1"])
def test_no_gauge_numbers(text: str) -> None:
    assert awg_number(text) is None


def test_six_gauges_double_the_diameter() -> None:
    """Six numbers down double the diameter within 0.5 %: 92 ** (6 / 39) = 2.005 (ASTM B258)."""
    assert awg_area_mm2(8) / awg_area_mm2(14) == pytest.approx(4.02, abs=0.005)
    with pytest.raises(ValueError, match="no gauge number"):
        awg_area_mm2(-4)


@pytest.mark.parametrize(
    ("text", "dimension", "expected"),
    [
        ("4 A", "current", 4.0),
        ("4A", "current", 4.0),
        ("  3.6   m ", "length", 3.6),
        ("12 ft 6 in", "length", 3.81),
        ("12 ft 6.5in", "length", 3.8227),
        ("2.5mm²", "area", 2.5),
        ("75\u00a0Ah", "charge", 75.0),
        ("10 %", "ratio", 0.1),
        ("-40 °F", "temperature", -40.0),
        ("\u221220 °C", "temperature", -20.0),
        ("4 m\u2126", "resistance", 0.004),
        ("0 A", "current", 0.0),
        ("0.1 A", "current", 0.1),
    ],
)
def test_accepted(text: str, dimension: str, expected: float) -> None:
    assert value(text, dimension) == pytest.approx(expected, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "dimension", "message", "help_"),
    [
        ("4", "current", "`4` has no unit; a current is needed", "write `4 A`"),
        ("4", "length", "`4` has no unit; a length is needed", "write `4 m` or `4 ft`"),
        ("0.03", "ratio", "`0.03` has no unit", "such as `3 %`"),
        ("60 W", "current", "`60 W` is a power; a current is needed", "`A`, `mA`, `kA`"),
        ("200 lb", "force", "`200 lb` is a mass; a force is needed", "`lbf`"),
        ("14 AWG", "length", "`14 AWG` is a conductor cross-section; a length is needed", "`ft`"),
        ("1,5 m", "length", "`1,5 m` has a comma", "write `1.5 m`"),
        ("1,500 kg", "mass", "`1,500 kg` has a comma", "nothing between thousands"),
        ("12'", "length", "`'` is not a unit", "write `12 ft`"),
        ('6"', "length", '`"` is not a unit', "write `6 in`"),
        ("1 1/2 in", "length", "is a fraction", "write `1.5 in`"),
        ("1/0 in", "length", "is a fraction", "write it like `4 m`"),
        ("5 ft 14 in", "length", "has 14 in after the feet", "below 12"),
        ("-4 A", "current", "`-4 A` has a sign", "write `4 A`"),
        ("4 amps", "current", "`amps` is not a unit", "write `4 A`"),
        ("4 a", "current", "`a` is not a unit", "write `4 A`"),
        ("20 C", "temperature", "`C` is not a unit", "write `20 °C`"),
        ("10 ft-lb", "torque", "`ft-lb` is not a unit", "write `10 lbf ft`"),
        ("5 cc", "volume", "`cc` is not a unit", "write `5 mL`"),
        ("3 gal", "volume", "`gal` is not a unit of volume", "`L`"),
        (".5 A", "current", "nothing before the point", "write `0.5 A`"),
        ("inf A", "current", "`inf A` is not a current", "like `4 A`"),
        ("nan A", "current", "`nan A` is not a current", "like `4 A`"),
        ("1e3 A", "current", "`1e3 A` is not a current", "like `4 A`"),
        ("4-6 A", "current", "`4-6 A` is not a current", "like `4 A`"),
        ("1_000 A", "current", "`1_000 A` is not a current", "like `4 A`"),
        ("", "current", "empty text; a current is needed", "like `4 A`"),
        ("9" * 400 + " A", "current", "is too long", "like `4 A`"),
        # gauges and trade sizes that name no area
        ("6 mm", "area", "`6 mm` is a diameter", "`2.5 mm2`"),
        ("6mm", "area", "`6mm` is a diameter", "`14 AWG`"),
        ("6", "area", "`6` has no unit; a conductor cross-section is needed", "`2.5 mm2`"),
        ("3 B&S", "area", "two published meanings", "`2.5 mm2`"),
        ("6 gauge", "area", "names no gauge system", "`14 AWG`"),
        ("6 ga", "area", "names no gauge system", "`14 AWG`"),
        ("6 SWG", "area", "two published meanings", "`2.5 mm2`"),
        ("AWG 14", "area", "unit in front", "write `14 AWG`"),
        ("14.5 AWG", "area", "is not a gauge", "`4/0 AWG`"),
    ],
)
def test_refused(text: str, dimension: str, message: str, help_: str) -> None:
    found = fault(text, dimension)
    assert message in found.message
    assert help_ in found.help


@given(st.text(max_size=80), st.sampled_from(sorted(DIMENSIONS)))
def test_any_text_gets_an_answer(text: str, dimension: str) -> None:
    found = parse(text, dimension)
    assert isinstance(found, Quantity) or (found.message and found.help)


@given(st.floats(1e-6, 1e9), st.sampled_from([pair for pair in EVERY_UNIT if pair[0] != "temperature"]))
def test_shown_text_reads_back(number: float, pair: tuple[str, str]) -> None:
    dimension, unit = pair
    assert value(show(number, dimension, unit=unit, digits=12), dimension) == pytest.approx(number, rel=1e-10)


@given(st.floats(-80, 300))
def test_shown_temperature_reads_back(temp_c: float) -> None:
    assert value(show(temp_c, "temperature", unit="°F", digits=12), "temperature") == pytest.approx(
        temp_c, abs=1e-6
    )


@pytest.mark.parametrize(
    ("number", "dimension", "unit", "text"),
    [
        (4.0, "current", None, "4 A"),
        (0.012345, "current", "mA", "12.3 mA"),
        (2345.6, "mass", None, "2346 kg"),
        (3.81, "length", "ft", "12.5 ft"),
        (0.0, "voltage", None, "0 V"),
        (-0.0, "voltage", None, "0 V"),
        (9.999, "voltage", None, "10 V"),
        (0.1, "ratio", None, "10 %"),
        (2.0809, "area", None, "2.08 mm²"),
        (20.0, "temperature", "°F", "68 °F"),
        (1e-7, "current", None, "0.0000001 A"),
    ],
)
def test_shown_for_people(number: float, dimension: str, unit: str | None, text: str) -> None:
    assert show(number, dimension, unit=unit) == text


def test_not_finite_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot be shown"):
        show(float("inf"), "current")


def test_never_rounded_into_a_pass() -> None:
    assert show(0.10004, "ratio") == "10 %"
    assert show(0.10004, "ratio", against=0.1) == "10.004 %"
    assert show(0.1, "ratio", against=0.10004) == "10 %"


@given(st.floats(0.001, 1000), st.floats(1e-9, 1.0))
def test_a_value_over_its_limit_reads_over_it(limit: float, excess: float) -> None:
    over = limit * (1 + excess)
    shown = [show(over, "current", against=limit), show(limit, "current", against=over)]
    assert value(shown[0], "current") > value(shown[1], "current")
