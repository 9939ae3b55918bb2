"""The lines of the inspection: each hole, circuit, device, stud, item and reserve once, then the usual ones."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from buildspec import show
from buildspec.documents import _bolts as bolts
from buildspec.documents import _circuits as circuits
from buildspec.documents import _fuses as fuses
from buildspec.documents import _joints as joints
from buildspec.documents import _labels as labels
from buildspec.documents import _materials as materials
from buildspec.documents import _routing as routing
from buildspec.documents import _words as words
from buildspec.looms import holes, runs
from buildspec.model import Accessory
from buildspec.packet import Packet

Pair = tuple[str, str]
SEATS = (
    ("Seats, belts, tensioners, curtains", "bolts torqued to the maker's figure, belts run free and lock"),
    (
        "Restraint looms and connectors",
        "latched, in their own clips, nothing tied to them, nothing in the way of a bag",
    ),
    ("Restraint lamp", "proves out with the key on; no code stored"),
)
AROUND = (
    ("Trim, clips, screws", "all back, none left over, no wire under a screw or a seat rail"),
    ("Stored codes and warning lamps", "none that were not in the condition report"),
    ("Lamps, horn, wipers, windows, locks", "work as in the condition report"),
    ("Pedals, steering, hand brake, doors, bonnet", "full travel, no loom near"),
    ("Swarf, strands, tools", "cleaned out, counted"),
    ("Clock, radio, windows, steering angle", "set again as the maker asks"),
    ("Covers of battery posts, blocks, studs", "on; no bare live part where a tool can fall"),
)


def sections(packet: Packet) -> Iterator[tuple[str, Iterable[Pair]]]:
    yield "Looms", looms(packet)
    yield "Holes", hole_pairs(packet)
    yield "Bodywork and trim", works(packet)
    yield "Circuits with their protective devices", conductors(packet)
    yield "Positions that stay empty", empty(packet)
    yield "Posts, grounds and bolted terminals", studs(packet)
    yield "Items", items(packet)
    yield "Anchors and fastenings", fastenings(packet)
    yield "Reserves", reserves(packet)
    yield "Labels, legends, covers", marks(packet)
    yield "Restraints", SEATS
    yield "The vehicle itself", vehicle(packet)


def looms(packet: Packet) -> Iterator[Pair]:
    for one in runs.looms(packet.sized):
        if one.lying:
            size = routing.size_line(packet, one)
            sleeve = "" if size["sleeve"] == words.NOT_APPLICABLE else f", sleeve {size['sleeve']}"
            near = "".join(
                f"; {routing.near_words(packet.sized.build.practice, thing)} surveyed"
                for thing in one.run.near
            )
            yield routing.run_words(packet, one.run), f"clips {size['supports']}{sleeve}; no chafe{near}"


def hole_pairs(packet: Packet) -> Iterator[Pair]:
    for one in holes.passages(packet.sized):
        hole = one.hole
        if not (one.made or routing.is_there(hole)):
            continue
        where = words.place(packet.sized.build, hole.place)
        if hole.removed_item:
            yield f"{hole.name}: {hole.what}, {where}", f"closed with {hole.closed_with or 'a plug'}"
        else:
            seal = hole.seal or "seal not stated"
            yield f"{hole.name}: {hole.what}, {where}", f"{hole.protection} seated, {seal}, metal treated"


def works(packet: Packet) -> Iterator[Pair]:
    build = packet.sized.build
    done = {"remove": "back in its place", "move": "clear, held"}
    for work in (*build.works, *(w for a in build.accessories.values() for w in a.works)):
        where = f", {work.where}" if work.where else ""
        stays_out = f"taken out, nothing left loose; {work.reversal}" if work.do == "remove" else ""
        should = (
            work.secured or (stays_out if work.reversal else "") or done.get(work.do, "clean, no sharp edge")
        )
        yield f"{words.capital(work.do)}: {work.what}{where}", should


def conductors(packet: Packet) -> Iterator[Pair]:
    fitted = fuses.fitted(packet)
    for circuit in circuits.shown(packet):
        fields = circuits.conductor(packet.sized.build, circuit, packet.sized.sizings[circuit.key])
        size = f"{fields['size']} {fields['colours']}"
        names = ", ".join(w.designation for w in (*circuit.feeds, *circuit.returns))
        wired = f"{names}: {size}, sleeves and crimps right" if names else "as the schedule says"
        mine = (device_words(packet, one) for one in fitted if one.circuit.key == circuit.key)
        yield f"{circuit.number} {circuit.title}", "; ".join((wired, *mine))


def device_words(packet: Packet, one: fuses.Fitted) -> str:
    """`F11 10 A red blade, bulkhead block X6, position 1: fitted`."""
    where = words.position(packet.sized.build, one.device)
    return f"{one.device.designation} {words.fuse(one.device)}, {where}: {fuses.state(one)}"


def empty(packet: Packet) -> Iterator[Pair]:
    build = packet.sized.build
    for name, block in build.blocks.items():
        for position in sorted(block.empty):
            yield f"{words.capital(words.node(build, name))}, position {position}", "empty, tag on it"


def studs(packet: Packet) -> Iterator[Pair]:
    for line in joints.compact(joints.lines(packet)):
        torque = line["torque"] or "its sheet's torque"
        yield f"{line['joint']}, {line['place']}", f"{line['lugs']}; {torque}, marked, covered or sealed"


def items(packet: Packet) -> Iterator[Pair]:
    """What is fitted, sheet goods included."""
    build = packet.sized.build
    rows = [(i.designation, i.part.title, i.quantity, i.place) for i in materials.items(build)]
    rows += [(g.item.designation, g.item.part.title, 1, g.item.place) for g in materials.goods(build)]
    for mark, title, quantity, place in rows:
        count = f"{quantity} × " if quantity > 1 else ""
        yield f"{mark} {count}{title}", f"{words.place(build, place)}; tight, unharmed, nothing rubs"
    for name in build.batteries:
        yield (
            f"{words.capital(words.node(build, name))}",
            "held down: does not move by hand; caps and vent as its maker asks",
        )


def fastenings(packet: Packet) -> Iterator[Pair]:
    build = packet.sized.build
    for line in bolts.lines(packet):
        torque = line["torque"] or "its maker's torque"
        yield line["item"], f"{line['bolts']}, {line['into']}; {torque}, marked"
    for item in build.accessories.values():
        if item.restrains or (item.part.anchor is not None and item.fastening is None):
            yield (f"{item.designation}: plate of its maker", anchor_words(packet, item))


def anchor_words(packet: Packet, item: Accessory) -> str:
    """What one point holds by its maker, and what this job puts on it where that is another figure."""
    practice, anchor, asked = packet.sized.build.practice, item.part.anchor, item.anchored_load_n
    made = (
        f"{show.force(anchor.working_load_n, practice)} a point by its maker; " if anchor is not None else ""
    )
    here = (
        f"marked {show.force(asked, practice)} a point, the load that this job was checked for; "
        if asked
        else ""
    )
    return f"{made}{here}readable; for cargo only, never people"


def reserves(packet: Packet) -> Iterator[Pair]:
    build = packet.sized.build
    for reserve in build.reserves.values():
        live = "live, as ordered" if reserve.powered else "dead"
        where = f"{words.place(build, reserve.place)}, {reserve.end}"
        yield f"{reserve.designation}, {where}", f"{reserve.cap or 'capped'}; {live}; tag at both ends"


def marks(packet: Packet) -> Iterator[Pair]:
    """Labels by kind and number; a cover for each block, a legend for each panel."""
    build = packet.sized.build
    counted = Counter[str]()
    for label in labels.labels(packet):
        counted[label.kind] += label.quantity
    for kind, count in counted.items():
        yield f"{words.capital(kind)}s", f"{count}, readable, by the list of labels"
    for name, block in ((n, b) for n, b in build.blocks.items() if b.feed is None):
        yield (
            f"Cover of {words.node(build, name)}, {words.place(build, block.place)}",
            "closes; fuse map inside",
        )
    for name, panel in build.panels.items():
        keys = sum(1 for c in build.channels if c.panel == name and c.use != "blank")
        yield (
            f"Keys of {words.node(build, name)}, {words.place(build, panel.keypad_at)}",
            f"{keys} with the words of the legend, engraved or on its strip behind the keys",
        )


def vehicle(packet: Packet) -> Iterator[Pair]:
    yield from AROUND
    for name in packet.sized.build.vehicle.untouched:
        yield f"Stays as it came: {name}", "works as in the condition report"
    yield "Commissioning record", "every row filled and passed"
    yield "Spare fuses and fuses that are out", "in the bag, one of each rating"
