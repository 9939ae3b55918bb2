"""Alternator budget, refilling, outside sources, states worked out: hand-worked sums against the energy package."""

from __future__ import annotations

from typing import Any

import pytest
import yaml

from buildspec import energy, pipeline, read
from buildspec.calc import charge
from buildspec.energy import alternator, modes, working
from buildspec.model import Sized
from buildspec.network import states
from buildspec.network.elements import BODY, Collapse, Network, Power, Resistor, Source
from buildspec.network.solve import solve

BASE: dict[str, Any] = {
    "buildspec": 1,
    "job": {
        "number": "T-2",
        "title": "Trial",
        "revision": "A",
        "date": "2026-10-05",
        "owner": {"name": "Fernhollow"},
    },
    "vehicle": {
        "description": "Pickup",
        "system": "12 V",
        "alternator": {
            "rated": "150 A",
            "idle": "90 A",
            "controlled": True,
            "allowance": "70 A",
            "source": "survey",
        },
        "own_loads": {
            "key_off": "20 mA",
            "key_on": "10 A",
            "idle": "35 A",
            "driving": "60 A",
            "source": "clamp meter",
        },
    },
    "places": {"bay": {"environment": "engine"}, "cab": {"environment": "cabin"}},
    "runs": [{"between": ["bay", "cab"], "length": "2 m", "through": "grommet"}],
    "grounds": {"stud-bay": {"at": "bay"}, "stud-cab": {"at": "cab"}},
    "signals": {"ignition": {"at": "cab", "kind": "ignition", "allowance": "0.5 A", "source": "survey"}},
    "batteries": {
        "start": {
            "chemistry": "flooded",
            "capacity": "80 Ah",
            "cranking": "700 A",
            "at": "bay",
            "existing": True,
        },
        "house": {"chemistry": "agm", "capacity": "100 Ah", "cranking": "600 A", "at": "bay"},
    },
    "isolation": {
        "charger": {
            "type": "dc-dc",
            "from": "start",
            "to": "house",
            "charger": {"output": "25 A", "input_max": "34 A"},
            "wake": "ignition",
            "at": "bay",
        }
    },
    "accessories": {
        "fridge": {
            "at": "cab",
            "fed_from": "house",
            "hours_per_day": 24,
            "electrical": {"model": "constant-current", "typical": "4 A", "worst": "8 A", "duty": "50 %"},
        },
        "lamp": {
            "at": "cab",
            "fed_from": "house",
            "electrical": {"model": "constant-power", "power": "60 W"},
        },
        "horn": {
            "at": "bay",
            "fed_from": "start",
            "electrical": {"model": "constant-current", "worst": "6 A", "continuous": False},
        },
    },
}


def laid(base: Any, over: Any) -> Any:
    if isinstance(base, dict) and isinstance(over, dict):
        merged = {k: laid(base.get(k), over[k]) if k in over else base[k] for k in base}
        merged |= {k: v for k, v in over.items() if k not in base}
        return {k: v for k, v in merged.items() if v is not None}
    return over


def sized(**over: Any) -> Sized:
    text = yaml.safe_dump(laid(BASE, over), sort_keys=False)
    spec, said = read.read_text(text, file="t.build.yaml")
    assert spec is not None, said
    outcome = pipeline.check_documents(spec, None, {})
    assert outcome.build is not None, outcome.diagnostics
    return outcome.build


def parked(**over: Any) -> energy.Parked:
    (found,) = energy.energy(sized(**over).build).parked
    return found


# ------------------------------------------------------------------------------- alternator


@pytest.mark.parametrize(
    ("engine", "remaining"), [("driving", 150 - 60 - 34 - 6), ("idle", 90 - 35 - 34 - 6)]
)
def test_what_remains_of_the_alternator(engine: str, remaining: float) -> None:
    """Nameplate or idle output, less the vehicle's own load, the charger's input and the horn."""
    found = alternator.budget(sized().build, engine)
    assert found is not None and found.remaining is not None
    assert found.remaining.value == pytest.approx(remaining)
    first, *rest = found.remaining.terms
    assert first.value - sum(t.value for t in rest) == pytest.approx(remaining)
    assert all(t.source for t in found.remaining.terms)


def test_added_loads_are_told_apart() -> None:
    found = alternator.demand(sized().build)
    assert [(t.what, t.value) for t in found.chargers] == [("charger", 34)]
    assert [(t.what, t.value) for t in found.intermittent] == [("horn", 6)]
    assert found.continuous == () and found.total_a == 40


def test_a_figure_that_is_not_known_is_named_and_nothing_is_guessed() -> None:
    build = sized(vehicle={"alternator": {"idle": None}, "own_loads": {"idle": None}}).build
    found = alternator.budget(build, "idle")
    assert found is not None and found.remaining is None
    assert found.missing == ("its output at idle, hot", "the vehicle's own load, idling, hot")


def test_no_alternator_no_budget() -> None:
    assert alternator.budget(sized(vehicle={"alternator": None}).build, "driving") is None


# --------------------------------------------------------------------------------- refilling


def test_refill_at_what_the_charger_has_left_beside_the_loads() -> None:
    """RT-04: 50 Ah at 85 %; 25 A less the fridge's mean of 2 A; the AGM battery accepts C/4 = 25 A."""
    refill = parked().refill
    assert refill is not None and refill.value == pytest.approx(50 / 0.85 / 23)


def test_refill_is_held_by_what_the_battery_accepts() -> None:
    """C/4 of 60 Ah is 15 A; the charger's 25 A less 2 A would be more."""
    refill = parked(batteries={"house": {"capacity": "60 Ah"}}).refill
    assert refill is not None and refill.value == pytest.approx(30 / 0.85 / 15)


def test_refill_is_held_by_the_alternator() -> None:
    """Rated 90 A: 90 − 60 − 6 leaves 24 of 34 A to the charger, and so 24 / 34 of its output."""
    refill = parked(vehicle={"alternator": {"rated": "90 A"}}).refill
    assert refill is not None and refill.value == pytest.approx(50 / 0.85 / (25 * 24 / 34 - 2))
    share = next(t for t in refill.terms if "alternator leaves" in t.what)
    assert share.value == pytest.approx(24 / 34)


def test_the_cold_leaves_less() -> None:
    """At 0 °C the published multiplier lies at 4.4 / 5.5 of the way from 1.30 to 1.40."""
    found = parked()
    assert found.cold is not None
    assert found.cold.value == pytest.approx(found.hours.value / (1.30 + 0.1 * 4.4 / 5.5))


def test_the_cold_of_lithium_is_not_covered() -> None:
    house = {"chemistry": "lithium-iron-phosphate", "cranking": None, "short_circuit": "2600 A"}
    assert parked(batteries={"house": house}).cold is None


# ---------------------------------------------------------------------------- outside sources

SHORE = {"type": "shore", "to": "house", "at": "cab", "output": "10 A"}
SOLAR = {"type": "solar", "to": "house", "at": "cab", "output": "6 A"}


def test_refill_on_shore() -> None:
    (found,) = parked(sources={"shore": SHORE}).outside
    assert found.refill is not None and found.refill.value == pytest.approx(50 / 0.85 / (10 - 2))


def test_the_sun_counts_only_where_it_is_stated() -> None:
    (found,) = parked(sources={"sun": SOLAR}).outside
    assert (found.refill, found.lasts) == (None, None)
    assert found.note == "not counted: what the sun brings in a day is not stated"


def test_the_sun_makes_it_last_longer() -> None:
    """48 Ah a day are used and 24 Ah brought: 1 A net, below the 20 h rate, out of 50 Ah."""
    (found,) = parked(sources={"sun": SOLAR | {"per_day": "24 Ah"}}).outside
    assert found.lasts is not None and found.lasts.value == pytest.approx(50 / 1)


def test_a_sun_that_brings_enough() -> None:
    (found,) = parked(sources={"sun": SOLAR | {"per_day": "48 Ah"}}).outside
    assert found.note == "48 Ah brought in a day, 48 Ah used: a usual day does not empty it"


def test_the_shore_lead_is_out_while_the_engine_runs() -> None:
    build = sized(sources={"shore": SHORE, "sun": SOLAR}).build
    running = {name for m in states.modes(build) if m.engine != "stopped" for name in m.sources}
    still = {name for m in states.modes(build) if m.engine == "stopped" for name in m.sources}
    assert (running, still) == ({"sun"}, {"shore", "sun"})


# ------------------------------------------------------------------------------ states worked out

NIGHT = {"key": "off", "engine": "stopped", "on": ["fridge", "lamp"], "hours": 10}


def worked(name: str = "night", **over: Any) -> tuple[Sized, working.Worked]:
    found = sized(**({"states": {name: NIGHT}} | over))
    return found, working.worked(found, found.build.states[name])


def test_constant_power_draws_its_power_at_its_own_voltage() -> None:
    _, found = worked()
    by_item = {r.circuit: r for r in found.readings}
    assert by_item["lamp"].amps * by_item["lamp"].volts == pytest.approx(60)
    assert by_item["fridge"].amps == 4


def test_the_battery_gives_what_the_devices_take() -> None:
    _, found = worked()
    assert found.drawn_a["house"] == pytest.approx(sum(r.amps for r in found.readings), abs=1e-6)
    assert found.mean_a["house"] == pytest.approx(found.drawn_a["house"] - 4 * 0.5)
    assert found.drawn_a["start"] == pytest.approx(0.02, abs=1e-6)


def test_the_posts_sag_by_the_internal_resistance() -> None:
    """9 mΩ by the definition of the cold cranking rating, 5.4 V / 600 A."""
    _, found = worked()
    assert found.post_v["house"] == pytest.approx(12.2 - found.drawn_a["house"] * 5.4 / 600, abs=1e-6)


def test_a_shore_charger_carries_the_loads() -> None:
    state = NIGHT | {"sources": ["shore"]}
    _, found = worked(states={"night": state}, sources={"shore": SHORE})
    assert found.drawn_a["house"] == pytest.approx(sum(r.amps for r in found.readings) - 10, abs=1e-6)


def test_driving_the_start_side_gives_its_loads_and_the_charger() -> None:
    state = {"key": "on", "engine": "driving", "closed": ["charger"], "on": ["horn"]}
    _, found = worked(states={"night": state})
    assert found.drawn_a["start"] == pytest.approx(60 + 34 + 6, abs=1e-6)
    assert found.drawn_a["house"] == pytest.approx(-25, abs=1e-6)


def test_what_the_key_holds_dead_is_said() -> None:
    relay = {"contact": {"rating": "30 A", "coil": "0.15 A"}, "at": "cab"}
    _, found = worked(accessories={"lamp": {"trigger": "ignition", "relay": relay}})
    assert found.held_off == ("lamp",)
    assert [r.circuit for r in found.readings] == ["fridge"]


def test_a_supply_that_cannot_give_it_collapses() -> None:
    """E² / 4R: 12.2 V behind 90 mΩ and more gives at most 413 W."""
    house = {"capacity": "20 Ah", "cranking": "60 A"}
    lamp = {"electrical": {"power": "500 W"}}
    _, found = worked(batteries={"house": house}, accessories={"lamp": lamp})
    assert found.collapse is not None and found.readings == ()


@pytest.mark.parametrize(("share", "works"), [(0.999, True), (1.001, False)])
def test_the_limit_of_a_working_point(share: float, works: bool) -> None:
    """Maximum power transfer, any textbook: E² / 4R and not a watt more."""
    network = Network(
        (Resistor("line", "post", "load", 0.06),),
        (Source("battery", "post", BODY, 12.2, 0.03),),
        (),
        (Power("load", "load", BODY, share * 12.2**2 / (4 * 0.09)),),
    )
    assert isinstance(solve(network), Collapse) is not works


def test_the_quick_proof_never_passes_what_collapses() -> None:
    """`may_collapse` may ask for a solution too often, never too rarely."""
    from buildspec.rules import supply_collapses

    seen = set()
    for watts in (100, 200, 300, 400, 500, 700):
        house = {"capacity": "20 Ah", "cranking": "60 A"}
        build = sized(
            batteries={"house": house}, accessories={"lamp": {"electrical": {"power": f"{watts} W"}}}
        )
        falls = any(working.collapse(build, m) is not None for m in states.modes(build.build))
        assert supply_collapses.may_collapse(build) or not falls
        assert bool(list(supply_collapses.check(build))) == falls
        seen.add(falls)
    assert seen == {True, False}


# ------------------------------------------------------------------------------------- modes


def test_the_worst_of_a_mode_is_everything_at_its_worst() -> None:
    build = sized()
    for line in modes.lines(build):
        house = 8 + 60 / 10.5 - (25 if line.mode.closed else 0)
        assert line.drawn_a["house"] == pytest.approx(house, abs=1e-6), line.mode.name
    parked_line = next(iter(modes.lines(build)))
    assert parked_line.drawn_a["start"] == pytest.approx(0.02 + 6, abs=1e-6)
    assert parked_line.low is not None and 2**parked_line.groups == 8


def test_daily_charge_is_the_mean_over_the_day() -> None:
    found = parked()
    (fridge,) = (d for d in found.draws if d.item == "fridge")
    assert fridge.mean_a * 24 == pytest.approx(charge.daily_ah(current_a=4, hours=24, duty=0.5)) == 48
