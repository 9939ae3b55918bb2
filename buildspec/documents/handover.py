"""The owner's sheet: two sides in plain words. How to use it, how to start with a dead battery, what to leave alone."""

from __future__ import annotations

import math
from typing import Any

import jinja2

from buildspec import resources
from buildspec.documents import _address as kept
from buildspec.documents import _owner as owner
from buildspec.documents import _owner_fit as paper
from buildspec.documents._owner_lists import MILE_KM, sections
from buildspec.documents._owner_park import parking
from buildspec.model import Resolved
from buildspec.packet import Packet

TITLE = "Owner's handover sheet"
ORDER = 95
OWN_PAGE = True


def view(packet: Packet) -> dict[str, Any]:
    """Everything that the owner is told."""
    build = packet.sized.build
    return {
        "name": f"Your {owner.vehicle(build)}: what was added and how to use it",
        "meta": meta(build),
        "panels": owner.panels(packet),
        "left": 0,
        "keys_left": "",
        "start": {"steps": owner.start_steps(packet), "caution": owner.start_caution(build)},
        "park": parking(packet),
        "sections": sections(packet),
        "notes": notes(build),
        "service": service(build),
        "call": f"Questions, faults, new wishes: {owner.contact(build)}.",
        "foot": f"{build.job.number} revision {build.job.revision}",
    }


def html(packet: Packet, *, whole: bool = False) -> str:
    """The sheet as a page of its own: exactly two sides of the practice's paper; `whole`, though it may be more."""
    practice = packet.sized.build.practice
    code = kept.code(packet.sized.build)
    all_of_it = {**view(packet), "code_mm": code.size_mm if code else 0.0}
    shown, fit = paper.fit(all_of_it, practice.paper)
    width, height = paper.PAPERS[practice.paper]
    loader = jinja2.FileSystemLoader(resources.folder("templates"))
    env = jinja2.Environment(
        loader=loader, undefined=jinja2.StrictUndefined, autoescape=True, trim_blocks=True
    )
    page = {
        "width": f"{width:g}mm",
        "height": f"{height:g}mm",
        "margin": f"{paper.MARGIN:g}mm",
        "gap": f"{paper.GAP:g}mm",
    }
    return env.get_template("handover.html.j2").render(
        **(all_of_it if whole else shown),
        page=page,
        fit=fit,
        paper=paper,
        shop=practice.shop,
        code=code,
        kept=kept.words(packet.sized.build),
    )


def meta(build: Resolved) -> str:
    job = build.job
    parts = (
        job.title,
        build.vehicle.registration,
        f"job {job.number} revision {job.revision}",
        f"{job.state} {job.date}",
    )
    return " · ".join(part.strip() for part in parts if part.strip())


def notes(build: Resolved) -> list[str]:
    """What to do and what to leave, where it applies to this build."""
    parts = [item.part for item in build.accessories.values()]
    count = len(build.reserves)
    waiting = f": {owner.plural(count, 'prepared cable is', 'prepared cables are')} waiting" if count else ""
    chemistries = {
        b.part.battery.chemistry for b in build.batteries.values() if b.part.battery and b.role == "house"
    }
    inverter = any(p.category == "inverter" for p in parts)
    said = (
        ("Never fit a larger fuse, and never foil or wire in its place: the cable behind it would burn.", True),
        (f"Never tap into the added wiring{waiting}.", True),
        ("Work on the wiring is for a licensed workshop; local rules come first.", True),
        ("Added lamps: the law where you drive decides where you may use them.", any(p.lamp for p in parts)),
        ("Rings and rails hold cargo; they never hold people, child seats or animals.", any(p.anchor for p in parts)),
        ("The inverter makes mains voltage, which can kill: keep it dry and closed.", inverter),
        ("The second battery takes no charge below 0 °C (32 °F).", "lithium-iron-phosphate" in chemistries),
    )  # fmt: skip
    return [text for text, applies in said if applies] + list(build.job.notes)


def service(build: Resolved) -> str:
    kilometres = build.practice.retorque_km
    first = f"{kilometres:.0f} km"
    if build.practice.units == "imperial":
        first = f"{math.floor(kilometres / MILE_KM / 10) * 10} miles"
    return f"Come in after {first} to have every added bolt and terminal tightened again, then once a year for a check."
