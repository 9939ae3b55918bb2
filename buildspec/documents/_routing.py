"""Lines of the routing sheet: the size of a loom, its wires, its holes; sleeves, clips and grommets to buy."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from buildspec import show
from buildspec.calc import bundle
from buildspec.documents import _words as words
from buildspec.looms import holes, runs
from buildspec.model import Hole, Neighbour, Practice, Reserve, Run, Sized
from buildspec.packet import Packet

NEAR = {
    "exhaust": "exhaust",
    "heat": "hot part",
    "moving": "moving part",
    "brake": "brake pipe",
    "fuel": "fuel part",
}


def run_words(packet: Packet, run: Run) -> str:
    """`R3 · engine bay – behind the glovebox`, numbered as on the sheet of places and looms."""
    build = packet.sized.build
    return f"{runs.number(build, run)} · {words.place(build, run.a)} – {words.place(build, run.b)}"


def size_line(packet: Packet, one: runs.Loom) -> dict[str, str]:
    practice = packet.sized.build.practice
    held = one.supports
    room = [
        f"{one_of.room} × {show.size(runs.smallest(practice))}"
        for one_of in one.conduits
        if len(one_of.lying) > 1
    ]
    spare_m = runs.with_spare_m(practice, one.inner)
    return {
        "run": run_words(packet, one.run),
        "now": show.diameter(runs.diameter_m(one.inner), practice) if one.inner else "no loom",
        "spare": show.diameter(spare_m, practice) if one.inner else words.NOT_APPLICABLE,
        "cables": ", ".join(show.diameter(w.diameter_m, practice) for w in one.apart) or words.NOT_APPLICABLE,
        "sleeve": "; ".join(f"{n} × {text}" if n > 1 else text for text, n in sleeves(practice, one).items())
        or words.NOT_APPLICABLE,
        "room": ", ".join(room) or words.NOT_APPLICABLE,
        "supports": f"{held.clips}, every {show.small_length(held.spacing_m, practice)} at most",
        "ties": str(held.ties) if held.ties else words.NOT_APPLICABLE,
        "bend": bend(practice, one),
        "done": words.TICK,
    }


def bend(practice: Practice, one: runs.Loom) -> str:
    """Least radius, and the tightest on the path where it is surveyed."""
    there = f"; {show.diameter(one.run.bend_m, practice)} on the path" if one.run.bend_m else ""
    return show.diameter(one.bend_m, practice) + there


def sleeves(practice: Practice, one: runs.Loom) -> Counter[str]:
    """Tube in words → number of that tube along the run."""
    return Counter(sleeve(practice, conduit) for conduit in one.conduits)


def sleeve(practice: Practice, one: runs.Conduit) -> str:
    if one.inside_m is None:
        return f"{show.diameter(one.needed_m, practice)} inside or more"
    inside = f"{show.diameter(one.inside_m, practice)} inside"
    return f"{one.size}, {inside}" if one.size else inside


def wire_line(packet: Packet, one: runs.Loom) -> dict[str, str]:
    """Wire numbers of a run by what they do."""
    numbers: dict[str, list[str]] = {"feed": [], "return": [], "signal": [], "cable": []}
    for lying in one.lying:
        numbers[lying.kind].append(lying.wire.designation)
    listed = {kind: ", ".join(found) or words.NOT_APPLICABLE for kind, found in numbers.items()}
    return {"run": run_words(packet, one.run), **listed, "done": words.TICK}


def hole_line(packet: Packet, one: holes.Passage) -> dict[str, str]:
    build, hole = packet.sized.build, one.hole
    own = [f"leads of {item.designation} {item.part.title}" for item in one.items]
    passing = "; ".join([*(run_words(packet, run) for run in one.runs), *own])
    return {
        "id": hole.name,
        "place": words.place(build, hole.place),
        "what": hole.what,
        "made": made(one),
        "size": show.diameter(hole.size_m, build.practice) if hole.size_m else "to suit",
        "protection": hole.protection if one.made or is_there(hole) else words.NOT_APPLICABLE,
        "inside": words.NOT_APPLICABLE if one.bore_m is None else show.diameter(one.bore_m, build.practice),
        "bundle": show.diameter(one.diameter_m, build.practice) if one.lying else words.NOT_APPLICABLE,
        "runs": passing or words.NOT_APPLICABLE,
        "done": words.TICK,
    }


def is_there(hole: Hole) -> bool:
    """The vehicle has it already."""
    return hole.reused or hole.removed_item


def made(one: holes.Passage) -> str:
    if one.hole.removed_item:
        return "left by equipment taken out"
    if one.hole.reused:
        return "reused"
    return "new" if one.made else "not drilled: nothing passes it"


def edge_line(packet: Packet, hole: Hole) -> dict[str, str]:
    practice = packet.sized.build.practice
    return {
        "id": hole.name,
        "seal": hole.seal or "not stated",
        "rust": hole.rust or ("with the seal" if hole.seal else "not stated"),
        "near": "; ".join(near_words(practice, one) for one in hole.near) or words.BLANK,
        "behind": hole.behind or words.BLANK,
        "part": words.BLANK,
        "closed": hole.closed_with or words.BLANK,
        "done": words.TICK,
    }


def near_words(practice: Practice, one: Neighbour) -> str:
    return f"{one.words or NEAR[one.what]}, {show.small_length(one.distance_m, practice)}"


def small_lines(sized: Sized) -> Iterator[tuple[str, str, str]]:
    """(item, size, quantity) of grommets, plugs, loom tube, clips and ties."""
    practice, looms = sized.build.practice, runs.looms(sized)
    fitted = Counter(
        (one.hole.protection, one.hole.size_m, one.bore_m if one.lying else None)
        for one in holes.passages(sized)
        if one.hole.protection != "none" and one.made
    )
    for (protection, size_m, bore_m), count in fitted.items():
        hole = f"hole {show.diameter(size_m, practice)}" if size_m else "to suit"
        inside = f", {show.diameter(bore_m, practice)} inside" if bore_m is not None else ""
        yield words.capital(protection), hole + inside, str(count)
    plugs = Counter(h.closed_with for h in sized.build.holes if h.removed_item and h.closed_with)
    yield from ((words.capital(text), "see the list of holes", str(count)) for text, count in plugs.items())
    lengths: dict[str, float] = {}
    for loom in looms:
        for text, count in sleeves(practice, loom).items():
            lengths[text] = lengths.get(text, 0.0) + count * loom.run.length_m
    for text, length_m in sorted(lengths.items()):
        yield "Loom tube", text, show.whole_length(length_m, practice)
    for name, count in (
        ("Loom clips", sum(one.supports.clips for one in looms if one.lying)),
        ("Loom ties", sum(one.supports.ties for one in looms if one.lying)),
    ):
        if count:
            yield name, "to suit the loom", str(count)


def cap_size(sized: Sized, reserve: Reserve) -> str:
    """Shrink tube that closes the end of a reserve, or `` for another kind of cap."""
    lying = cores(sized, reserve)
    if "shrink" not in reserve.cap or not lying:
        return ""
    return tube(sized.build.practice, bundle.bundle([runs.mm(one) for one in lying]).diameter_mm)


def caps(sized: Sized, reserve: Reserve) -> tuple[str, ...]:
    """Size of each cap of a reserve: one on each core, so that no two touch, then one over all."""
    over = cap_size(sized, reserve)
    if not over or reserve.connector != "none":
        return (over,)
    each = [tube(sized.build.practice, runs.mm(one)) for one in cores(sized, reserve)]
    return (*each, over) if len(each) > 1 else (over,)


def cores(sized: Sized, reserve: Reserve) -> list[runs.Lying]:
    return [one for one in runs.all_lying(sized) if one.circuit.item == reserve.name]


def tube(practice: Practice, over_mm: float) -> str:
    """`, tube 1/4 in over 4.2 mm`; `` where no tube shrinks on to it."""
    found = bundle.shrink_for(over_mm=over_mm, grip_mm=over_mm)
    return f", tube {found.name} over {show.diameter(over_mm / 1000, practice)}" if found else ""
