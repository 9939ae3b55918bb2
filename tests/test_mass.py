"""The masses of a whole build: axle loads and payload of a worked set, the sheet's sums, places before the axle."""

from __future__ import annotations

import pathlib
import re
from typing import Any

import pytest
import sample_builds
from sample_packets import EXAMPLES, NAMES, packet, tables, written

from buildspec import mass, quantity
from buildspec.model import Sized

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
KG_IN = {"kg": 1.0, "lb": 0.45359237}
"""Exact by definition, 1959."""
METRES_IN = {"m": 1.0, "in": 0.0254}
SET = {
    "winch-and-bumper": (60, "-0.85 m"),
    "roof-bar": (20, "1.20 m"),
    "second-battery": (24, "0.10 m"),
    "drawers": (55, "2.90 m"),
    "fridge-and-slide": (40, "3.50 m"),
    "bumper-and-hitch": (45, "4.05 m"),
}
"""kg and distance behind the front axle; sums by hand with a wheelbase of 3.20 m: +101.14 front, +142.86 rear."""


def build(**vehicle: Any) -> Sized:
    data = sample_builds.spec(0, houses=0, chargers=0, panels=0, blocks=0, alternator=False)
    data["vehicle"] |= {
        "gross_mass": "3100 kg",
        "axles": {
            "wheelbase": "3.2 m",
            "front": {"limit": "1600 kg", "kerb": "1200 kg"},
            "rear": {"limit": "1900 kg", "kerb": "950 kg"},
        },
        **vehicle,
    }
    for name, (kg, station) in SET.items():
        data["places"][f"at-{name}"] = {"environment": "outside", "station": station}
        data["accessories"] = {**data.get("accessories", {}), name: {"at": f"at-{name}", "mass": f"{kg} kg"}}
    return sample_builds.built(data)


def test_axle_changes_of_a_worked_set() -> None:
    """Lever about the front axle, m x / L, summed by hand: 244 kg, +142.86 kg rear, +101.14 kg front."""
    loads = mass.axle_loads(build())
    assert loads is not None
    front, rear = loads
    assert (front.added_kg, rear.added_kg) == (
        pytest.approx(101.14, abs=0.006),
        pytest.approx(142.86, abs=0.006),
    )
    assert front.unladen_kg == pytest.approx(1301.14, abs=0.006)


def test_payload_of_the_worked_set_with_five_people() -> None:
    """3100 − 2150 − 244 − 5 × 68 = 366 kg; the kerb mass is that of the axles where none is stated."""
    found = mass.payload(build(occupants=[{"people": 5, "at": "bulkhead"}]))
    assert found is not None
    assert (found.kerb_kg, found.added_kg, found.people_kg) == (2150, 244, 340)
    assert found.left_kg == pytest.approx(366)


def test_what_is_taken_out_lightens_the_axle_it_stood_on() -> None:
    out = [{"what": "rear bench", "mass": "32 kg", "at": "at-roof-bar"}]
    before, after = mass.axle_loads(build()), mass.axle_loads(build(removed=out))
    assert before is not None and after is not None
    assert before[0].added_kg - after[0].added_kg == pytest.approx(32 * (3.2 - 1.2) / 3.2)
    assert before[1].added_kg - after[1].added_kg == pytest.approx(32 * 1.2 / 3.2)


def test_centre_of_what_is_added() -> None:
    """Rear share times wheelbase over the sum: 142.86 × 3.2 / 244 = 1.874 m."""
    assert mass.centre_m(build()) == pytest.approx(142.86 * 3.2 / 244, abs=1e-3)


def test_one_place_without_a_station_leaves_the_axles_unchecked() -> None:
    sized = build(cargo=[{"what": "sand", "mass": "10 kg", "at": "bulkhead"}])
    assert mass.without_station(sized) == {"bulkhead": 10}
    assert mass.axle_loads(sized) is None


@pytest.mark.parametrize(("text", "metres"), [("-0.8 m", -0.8), ("− 30 in", -0.762), ("2 ft 6 in", 0.762)])
def test_a_station_may_have_a_minus(text: str, metres: float) -> None:
    found = quantity.parse(text, "length", signed=True)
    assert isinstance(found, quantity.Quantity) and found.value == pytest.approx(metres)


def test_other_lengths_may_not() -> None:
    assert isinstance(quantity.parse("-0.8 m", "length"), quantity.Fault)
    assert isinstance(quantity.parse("--0.8 m", "length", signed=True), quantity.Fault)


def test_a_fault_in_a_signed_length_names_what_was_typed() -> None:
    found = quantity.parse("-0.75", "length", signed=True)
    assert isinstance(found, quantity.Fault)
    assert found.message.startswith("`-0.75` has no unit") and "`-0.75 m`" in found.help


def amount(text: str, units: dict[str, float]) -> float:
    """`−14.00 kg` → −14."""
    number, unit = text.replace("−", "-").replace("\\", "").split()[:2]
    return float(number) * units[unit]


@EACH
def test_the_sheet_adds_up_line_by_line(path: pathlib.Path) -> None:
    text = written(path)["mass_sheet"]
    found = tables(text)
    lines, places = found[0][:-1], found[1]
    assert found[0][-1]["What"] == "Sum"
    whole = amount(found[0][-1]["Mass"], KG_IN)
    stated = re.search(r"\*\*Added mass, conductors included: ([\d.]+ \w+)", text)
    assert stated is not None
    total = amount(stated[1], KG_IN)
    assert whole == pytest.approx(total, abs=0.05)
    for rows in (lines, places):
        assert sum(amount(row["Mass"], KG_IN) for row in rows) == pytest.approx(whole, abs=1e-9)


@EACH
def test_axle_table_follows_from_the_places_that_are_printed(path: pathlib.Path) -> None:
    """Σ m x / L over the printed places, by hand, is what the sheet puts on the rear axle."""
    vehicle = packet(path).sized.build.vehicle
    assert vehicle.axles is not None
    found = tables(written(path)["mass_sheet"])
    moment = sum(amount(r["Mass"], KG_IN) * amount(r["Behind the front axle"], METRES_IN) for r in found[1])
    axles = {row["Axle"]: row for table in found for row in table if "Unladen after" in row}
    assert amount(axles["Rear"]["Added"], KG_IN) == pytest.approx(moment / vehicle.axles.wheelbase_m, abs=0.3)
    for row in axles.values():
        parts = [amount(row[k], KG_IN) for k in ("Unladen after", "People", "Cargo")]
        assert amount(row["Laden"], KG_IN) == pytest.approx(sum(parts), abs=1e-9)
        assert amount(row["Laden"], KG_IN) <= amount(row["Limit"], KG_IN)


@EACH
def test_bill_of_materials_and_mass_sheet_say_the_same(path: pathlib.Path) -> None:
    """Items and sheet goods of the bill, plus conductors, less what is taken out."""
    bill = re.search(r"sheet goods: ([\d.]+ \w+)", written(path)["bill_of_materials"])
    assert bill is not None
    lines = tables(written(path)["mass_sheet"])[0][:-1]
    listed = [r for r in lines if not r["What"].startswith(("Conductors", "Taken out"))]
    assert sum(amount(r["Mass"], KG_IN) for r in listed) == pytest.approx(amount(bill[1], KG_IN), abs=0.25)


def test_the_van_before_its_first_sale_gets_a_corrected_label() -> None:
    path = next(p for p in EXAMPLES if p.parent.name == "bicycle-workshop-van")
    text = written(path)["mass_sheet"]
    added = re.search(r"\*\*Added mass, conductors included: ([\d.]+) kg", text)
    corrected = re.search(r"corrected label: ([\d.]+) kg .*? = ([\d.]+) kg", text)
    assert added is not None and corrected is not None
    assert float(corrected[2]) == pytest.approx(float(corrected[1]) - float(added[1]), abs=0.11)
    assert "must be corrected" in text and "45.4 kg (100.0 lb)" in text
