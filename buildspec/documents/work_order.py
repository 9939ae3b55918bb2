"""The order of work: phases with hold points, and one section for each place where a fitter works."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec.documents import _places as places
from buildspec.documents import _protect as protect
from buildspec.documents import _routing as routing
from buildspec.documents import _surfaces as surfaces
from buildspec.documents import _words as words
from buildspec.documents._steps import HOLD, step
from buildspec.looms import holes, keypads, runs
from buildspec.model import Accessory, Work
from buildspec.packet import Packet

TITLE = "Work order"
ORDER = 80
OWN_PAGE = True

HOLDS = (
    ("Condition report filled and signed by the customer", "before phase 2"),
    ("Batteries and every other source isolated", "before phase 3"),
    (
        "Waiting time over: restraints and airbags disarmed",
        "before a seat, pillar or steering part is touched",
    ),
    (
        "Looked behind every panel; tank, pipes, looms and airbags found; guard in place",
        "before each hole or cut near fuel, brakes or restraints",
    ),
    ("Tests without power passed, fuses out", "before the batteries are connected"),
    ("Every row of the commissioning record passed, but for “After reassembly”", "before the trim goes back"),
    ("Rows “After reassembly” of the commissioning record passed", "before the vehicle is handed over"),
)
RECEIVED = (
    (
        "Fill the condition report together with the customer",
        "lamps, codes, damage, volts, key-off current",
        HOLD,
    ),
    (
        "Photograph what is there: body, cabin, engine bay, every warning lamp",
        "pictures kept with the job",
        "",
    ),
    (
        "Compare the vehicle with the survey",
        "model, engine, fuse boxes, places of this job; a difference stops",
        "",
    ),
)
ISOLATION = (
    ("Read the vehicle maker's pages on battery, restraints and high voltage; note codes and settings", ""),
    ("Ignition off, key out of the vehicle, every load off", ""),
    ("Negative lead of the start battery off first", HOLD),
    ("Every other source off too: second battery, solar, shore supply", HOLD),
    (
        "Wait the time that the vehicle's manual gives before any seat, pillar or steering connector is touched",
        HOLD,
    ),
    ("Not known how long: wait 20 min. No memory saver while restraints are worked on", HOLD),
    ("Orange cables are high voltage: they are not touched, cut or tied to", ""),
)
CUTTING, FINISHING, TRIM = ("cut", "drill"), ("fill", "refinish", "cover"), ("remove", "move")


def view(packet: Packet) -> dict[str, Any]:
    return {
        "intro": (
            "Phases are done in this order. A step marked HOLD stops the job until it is ticked and "
            "initialled. The vehicle maker's instructions come before these."
        ),
        "holds_intro": "Nobody goes past one of these before it is signed, with the date and the time.",
        "holds": [
            {"what": what, "when": when, "who": words.BLANK, "date": words.BLANK} for what, when in HOLDS
        ],
        "received": [step(text, detail, hold) for text, detail, hold in RECEIVED],
        "isolate": [step(text, hold=hold) for text, hold in ISOLATION],
        "untouched": untouched(packet),
        "trim": [work_step(packet, place, w) for place, w in works(packet, TRIM)] or [trim_step()],
        "body_intro": (
            "Measure twice from the vehicle, not from a drawing; look behind the panel; protect paint and "
            "glass."
        ),
        "body": [*look_steps(packet), *metal_steps(packet)],
        "no_body": "No bodywork.",
        "under_intro": "Before anything stands on it or lies over it:",
        "under": list(goods_steps(packet, surfaces.UNDER)),
        "looms_intro": looms_intro(packet),
        "looms": list(loom_steps(packet)),
        "places_intro": (
            "One place sheet a place. Fuses stay out until the protection phase, and every end at a post of an "
            "added battery, positive and negative, stays off and covered until then."
        ),
        "fit_works": [
            work_step(packet, f, w) for f, w in works(packet, ("fit",)) if f not in covering(packet)
        ],
        "no_fit_works": "No step beyond the lists of the places.",
        "places": list(place_steps(packet)),
        "protect": list(protect.steps(packet)),
        "test": list(test_steps()),
        "reassemble": list(reassemble_steps(packet)),
        "hand_over": list(hand_over_steps(packet)),
        "nothing": "Nothing here.",
    }


def untouched(packet: Packet) -> str:
    """The vehicle's functions that nobody changes while working."""
    kept = packet.sized.build.vehicle.untouched
    return f"Stays as it came, and works at the end as it did before: {', '.join(kept)}." if kept else ""


def works(packet: Packet, kinds: tuple[str, ...]) -> Iterator[tuple[str, Work]]:
    """(for what, step) of some kinds of work: the job's own, then each accessory's."""
    build = packet.sized.build
    yield from (("the whole job", w) for w in build.works if w.do in kinds)
    for item in build.accessories.values():
        yield from ((item_name(item), w) for w in item.works if w.do in kinds)


def item_name(item: Accessory) -> str:
    return f"{item.designation} {item.part.title}"


def covering(packet: Packet) -> dict[str, Accessory]:
    """Name → lining that hides what lies behind it."""
    return {item_name(item): item for item in surfaces.of_phase(packet.sized.build, surfaces.OVER)}


def goods_steps(packet: Packet, phase: str) -> Iterator[dict[str, str]]:
    """Floors, insulation and linings of one phase, in the order in which they lie on each other."""
    build = packet.sized.build
    for item in surfaces.of_phase(build, phase):
        own = [w for w in item.works if w.do == "fit"]
        detail = "; ".join(w.note.rstrip(".") for w in own if w.note)
        yield step(f"Fit: {item_name(item)}, {words.place(build, item.place)}", detail)


def metal_steps(packet: Packet) -> Iterator[dict[str, str]]:
    """Cuts, then every new hole of every place with its protection, then paint: all before a wire is laid."""
    yield from (work_step(packet, owner, w) for owner, w in works(packet, CUTTING))
    build = packet.sized.build
    for one in holes.passages(packet.sized):
        if one.made:
            line = routing.hole_line(packet, one)
            size = "" if one.hole.size_m is None else f", {line['size']}"
            done = f"deburred, bare metal treated, {one.hole.protection} in; seal: {one.hole.seal or 'not stated'}"
            passing = "" if line["runs"] == words.NOT_APPLICABLE else f"; for {line['runs']}"
            where = words.place(build, one.hole.place)
            yield step(f"Hole {one.hole.name}: {one.hole.what}, {where}{size}", done + passing)
    yield from (work_step(packet, owner, w) for owner, w in works(packet, FINISHING))


def work_step(packet: Packet, owner: str, work: Work) -> dict[str, str]:
    where = f", {work.where}" if work.where else ""
    details = (
        f"for {owner}",
        work.note.rstrip("."),
        f"colour: {work.colour}" if work.colour else "",
        f"to undo: {work.reversal}" if work.reversal else "",
    )
    return step(f"{words.capital(work.do)}: {work.what}{where}", "; ".join(d for d in details if d))


def look_steps(packet: Packet) -> Iterator[dict[str, str]]:
    """Before the first hole or cut: what lies behind; a hole beside something that must not be hit has its own."""
    build = packet.sized.build
    cuts = [w for _, w in works(packet, CUTTING)]
    if cuts or any(one.made for one in holes.passages(packet.sized)):
        yield step(
            "Look behind every panel that is cut or drilled",
            "tank, fuel and brake pipes, looms, airbags, tensioners; depth stop on the drill",
            HOLD,
        )
    for hole in (one.hole for one in holes.passages(packet.sized) if one.made):
        if hole.near:
            near = ", ".join(routing.near_words(build.practice, one) for one in hole.near)
            yield step(f"Before hole {hole.name}: {near}", hole.behind or "guard not stated: ask", HOLD)


def place_steps(packet: Packet) -> Iterator[dict[str, str]]:
    """One step a place; the place sheet has its lists."""
    for one in places.sections(packet):
        counted = (
            (len(one["fitted"]), "item"),
            (len(one["ends"]), "wire end"),
            (len(one["devices"]), "protective device"),
            (len(one["studs"]), "bolted joint"),
        )
        yield step(
            f"{one['heading']}: place sheet done", ", ".join(words.count(n, what) for n, what in counted if n)
        )


def trim_step() -> dict[str, str]:
    return step(
        "Remove trim along the runs and at the places below", "bag and mark clips and screws by place"
    )


def looms_intro(packet: Packet) -> str:
    apart = packet.sized.build.practice.battery_cables_apart
    tied = " Battery cables and feeders are tied beside the loom, spaced, never in it." if apart else ""
    return f"Sleeves with numbers go on before terminals. Leave the service loop at each end.{tied}"


def loom_steps(packet: Packet) -> Iterator[dict[str, str]]:
    build = packet.sized.build
    for loom in runs.looms(packet.sized):
        if loom.lying:
            named = ", ".join(hole.name for hole in holes.passed(build, loom.run))
            through = loom.run.through or ("hole" if named else "")
            passes = f"through {through} {named}".rstrip() if through else "passes no panel"
            sleeve = ", sleeved" if loom.conduits else ""
            numbers = ", ".join(one.wire.designation for one in loom.lying)
            held = f"{words.count(loom.supports.clips, 'clip')}, see the routing sheet"
            yield step(
                routing.run_words(packet, loom.run),
                f"{words.count(len(loom.lying), 'wire')}: {numbers}; {passes}{sleeve}; {held}",
            )
    for lead in keypads.leads(build):
        run = ", ".join(routing.run_words(packet, r) for r in lead.route.runs)
        yield step(f"Lead to the keys of {lead.panel.designation}: {run}", keypads.words(build, lead))


def test_steps() -> Iterator[dict[str, str]]:
    yield step(
        "Fill the commissioning record up to “All together”", "trim stays open until it is passed", HOLD
    )


def reassemble_steps(packet: Packet) -> Iterator[dict[str, str]]:
    yield from goods_steps(packet, surfaces.OVER)
    yield step("Trim back; no wire under a screw, a seat rail or an airbag cover")
    yield step("Every hole has its grommet or gland and its seal", "holes register in the routing sheet")
    yield step(
        "Restraint lamp proves out; clock, windows, steering angle set again as the maker asks", hold=HOLD
    )
    yield step("Inside cleaned of swarf and strands; tools counted")
    yield step("Fill the rows “After reassembly” of the commissioning record", "road test last", HOLD)


def hand_over_steps(packet: Packet) -> Iterator[dict[str, str]]:
    practice = packet.sized.build.practice
    distance = f"{practice.retorque_km:g} km"
    yield step("Packet corrected to what was built, printed again as built, copy left in the vehicle")
    yield step(
        "Owner or user shown each key, each fuse, the reserves and the cautions", "handover sheet", HOLD
    )
    yield step("Spare fuses and the bag of fuses that are out handed over")
    yield step(f"Re-torque agreed after {distance}, then yearly", "date and odometer on the handover sheet")
