"""Charts read back with a ruler: against published figures, sums by hand, the tables beside them; and their form."""

from __future__ import annotations

import csv
import json
import math
import pathlib
import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest
import sample_builds
import test_energy
import test_mass
from chart_readings import (
    SVG,
    TEXT_DOWN,
    Axis,
    Chart,
    amount,
    axis,
    drawable,
    found,
    group,
    has,
    sized_of,
)
from reference_rows import rows
from sample_packets import EXAMPLES, NAMES, by_first, packet, tables, written

from buildspec import compile as compiling
from buildspec import size
from buildspec.documents import charts as document
from buildspec.drawings.charts import charts, time_current
from buildspec.model import Carried
from buildspec.packet import Packet, Sheet

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
READ = 0.006
"""A place is written to a hundredth of a millimetre, a hair's breadth on a logarithmic axis."""
GATES = pathlib.Path(compiling.__file__).parent.parent / "tables" / "fuse_gates.csv"


# ------------------------------------------------------------------------------ time and current


@pytest.mark.parametrize(("insulation_c", "k_id"), [(70.0, "K01"), (90.0, "K03"), (105.0, "K31")])
def test_damage_of_a_conductor_by_the_published_k(insulation_c: float, k_id: str) -> None:
    """t = (k S / I)² with k as printed (BS 7671, NEN 1010) for 70 and 90 °C, by the formula for 105 °C."""
    (row,) = [r for r in rows("adiabatic_k.csv") if r["k_id"] == k_id]
    assert "yes" in row["verified_published"] or row["verified_formula"] == "computed"
    k = float(row["k_published_a_sqrt_s_per_mm2"] or row["k_from_formula_a_sqrt_s_per_mm2"])
    usual = sample_builds.built(sample_builds.spec(6))
    practice = usual.build.practice._replace(insulation_c=insulation_c)
    sized = usual._replace(build=usual.build._replace(practice=practice))
    sheets, checked = charts(sized), 0
    for one in drawable(sized):
        assert one.wire is not None
        for line in found(sheets, one.device.designation, log=True).lines("conductor")[-1:]:
            for amps, time_s in line:
                stands_s = (k * one.wire.conductor.area_mm2 / amps) ** 2
                assert time_s == pytest.approx(stands_s, rel=2 / k + READ), one.device.designation
                checked += 1
    assert checked >= 2 * len(drawable(sized))


@EACH
def test_corners_of_a_band_are_the_gates_of_the_table(path: pathlib.Path) -> None:
    """Read from the table's file itself: every gate within the field is a corner of its line, none is between."""
    table = list(csv.DictReader(GATES.read_text(encoding="utf-8").splitlines()))
    sheets, checked = packet(path).charts, 0
    for one in drawable(sized_of(path)):
        if one.device.kind != "fuse":
            continue
        gates = [g for g in table if g["family"] == one.device.family and g["kind"] == "gate"]
        read = found(sheets, one.device.designation, log=True)
        for part, column in (("soonest", "min_s"), ("latest", "max_s")):
            (line,) = read.lines(part)
            inner = [p for p in line if 1.02e-3 < p[1] < 9.8e3 and p != line[-1]]
            wanted = [
                (float(g["multiple"]) * one.device.rating_a, float(g[column])) for g in gates if g[column]
            ]
            wanted = sorted(w for w in wanted if w[1] < 9.8e3)
            assert [a for a, _ in inner] == pytest.approx([a for a, _ in wanted], rel=READ)
            assert [t for _, t in inner] == pytest.approx([t for _, t in wanted], rel=5 * READ)
            checked += 1
    assert checked > 20


@EACH
def test_the_table_says_what_the_chart_shows(path: pathlib.Path) -> None:
    lines = by_first(written(path)["charts"], "Short, far end")
    sheets, checked = packet(path).charts, 0
    for one in drawable(sized_of(path)):
        name = one.device.designation
        row = next(v for k, v in lines.items() if k.split()[0] == name)
        read = found(sheets, name, log=True)
        (profile,) = read.lines("load")
        assert profile[-1][0] == pytest.approx(amps(row["Load"]), rel=0.02, abs=0.05)
        if row["Start"] != "–":
            assert profile[0][0] == pytest.approx(amps(row["Start"]), rel=0.02, abs=0.05)
        for part, column in (("far", "Short, far end"), ("near", "Short, near end"), ("usual", "Usual")):
            assert has(read.root, f"{name}-{part}") == (row[column] != "–"), (name, part)
            if row[column] != "–":
                (line,) = read.lines(part)
                assert line[0][0] == pytest.approx(amps(row[column]), rel=0.02, abs=0.05)
                checked += 1
        if row["Carries"] != "–":
            assert read.lines("conductor")[0][0][0] == pytest.approx(amps(row["Carries"]), rel=0.02)
    assert checked > 30


def amps(text: str) -> float:
    """The first current of a cell: `140 A for 0.1 s` → 140, `20 mA` → 0.02."""
    number, unit = text.split()[:2]
    return float(number) * (0.001 if unit.startswith("mA") else 1.0)


@EACH
def test_a_dot_stands_on_the_line_of_latest_opening(path: pathlib.Path) -> None:
    """Between two corners of that line, straight on logarithmic paper, by the ruler alone."""
    checked = 0
    for one in drawable(sized_of(path)):
        read = found(packet(path).charts, one.device.designation, log=True)
        for part in ("far", "near"):
            for current, time_s in (
                read.dots(part) if has(read.root, f"{one.device.designation}-{part}") else []
            ):
                (line,) = read.lines("latest")
                (a0, t0), (a1, t1) = next(
                    p for p in pairwise(line) if p[0][0] - 1e-9 <= current <= p[1][0] * 1.001
                )
                share = math.log(current / a0) / math.log(a1 / a0)
                assert math.log(time_s) == pytest.approx(math.log(t0) + share * math.log(t1 / t0), abs=0.02)
                checked += 1
    assert checked > 10


def test_a_family_without_opening_times_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    sized = sample_builds.built(sample_builds.spec(3))
    monkeypatch.setattr(time_current, "curve_of", lambda sized, device: ())
    texts = [t.text for s in charts(sized) for t in ET.fromstring(s.svg).iter(f"{SVG}text")]
    count = len(time_current.characteristics(sized))
    words = "no opening times known for this family: cannot draw"
    assert count > 3 and texts.count(words) == count
    assert any("cannot draw" in line for line in document.missing(sized))
    made = Packet(sized, (), (), (), charts(sized))
    rows_of = [
        row for one in document.view(made)["charts"] if one["kind"] == "time-current" for row in one["rows"]
    ]
    assert {row["times"] for row in rows_of} == {"unknown: cannot draw"}


@EACH
def test_gates_from_memory_are_marked_where_they_are_drawn(path: pathlib.Path) -> None:
    sized = sized_of(path)
    for one in drawable(sized):
        root = found(packet(path).charts, one.device.designation, log=True).root
        heading = group(root, f"{one.device.designation}-heading")
        words = " ".join(t.text or "" for t in heading.iter(f"{SVG}text"))
        stated = one.device.kind == "channel" or one.device.family in sized.build.practice.fuse_gates
        assert ("from memory" in words) or stated, one.device.designation
    printed = written(path)["charts"]
    assert "| from memory |" in printed.replace("  ", " ").replace("  ", " ")


# ------------------------------------------------------------------------------ batteries


def parked() -> tuple[Sheet, ...]:
    return charts(size.size(test_energy.built()))


def test_a_battery_is_down_when_a_sum_by_hand_says_so() -> None:
    """(4 A × 35 % × 24 h + 1 A × 6 h + 20 mA × 18 h) / 24 h = 1.665 A; 50 Ah of 100 Ah: 30.03 h."""
    mean_a = (4 * 0.35 * 24 + 1 * 6 + 0.02 * 18) / 24
    read = found(parked(), battery_name("house", "parked"))
    ((hours, left),) = read.dots("usual")
    assert (hours, left) == (pytest.approx(50 / mean_a, rel=READ), pytest.approx(0.5 * 100, rel=READ))
    ((start, end),) = read.lines("usual")
    assert start == (pytest.approx(0, abs=0.05), pytest.approx(100, rel=READ))
    assert end == (pytest.approx(hours, rel=READ), pytest.approx(left, rel=READ))


def test_a_cold_battery_is_down_sooner_by_the_published_multipliers() -> None:
    """Two worksheets: 1.30 at 40 °F, 1.40 at 30 °F; straight between them 32 °F asks for 1.38."""
    examples = {
        r["example_id"]: float(r["published_value"])
        for r in rows("battery_math_examples.csv")
        if r["published_value"]
    }
    at_40, at_30 = examples["EB-12-40F"], examples["EB-12-30F"]
    times = at_40 + (at_30 - at_40) * (40 - 32) / (40 - 30)
    read = found(parked(), battery_name("house", "parked"))
    ((warm, _),), ((cold, left),) = read.dots("usual"), read.dots("cold")
    assert warm / cold == pytest.approx(times, rel=READ) and left == pytest.approx(50, rel=READ)


def test_a_disconnect_opens_where_the_manual_says() -> None:
    """12.5 V at rest is 66.7 % of an AGM battery: 50 % at 12.30 V, 75 % at 12.60 V (vehicle owner's manual).

    At the mean 1.665 A cable and battery take 0 to 50 mV more, so it opens with up to 4.2 % more left.
    """
    at = {
        float(r["soc_pct"]): float(r["ocv_v_typ"])
        for r in rows("battery_rest_voltage.csv")
        if r["set_id"] == "agm_a"
    }
    rest = 50 + 25 * (12.5 - at[50]) / (at[75] - at[50])
    cut_off = ", cut_off: {opens_at: 12.5 V, closes_at: 13.4 V, delay: 60 s}"
    sized = size.size(test_energy.built(cut_off=cut_off))
    sheets, block = charts(sized), sized.build.blocks["rear"].designation
    name = battery_name("house", "parked")
    ((first, last),) = found(sheets, name).lines(f"cut-{block}")
    assert first[1] == pytest.approx(last[1], rel=READ)
    assert rest < first[1] < rest + 25 * 0.05 / (at[75] - at[50])
    listed = [row for one in document.view(Packet(sized, (), (), (), sheets))["charts"]
              if one["kind"] == "battery" for row in one["rows"]]  # fmt: skip
    (row,) = [r for r in listed if r["what"].startswith(f"{block} opens at 12.50 V")]
    hours = (100 - first[1]) / (1.665)
    assert amount(row["time"].removeprefix("about ").removesuffix(" h")) == pytest.approx(hours, rel=0.02)


def test_a_chemistry_without_published_voltages_says_so() -> None:
    cut_off = ", cut_off: {opens_at: 12.5 V, closes_at: 13.4 V, delay: 60 s}"
    sized = size.size(test_energy.built(chemistry="gel", cut_off=cut_off))
    printed = json.dumps(document.view(Packet(sized, (), (), (), charts(sized))))
    assert "opens at 12.50 V, outside the published rest voltages" in printed


def test_the_way_back_by_hand() -> None:
    """50 Ah, of which lead-acid stores 85 % (encyclopaedia entry), at 25 A less what runs meanwhile."""
    (stored,) = [
        float(r["value_typ"]) / 100
        for r in rows("battery_chemistry_evidence.csv")
        if (r["chemistry"], r["quantity_with_unit"]) == ("lead_acid_generic", "coulombic_efficiency_pct")
    ]
    mean_a = (4 * 0.35 * 24 + 1 * 6 + 0.02 * 18) / 24
    ((hours, left),) = found(parked(), f"{battery_name('house', 'parked')}-refill").dots("driving")
    assert left == pytest.approx(100, rel=READ)
    assert hours == pytest.approx(50 / (stored * (25 - mean_a)), rel=READ)


def test_days_until_the_engine_no_longer_starts_by_hand() -> None:
    """45 Ah × 40 % (service bulletin) / the practice's 20 mA to the vehicle itself / 24 h."""
    own_a = test_energy.built().practice.key_off_a
    ((days, left),) = found(parked(), battery_name("start", "standing")).dots("standing")
    assert (days, left) == (pytest.approx(45 * 0.4 / own_a / 24, rel=READ), pytest.approx(60, rel=READ))


def battery_name(name: str, kind: str) -> str:
    return f"{test_energy.built().batteries[name].designation}-{kind}"


@EACH
def test_battery_table_and_chart_agree(path: pathlib.Path) -> None:
    sized, checked = sized_of(path), 0
    lines = [row for t in tables(written(path)["charts"]) for row in t if "From" in row and "Time" in row]
    for row in lines:
        name = next(b for b in sized.build.batteries.values() if b.designation == row["Battery"].split()[-1])
        kind = "standing" if row["Time"].endswith("days") else "parked"
        refill = row["What"].startswith("refilling")
        read = found(packet(path).charts, f"{name.designation}-{kind}" + ("-refill" if refill else ""))
        ends = [
            (group_.find(f"{SVG}title"), group_)
            for group_ in read.root.iter(f"{SVG}g")
            if (group_.get("id") or "").startswith(f"{read.name}-")
        ]
        wanted = row["What"].removeprefix("refilling, ")
        (match,) = [g for title, g in ends if title is not None and title.text == wanted]
        part = (match.get("id") or "").removeprefix(f"{read.name}-")
        ((time, left),) = read.dots(part)
        assert time == pytest.approx(float(row["Time"].split()[0]), rel=0.01, abs=0.06)
        assert left == pytest.approx(float(row["To"].split()[0]), abs=0.1)
        checked += 1
    assert checked >= 3


# ------------------------------------------------------------------------------ voltage


@EACH
def test_voltage_falls_to_what_the_schedule_says_step_by_step_as_the_table(path: pathlib.Path) -> None:
    sized, blocks = sized_of(path), [t for t in tables(written(path)["charts"]) if "Takes" in t[0]]
    numbers = {c.number: c for c in sized.build.circuits}
    drawn = [
        g.get("id", "").removesuffix("-course")
        for s in packet(path).charts
        for g in ET.fromstring(s.svg).iter(f"{SVG}g")
        if g.get("id", "").endswith("-course")
    ]
    assert 1 <= len(drawn) == len(blocks)
    for number, block in zip(drawn, blocks, strict=True):
        read = upright_only(packet(path).charts, number)
        assert read.y is not None
        levels = [read.y.value(float(c.get("cy", ""))) for c in read.group("course").iter(f"{SVG}circle")]
        assert levels[1:] == pytest.approx([float(row["Left"].split()[0]) for row in block], abs=0.007)
        taken = sum(float(row["Takes"].replace("−", "-").split()[0]) for row in block) / 1000
        sizing = sized.sizings[numbers[number].key]
        assert taken == pytest.approx(sizing.drop_v, abs=0.0006 * len(block))
        assert levels[-1] == pytest.approx(sizing.volts_at_load, abs=0.005)
        (limit,) = read.group("limit").iter(f"{SVG}path")
        height = float(limit.get("d", "").split("L")[0].split()[1])
        assert read.y.value(height) == pytest.approx(
            sized.build.practice.resting_v - sizing.drop_limit_v, abs=0.005
        )


def upright_only(sheets: tuple[Sheet, ...], name: str) -> Chart:
    """A field whose steps have names instead of figures: the scale across is only the paper's."""
    (one,) = [s for s in sheets if has(ET.fromstring(s.svg), f"{name}-axes")]
    root = ET.fromstring(one.svg)
    texts = [t for t in group(root, f"{name}-axes").iter(f"{SVG}text") if t.get("text-anchor") == "end"]
    ticks = [(float(t.get("y", "")) - TEXT_DOWN, amount(t.text)) for t in texts if t.text]
    return Chart(root, name, Axis(0.0, 1.0, log=False), axis(ticks, log=False))


def test_one_conductor_by_ohms_law() -> None:
    """One lamp on one battery: each conductor's step is its current times ρ l / S, warm, by IEC 60028."""
    sized = sample_builds.built(
        sample_builds.spec(0, houses=0, chargers=0, panels=0, blocks=0, direct=1, alternator=False)
    )
    (load,) = [c for c in sized.build.circuits if c.kind == "load"]
    sizing = sized.sizings[load.key]
    lengths = {w.designation: w.cut_m for w in (*load.feeds, *load.returns)}
    block = document.view(Packet(sized, (), (), (), charts(sized)))["charts"]
    steps = [r for one in block if one["kind"] == "voltage" for f in one["loads"] for r in f["rows"]]
    checked = 0
    for row in steps:
        length = lengths.get(row["what"].split()[0])
        if length is not None:
            warm = 1 + 0.00393 * (sizing.temp_c - 20)
            ohm = sizing.conductor.r20_ohm_per_m * length * warm
            assert float(row["takes"].split()[0]) / 1000 == pytest.approx(20 * ohm, rel=0.005, abs=6e-5)
            checked += 1
    assert checked == len(lengths) >= 2


# ------------------------------------------------------------------------------ mass


def test_bars_of_a_worked_set_by_hand() -> None:
    """Lever about the front axle, wheelbase 3.2 m: +101.14 kg front, +142.86 kg rear; limits as written."""
    sheets = charts(test_mass.build())
    for name, kerb, added, limit in (("front", 1200, 101.14, 1600), ("rear", 950, 142.86, 1900)):
        read = found(sheets, f"{name}-axle", upright=False)
        assert read.bar("kerb") == (pytest.approx(0, abs=1), pytest.approx(kerb, rel=READ))
        assert read.bar("added") == (pytest.approx(kerb, rel=READ), pytest.approx(kerb + added, rel=READ))
        assert read.bar("laden")[1] == pytest.approx(kerb + added, rel=READ)
        assert read.lines("limit")[0][0][0] == pytest.approx(limit, rel=READ)
    whole = found(sheets, "whole-vehicle", upright=False)
    assert whole.bar("laden")[1] == pytest.approx(2150 + 244, rel=READ)


def test_what_lifts_an_axle_goes_back() -> None:
    """100 kg at 4.8 m with a wheelbase of 3.2 m: −50 kg in front, +150 kg behind."""
    build = test_mass.build().build
    places = {**build.places, "tail": build.places["at-drawers"]._replace(name="tail", station_m=4.8)}
    loaded = build.vehicle._replace(cargo=(Carried("sand", 100.0, "tail", ()),))
    sheets = charts(size.size(build._replace(places=places, vehicle=loaded)))
    left, right = found(sheets, "front-axle", upright=False).bar("cargo")
    assert right - left == pytest.approx(50, abs=1) and right == pytest.approx(1301.14, abs=1)
    left, right = found(sheets, "rear-axle", upright=False).bar("cargo")
    assert right - left == pytest.approx(150, abs=1) and left == pytest.approx(950 + 142.86, abs=1)


@EACH
def test_mass_table_and_chart_agree(path: pathlib.Path) -> None:
    lines = [row for t in tables(written(path)["charts"]) for row in t if "Laden" in row]
    assert [row["Of"] for row in lines] == ["Front axle", "Rear axle", "Whole vehicle"]
    for row in lines:
        read = found(packet(path).charts, row["Of"].lower().replace(" ", "-"), upright=False)
        end = 0.0
        for name in ("Kerb", "Added", "People", "Cargo"):
            end += kilograms(row[name])
            left, right = read.bar(name.lower())
            reached = left if kilograms(row[name]) < 0 else right
            assert reached == pytest.approx(end, rel=READ)
        assert read.bar("laden")[1] == pytest.approx(kilograms(row["Laden"]), rel=READ)
        limit = read.lines("limit")[0][0][0]
        assert limit - read.bar("laden")[1] == pytest.approx(kilograms(row["Left"]), abs=0.002 * limit)


def kilograms(text: str) -> float:
    """As the axis counts: kilograms or pounds."""
    return float(text.replace("−", "-").split()[0])
