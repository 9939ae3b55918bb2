"""The first page: which vehicle, which revision, in which state, what is in it, what was accepted, what can hurt."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from buildspec import documents, figures, show
from buildspec.documents import _address as kept
from buildspec.documents import _findings as findings
from buildspec.documents import _materials as materials
from buildspec.documents import _words as words
from buildspec.documents._cautions import cautions
from buildspec.model import Practice, Reserve, Resolved
from buildspec.packet import Packet

TITLE = "Install packet"
ORDER = 0


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    warnings = findings.warnings(packet)
    return {
        "facts": [{"what": what, "is": value or words.NOT_APPLICABLE} for what, value in facts(build)],
        "added": list(added_lines(build)),
        "untouched": build.vehicle.untouched,
        "touched": touched(build),
        "reserved": [reserved_line(build, r) for r in build.reserves.values()],
        "no_reserves": "No reserves.",
        "notes": build.job.notes,
        "no_notes": "No notes.",
        "contents": [
            {"title": d.title, "file": f"{d.slug}.md"} for d in documents.catalogue() if d.order > ORDER
        ],
        "sheets": drawn(packet),
        "accepted": accepted(len(build.waivers), len(warnings), len(findings.notes(packet))),
        "accepted_where": "They are printed in full under Changes and waivers.",
        "waivers": [
            {"what": f"{w.rule} of {w.of}", "why": w.reason, "by": w.by, "until": w.until}
            for w in build.waivers
        ],
        "warnings": [findings.line(d) for d in warnings],
        "cautions": cautions(build),
        "practice_intro": in_force(build.practice),
        "practice": list(practice_lines(build.practice)),
        "signatures": [
            {"role": role, "name": name, "signature": words.BLANK, "date": words.BLANK}
            for role, name in (("Prepared", build.job.prepared_by), ("Approved", build.job.approved_by))
        ],
    }


def accepted(waivers: int, warnings: int, notes: int) -> str:
    """`1 waiver in force, no warnings accepted, 2 notes.`"""
    first, second = words.count(waivers, "waiver"), words.count(warnings, "warning")
    return words.capital(f"{first} in force, {second} accepted, {words.count(notes, 'note')}.")


def drawn(packet: Packet) -> str:
    sheets, strips = len(packet.sheets), len(packet.strips)
    return words.capital(f"{words.count(sheets, 'drawing sheet')}, {words.count(strips, 'switch legend')}.")


def facts(build: Resolved) -> Iterator[tuple[str, str]]:
    job, vehicle, shop = build.job, build.vehicle, build.practice.shop
    engine = vehicle.engine
    yield "Job", f"{job.number}, {job.title}"
    yield "Revision", f"{job.revision}, {job.date}"
    yield "State", job.state
    yield "Vehicle", vehicle.description
    yield "Registration", vehicle.registration
    yield "System", f"{show.plain(vehicle.system_v, 0)} V"
    if engine is not None:
        litres = f", {show.plain(engine.displacement_l, 1)} l" if engine.displacement_l else ""
        yield "Engine", f"{engine.fuel}{litres}"
    if vehicle.alternator is not None:
        kind = "controlled" if vehicle.alternator.controlled else "conventional"
        yield "Alternator", f"{show.amps(vehicle.alternator.rated_a)}, {kind}"
    yield "Sold", vehicle.sold
    yield "Owner", ", ".join(part for part in (job.owner, job.owner_contact) if part)
    yield "User", job.user
    yield "Shop", ", ".join((shop.name, shop.contact))
    if kept.address(build):
        yield "Packet", kept.address(build)


def added_lines(build: Resolved) -> Iterator[dict[str, str]]:
    """Everything that the bill of materials lists as an item or as sheet goods, counted alike."""
    for one in materials.items(build):
        yield added_line(build, one.designation, one.part.title, one.quantity, one.place)
    for goods in materials.goods(build):
        item = goods.item
        yield added_line(build, item.designation, item.part.title, goods.units, item.place)


def added_line(build: Resolved, mark: str, title: str, quantity: int, place: str) -> dict[str, str]:
    return {"mark": mark, "item": title, "quantity": str(quantity), "place": words.place(build, place)}


def touched(build: Resolved) -> list[str]:
    """What of the vehicle is replaced or changed, and what allows it."""
    works = [*build.works, *(w for item in build.accessories.values() for w in item.works)]
    found = [(item.part.title, item.replaces, item.document) for item in build.accessories.values()]
    found += [(f"{work.do} {work.what}", work.replaces, work.document) for work in works]
    return [
        f"{words.capital(what)} takes the place of: {function}; {document or 'no document'}."
        for what, function, document in found
        if function
    ]


def reserved_line(build: Resolved, reserve: Reserve) -> str:
    return f"{reserve.designation} {reserve.purpose or reserve.name}, {words.place(build, reserve.place)}"


def practice_lines(practice: Practice) -> Iterator[dict[str, str]]:
    """The figures that decided sizes, each with where it comes from."""
    figures = {
        "insulation": ("Insulation class", f"{show.plain(practice.insulation_c, 0)} °C"),
        "wire_margin": ("Wire over its device", show.percent(practice.wire_margin)),
        "fuse_share": ("Continuous load on a fuse", shares(practice.fuse_share)),
        "drop_limit": ("Drop, out and back", shares(practice.drop_limit)),
        "lowest_voltage": ("Lowest voltage for constant power", show.volts(practice.lowest_v)),
        "resting_voltage": ("Battery for cut-out checks", show.volts(practice.resting_v)),
        "unprotected": ("Wire before its fuse", unprotected(practice)),
        "min_wire": ("Smallest wire", f"{show.plain(practice.min_area_mm2, 2)} mm²"),
        "alternator_share": ("Alternator left for accessories", show.percent(practice.alternator_share)),
        "signal_allowance": ("Taken from a vehicle signal", show.amps(practice.allow_signal_a)),
        "key_off_current": ("Key-off current, whole vehicle", show.amps(practice.key_off_a)),
        "battery_cables": (
            "Battery cables",
            "apart from the loom" if practice.battery_cables_apart else "in the loom",
        ),
        "retorque": ("Re-torque after", f"{practice.retorque_km:g} km"),
    }
    for key, (what, value) in figures.items():
        source = practice.sources.get(key, "the shop's practice")
        yield {"what": what, "value": value, "source": source, "beaten": beaten(practice, key)}


def in_force(practice: Practice) -> str:
    """Whose figures hold."""
    profiles = (
        f"Customer profile: {', '.join(practice.profiles)}" if practice.profiles else "No customer profile"
    )
    return f"Practice in force: {practice.shop.name}. {profiles}."


def beaten(practice: Practice, key: str) -> str:
    """What the figure replaced, each with who said so; a dash where it stands as it always did."""
    replaced = [
        f"{one.value} ({one.layer})"
        for choice in practice.choices
        if figures.top(choice.figure) == key
        for one in choice.beaten
    ]
    return "; ".join(replaced) or "–"


def shares(limits: Mapping[str, float]) -> str:
    return ", ".join(f"{name} {show.percent(value)}" for name, value in limits.items())


def unprotected(practice: Practice) -> str:
    bare, sheathed, battery = (
        show.small_length(value, practice)
        for value in (
            practice.unprotected_m,
            practice.unprotected_sheathed_m,
            practice.unprotected_battery_sheathed_m,
        )
    )
    return f"{bare}; {sheathed} sheathed; {battery} sheathed at a battery"
