"""The owner's sheet: two sides in plain words. What one asks in a hurry stands on the first, all else on the second."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, cast

from buildspec.documents import _address as kept
from buildspec.documents import _owner as owner
from buildspec.documents import _owner_fit as paper
from buildspec.documents import _owner_heights as heights
from buildspec.documents import _owner_off as off
from buildspec.documents import _owner_spots as spots
from buildspec.documents._owner_fuses import dead_rows, limited_rows
from buildspec.documents._owner_lists import later, payload, sections
from buildspec.documents._owner_page import page
from buildspec.documents._owner_park import parking
from buildspec.documents._owner_signs import SIGNS
from buildspec.documents._owner_units import road, warmth
from buildspec.model import Resolved
from buildspec.packet import Packet
from buildspec.tongues import Tongue
from buildspec.typeset import HELD, held_view

TITLE = "Owner's handover sheet"
ORDER = 95
OWN_PAGE = True
SPOKEN = True
FREEZING_C = 0.0
LINE = 18
"""Letters of the line on which a number is written by hand."""


def view(packet: Packet) -> dict[str, Any]:
    """Everything that the owner is told."""
    build, t = packet.sized.build, owner.tongue(packet)
    said = {
        "title": t.say("Owner's handover sheet"),
        "headline": meta(build, t),
        "name": t.say("{vehicle}: what was added and how to use it", vehicle=owner.vehicle(build, t)),
        "meta": meta(build, t),
        "panels": owner.panels(packet),
        "start": {"caution": owner.start_caution(build, t), "steps": owner.start_steps(packet)},
        "off": {"steps": off.steps(packet), "live": off.live(packet), "burning": off.burning(t)},
        "lights": " ".join(off.lights(packet)),
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
    return cast("dict[str, Any]", held_view(said, t.lang))


def labels(build: Resolved, t: Tongue) -> dict[str, str]:
    """Headings and the line at the foot."""
    job = t.say("job {number} revision {revision}", number=build.job.number, revision=build.job.revision)
    return {
        "start": t.say("If the engine will not start"),
        "park": t.say("How long you can park"),
        "off": t.say("Shut everything off"),
        "fuses": t.say("Something is dead? Look here"),
        "where": t.say("Where the fuses are"),
        "which": t.say("Which fuse"),
        "later": t.say("What may be added later"),
        "load": t.say("What you may still load"),
        "call": t.say("Whom to call"),
        "notes": t.say("Please note"),
        "service": t.say("Service"),
        "keys": t.say("Your switches"),
        "key": t.say("Key"),
        "place": t.say("place"),
        "first": f"{job} · {t.say('side {side} of {count}', side=1, count=2)}",
        "second": f"{job} · {t.say('side {side} of {count}', side=2, count=2)}",
    }


def fuses(packet: Packet, t: Tongue) -> dict[str, Any]:
    """What to do when a thing is dead, and where its fuse is."""
    job = packet.sized.build.job
    spare = t.own(job.spare_fuses) if job.spare_fuses else t.say("in the bag that came with this sheet")
    lead = t.say(
        "Switch the thing off. Find it in the list and look at its fuses in the order shown. Pull the fuse: if the "
        "wire in it is broken, fit one of the same colour and number (one spare of each: {where}). If it blows again, "
        "leave it out and call us.",
        where=spare,
    )
    return {
        "lead": lead,
        "spots": spots.rows(packet),
        "rows": dead_rows(packet),
        "limited_lead": t.say("Protected by the panel itself:"),
        "limited": limited_rows(packet),
    }


def call(build: Resolved, t: Tongue) -> dict[str, str]:
    """Whom to ask, and what to say first."""
    job, shop = build.job, build.practice.shop
    quote = t.say(
        "Say this number first: {number}, revision {revision}.", number=job.number, revision=job.revision
    )
    why = t.say("For questions, faults and new wishes.")
    phone = shop.phone.replace(" ", HELD) or "_" * LINE
    return {
        "name": shop.name,
        "phone": t.say("Telephone: {number}", number=phone),
        "contact": shop.contact,
        "why": f"{why} {quote}",
    }


def html(packet: Packet) -> str:
    """The sheet as a page of its own: two sides of the practice's paper; more where a build is too large for that."""
    practice, t = packet.sized.build.practice, owner.tongue(packet)
    code, address = kept.code(packet.sized.build), kept.address(packet.sized.build)
    shown = {**view(packet), "code_mm": code.size_mm if code else 0.0, "address": address}
    fit = paper.fit(shown, practice.paper)
    width, height = heights.PAPERS[practice.paper]
    size = {
        "width": f"{width:g}mm",
        "height": f"{height:g}mm",
        "margin": f"{heights.MARGIN:g}mm",
        "gap": f"{heights.GAP:g}mm",
    }
    more = {"page": size, "fit": fit, "paper": paper, "heights": heights, "signs": SIGNS}
    more |= {"shop": practice.shop, "lang": t.lang}
    return page("handover", {**shown, **more, "code": code}, t.source)


def meta(build: Resolved, t: Tongue) -> str:
    job = build.job
    parts = (
        t.own(job.title),
        build.vehicle.registration,
        t.say("job {number} revision {revision}", number=job.number, revision=job.revision),
        t.say("{state}, {date}", state=t.say(owner.STATES[job.state]), date=t.date(job.date)),
    )
    return " · ".join(part.strip() for part in parts if part.strip())


def notes(build: Resolved, t: Tongue) -> list[str]:
    """What to do and what to leave, where it applies to this build."""
    always = (
        t.say(
            "Never fit a larger fuse, and never foil or wire in its place: the cable behind it can catch fire."
        ),
        taps(build, t),
        t.say("Work on the wiring is for a licensed workshop; local rules come first."),
    )
    return [*always, *applying(build, t), *(t.own(note) for note in build.job.notes)]


def taps(build: Resolved, t: Tongue) -> str:
    tap, count = t.say("Never tap into the added wiring."), len(build.reserves)
    if not count:
        return tap
    waiting = t.many(
        "{count} cable is laid for what may come later.",
        "{count} cables are laid for what may come later.",
        count,
    )
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
