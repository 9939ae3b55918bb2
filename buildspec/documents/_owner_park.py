"""How long the owner can park, in big numbers: rounded so that the truth is never shorter."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import energy
from buildspec.documents import _owner as owner
from buildspec.documents._owner_off import listed
from buildspec.documents._owner_units import down, up, warmth
from buildspec.energy import Sum
from buildspec.model import Resolved
from buildspec.packet import Packet
from buildspec.tongues import Tongue

WARM_C = 20.0
"""The figures hold for a battery at this temperature: capacity labels are given near it."""


def parking(packet: Packet) -> dict[str, Any]:
    """Big numbers with what each means, and what they rest on."""
    build, t = packet.sized.build, owner.tongue(packet)
    found = energy.energy(build)
    names = owner.names(build, t)
    numbers: list[dict[str, str]] = []
    for parked in found.parked:
        numbers += running(build, parked, names, t)
    numbers += [
        still(one, t.say("everything off: the second battery stays usable"), t) for one in found.resting
    ]
    numbers += [
        still(one, t.say("parked with everything off, and the engine still starts"), t)
        for one in found.standing
    ]
    return {"numbers": numbers, "note": note(found, t)}


def running(build: Resolved, parked: energy.Parked, names: dict[str, str], t: Tongue) -> list[dict[str, str]]:
    used = [names.get(d.item, d.words) for d in parked.draws if d.hours_per_day > 0]
    usual = t.say(
        "a usual day's use: {things}; {nights}",
        things=listed([bare(name) for name in used], t),
        nights=nights(parked.nights, t),
    )
    whole = number(down(parked.hours.value), f"{usual}{cold(parked.cold, t)}")
    item = build.batteries[parked.battery]
    alone = [
        number(
            down(s.value),
            t.say("{thing} alone, all else off", thing=t.small(names[name]))
            + cold(energy.cold_hours(item, s), t),
        )
        for name, s in parked.alone
    ]
    found = alone if len(used) == 1 and alone else [*alone, whole]
    return [*found, *refills(build, parked, t)]


def bare(name: str) -> str:
    """`12 V outlet (workbench)` → `12 V outlet`."""
    return name.partition(" (")[0].partition(",")[0].strip()


def number(big: str, small: str) -> dict[str, str]:
    return {"big": big, "small": small}


def cold(hours: Sum | None, t: Tongue) -> str:
    """What frost leaves of a time; `` where no figure covers the battery."""
    if hours is None:
        return ""
    said = t.say("at {temperature}: {time}", time=down(hours.value), temperature=warmth(energy.COLD_C, t))
    return f"; {said}"


def refills(build: Resolved, parked: energy.Parked, t: Tongue) -> Iterator[dict[str, str]]:
    """What puts the charge back, and how long it takes or how far it helps."""
    if parked.refill is not None:
        last = last_fifth(parked.refill_note, t)
        yield number(up(parked.refill.value), t.say("of driving refills it") + last)
    for one in parked.outside:
        solar = build.supplies[one.supply].type == "solar"
        if one.refill is not None:
            yield number(
                up(one.refill.value), t.say("on the mains lead refills it") + last_fifth(one.note, t)
            )
        elif one.lasts is not None:
            yield number(down(one.lasts.value), t.say("a usual day's use with a usual day's sun"))
        elif solar and build.supplies[one.supply].per_day_ah is not None:
            yield number(t.say("no limit"), t.say("a usual day's use, as long as the sun is as usual"))


def last_fifth(note: str, t: Tongue) -> str:
    if not note:
        return ""
    low, high = energy.LAST_FIFTH_H
    return "; " + t.say("then {low} to {high} h more until it is quite full", low=low, high=high)


def nights(count: int, t: Tongue) -> str:
    span = {"evening": t.clock(energy.EVENING), "morning": t.clock(energy.MORNING)}
    if not count:
        return t.say("less than a night ({evening} to {morning})", **span)
    return t.many(
        "{count} night ({evening} to {morning})",
        "{count} nights ({evening} to {morning})",
        count,
        **span,
    )


def still(standing: energy.Standing, words: str, t: Tongue) -> dict[str, str]:
    days = int(standing.days.value)
    return number(t.many("{count} day", "{count} days", days), words)


def note(found: energy.Energy, t: Tongue) -> str:
    base = t.say(
        "Batteries new, full at the start, and at {temperature}. Cold and age shorten every figure.",
        temperature=warmth(WARM_C, t),
    )
    none = t.say("Nothing that was added needs to run while you park.")
    return base if found.parked else f"{none} {base}"
