"""The owner's sheet: two sides in plain words. What one asks in a hurry stands on the first, all else on the second."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec.documents import _address as kept
from buildspec.documents import _owner as owner
from buildspec.documents import _owner_fit as paper
from buildspec.documents._owner_fuses import hand_rows, limited_rows
from buildspec.documents._owner_lists import later, payload, sections
from buildspec.documents._owner_page import page
from buildspec.documents._owner_park import parking
from buildspec.documents._owner_signs import SIGNS
from buildspec.documents._owner_units import road, warmth
from buildspec.model import Resolved
from buildspec.packet import Packet
from buildspec.tongues import Tongue, mark

TITLE = "Owner's handover sheet"
ORDER = 95
OWN_PAGE = True
SPOKEN = True
STATES = (mark("as designed"), mark("as built"))
FREEZING_C = 0.0


def view(packet: Packet) -> dict[str, Any]:
    """Everything that the owner is told."""
    build, t = packet.sized.build, owner.tongue(packet)
    return {
        "title": t.say("Owner's handover sheet"),
        "headline": meta(build, t),
        "name": t.say("{vehicle}: what was added and how to use it", vehicle=owner.vehicle(build, t)),
        "meta": meta(build, t),
        "panels": owner.panels(packet),
        "strips": owner.panels(packet),
        "left": 0,
        "keys_left": "",
        "start": {"steps": owner.start_steps(packet), "caution": owner.start_caution(build, t)},
        "park": parking(packet),
        "fuses": fuses(packet, t),
        "later": later(packet),
        "payload": payload(packet),
        "call": call(build, t),
        "sections": sections(packet),
        "notes": notes(build, t),
        "service": service(build, t),
        "labels": labels(build, t),
    }


def labels(build: Resolved, t: Tongue) -> dict[str, str]:
    """Headings and the line at the foot."""
    job = t.say("job {number} revision {revision}", number=build.job.number, revision=build.job.revision)
    return {
        "start": t.say("If the engine will not start"),
        "park": t.say("How long you can park"),
        "fuses": t.say("Something is dead? Look at its fuse first"),
        "later": t.say("What may be added later"),
        "load": t.say("What you may still load"),
        "call": t.say("Whom to call"),
        "notes": t.say("Please note"),
        "service": t.say("Service"),
        "keys": t.say("Your switches"),
        "key": t.say("Key"),
        "place": t.say("place"),
        "first": f"{job} · {t.say('side {side} of 2', side=1)}",
        "second": f"{job} · {t.say('side {side} of 2', side=2)}",
    }


def fuses(packet: Packet, t: Tongue) -> dict[str, Any]:
    """What to do when a thing is dead, and where its fuse is."""
    lead = t.say(
        "Switch the thing off. Pull its fuse; if the wire in it is broken, fit one of the same colour and number from "
        "the bag (one spare of each). If it blows again, leave it out and call us."
    )
    return {
        "lead": lead,
        "rows": hand_rows(packet),
        "limited_lead": t.say("Keys without a fuse:"),
        "limited": limited_rows(packet),
        "left": "",
        "count": 0,
    }


def call(build: Resolved, t: Tongue) -> dict[str, str]:
    """Whom to ask, and what to say first."""
    job = build.job
    quote = t.say(
        "Say this number first: {number}, revision {revision}.", number=job.number, revision=job.revision
    )
    why = t.say("For questions, faults and new wishes.")
    return {"name": build.practice.shop.name, "contact": build.practice.shop.contact, "why": f"{why} {quote}"}


def html(packet: Packet, *, whole: bool = False) -> str:
    """The sheet as a page of its own: exactly two sides of the practice's paper; `whole`, though it may be more."""
    practice, t = packet.sized.build.practice, owner.tongue(packet)
    code, address = kept.code(packet.sized.build), kept.address(packet.sized.build)
    all_of_it = {**view(packet), "code_mm": code.size_mm if code else 0.0, "address": address}
    shown, fit = paper.fit(all_of_it, practice.paper, t)
    width, height = paper.PAPERS[practice.paper]
    size = {
        "width": f"{width:g}mm",
        "height": f"{height:g}mm",
        "margin": f"{paper.MARGIN:g}mm",
        "gap": f"{paper.GAP:g}mm",
    }
    more = {"page": size, "fit": fit, "paper": paper, "shop": practice.shop, "lang": t.lang, "signs": SIGNS}
    return page("handover", {**(all_of_it if whole else shown), **more, "code": code}, t.source)


def meta(build: Resolved, t: Tongue) -> str:
    job = build.job
    parts = (
        t.own(job.title),
        build.vehicle.registration,
        t.say("job {number} revision {revision}", number=job.number, revision=job.revision),
        t.say("{state}, {date}", state=t.say(job.state), date=t.date(job.date)),
    )
    return " · ".join(part.strip() for part in parts if part.strip())


def notes(build: Resolved, t: Tongue) -> list[str]:
    """What to do and what to leave, where it applies to this build."""
    always = (
        t.say(
            "Never fit a larger fuse, and never foil or wire in its place: the cable behind it would burn."
        ),
        taps(build, t),
        t.say("Work on the wiring is for a licensed workshop; local rules come first."),
    )
    return [*always, *applying(build, t), *(t.own(note) for note in build.job.notes)]


def taps(build: Resolved, t: Tongue) -> str:
    tap, count = t.say("Never tap into the added wiring."), len(build.reserves)
    if not count:
        return tap
    waiting = t.many("{count} prepared cable is waiting.", "{count} prepared cables are waiting.", count)
    return f"{tap} {waiting}"


def applying(build: Resolved, t: Tongue) -> Iterator[str]:
    """Cautions that only some builds need."""
    parts = [item.part for item in build.accessories.values()]
    house = [b.part.battery for b in build.batteries.values() if b.role == "house"]
    if any(part.lamp for part in parts):
        yield t.say("Added lamps: the law where you drive decides where you may use them.")
    if any(part.anchor for part in parts):
        yield t.say("Rings and rails hold cargo; they never hold people, child seats or animals.")
    if any(part.category == "inverter" for part in parts):
        yield t.say("The inverter makes mains voltage, which can kill: keep it dry and closed.")
    if any(trait and trait.chemistry == "lithium-iron-phosphate" for trait in house):
        frost = warmth(FREEZING_C, t)
        yield t.say("The second battery takes no charge below {temperature}.", temperature=frost)


def service(build: Resolved, t: Tongue) -> str:
    return t.say(
        "Come in after {distance} to have every added bolt and terminal tightened again, then once a year for a check.",
        distance=road(build.practice.retorque_km, t),
    )
