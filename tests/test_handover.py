"""The owner's sheet: what a reader without electrical words must find on it."""

from __future__ import annotations

import re

import jinja2
import pytest
from owner_sheets import EACH, EXAMPLES, ROOT, free, packet_of, rows, view_of, with_build

from buildspec import resources, tongues
from buildspec.documents import (
    _owner,
    _owner_fit,
    _owner_lists,
    _owner_off,
    _owner_park,
    _owner_units,
    handover,
)
from buildspec.typeset import HELD


@pytest.fixture(scope="module")
def pickup():
    return packet_of(ROOT / "examples/river-gauging-pickup/pickup.build.yaml")


@pytest.fixture(scope="module")
def flatbed():
    return packet_of(ROOT / "examples/beekeepers-flatbed/flatbed.build.yaml")


def steps(packet):
    return ["".join(step.values()) for step in view_of(packet)["start"]["steps"]]


def nights(count):
    return _owner_park.nights(count, tongues.of(packet_of(EXAMPLES[0]).sized.build))


def with_link(packet, short_time_s):
    isolation = packet.sized.build.isolation
    link = isolation["assist"]
    part = link.part._replace(link=link.part.link._replace(short_time_s=short_time_s))
    return with_build(packet, isolation={**isolation, "assist": link._replace(part=part)})


# ------------------------------------------------------------------------------- a dead battery


def test_a_momentary_link_gives_five_steps(pickup):
    said = steps(pickup)
    assert len(said) == 5
    assert (
        said[1] == "Press and hold ASSIST (key 8, roof rail, above the mirror) for 10 seconds. Keep holding."
    )
    assert "while you hold it" in said[2]
    assert "Wait 2 minutes" in said[3]
    assert said[4].startswith("Three tries") and "Brindle Lane Vehicle Fitting, +44 1632 960284." in said[4]


@pytest.mark.parametrize(("rated_s", "said_s"), [(10.0, 10), (300.0, 15), (None, 15)])
def test_a_try_is_never_longer_than_the_link_is_rated_for(pickup, rated_s, said_s):
    assert steps(with_link(pickup, rated_s))[3].startswith(
        f"Crank at most {said_s} seconds a try, then let go."
    )


def test_without_a_link_nobody_is_told_to_hold_a_key(flatbed):
    said = " ".join(steps(flatbed))
    assert "Hold" not in said
    assert f"{flatbed.sized.build.practice.shop.phone}." in said
    assert "cannot start the engine" in view_of(flatbed)["start"]["caution"]


# ---------------------------------------------------------------------------------------- switches


def test_keys_say_when_they_work(pickup):
    (panel,) = view_of(pickup)["panels"]
    when = {key["name"]: key["when"] for key in panel["keys"]}
    assert when["BEACON"] == "Any time"
    assert when["BAR"] == "Only with main beam on"
    assert when["BED"] == "Any time; also by itself with the vehicle's own cargo lamp"
    assert when["ASSIST"] == "Any time, while you hold it"
    assert when["SCENE L"] == when["free"] == ""


def test_reserved_and_free_keys_say_so(pickup):
    (panel,) = view_of(pickup)["panels"]
    does = {key["number"]: key["does"] for key in panel["keys"]}
    assert does["5"] == "Reserved: left scene lamp, not fitted yet."
    assert does["7"] == "Free. No wire behind it."


# ------------------------------------------------------------------------------------------ parking


def test_how_long_the_fridge_may_run(pickup):
    """75 Ah at 50 %: 3.2 A x 35 % and 51 mA of standby take 1.171 A; 37.5 / 1.171 = 32.02 h."""
    numbers = {n["small"]: n["big"] for n in view_of(pickup)["park"]["numbers"]}
    assert numbers["sample fridge alone, all else off; at 0 °C: 23 h"] == "32 h"


def test_days_until_the_engine_does_not_start(pickup):
    """80 Ah at 40 % (a service bulletin's no-start) and the stated 20 mA: 66.7 days."""
    numbers = {n["small"]: n["big"] for n in view_of(pickup)["park"]["numbers"]}
    assert numbers["parked with everything off, and the engine still starts"] == "66 days"


@pytest.mark.parametrize(
    ("hours", "said"), [(31.99, "31 h"), (2.0, "2 h"), (1.99, "115 min"), (0.05, "0 min")]
)
def test_a_promise_is_rounded_down(hours, said):
    assert _owner_units.down(hours) == said


@pytest.mark.parametrize(
    ("hours", "said"), [(1.0, "1 h"), (1.01, "1 h 5 min"), (0.2, "15 min"), (1.99, "2 h")]
)
def test_a_need_is_rounded_up(hours, said):
    assert _owner_units.up(hours) == said


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (["Fridge"], "fridge"),
        (["Fridge", "LED lamp", "LED lamp"], "fridge and LED lamp"),
        (["LED lamp (A)", "LED lamp (B)"], "LED lamp (A) and LED lamp (B)"),
        (["A b", "C d", "E f", "G h"], "a b, c d, e f and g h"),
        ([f"Lamp {n}" for n in range(20)], ", ".join(f"lamp {n}" for n in range(19)) + " and lamp 19"),
    ],
)
def test_lists_read_as_a_sentence(names, said):
    assert _owner_off.listed(names, tongues.of(packet_of(EXAMPLES[0]).sized.build)) == said


def test_one_night_is_not_nights():
    assert nights(1).startswith("1 night (")
    assert nights(2).startswith("2 nights (")
    assert nights(0).startswith("less than a night")


# ------------------------------------------------------------------------------------------- lists


def test_what_may_be_added_on_a_reserved_key_and_by_whom(pickup):
    later = view_of(pickup)["later"]
    said = {row["what"]: row["text"] for row in later["rows"]}["Left scene lamp"]
    assert said.startswith("At most 4 A, that is 48 W. Key 5 SCENE L.")
    assert "behind the left canopy trim" in said
    assert "licensed workshop" in later["lead"]


def test_one_reserve_is_not_cables(pickup):
    (first, *_) = pickup.sized.build.reserves.items()
    one = with_build(pickup, reserves=dict([first]))
    assert _owner_lists.reserve_lead(one.sized.build, _owner.tongue(one)).startswith(
        "1 cable is already laid"
    )


def test_a_ring_holds_the_lesser_of_its_rating_and_what_was_asked(pickup, flatbed):
    """2500 N rings asked for 2000 N: 203 kg; 5000 N rings asked for 1000 lbf: 1000 lb. g = 9.80665 m/s2."""
    assert rows(pickup, "loads")["6 × load ring"].startswith("at most 203 kg on each point")
    assert rows(flatbed, "loads")["6 × load ring"].startswith("at most 1,000 lb on each point")


def test_service_distance_is_in_the_shop_s_units_and_never_late(pickup, flatbed):
    """800 km is 497 miles."""
    assert "after 500 km" in view_of(pickup)["service"]
    assert "after 490 miles" in view_of(flatbed)["service"]


def test_cautions_that_apply(pickup, flatbed):
    notes = " ".join(view_of(pickup)["notes"])
    assert "Never fit a larger fuse" in notes
    assert "2 cables are laid for what may come later." in notes
    assert "never hold people" in notes
    assert "inverter" not in notes
    van = packet_of(ROOT / "examples/bicycle-workshop-van/van.build.yaml")
    assert "inverter makes mains voltage" in " ".join(view_of(van)["notes"])


# ----------------------------------------------------------------------------------------- two sides


@EACH
def test_the_page_is_whole_and_stands_alone(path):
    page = free(handover.html(packet_of(path)))
    assert page.count('class="side') == 2
    assert "side 1 of 2" in page and "side 2 of 2" in page
    assert not re.search(r"(?:src|href)=|@import|url\(", page)


def test_text_of_a_spec_cannot_become_markup(pickup):
    job = pickup.sized.build.job._replace(title="<script>x</script>", notes=("<i>&",))
    page = handover.html(with_build(pickup, job=job))
    assert "<script" not in page
    assert "&lt;i&gt;&amp;" in page


def test_the_same_build_gives_the_same_page(pickup):
    again = packet_of(ROOT / "examples/river-gauging-pickup/pickup.build.yaml")
    assert handover.html(pickup) == handover.html(again)


@EACH
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_type_is_never_smaller_than_seven_points(path, paper):
    fit = _owner_fit.fit(handover.view(packet_of(path)), paper)
    assert 7.0 <= min(fit.first_pt, fit.second_pt) <= max(fit.first_pt, fit.second_pt) <= 11.0


@EACH
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_small_panel_stands_on_the_first_side_only_where_type_stays_large(path, paper):
    packet = packet_of(path)
    practice = packet.sized.build.practice._replace(paper=paper)
    made = with_build(packet, practice=practice)
    fit = _owner_fit.fit(handover.view(made), paper)
    assert not fit.strip or fit.first_pt >= 8.0
    first, second = handover.html(made).split('<section class="side second">')
    assert ('<ul class="strip"' in first) == fit.strip or not made.sized.build.panels
    assert '<ul class="strip"' not in second and '<ul class="keys">' in second


def test_nothing_is_left_out_however_long_a_list_is(pickup):
    """Twenty times the fuses take more than two sides: the sheet says so, and every row is on it."""
    view = handover.view(pickup)
    full = {**view, "fuses": {**view["fuses"], "rows": view["fuses"]["rows"] * 20}}
    assert _owner_fit.fit(full, "A4").long
    assert not _owner_fit.fit(view, "A4").long
    job = pickup.sized.build.job._replace(notes=tuple(f"note {n} stays" for n in range(400)))
    page = handover.html(with_build(pickup, job=job))
    assert '<main class="long">' in page
    assert all(f"note{HELD}{n} stays" in page or f"note {n} stays" in page for n in range(400))


@EACH
def test_the_template_takes_everything_from_the_view(path):
    packet = packet_of(path)
    loader = jinja2.FileSystemLoader(resources.folder("templates"))
    env = jinja2.Environment(loader=loader, undefined=jinja2.StrictUndefined, trim_blocks=True)
    head = dict.fromkeys(("number", "revision", "state", "title", "vehicle", "date"), "x")
    text = env.get_template("handover.md.j2").render(head=head, **view_of(packet))
    assert all(row["text"] in text for s in view_of(packet)["sections"] for row in s["rows"])
    shop = packet.sized.build.practice.shop
    assert all(said in free(text) for said in (shop.name, shop.contact, shop.phone))
