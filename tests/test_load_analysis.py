"""The load analysis: each number is the network's or the energy sum's, and each sum can be followed by hand."""

from __future__ import annotations

import math
import pathlib
import re

import pytest
from sample_packets import EXAMPLES, NAMES, by_first, packet, tables, written

from buildspec import documents, energy, show
from buildspec.documents import _load_rows as loads
from buildspec.energy import alternator, modes, working
from buildspec.energy.terms import spelled
from buildspec.network import states
from buildspec.size import currents

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)


def text(path: pathlib.Path) -> str:
    return written(path)["load_analysis"]


def amps(cell: str) -> float:
    """`− 55 A` → -55; `41.9 mA` → 0.0419."""
    found = re.fullmatch(r"(− )?([\d.]+) (m?A)", cell)
    assert found is not None, cell
    value = float(found[2]) * (0.001 if found[3] == "mA" else 1.0)
    return -value if found[1] else value


def test_it_stands_between_the_cover_and_the_drawings() -> None:
    names = [d.name for d in documents.catalogue()]
    assert names.index("cover") < names.index("load_analysis") < names.index("drawings")


@EACH
def test_every_load_has_its_line_with_the_figures_of_the_build(path: pathlib.Path) -> None:
    sized = packet(path).sized
    printed = by_first(text(path), "Typical")
    mine = [c for c in sized.build.circuits if c.kind in ("load", "reserve")]
    assert list(printed) == [c.number for c in mine]
    for circuit in mine:
        row = printed[circuit.number]
        assert row["Worst"] == show.amps(sized.sizings[circuit.key].design_a)
        if circuit.load is None:
            assert (row["Kind"], row["Typical"]) == ("reserved", "–")
            continue
        usual = currents.typical(circuit.load, sized.build.practice) * circuit.quantity
        assert row["Typical"] == show.amps(usual)
        assert row["Kind"] == ("continuous" if circuit.load.continuous else "intermittent")
        watts, volts = re.findall(r"([\d.]+) W at ([\d.]+|any)", row["Power"])[0]
        if volts != "any" and circuit.load.model != "resistive":
            assert float(watts) == pytest.approx(usual * float(volts), abs=0.06)


@EACH
def test_totals_are_the_sum_of_their_columns(path: pathlib.Path) -> None:
    sized = packet(path).sized
    rows = by_first(text(path), "Together")
    assert len(rows) == len(sized.loads_a)
    kinds = ("Continuous", "Intermittent", "Reserved", "Chargers, coils, modules")
    for node, row in zip(
        (*sized.build.panels, *sized.build.blocks, *sized.build.batteries), rows.values(), strict=True
    ):
        assert row["Together"] == show.amps(sized.loads_a[node])
        assert sum(amps(row[kind]) for kind in kinds) == pytest.approx(sized.loads_a[node], abs=0.21)
        limit = loads.limit_a(sized.build, node)
        if limit is not None:
            assert row["Remaining"] == show.amps(limit - sized.loads_a[node])


@EACH
def test_five_parts_and_the_remainder_add_up(path: pathlib.Path) -> None:
    build = packet(path).sized.build
    printed = text(path)
    parts = [row for table in tables(printed) for row in table if "Part" in row]
    assert sorted({row["Part"] for row in parts}) == ["1", "2", "3", "4", "5", "–"]
    assert all(row["Measured"] == "" for row in parts)
    sums = [table for table in tables(printed) if "Term" in table[0]]
    assert len(sums) == 2
    for engine, table in zip(alternator.ENGINE, sums, strict=True):
        found = alternator.budget(build, engine)
        assert found is not None and found.remaining is not None
        assert sum(amps(row["Current"]) for row in table) == pytest.approx(
            found.remaining.value, abs=0.05 * len(table)
        )
        assert f"Remaining {show.amps(found.remaining.value)} of " in printed
    worst = by_first(printed, "Typical").values()
    for part, kind in (("4", "continuous"), ("5", "intermittent")):
        whole = next(amps(row["Figure"]) for row in parts if row["Part"] == part)
        each = [amps(row["Worst"]) for row in worst if row["Kind"] == kind]
        assert sum(each) == pytest.approx(whole, abs=0.05 * (len(each) + 1))


@EACH
def test_states_are_counted_once_and_each_mode_has_its_line(path: pathlib.Path) -> None:
    sized = packet(path).sized
    rows = [row for table in tables(text(path)) for row in table if "Network" in row]
    assert len(rows) == len(states.modes(sized.build)) == len({row["Network"] for row in rows})
    whole = sum(int(row["States"].replace(",", "")) for row in rows)
    assert f"{whole:,} states of switches and signals in {len(rows)} networks" in text(path)
    assert whole == states.coverage(sized.build).states
    for row, line in zip(rows, modes.lines(sized), strict=True):
        assert line.low is not None and row["Lowest voltage"] == show.volts(line.low.volts)
        for name, value in line.drawn_a.items():
            if value > 1e-4:
                assert (
                    f"{sized.build.batteries[name].designation} {show.amps(value)}"
                    in row["Most that is taken at each battery"]
                )


@EACH
def test_lowest_voltage_is_the_lowest_of_all_circuits_in_the_schedule(path: pathlib.Path) -> None:
    """One computed value, used everywhere: the table of modes and the circuit schedule."""
    sized = packet(path).sized
    lows = [line.low.volts for line in modes.lines(sized) if line.low]
    loaded = [sized.sizings[c.key].lowest_v for c in sized.build.circuits if c.kind in ("load", "reserve")]
    assert min(lows) == pytest.approx(min(loaded), abs=1e-9)
    assert show.volts(min(lows)) in written(path)["circuit_schedule"]


@EACH
def test_own_states_are_those_of_the_network(path: pathlib.Path) -> None:
    sized = packet(path).sized
    assert sized.build.states, "every example names a state"
    devices = [table for table in tables(text(path)) if "Gets" in table[0]]
    batteries = [table for table in tables(text(path)) if "At its posts" in table[0]]
    for own, on, posts in zip(sized.build.states.values(), devices, batteries, strict=True):
        found = working.worked(sized, own)
        numbers = {c.key: c.number for c in sized.build.circuits}
        assert [(r["No."], r["Draws"], r["Gets"]) for r in on] == [
            (numbers[r.circuit], show.amps(r.amps), show.volts(r.volts)) for r in found.readings
        ]
        for name, row in zip(sized.build.batteries, posts, strict=True):
            assert row["At its posts"] == show.volts(found.post_v[name])
            drawn = found.drawn_a[name]
            assert row["Draws"] == (show.amps(drawn) if drawn > 0 else f"charged with {show.amps(-drawn)}")


@EACH
def test_currents_of_an_own_state_balance_at_the_house_battery(path: pathlib.Path) -> None:
    """What is taken at the posts is what the devices, coils and standbys take, less what chargers bring."""
    sized = packet(path).sized
    for own in sized.build.states.values():
        found = working.worked(sized, own)
        devices = sum(r.amps for r in found.readings)
        brought = sum(
            way.part.charger.output_a
            for way in (*sized.build.isolation.values(), *sized.build.supplies.values())
            if way.part.charger and (way.name in own.closed or way.name in own.sources)
        )
        rest = found.drawn_a["house"] - (devices - brought)
        assert -1e-6 <= rest < 2.5, "coils, electronics and standby only"


@EACH
def test_energy_is_that_of_the_sums_with_every_term(path: pathlib.Path) -> None:
    build = packet(path).sized.build
    printed = text(path)
    found = energy.energy(build)
    for parked in found.parked:
        for result in (parked.usable, parked.hours, parked.cold, parked.refill):
            assert result is not None and spelled(result) in printed
    for standing in found.standing:
        assert spelled(standing.days) in printed
        held, depth, *drawn = (t.value for t in standing.days.terms)
        assert standing.days.value == pytest.approx(held * depth / (24 * math.fsum(drawn)))


@EACH
def test_mean_currents_are_the_running_ones_over_the_day(path: pathlib.Path) -> None:
    """By hand from the printed row: (running × duty × hours + standby × other hours) / 24 h."""
    rows = [row for table in tables(text(path)) for row in table if "Running" in row]
    assert len(rows) > 3
    for row in rows:
        duty, hours = float(row["Duty"].rstrip(" %")) / 100, float(row["A day"].removesuffix(" h"))
        by_hand = (amps(row["Running"]) * duty * hours + amps(row["Standby"]) * (24 - hours)) / 24
        assert amps(row["Mean"]) == pytest.approx(by_hand, abs=0.051)


def test_outside_sources_are_in_every_document_that_lists_what_is_fitted() -> None:
    path = next(p for p in EXAMPLES if p.parent.name == "bicycle-workshop-van")
    build = packet(path).sized.build
    mark = build.supplies["shore"].designation
    number = next(c.number for c in build.circuits if c.item == "shore")
    for name in (
        "bill_of_materials",
        "labels",
        "commissioning_record",
        "place_sheets",
        "circuit_schedule",
        "load_analysis",
    ):
        assert mark in written(path)[name], name
    for name in ("circuit_schedule", "fuse_map", "cut_list", "commissioning_record"):
        assert number in written(path)[name], name
    assert "Mains charger, 20 A, output" in written(path)["circuit_schedule"]
    assert "Mains charger, 20 A" in written(path)["bill_of_materials"]
    assert "licensed electrician" in written(path)["cover"]
    assert "Mains charger" in written(path)["handover"]
