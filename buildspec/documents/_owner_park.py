"""How long the owner can park, in big numbers: rounded so that the truth is never shorter."""

from __future__ import annotations

import math
from typing import Any

from buildspec import energy
from buildspec.documents import _owner as owner
from buildspec.packet import Packet

SHOWN = 3
"""Names of things that run, before `and n more`."""
STEP_MIN = 5
HOLD = "\u00a0"


def parking(packet: Packet) -> dict[str, Any]:
    """Big numbers with what each means, and what they rest on."""
    build = packet.sized.build
    found = energy.energy(build)
    names = owner.names(build)
    numbers: list[dict[str, str]] = []
    for parked in found.parked:
        numbers += running(parked, names)
    numbers += [still(standing) for standing in found.standing]
    return {"numbers": numbers, "note": note(found)}


def running(parked: energy.Parked, names: dict[str, str]) -> list[dict[str, str]]:
    used = [names.get(d.item, d.words) for d in parked.draws if d.hours_per_day > 0]
    whole = {
        "big": down(parked.hours.value),
        "small": f"a usual day's use: {listed(used)}; {night_words(parked.nights)}",
    }
    alone = [
        {"big": down(s.value), "small": f"{owner.lower(names[name])} alone, all else off"}
        for name, s in parked.alone
    ]
    found = alone if len(used) == 1 and alone else [*alone, whole]
    if parked.refill is not None:
        more = f"; {parked.refill_note}" if parked.refill_note else ""
        found.append({"big": up(parked.refill.value), "small": f"of driving refills it{more}"})
    return found


def night_words(nights: int) -> str:
    hours = f"{energy.EVENING}:00 to {energy.MORNING}:00".replace(" ", HOLD)
    return (
        f"{owner.plural(nights, 'night', 'nights')} ({hours})" if nights else f"less than a night ({hours})"
    )


def still(standing: energy.Standing) -> dict[str, str]:
    days = int(standing.days.value)
    return {
        "big": owner.plural(days, "day", "days"),
        "small": "parked with everything off, and the engine still starts",
    }


def listed(names: list[str]) -> str:
    """`fridge, radio, pump and 6 more`; two of one name are named once."""
    small = list(dict.fromkeys(owner.lower(owner.short(name.partition(" (")[0])) for name in names))
    rest = len(small) - SHOWN
    if rest > 0:
        return f"{', '.join(small[:SHOWN])} and {rest} more"
    return small[0] if len(small) == 1 else f"{', '.join(small[:-1])} and {small[-1]}"


def down(hours: float) -> str:
    """A time that is safe to promise: whole hours, or minutes below two hours, rounded down."""
    if hours >= 2:
        return f"{int(hours)} h"
    return f"{int(hours * 60 // STEP_MIN) * STEP_MIN} min"


def up(hours: float) -> str:
    """A time that is enough: rounded up to five minutes."""
    whole, minutes = divmod(math.ceil(round(hours * 60 / STEP_MIN, 6)) * STEP_MIN, 60)
    if not whole:
        return f"{minutes} min"
    return f"{whole} h {minutes} min" if minutes else f"{whole} h"


def note(found: energy.Energy) -> str:
    base = "Batteries new, full at the start, and at 20 °C. Cold and age shorten every figure."
    return base if found.parked else f"Nothing that was added needs to run while you park. {base}"
