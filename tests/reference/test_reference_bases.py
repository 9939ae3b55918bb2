"""The other ampacity tables against the published points, and the case where two of them disagree."""

from __future__ import annotations

import pytest
from reference_rows import rows

from buildspec.calc import ampacity_bases, gauge

SERIES = {"BODY": "body-builder", "MSPEC80": "harness-80", "MSPEC100": "harness-100", "UKTHIN": "thin-wall"}
POINTS = [row for row in rows("other_ampacity_points.csv") if row["verified"] == "yes"]


@pytest.mark.parametrize("row", POINTS, ids=lambda r: f"{r['series']} {r['awg'] or r['area_mm2']}")
def test_published_points(row: dict[str, str]) -> None:
    area = gauge.awg_area_mm2(int(row["awg"])) if row["awg"] else float(row["area_mm2"])
    found = ampacity_bases.rated(basis=SERIES[row["series"]], area_mm2=area, insulation_c=105)
    assert found is not None and found.current_a == float(row["current_a"])


def test_all_38_read_points_are_there() -> None:
    assert len(POINTS) == 38


def test_the_same_wire_has_two_answers() -> None:
    # Case A60: 20 AWG behind 10 A with the wire at 125 % of its device.
    area = gauge.awg_area_mm2(20)
    truck = ampacity_bases.rated(basis="body-builder", area_mm2=area, insulation_c=105)
    harness = ampacity_bases.rated(basis="harness-80", area_mm2=area, insulation_c=105)
    assert truck is not None and truck.current_a >= 1.25 * 10
    assert harness is not None and harness.current_a < 1.25 * 10


def test_a_hot_table_takes_no_engine_factor() -> None:
    hot = ampacity_bases.rated(basis="harness-100", area_mm2=2.1, insulation_c=105)
    open_air = ampacity_bases.rated(basis="body-builder", area_mm2=2.1, insulation_c=105)
    assert hot is not None and not hot.engine_factor
    assert open_air is not None and open_air.engine_factor


def test_nothing_is_carried_over_upwards() -> None:
    assert ampacity_bases.rated(basis="body-builder", area_mm2=0.3, insulation_c=105) is None
