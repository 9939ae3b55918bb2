"""The owner's sheet: which fuse to look at and where it is, what a spec may leave unsaid, what can be switched off."""

from __future__ import annotations

import re

import pytest
from owner_sheets import EACH, ROOT, free, packet_of, rows, view_of, with_build

from buildspec import tabledata
from buildspec.documents import _owner, _owner_fuses, _owner_spots, handover


@pytest.fixture(scope="module")
def pickup():
    return packet_of(ROOT / "examples/river-gauging-pickup/pickup.build.yaml")


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
