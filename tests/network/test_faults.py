"""Dead shorts: against ngspice on the shipped examples, and against sums that anybody can follow.

By hand: IEC 60228 class 5 resistances at 20 °C, IEC 60028 coefficient 0.00393 per K, insulation of 105 °C,
internal resistance (12.6 − 7.2) V over the cold cranking current, 12.2 V at rest, 1 mohm a contact.
"""

from __future__ import annotations

import copy
import functools
import pathlib
import sys
from collections.abc import Callable
from typing import Any

import pytest
import rule_fixtures
import sample_builds
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildspec import pipeline, read
from buildspec.model import FaultSet, Sized
from buildspec.network import cranking, faults, shorts
from buildspec.network.build import Laid
from buildspec.network.elements import BODY, Current, Network, Resistor, Solution, Source
from buildspec.network.solve import solve
from buildspec.read import Document
from network import spice

ROOT = pathlib.Path(__file__).parent.parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*/*.build.yaml"))
EACH = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
SHORT_OHM = 1e-7
LEAK_OHM = 1e12
"""Conductors beyond an open contact hang in the air; a simulator refuses them."""
HOT = 1 + 0.00393 * (105 - 20)


@functools.cache
def example(path: pathlib.Path) -> Sized:
    made = pipeline.check_file(path).build
    assert made is not None
    return made


@functools.cache
def sized(text: str) -> Sized:
    base, _ = read.read_text(rule_fixtures.BASE.read_text(encoding="utf-8"), file="base")
    over, said = read.read_text(text, file="over")
    assert base is not None and over is not None, said
    made = pipeline.check_documents(rule_fixtures.laid_over(base, over), None, {}).build
    assert made is not None
    return made


def leaking(network: Network) -> Network:
    nodes = sorted({n for r in network.resistors for n in (r.a, r.b)} - {BODY})
    leaks = (Resistor(f"leak {n}", n, BODY, LEAK_OHM) for n in nodes)
    return network._replace(resistors=(*network.resistors, *leaks))


def by_spice(network: Network, a: str, b: str, through: str = "") -> float:
    """Current of a dead short between two nodes [A], or of an element while it lasts."""
    whole = leaking(network._replace(resistors=(*network.resistors, Resistor("short", a, b, SHORT_OHM))))
    volts, _ = spice.operating_point(whole, small_a=1e-6)
    volts[BODY] = 0.0
    r = next(r for r in whole.resistors if r.key == (through or "short"))
    return abs(volts[r.a] - volts[r.b]) / r.ohm


# ---------------------------------------------------------------------------- against ngspice


@EACH
def test_smallest_fault_currents_agree_with_ngspice(path: pathlib.Path) -> None:
    build = example(path)
    laid = Laid(build.build, build.sizings)
    checked = 0
    for circuit in build.build.circuits[::2]:
        closed = frozenset({circuit.item}) if circuit.kind == "link" else frozenset[str]()
        for fault in build.faults.get(circuit.key, FaultSet((), ())).far:
            back = next(b for node, b in faults.ends(build.build, circuit) if node == fault.at)
            found = by_spice(shorts.weakest(laid, closed), fault.at, back)
            assert fault.amps == pytest.approx(found, rel=1e-3), fault.at
            checked += 1
    assert checked >= 8


@EACH
def test_largest_fault_currents_agree_with_ngspice(path: pathlib.Path) -> None:
    build = example(path)
    laid = Laid(build.build, build.sizings)
    networks = [shorts.strongest(laid, mode) for mode in shorts.widest(laid)]
    where = {p.key: p for c in build.build.circuits for p in c.protections}
    checked = 0
    for near in [n for found in build.faults.values() for n in found.near][::3]:
        p = where[near.device]
        node = faults.made.hosted(build.build, p) if p.host else f"{p.designation}:2"
        found = max(by_spice(network, node, BODY, near.device) for network in networks)
        assert near.most_a == pytest.approx(found, rel=1e-3), node
        checked += 1
    assert checked >= 7


def test_the_share_of_each_battery_in_a_short_of_a_link_agrees_with_ngspice() -> None:
    build = example(next(path for path in EXAMPLES if path.parent.name == "river-gauging-pickup"))
    network = shorts.weakest(Laid(build.build, build.sizings), frozenset({"assist"}))
    for fault in build.faults["assist"].far:
        assert {o.battery for o in fault.openings} == {"start", "house"}
        for opened in fault.openings:
            assert opened.amps == pytest.approx(by_spice(network, fault.at, BODY, opened.device), rel=1e-3)
        assert fault.amps == pytest.approx(sum(o.amps for o in fault.openings), rel=1e-6)


# ------------------------------------------------------------------------------------- by hand

DIRECT = """
isolation: {assist: null, charger: null}
grounds: {house-minus: {at: engine-bay, post_of: house}}
accessories:
  heater:
    at: load-bed
    fed_from: house
    return: house-minus
    wire: 6 mm2
    fuse: {family: class-t, rating: 60 A}
    electrical: {model: constant-current, worst: 10 A}
"""


def test_a_short_at_the_end_of_one_cable() -> None:
    build = sized(DIRECT)
    circuit = next(c for c in build.build.circuits if c.key == "heater")
    metres = sum(w.cut_m for w in (*circuit.feeds, *circuit.returns))
    # 6 mm² class 5: 3.30 ohm/km; 520 A cranking: 5.4 / 520; one fuse with its holder 1 mohm
    loop = 5.4 / 520 + metres * 3.30e-3 * HOT + 0.001
    (fault,) = build.faults["heater"].far
    assert fault.amps == pytest.approx(12.2 / loop, rel=1e-6)


def test_a_short_right_behind_the_fuse_of_one_cable() -> None:
    build = sized(DIRECT)
    circuit = next(c for c in build.build.circuits if c.key == "heater")
    # ABYC E-11 table V-A: 1500 A at 12.8 V behind 8.53 mohm; then the lead to the fuse at 20 °C, and nothing else
    (near,) = build.faults["heater"].near
    lead = circuit.feeds[0].cut_m * 3.30e-3
    assert near.most_a == pytest.approx(12.8 / (12.8 / 1500 + lead), rel=1e-4)
    assert near.batteries == ("house",)


def test_a_blade_behind_a_feeder_opens_and_the_conductor_stands_it() -> None:
    build = sized(
        "accessories:\n  lamp: {at: load-bed, fed_from: rear.1, fuse: {rating: 10 A}, wire: 1 mm2, "
        "electrical: {model: constant-current, worst: 4 A}}\n"
    )
    (fault,) = build.faults["lamp"].far
    (opened,) = fault.openings
    device = build.sizings["lamp"].devices[0]
    assert opened.device == device.key and fault.amps == pytest.approx(opened.amps)
    # beyond six times its rating I²t stays (6 × 10 A)² × 0.1 s = 360 A² s
    assert fault.amps > 60
    assert opened.within_s == pytest.approx(360 / fault.amps**2)
    assert opened.energy_a2s == pytest.approx(360)
    # k = 87.44 at 105 °C (computed row K31), 1 mm²
    assert opened.limit_a2s == pytest.approx(87.44**2, rel=1e-3) and opened.thinnest == "lamp"


PARALLEL = """
isolation: {assist: null, charger: null}
vehicle: {alternator: null}
batteries:
  house:
    chemistry: agm
    capacity: 460 Ah
    cranking: null
    short_circuit: 6500 A
    at: load-bed
    battery: {chemistry: agm, capacity: 460 Ah}
  house-2: {chemistry: agm, capacity: 460 Ah, short_circuit: 5000 A, at: load-bed, role: house}
conductors:
  parallel:
    from: house
    to: house-2
    wire: 70 mm2
    fuses: {house: {family: class-t, rating: 200 A}, house-2: {family: class-t, rating: 200 A}}
"""


def test_two_batteries_in_parallel_add_at_a_common_device() -> None:
    build = sized(PARALLEL)
    tie = next(c for c in build.build.circuits if c.kind == "tie")
    # 70 mm² class 5: 0.272 ohm/km
    both = 12.8 / (12.8 / 5000 + sum(w.cut_m for w in tie.feeds) * 0.272e-3) + 6500
    feeder = next(c for c in build.build.circuits if c.key == "rear/supply")
    lead = feeder.feeds[0].cut_m * build.sizings["rear/supply"].conductor.r20_ohm_per_m
    (near,) = build.faults["rear/supply"].near
    assert near.batteries == ("house", "house-2")
    assert near.most_a == pytest.approx(12.8 / (12.8 / both + lead), rel=1e-3)
    # at the tie each device sees the other battery or its own, never both
    assert max(n.most_a for n in build.faults[tie.key].near) <= 6500


def test_no_conductor_of_the_vehicle_itself_is_judged() -> None:
    build = sized("conductors:\n  stud-70: {from: start, to: house, existing: true}\n")
    assert "stud-70" not in build.faults
    thinnest = {o.thinnest for found in build.faults.values() for f in found.far for o in f.openings}
    assert thinnest and "stud-70" not in thinnest


# ------------------------------------------------------------------------------------- cranking


@pytest.mark.parametrize(("area_mm2", "lost_v"), [(25.0, 2.1), (53.475, 1.0)])
def test_a51_voltage_lost_while_cranking(area_mm2: float, lost_v: float) -> None:
    """A51, worked example: 300 A, 5 m one way, lose 2.1 V on 25 mm² and 1.0 V on 1/0 AWG (copper at 20 °C)."""
    ohm = 17.241e-3 / area_mm2 * 5
    made = solve(
        Network(
            (Resistor("out", "house", "starter", ohm), Resistor("back", "frame", BODY, ohm)),
            (Source("house", "house", BODY, 12.6, 1e-6),), (Current("starter", "starter", "frame", 300.0),), (),
        )
    )  # fmt: skip
    assert isinstance(made, Solution)
    assert 12.6 - (made.volts["starter"] - made.volts["frame"]) == pytest.approx(lost_v, abs=0.05)


def crank(text: str) -> tuple[Sized, cranking.Crank]:
    build = sized(text)
    found = cranking.of(Laid(build.build, build.sizings), build.build.isolation["assist"])
    assert found is not None
    return build, found


def test_the_whole_starter_takes_the_link_when_the_start_battery_is_dead() -> None:
    build, found = crank("vehicle: {own_loads: {cranking: 250 A}}\n")
    assert found.link_a == pytest.approx(250.0)
    circuits = {c.key: c for c in build.build.circuits}
    link = build.sizings["assist"]
    hot = 1 + 0.00393 * (link.temp_c - 20)
    metres = sum(w.cut_m for w in circuits["assist"].feeds)
    bond = build.sizings["house/negative"]
    back = sum(w.cut_m for w in circuits["house/negative"].returns) * bond.conductor.r20_ohm_per_m
    back *= 1 + 0.00393 * (bond.temp_c - 20)
    # link cable, two fuses and the contact; bond, half of the body's 1 mohm at its stud; the vehicle's own negative
    ohm = metres * link.conductor.r20_ohm_per_m * hot + 3 * 0.001 + back + 0.0005 + 0.001
    assert found.posts_v == pytest.approx(12.2 - 250 * (5.4 / 520 + ohm), rel=1e-6)


def test_a_start_battery_that_still_works_leaves_the_link_a_share() -> None:
    _, found = crank("vehicle: {own_loads: {cranking: 250 A}}\n")
    assert 0 < found.shared_a < found.link_a / 2  # 760 A cranking against 520 A and a cable


def test_without_a_figure_half_of_the_cold_cranking_rating_is_taken() -> None:
    _, found = crank("vehicle: {own_loads: null}\n")
    assert found.starter.amps == 380.0 and "half of 760 A" in found.starter.words


def test_ngspice_agrees_on_what_is_left_for_the_starter() -> None:
    build, found = crank("vehicle: {own_loads: {cranking: 250 A}}\n")
    way = build.build.isolation["assist"]
    network = cranking.network(Laid(build.build, build.sizings), way, "start", 250.0, helps=False)
    volts, _ = spice.operating_point(leaking(network))
    post = build.build.batteries["start"].designation
    assert volts[f"{post}:+"] - volts[f"{post}:−"] == pytest.approx(found.posts_v, rel=1e-3)


# ----------------------------------------------------------------------------------- properties

Site = tuple[str, str, str]
"""Section, item and end (or ``) of a device that a spec can leave out."""
NONE = {"none": "left out by a test"}


@functools.cache
def spec_of(path: pathlib.Path) -> tuple[Document, Document]:
    spec, _, _ = pipeline.spec_of(path)
    practice, _ = read.read_file(path.parent / "practice.yaml", doc="practice")
    assert spec is not None and practice is not None
    return spec, practice


def removable(build: Sized) -> list[Site]:
    """Every fuse of a build that a spec can leave out: those of panels and signals it cannot."""
    found: list[Site] = []
    for circuit in build.build.circuits:
        section = str(circuit.at[0])
        for p in circuit.protections:
            if (
                p.kind != "fuse"
                or p.host in build.build.panels
                or circuit.kind == "signal"
                or circuit.existing
            ):
                continue
            two_ended = section in ("isolation", "conductors")
            found.append((section, str(circuit.at[1]), p.source if two_ended else ""))
    return found


@functools.cache
def sites() -> list[tuple[pathlib.Path, Site]]:
    return [(path, site) for path in EXAMPLES for site in removable(example(path))]


def without(data: dict[str, Any], site: Site) -> dict[str, Any]:
    section, name, end = site
    changed = copy.deepcopy(data)
    item = changed[section][name]
    if end:
        item.setdefault("fuses", {})[end] = NONE
    else:
        item["fuse"] = NONE
    return changed


def written(data: dict[str, Any]) -> Document:
    document, said = read.read_text(yaml.safe_dump(data, sort_keys=False, allow_unicode=True), file="changed")
    assert document is not None, said
    return document


def errors(spec: Document, practice: Document | None) -> set[str]:
    found = pipeline.check_documents(spec, practice, {})
    assert found.build is not None, found.diagnostics
    return {d.rule for d in found.diagnostics if d.severity == "error"}


def test_there_are_devices_of_every_kind_to_leave_out() -> None:
    assert {section for _, (section, _, _) in sites()} >= {
        "accessories",
        "blocks",
        "panels",
        "isolation",
        "reserves",
    }
    assert len(sites()) > 40


def outlasts_what_is_left(changed: Document, practice: Document, site: Site) -> bool:
    """Is the conductor so thick that the device upstream protects it: then nothing is wrong."""
    build = pipeline.check_documents(changed, practice, {}).build
    assert build is not None
    circuit = next(
        c for c in build.build.circuits if c.at[:2] == site[:2] and c.kind in ("load", "reserve", "feeder")
    )
    above = [c for c in build.build.circuits if c.kind == "feeder" and c.target == circuit.source]
    ratings = [d.rating_a for c in above for d in build.sizings[c.key].devices]
    carried = build.sizings[circuit.key].ampacity
    return bool(ratings) and carried is not None and carried.corrected_a >= max(ratings)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.deferred(lambda: st.sampled_from(sites())))
def test_a_device_that_is_left_out_is_always_found(chosen: tuple[pathlib.Path, Site]) -> None:
    path, site = chosen
    spec, practice = spec_of(path)
    changed = spec._replace(data=without(spec.data, site))
    if not errors(changed, practice) > errors(spec, practice):
        assert outlasts_what_is_left(changed, practice, site), site


OVERLOAD = {
    "undersized-conductor",
    "unprotected-conductor",
    "conductor-burns-before-fuse",
    "short-circuit-not-cleared",
}


@settings(max_examples=25, deadline=None)
@given(
    st.sampled_from(["1 mm2", "1.5 mm2", "2.5 mm2"]),
    st.sampled_from([(15, 20, 25), (20, 25, 30), (25, 30, 40), (30, 35, 40)]),
    st.sampled_from(["1 m", "6 m", "20 m"]),
)
def test_a_larger_fuse_never_mends_an_overloaded_conductor(
    wire: str, ratings: tuple[int, ...], length: str
) -> None:
    bad_before = False
    for rating in ratings:
        data = sample_builds.spec(1, chargers=0, panels=0)
        data["runs"][-1]["length"] = length
        data["blocks"]["block-0"]["block"]["position_limit"] = "40 A"
        item = data["accessories"]["load-0"]
        item |= {"at": "left-wall", "wire": wire, "fuse": {"rating": f"{rating} A"}}
        bad = bool(errors(written(data), None) & OVERLOAD)
        assert bad or not bad_before, rating
        bad_before = bad


def counted_calls(work: Callable[[], object]) -> int:
    """Python calls that a piece of work makes: the same on a slow and a busy machine."""
    made = 0

    def seen(frame: object, event: str, arg: object) -> None:
        nonlocal made
        made += event == "call"

    before = sys.getprofile()
    sys.setprofile(seen)
    try:
        work()
    finally:
        sys.setprofile(before)
    return made


def test_twice_the_circuits_take_no_more_than_twice_the_work() -> None:
    work = []
    for loads in (60, 120):
        build = sample_builds.built(sample_builds.spec(**sample_builds.CASES["sixty"] | {"loads": loads}))
        laid = Laid(build.build, build.sizings)
        assert len(faults.of(laid)) > loads
        work.append(counted_calls(lambda laid=laid: faults.of(laid)))
    assert 0 < work[1] < 2 * work[0]
