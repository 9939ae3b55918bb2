"""Links between the items of one load: against sums by hand, ngspice on a ladder of resistors, and what must hold.

By hand: IEC 60228 class 5 resistance at 20 °C (1 mm²: 19.5 mohm/m, 2.5 mm²: 7.98 mohm/m), IEC 60028 coefficient
0.00393 per K, 33 CFR 183.425 table 5 at 105 °C (18 AWG, the row for 1 mm²: 20 A), a temperature that rises from
30 °C to 105 °C with the square of the current, a service loop of 0.1 m at each end of a conductor.
"""

from __future__ import annotations

import functools
from typing import Any

import pytest
import sample_builds
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildspec.model import Circuit, Sized, Sizing
from buildspec.network import answers, states
from buildspec.network import build as made
from buildspec.network.build import Laid
from buildspec.network.elements import BODY, Current, Network, Resistor, Source
from network import spice

R_1MM2, R_2MM2_5 = 19.5e-3, 7.98e-3
AMPACITY_18AWG_A = 20.0
EACH_A = 0.9
LOOPS_M = 0.2
CHAIN_M, STAR_M = (2.0, 1.0, 3.0), (2.0, 1.0, 3.0, 0.5)


def warm(amps: float) -> float:
    """Resistance of 1 mm² that carries a current, over that at 20 °C."""
    temp_c = 30 + 75 * (amps / AMPACITY_18AWG_A) ** 2
    return 1 + 0.00393 * (temp_c - 20)


def spec(form: str, lengths: tuple[float, ...], **more: Any) -> dict[str, Any]:
    """Items at the end of one block's circuit, links of 1 mm²."""
    data = sample_builds.spec(0, chargers=0, panels=0)
    count = len(lengths) + (form == "chain")
    written = {"form": form, "lengths": [f"{m} m" for m in lengths], "wire": more.pop("links", "1 mm2")}
    data["accessories"] = {
        "lamps": {
            "at": "load-bed",
            "fed_from": "block-0.1",
            "fuse": {"rating": "10 A"},
            "wire": "2.5 mm2",
            "quantity": count,
            "branches": {key: value for key, value in written.items() if value},
            "electrical": {"model": "constant-current", "worst": f"{EACH_A} A"},
            **more,
        }
    }
    return data


@functools.cache
def joined(form: str, lengths: tuple[float, ...], back: str = "own", links: str = "1 mm2") -> Sized:
    return sample_builds.built(spec(form, lengths, **{"return": back}, links=links))


def parts(sized: Sized) -> tuple[Circuit, Sizing, Circuit, Sizing]:
    """Trunk and branches with their sizings."""
    found = {c.key: c for c in sized.build.circuits}
    keys = ("lamps", "lamps/branches")
    (a, b) = keys
    return found[a], sized.sizings[a], found[b], sized.sizings[b]


def test_chain_by_hand() -> None:
    """Links of 2, 1 and 3 m carry three, two and one lamp, out and back."""
    trunk, whole, branch, links = parts(joined("chain", CHAIN_M))
    assert [w.cut_m for w in branch.feeds] == [2.2, 1.2, 3.2] == [w.cut_m for w in branch.returns]
    assert links.design_a == pytest.approx(3 * EACH_A)
    by_hand = EACH_A * R_1MM2 * warm(3 * EACH_A) * 2 * (2.2 * 3 + 1.2 * 2 + 3.2 * 1)
    assert links.own_drop_v == pytest.approx(by_hand, rel=2e-3)
    assert whole.design_a == pytest.approx(4 * EACH_A)
    assert trunk.feeds[-1].end.item == branch.feeds[0].start.item == "U1.1"


def test_star_by_hand() -> None:
    """The lamp on the longest link is the worst; its link carries one lamp."""
    trunk, whole, branch, links = parts(joined("star", STAR_M))
    assert [w.cut_m for w in branch.feeds] == [2.2, 1.2, 3.2, 0.7]
    assert links.design_a == pytest.approx(EACH_A)
    assert links.own_drop_v == pytest.approx(EACH_A * R_1MM2 * warm(EACH_A) * 2 * 3.2, rel=2e-3)
    assert {w.start for w in branch.feeds} == {trunk.feeds[-1].end}
    assert {w.end for w in branch.returns} == {trunk.returns[0].start}
    assert whole.drop_v == links.drop_v > whole.own_drop_v + links.own_drop_v


def test_each_item_that_returns_by_the_body_has_one_conductor() -> None:
    _, _, branch, links = parts(joined("star", STAR_M, "body"))
    assert branch.returns == ()
    assert links.own_drop_v == pytest.approx(EACH_A * R_1MM2 * warm(EACH_A) * 3.2, rel=2e-3)


def ladder(form: str, lengths: tuple[float, ...]) -> Network:
    """The links as resistors behind 12 V, item by item, written down without the program's own network."""
    first_a = EACH_A * (len(lengths) if form == "chain" else 1)
    ohm = R_1MM2 * warm(first_a)
    resistors, ends = [], [("p", "n")] if form == "chain" else []
    for n, metres in enumerate(lengths):
        near = ends[-1] if form == "chain" else ("p", "n")
        far = (f"p{n}", f"n{n}")
        resistors += [
            Resistor(f"{a}{b}", a, b, ohm * (metres + LOOPS_M)) for a, b in zip(near, far, strict=True)
        ]
        ends.append(far)
    resistors.append(Resistor("ground", "n", BODY, 1e-6))
    loads = tuple(Current(f"lamp {n}", a, b, EACH_A) for n, (a, b) in enumerate(ends))
    return Network(tuple(resistors), (Source("battery", "p", "n", 12.0, 1e-6),), loads, ())


@pytest.mark.parametrize(("form", "lengths"), [("chain", CHAIN_M), ("star", STAR_M)])
def test_drop_at_the_worst_item_agrees_with_ngspice(form: str, lengths: tuple[float, ...]) -> None:
    network = ladder(form, lengths)
    volts, _ = spice.operating_point(network)
    lost = [volts["p"] - volts["n"] - (volts[c.a] - volts[c.b]) for c in network.currents]
    assert parts(joined(form, lengths))[3].own_drop_v == pytest.approx(max(lost), rel=2e-3)
    assert lost.index(max(lost)) == (3 if form == "chain" else 2)


@pytest.mark.parametrize("back", ["own", "body"])
@pytest.mark.parametrize(("form", "lengths"), [("chain", CHAIN_M), ("star", STAR_M)])
def test_voltage_at_each_item_of_a_whole_build_agrees_with_ngspice(
    form: str, lengths: tuple[float, ...], back: str
) -> None:
    sized = joined(form, lengths, back)
    laid = Laid(sized.build, sized.sizings)
    trunk, whole, *_ = parts(sized)
    lows = []
    for mode in states.modes(sized.build):
        groups = made.loads(laid, states.groups(sized.build, mode))
        currents = tuple(c for found in groups.values() for c in found)
        network = made.network(laid, mode)
        volts, _ = spice.operating_point(network._replace(currents=(*network.currents, *currents)))
        items = [made.node(t) for t in items_of(sized)]
        lows.append(min(volts[f"{name}+"] - volts[f"{name}−"] for name in (i[:-1] for i in items)))
    assert whole.lowest_v == pytest.approx(min(lows), abs=1e-4)
    assert answers.ask(laid)[trunk.key].drop_v == pytest.approx(whole.drop_v, abs=0.01)


def items_of(sized: Sized) -> list[Any]:
    branch = parts(sized)[2]
    first = [branch.feeds[0].start] if branch.form == "chain" else []
    return [*first, *(w.end for w in branch.feeds)]


def test_a_short_at_the_last_item_of_a_chain_passes_every_link() -> None:
    """The same source feeds a short at the first item and one at the last: they differ by the links, hot, out and back."""
    sized = joined("chain", CHAIN_M)
    near, far = (sized.faults[key].far[0].amps for key in ("lamps", "lamps/branches"))
    links = 2 * (2.2 + 1.2 + 3.2) * R_1MM2 * (1 + 0.00393 * (105 - 20))
    volts = links / (1 / far - 1 / near)
    assert volts == pytest.approx(12.2, rel=1e-3)


def test_chosen_links_outlast_the_fuse_of_the_whole_circuit() -> None:
    """Each lamp draws 0.9 A; the fuse is one of 25 A, and 18 AWG carries 20 A: the next size, 35 A by its row, is taken."""
    data = spec("star", STAR_M, links="")
    data["accessories"]["lamps"] |= {"fuse": {"rating": "25 A"}, "wire": "4 mm2"}
    _, _, _, links = parts(sample_builds.built(data))
    assert links.ampacity is not None and links.ampacity.corrected_a >= 25 > AMPACITY_18AWG_A
    assert links.reason.governed_by == "ampacity"


def test_chosen_links_and_their_trunk_stay_within_the_limit_together() -> None:
    for lengths in ((1.0, 1.0), (6.0, 6.0), (4.0, 12.0, 3.0)):
        data = spec("chain", lengths, links="")
        del data["accessories"]["lamps"]["wire"]
        data["accessories"]["lamps"]["electrical"]["drop"] = "critical"
        _, whole, _, links = parts(sample_builds.built(data))
        assert whole.drop_v <= whole.drop_limit_v
        assert links.conductor.area_mm2 <= 35 and whole.conductor.area_mm2 <= 35


METRES = st.lists(st.integers(1, 60).map(lambda n: n / 10), min_size=2, max_size=6).map(tuple)
SLOW = settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@SLOW
@given(METRES)
def test_a_chain_loses_no_less_than_a_star_of_the_same_links(lengths: tuple[float, ...]) -> None:
    """The last item of the chain is behind every link, with at least the current of one in each."""
    chain, star = (parts(joined(form, lengths))[3].own_drop_v for form in ("chain", "star"))
    assert chain >= star


@SLOW
@given(METRES, st.randoms(use_true_random=False))
def test_the_order_of_a_star_does_not_matter(lengths: tuple[float, ...], random: Any) -> None:
    mixed = tuple(random.sample(lengths, len(lengths)))
    one, other = (parts(joined("star", found)) for found in (lengths, mixed))
    assert one[1].drop_v == pytest.approx(other[1].drop_v, abs=1e-9)


@SLOW
@given(METRES, st.integers(0, 5), st.sampled_from(["chain", "star"]))
def test_a_longer_link_never_raises_the_voltage(lengths: tuple[float, ...], at: int, form: str) -> None:
    longer = tuple(m + 1 if n == at % len(lengths) else m for n, m in enumerate(lengths))
    assert parts(joined(form, longer))[1].lowest_v <= parts(joined(form, lengths))[1].lowest_v + 1e-9
