"""Sizing by hand: the sums of a fitter with the tables open, against what the compiler does.

Base: tests/rules/_base.build.yaml, with the changes that each test writes. Ampacities are those of
33 CFR 183.425 Table 5 at 105 °C and its notes 1 and 2; resistances IEC 60228 class 5 and IEC 60028.
"""

from __future__ import annotations

import math

import pytest
import rule_fixtures
from rule_fixtures import laid_over

from buildspec import pipeline
from buildspec.model import Circuit, Sized, Sizing


def sized(text: str) -> Sized:
    """The base spec with `text` laid over it, sized."""
    from buildspec import read

    base, _ = read.read_text(rule_fixtures.BASE.read_text(encoding="utf-8"), file="base")
    over, said = read.read_text(text, file="over")
    assert base is not None and over is not None, said
    outcome = pipeline.check_documents(laid_over(base, over), None, {})
    assert outcome.build is not None, outcome.diagnostics
    return outcome.build


def both(build: Sized, key: str) -> tuple[Circuit, Sizing]:
    return next(c for c in build.build.circuits if c.key == key), build.sizings[key]


WORK_LAMP = """
accessories:
  trial-lamp:
    at: load-bed
    fed_from: rear.5
    electrical: {{model: constant-current, worst: {amps} A}}
    {extra}
"""


def test_fuse_and_wire_of_a_lamp_in_the_open() -> None:
    # 6.0 A continuous, device outside the engine bay: 6.0 / 0.80 = 7.5 A, a standard rating, taken exactly.
    circuit, sizing = both(sized(WORK_LAMP.format(amps=6.0, extra="")), "trial-lamp")
    assert [d.rating_a for d in sizing.devices] == [7.5]
    assert sizing.devices[0].colour == "brown"  # ISO 8820-3, published colour tables
    # Source and load at one place: 0.3 m and two service loops of 0.1 m, rounded up to 0.05 m.
    assert [w.cut_m for w in (*circuit.feeds, *circuit.returns)] == [0.5, 0.5]
    assert sizing.conductor.name == "1 mm2"
    # 18 AWG row for 1 mm²: 20 A, alone, outside an engine space.
    assert sizing.ampacity is not None and sizing.ampacity.corrected_a == 20.0


def test_a_load_just_over_the_share_takes_the_next_fuse() -> None:
    _, sizing = both(sized(WORK_LAMP.format(amps=6.01, extra="")), "trial-lamp")
    assert [d.rating_a for d in sizing.devices] == [10.0]


def test_an_intermittent_load_may_use_the_whole_rating() -> None:
    text = WORK_LAMP.format(amps=7.5, extra="").replace("worst: 7.5 A", "worst: 7.5 A, continuous: false")
    _, sizing = both(sized(text), "trial-lamp")
    assert [d.rating_a for d in sizing.devices] == [7.5]


def test_drop_of_a_long_run_by_hand() -> None:
    # 2.5 mm² written, 5 A, out and back over bulkhead – load-bed from a channel at the engine bay.
    text = """
accessories:
  trial-lamp:
    at: load-bed
    switch: main.3
    legend: TRIAL
    electrical: {model: constant-current, worst: 5 A}
    wire: 2.5 mm2
"""
    circuit, sizing = both(sized(text), "trial-lamp")
    out = 0.9 + 3.6 + 0.2  # two runs and two service loops
    back = 0.3 + 0.2  # stud at the load bed
    assert [w.cut_m for w in circuit.feeds] == [pytest.approx(math.ceil(out / 0.05) * 0.05)]
    assert [w.cut_m for w in circuit.returns] == [pytest.approx(math.ceil(back / 0.05) * 0.05)]
    # IEC 60228 class 5, 2.5 mm²: 7.98 Ω/km at 20 °C.
    assert sizing.ampacity is not None
    warm = 50 + (105 - 50) * (5 / sizing.ampacity.corrected_a) ** 2
    ohm = 7.98e-3 * (4.7 + 0.5) * (1 + 0.00393 * (warm - 20)) + 0.001 + 0.001  # body, one device
    assert sizing.own_drop_v == pytest.approx(5 * ohm, rel=1e-6)


def test_engine_bay_and_bundle_factors_of_a_crowded_run() -> None:
    # Case: 14 AWG, engine bay, five loaded conductors: 35 × 0.85 × 0.60 = 17.85 A.
    lamps = "\n".join(
        f"  lamp-{n}: {{at: grille, switch: main.{n}, legend: L{n}, wire: 14 AWG, return: body, "
        f"electrical: {{model: constant-current, worst: 5 A}}}}"
        for n in (1, 3, 4, 6, 7)
    )
    text = f"""
places:
  grille: {{environment: outside}}
runs:
  - {{between: [engine-bay, bulkhead], length: 0.9 m, through: grommet}}
  - {{between: [bulkhead, roof-rail], length: 2.4 m}}
  - {{between: [bulkhead, load-bed], length: 3.6 m, through: grommet, passes: [bed-wall]}}
  - {{between: [engine-bay, grille], length: 1.4 m}}
accessories:
{lamps}
"""
    _, sizing = both(sized(text), "lamp-1")
    assert sizing.ampacity is not None
    assert (sizing.ampacity.base_a, sizing.ampacity.place_factor, sizing.ampacity.bundle_factor) == (
        35.0,
        0.85,
        0.6,
    )
    assert sizing.ampacity.corrected_a == pytest.approx(17.85)
    assert sizing.ampacity.loaded == 5


def test_a_feeder_carries_everything_behind_it_reserves_included() -> None:
    build = sized(WORK_LAMP.format(amps=6.0, extra=""))
    behind = [
        c
        for c in build.build.circuits
        if c.source == "main" and c.kind in ("load", "reserve", "coil", "module")
    ]
    assert any(c.kind == "reserve" for c in behind)
    assert both(build, "main/supply")[1].design_a == pytest.approx(
        sum(build.sizings[c.key].design_a for c in behind)
    )


def test_constant_power_is_taken_at_the_lowest_voltage() -> None:
    # 120 W at 10.5 V: 11.43 A (typical-load table, computed row P/V).
    build = sized("job: {title: Trial}\n")
    assert both(build, "bar")[1].design_a == pytest.approx(120 / 10.5)


def test_charger_input_from_its_output() -> None:
    # 40 A at 14.4 V, 90 %, 10.5 V: 40 × 14.4 / (0.9 × 10.5) = 60.95 A, printed and carried as 61.0 A.
    build = sized("job: {title: Trial}\n")
    assert both(build, "charger/in")[1].design_a == pytest.approx(40 * 14.4 / (0.9 * 10.5), abs=0.05)


def test_both_ends_of_a_link_have_a_device_that_breaks_the_fault() -> None:
    # ABYC E-11 table V-A: 760 A cranking asks for 3000 A, 520 A for 1500 A; alternator (150 A) and charger (40 A) add.
    _, sizing = both(sized("job: {title: Trial}\n"), "assist")
    start, house = (d.prospective_a for d in sizing.devices)
    assert start is not None and 3000 <= start <= 3150 and house is not None and 1500 <= house <= 1540
    assert all(
        d.breaking_a is not None and d.breaking_a >= d.prospective_a
        for d in sizing.devices
        if d.prospective_a
    )


@pytest.mark.parametrize("metres", [1, 2, 4, 8, 16, 32])
def test_longer_runs_never_get_thinner_wire(metres: int) -> None:
    def area(length: float) -> float:
        text = (
            WORK_LAMP.format(amps=6.0, extra="").replace("at: load-bed", "at: far")
            + f"""
places: {{far: {{environment: outside}}}}
runs:
  - {{between: [engine-bay, bulkhead], length: 0.9 m, through: grommet}}
  - {{between: [bulkhead, roof-rail], length: 2.4 m}}
  - {{between: [bulkhead, load-bed], length: 3.6 m, through: grommet, passes: [bed-wall]}}
  - {{between: [load-bed, far], length: {length} m}}
"""
        )
        return both(sized(text), "trial-lamp")[1].conductor.area_mm2

    assert area(metres) <= area(metres * 2)
