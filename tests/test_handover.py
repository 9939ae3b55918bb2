"""The owner's sheet: what a reader without electrical words must find on it."""

from __future__ import annotations

import functools
import pathlib
import re

import jinja2
import pytest

from buildspec import pipeline, resources, tabledata, tongues
from buildspec.documents import (
    _owner,
    _owner_fit,
    _owner_fuses,
    _owner_lists,
    _owner_off,
    _owner_park,
    _owner_spots,
    _owner_units,
    handover,
)
from buildspec.packet import Packet
from buildspec.typeset import HELD

ROOT = pathlib.Path(__file__).parents[1]
EXAMPLES = sorted(ROOT.glob("examples/*/*.build.yaml"))


EACH = pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)


@functools.cache
def packet_of(path):
    sized = pipeline.check_file(path).build
    assert sized is not None
    return Packet(sized, (), (), ())


@pytest.fixture(scope="module")
def pickup():
    return packet_of(ROOT / "examples/river-gauging-pickup/pickup.build.yaml")


@pytest.fixture(scope="module")
def flatbed():
    return packet_of(ROOT / "examples/beekeepers-flatbed/flatbed.build.yaml")


def free(value):
    """The same with every no-break space as a space: where lines may end is asked elsewhere."""
    if isinstance(value, dict):
        return {key: free(one) for key, one in value.items()}
    if isinstance(value, list):
        return [free(one) for one in value]
    return value.replace(HELD, " ") if isinstance(value, str) else value


def view_of(packet):
    return free(handover.view(packet))


def steps(packet):
    return ["".join(step.values()) for step in view_of(packet)["start"]["steps"]]


def nights(count):
    return _owner_park.nights(count, tongues.of(packet_of(EXAMPLES[0]).sized.build))


def section(packet, name):
    return next((s for s in view_of(packet)["sections"] if s["id"] == name), None)


def rows(packet, name):
    return {row["what"]: row["text"] for row in section(packet, name)["rows"]}


def with_build(packet, **changes):
    sized = packet.sized
    return packet._replace(sized=sized._replace(build=sized.build._replace(**changes)))


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


def checks(packet, what):
    return next(row["checks"] for row in view_of(packet)["fuses"]["rows"] if row["what"] == what)


def test_the_fuse_of_a_thing_is_found_by_its_name(pickup):
    spots = {spot["letter"]: spot for spot in view_of(pickup)["fuses"]["spots"]}
    assert checks(pickup, "Sample fridge") == [
        {"nth": "", "tag": "B 1", "rating": "15 A blue", "swatch": _owner_fuses.SWATCHES["blue"], "said": ""}
    ]
    assert spots["B"]["words"] == "Fuse block: load bed, front left corner"
    assert spots["B"]["access"] == "Open both clips of the lid."
    assert spots["B"]["bare"] == "Empty: 4, 5, 6. Everything here is dead: call us (bolted fuse F7)."


def test_several_fuses_of_a_thing_stand_in_the_order_to_look(pickup):
    said = [(c["nth"], c["tag"], c["rating"], c["said"]) for c in checks(pickup, "LED reverse lamp")]
    assert said == [("1st", "A 9", "4 A pink", ""), ("2nd", "C F20", "3 A violet", "")]
    charger = [(c["nth"], c["tag"] or c["said"]) for c in checks(pickup, "Charger of the second battery")]
    assert charger == [("1st", "C F3"), ("2nd", "call us (bolted fuse F1, F2)")]
    bar = [(c["nth"], c["tag"] or c["said"]) for c in checks(pickup, "LED light bar (BAR)")]
    assert bar == [("1st", "the key itself, see below"), ("2nd", "C F9")]


def devices(packet, *, bolted=False, kept=False):
    """(circuit, protection, device) of the added fuses, by the sizing alone."""
    return [
        (circuit, protection, device)
        for circuit in packet.sized.build.circuits
        if not circuit.existing
        for protection, device in zip(
            circuit.protections, packet.sized.sizings[circuit.key].devices, strict=True
        )
        if device.kind == "fuse"
        and (device.family not in ("mini-blade", "blade", "maxi-blade")) == bolted
        and protection.fitted != kept
    ]


@EACH
def test_every_fuse_that_a_hand_can_pull_is_listed_with_its_rating(path):
    """Tag, rating, colour and swatch of each; the letter of its tag says where it is, and how to get at it."""
    packet = packet_of(path)
    fuses = view_of(packet)["fuses"]
    shown = {(c["tag"], c["rating"], c["swatch"]) for row in fuses["rows"] for c in row["checks"] if c["tag"]}
    letters = {spot["letter"]: spot for spot in fuses["spots"]}
    assert list(letters) == [*_owner_spots.ALPHABET[: len(letters)]]
    assert all(tag.partition(" ")[0] in letters for tag, _, _ in shown)
    assert all(spot["words"] and spot["access"].endswith(".") for spot in letters.values())
    held = [d for c, _, d in devices(packet) if c.kind != "feeder"]
    lang = _owner.tongue(packet).lang
    assert len(held) > 10
    for device in held:
        place = device.position if device.host else device.designation
        colour = "gray" if (device.colour, lang) == ("grey", "en-US") else device.colour
        rating = f"{device.rating_a:g} A {colour}".strip()
        swatch = _owner_fuses.SWATCHES[device.colour] if device.colour else ""
        found = [tag for tag, r, s in shown if tag.endswith(f" {place}") and (r, s) == (rating, swatch)]
        assert found, (device.designation, place, rating)


@EACH
def test_every_dead_thing_is_listed_once(path):
    """What has a fuse is in the list; what an electronic limit alone protects is named below it."""
    packet = packet_of(path)
    build, fuses = packet.sized.build, view_of(packet)["fuses"]
    listed = [row["what"] for row in fuses["rows"]]
    assert len(listed) == len(set(listed))
    fused = {c.item for bolted in (False, True) for c, _, _ in devices(packet, bolted=bolted)}
    fed = {c.item for c in build.circuits if c.kind == "load" and c.item in build.accessories}
    names, tongue = free(_owner.names(build, _owner.tongue(packet))), _owner.tongue(packet)
    below = " ".join(row["what"] for row in fuses["limited"])
    for item in fed & fused:
        assert listed.count(tongue.large(names[item])) == 1, item
    for item in fed - fused:
        assert names[item] in below or any(c.unprotected for c in build.circuits if c.item == item), item
    assert all(row["checks"] for row in fuses["rows"])


@EACH
def test_orders_to_look_count_up_and_one_fuse_has_none(path):
    words = ["1st", "2nd", "3rd", "4th", "5th", "6th"]
    for row in view_of(packet_of(path))["fuses"]["rows"]:
        nths = [check["nth"] for check in row["checks"]]
        assert nths == (words[: len(nths)] if len(nths) > 1 else [""]), row["what"]


@EACH
def test_positions_without_a_fuse_are_said_and_are_no_others(path):
    """Positions of a block: those with a fuse, those said to be empty or kept for later, each once."""
    packet = packet_of(path)
    build = packet.sized.build
    said = {spot["words"]: spot["bare"] for spot in view_of(packet)["fuses"]["spots"]}
    tongue = _owner.tongue(packet)
    blocks = 0
    for name, block in build.blocks.items():
        bare = said.get(free(f"Fuse block: {_owner.place(build, block.place, tongue)}"))
        if bare is None or block.part.block is None:
            continue
        told = [int(n) for part in re.findall(r"(?:later|Empty): ([\d, ]+)\.", bare) for n in part.split(",")]
        taken = [d.position for c, _, d in devices(packet) if d.host == name]
        assert not set(told) & set(taken)
        assert len(told) == len(set(told))
        assert set(told) | set(taken) <= set(range(1, block.part.block.positions + 1))
        kept = {d.position for _, _, d in devices(packet, kept=True) if d.host == name}
        assert kept <= set(told)
        blocks += 1
    assert blocks


# --------------------------------------------------------------------- what an owner may leave unsaid


def with_shop(packet, **changes):
    practice = packet.sized.build.practice
    return with_build(packet, practice=practice._replace(shop=practice.shop._replace(**changes)))


def test_a_telephone_is_printed_or_a_line_to_write_one(pickup):
    given = view_of(pickup)
    assert given["call"]["phone"] == "Telephone: +44 1632 960284"
    assert handover.view(pickup)["call"]["phone"].endswith("+44\u00a01632\u00a0960284")
    bare = view_of(with_shop(pickup, phone=""))
    assert bare["call"]["phone"] == f"Telephone: {'_' * 18}"
    last = "".join(bare["start"]["steps"][-1].values())
    assert last.endswith("Brindle Lane Vehicle Fitting, workshop@brindle-lane.example.")


def test_spare_fuses_are_where_the_job_says_or_in_the_bag_with_the_sheet(pickup):
    job = pickup.sized.build.job
    named = with_build(pickup, job=job._replace(spare_fuses="inside the lid of block A"))
    assert "(one spare of each: inside the lid of block A)" in view_of(named)["fuses"]["lead"]
    bare = with_build(pickup, job=job._replace(spare_fuses=""))
    assert "(one spare of each: in the bag that came with this sheet)" in view_of(bare)["fuses"]["lead"]


def test_who_is_not_told_how_to_get_at_fuses_may_ask(pickup):
    places = {n: p._replace(access="") for n, p in pickup.sized.build.places.items()}
    bare = view_of(with_build(pickup, places=places))["fuses"]["spots"]
    assert {spot["access"] for spot in bare} == {"Ask us to show you how to get at it."}
    given = view_of(pickup)["fuses"]["spots"]
    assert [spot["letter"] for spot in given] == [spot["letter"] for spot in bare]
    assert given[0]["access"] == "Press the sides of the glovebox in and let it swing down."


def with_feeds(packet, **changes):
    blocks = {
        name: block._replace(feed=block.feed._replace(**changes)) if block.feed else block
        for name, block in packet.sized.build.blocks.items()
    }
    return with_build(packet, blocks=blocks)


def own(packet):
    """What is said of the vehicle's own fuses: in the spots, and beside the things."""
    fuses = view_of(packet)["fuses"]
    spots = [s for s in fuses["spots"] if s["words"].startswith("The vehicle's own fuse")]
    return spots, [c for row in fuses["rows"] for c in row["checks"]]


def test_the_vehicle_s_own_fuse_is_looked_at_where_the_spec_says_it_is():
    van = packet_of(ROOT / "examples/bicycle-workshop-van/van.build.yaml")
    assert any(block.feed for block in van.sized.build.blocks.values())
    blade = with_feeds(van, family="blade", fuse_at="fuse box under the wheel, place 24")
    (spot,), found = own(blade)
    assert spot["words"] == "The vehicle's own fuse: fuse box under the wheel, place 24"
    assert spot["access"] == "See the vehicle's handbook."
    assert any(check["tag"] == spot["letter"] and check["rating"] for check in found)
    spots, found = own(with_feeds(van, family="blade", fuse_at=""))
    assert spots == []
    assert any(re.fullmatch(r"the vehicle's own fuse, .*A.*: see its handbook", c["said"]) for c in found)
    spots, found = own(with_feeds(van, family="strip-m8", fuse_at="at the battery"))
    assert spots == []
    assert any(check["said"] == "call us (the vehicle's own bolted fuse)" for check in found)


# ------------------------------------------------------------------------------------- switching off


def test_everything_that_can_be_switched_off_is_and_the_rest_is_named(pickup):
    said = view_of(pickup)["off"]
    assert said["steps"] == [
        "Switch every key off: roof rail, above the mirror.",
        "Data radio with aerial: its own switch, behind the glovebox.",
        "Unplug everything from the added outlets.",
        "Turn the ignition off.",
    ]
    assert said["live"].startswith("There is no one switch for everything. These stay live")
    assert "sample fridge" in said["live"] and "data radio" not in said["live"].lower()
    assert "The second battery and its cables stay live" in said["live"]
    assert "emergency number" in said["burning"]


@EACH
def test_nothing_electrical_is_left_out_of_switching_off(path):
    """Each load has a key, a trigger or a switch, or is named as stopped by the ignition or as live."""
    packet = packet_of(path)
    build, tongue = packet.sized.build, _owner.tongue(packet)
    off = view_of(packet)["off"]
    told = " ".join([*off["steps"], off["live"]])
    names = free(_owner.names(build, tongue))
    for circuit in (c for c in build.circuits if c.kind == "load" and c.item in build.accessories):
        item = build.accessories[circuit.item]
        assert (
            item.switch
            or item.trigger
            or tongue.small(names[item.name])
            in told.replace(names[item.name], tongue.small(names[item.name]))
        ), item.name


def test_supplies_are_unplugged_and_the_sun_cannot_be(pickup):
    van = packet_of(ROOT / "examples/bicycle-workshop-van/van.build.yaml")
    kinds = {s.type for s in van.sized.build.supplies.values()}
    said = view_of(van)["off"]
    assert ("Pull the mains plug." in said["steps"]) == ("shore" in kinds) is True
    assert ("The solar panel makes current" in said["live"]) == ("solar" in kinds)
    assert "Pull the mains plug." not in view_of(pickup)["off"]["steps"]


def test_a_key_without_a_fuse_says_what_to_do_when_it_is_dead(pickup):
    (row,) = view_of(pickup)["fuses"]["limited"]
    assert "PUMP" in row["what"]
    assert "Switch the key off" in row["text"]


def test_every_colour_of_the_fuse_table_has_a_swatch():
    assert {row["colour"] for row in tabledata.rows("fuses")} - {""} <= set(_owner_fuses.SWATCHES)


@EACH
def test_bolted_fuses_are_for_the_workshop_place_by_place(path):
    packet = packet_of(path)
    build, tongue = packet.sized.build, _owner.tongue(packet)
    wanted = {}
    for _, _, device in [d for kept in (False, True) for d in devices(packet, bolted=True, kept=kept)]:
        at = tongue.large(free(_owner.place(build, device.place, tongue)))
        wanted.setdefault(at, set()).add(f"{device.designation} {device.rating_a:g} A")
    assert wanted
    assert {at: set(text.rstrip(".").split(", ")) for at, text in rows(packet, "bolted").items()} == wanted


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
