"""Studs and crimps as the sheet of terminations prints them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from buildspec import show
from buildspec.calc import terminations as calc
from buildspec.documents import _wires as wires
from buildspec.documents import _words as words
from buildspec.joints import Joint, Lug, joints
from buildspec.packet import Packet

LABEL_FIRST = "see the battery's label first"
MEASURE = "not stated: measure"
FAMILY_STUD = {"strip-m5": "M5", "strip-m8": "M8"}


def lines(packet: Packet) -> Iterator[dict[str, str]]:
    """One line a stud with several lugs' order, then each bolted fuse, block, panel and link."""
    found = joints(packet.sized.build)
    for joint in found:
        yield joint_line(packet, joint)
    known = {f"{j.item}:{j.pin}" for j in found}
    yield from others(packet, known)


def compact(found: Iterable[dict[str, str]]) -> list[dict[str, str]]:
    """Lines with the terminals of one device together, where stud, torque and its source are the same."""
    groups: dict[tuple[str, ...], list[dict[str, str]]] = {}
    for line in found:
        own = line["joint"] if " " in line["joint"] else line["joint"].partition(":")[0]
        groups.setdefault((own, line["at"], line["stud"], line["torque"], line["source"]), []).append(line)
    return [together(own, lines) if len(lines) > 1 else lines[0] for (own, *_), lines in groups.items()]


def together(item: str, lines: list[dict[str, str]]) -> dict[str, str]:
    pins = ", ".join(line["joint"].partition(":")[2] for line in lines)
    lugs = "; ".join(line["lugs"] for line in lines)
    return lines[0] | {"joint": f"{item}: {pins}", "lugs": lugs}


def joint_line(packet: Packet, joint: Joint) -> dict[str, str]:
    build = packet.sized.build
    nm, source = torque(packet, joint)
    own = "; the vehicle's own cables besides" if joint.existing else ""
    return {
        "joint": f"{joint.item}:{joint.pin} {joint.words}",
        "at": joint.place,
        "place": words.place(build, joint.place),
        "stud": ("tapered post" if joint.stud == "post" else joint.stud or MEASURE)
        + (f", {joint.studs} of them" if joint.studs > 1 else ""),
        "lugs": stack(packet, joint),
        "count": f"{len(joint.lugs)} of {joint.room}{own}",
        "torque": nm,
        "source": source,
        "initials": words.BLANK,
        "due": words.BLANK,
    }


def stack(packet: Packet, joint: Joint) -> str:
    """Lugs from the bottom, the largest first; dealt out over the studs one after the other."""
    area = {c.key: packet.sized.sizings[c.key].conductor for c in packet.sized.build.circuits}

    def order(lug: Lug) -> tuple[float, tuple[str, int]]:
        return -area[lug.circuit.key].area_mm2, wires.natural(lug.wire.designation)

    ordered = sorted(joint.lugs, key=order)
    piles = [ordered[n :: joint.studs] for n in range(joint.studs)]
    texts = [
        ", ".join(f"{lug.wire.designation} {show.size(area[lug.circuit.key])}" for lug in pile)
        for pile in piles
        if pile
    ]
    return texts[0] if len(texts) == 1 else "; ".join(f"stud {n}: {text}" for n, text in enumerate(texts, 1))


def torque(packet: Packet, joint: Joint) -> tuple[str, str]:
    """(value, where from); what makers publish differs, so a span is printed with what comes first."""
    written = f"as written for this job; {LABEL_FIRST}" if joint.battery else "as written for this job"
    if joint.torque_nm is not None:
        return newton_metres(joint.torque_nm), written
    if not joint.stud:
        return words.BLANK, LABEL_FIRST if joint.battery else "the stud's size first, then its sheet"
    if not joint.battery:
        return ground(joint.stud)
    rows = calc.stud_torques("battery_terminal_torque", joint.stud)
    return span(rows), f"{LABEL_FIRST}; span of {words.count(len(rows), 'published figure')}"


def ground(stud: str) -> tuple[str, str]:
    """A steel stud of the body takes more than the brass one of the table."""
    rows = calc.stud_torques("brass_stud_torque", stud)
    return (
        f"at least {span(rows)}",
        "the vehicle maker's figure first; least for a brass stud of this size, terminal-board maker's table",
    )


def span(rows: tuple[calc.Torque, ...]) -> str:
    least, most = min(r.least_nm for r in rows), max(r.most_nm for r in rows)
    return newton_metres(least) if least == most else f"{show.plain(least, 1)} to {newton_metres(most)}"


def newton_metres(nm: float) -> str:
    return f"{show.plain(nm, 1)} N m"


def others(packet: Packet, known: set[str]) -> Iterator[dict[str, str]]:
    """Rings on fuses, blocks, panels and links: one line a terminal."""
    found: dict[str, list[tuple[wires.Piece, str]]] = {}
    for piece in wires.pieces(packet):
        for end in (piece.near, piece.far):
            if end.terminal == wires.RING and end.at not in known:
                found.setdefault(end.at, []).append((piece, end.place))
    for at, ends in found.items():
        item = at.rpartition(":")[0]
        sizings = packet.sized.sizings
        device = next(
            (d for p, _ in ends for d in sizings[p.circuit.key].devices if d.designation == item), None
        )
        stud = FAMILY_STUD.get(device.family, "") if device else ""
        nm, source = of_holder(stud)
        yield {
            "joint": at,
            "at": ends[0][1],
            "place": words.place(packet.sized.build, ends[0][1]),
            "stud": stud or MEASURE,
            "lugs": ", ".join(f"{p.wire.designation} {show.size(p.conductor)}" for p, _ in ends),
            "count": f"{len(ends)} of {calc.MOST_LUGS}",
            "torque": nm,
            "source": source,
            "initials": words.BLANK,
            "due": words.BLANK,
        }


def of_holder(stud: str) -> tuple[str, str]:
    rows = calc.stud_torques("electrical_stud_torque", stud) if stud else ()
    if not rows:
        return words.BLANK, "the sheet of the device"
    mark = "recalled, " if rows[0].verified == "memory" else ""
    return span(rows), f"the holder's sheet first; {mark}{rows[0].item}"


def stud_of(packet: Packet) -> dict[str, str]:
    """`X3:stud` → `M8`, `post` or ``, wherever a ring goes on."""
    devices = {
        d.designation: d.family for s in packet.sized.sizings.values() for d in s.devices if d.kind == "fuse"
    }
    rings = [end.at for p in wires.pieces(packet) for end in (p.near, p.far) if end.terminal == wires.RING]
    found = {at: FAMILY_STUD.get(devices.get(at.rpartition(":")[0], ""), "") for at in rings}
    return found | {f"{j.item}:{j.pin}": j.stud for j in joints(packet.sized.build)}


def ring_or_other(packet: Packet, piece: wires.Piece, end: wires.End, studs: Mapping[str, str]) -> str:
    """`ring, M8, hole 8.4 mm`; any other terminal as it is."""
    if end.terminal != wires.RING:
        return end.terminal
    stud = studs.get(end.at, "")
    if stud == "post":
        return "ring for the clamp of a tapered post"
    hole_m = calc.ring_hole_m(area_mm2=piece.conductor.area_mm2, thread=stud)
    if not stud or hole_m is None:
        return f"ring, {stud or 'measure the stud'}"
    return f"ring, {stud}, hole {show.diameter(hole_m, packet.sized.build.practice)}"


def finish(packet: Packet, piece: wires.Piece, end: wires.End, studs: Mapping[str, str]) -> str:
    """What goes on an end, with the stud of a ring and the cap of an end that nothing is connected to."""
    if end.terminal != wires.RING:
        return wires.finish(end)
    return wires.finish(
        end._replace(terminal=ring_or_other(packet, piece, end, studs).partition(", hole")[0])
    )


def crimps(packet: Packet) -> Iterator[dict[str, str]]:
    """Each kind of crimped end: terminal, wire, how many, which wires, least pull of a sample."""
    found: dict[tuple[float, str, str], list[str]] = {}
    studs, sizes = stud_of(packet), {}
    for piece in wires.pieces(packet):
        sizes[piece.conductor.name] = piece.conductor
        for end in (piece.near, piece.far):
            if end.terminal == "none":
                continue
            key = (piece.conductor.area_mm2, piece.conductor.name, ring_or_other(packet, piece, end, studs))
            found.setdefault(key, []).append(f"{piece.wire.designation} at {end.at}")
    for (area_mm2, name, terminal), ends in sorted(found.items()):
        pull = calc.crimp_pull(area_mm2)
        yield {
            "terminal": words.capital(terminal),
            "size": show.size(sizes[name]),
            "count": str(len(ends)),
            "ends": ", ".join(ends),
            "pull": "below the table" if pull is None else show.pull(pull.least_n),
            "row": words.NOT_APPLICABLE if pull is None else f"{pull.gauge} AWG",
            "tested": words.BLANK,
            "initials": words.BLANK,
        }
