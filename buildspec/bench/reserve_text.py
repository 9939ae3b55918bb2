"""The answer about a reserve: for people, and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from buildspec import show
from buildspec.bench.reserve import Reserve
from buildspec.bench.text import indented
from buildspec.model import Resolved

STEPS = (
    "write the accessory into the spec in place of the reserve and compile again; add nothing on the quiet",
    "disconnect the battery's negative first",
    "work by a qualified fitter, after the vehicle maker's instructions and local codes",
)


def render(found: Reserve) -> str:
    """Current, wire, device and drop; the largest current; both ends; how it is brought into use."""
    sections = (
        [headline(found)],
        ["", f"at {show.amps(found.item.allow_a)}", *indented(at_allowance(found))],
        ["", "at most", *indented(at_most(found))],
        ["", "ends", *indented(ends(found))],
        ["", "to use it", *indented(iter((*enable(found), *STEPS)))],
    )
    return "\n".join(line for section in sections for line in section) + "\n"


def headline(found: Reserve) -> str:
    item, sizing = found.item, found.sizing
    return (
        f"{item.name} ({item.designation}, circuit {found.circuit.number}): up to {show.amps(item.allow_a)} for good, "
        f"on {show.both_sizes(sizing.conductor)} behind {', '.join(device_words(found)) or 'no device of its own'}"
    )


def device_words(found: Reserve) -> Iterator[str]:
    for device in found.sizing.devices:
        if device.kind == "channel":
            yield f"channel {device.designation} at {show.amps(device.rating_a)}"
        else:
            colour = f", {device.colour}" if device.colour else ""
            yield f"{device.designation}, {show.amps(device.rating_a)} {show.family(device.family)} fuse{colour}"


def at_allowance(found: Reserve) -> Iterator[str]:
    practice, sizing = found.sized.build.practice, found.sizing
    limit = practice.drop_limit[found.circuit.drop_class]
    yield (
        f"{show.volts(sizing.drop_v)} lost ({show.percent(sizing.drop_v / practice.nominal_v)}); "
        f"limit {show.percent(limit)} ({found.circuit.drop_class}; {practice.sources['drop_limit']})"
    )
    yield (
        f"{show.volts(sizing.volts_at_load)} at its end with the battery at rest at {show.volts(practice.resting_v)}: "
        f"a device whose own cut-out is higher than that does not belong here"
    )
    if sizing.lowest_in:
        yield f"lowest at its end: {show.volts(sizing.lowest_v)} while {sizing.lowest_in}"
    yield total(found)


def total(found: Reserve) -> str:
    """What the source carries with every reserve in use."""
    build, node = found.sized.build, found.circuit.source
    limit = total_limit_a(build, node)
    most = f" of {show.amps(limit)}" if limit is not None else ""
    carries = f"{show.amps(found.sized.loads_a[node])}{most}"
    return f"`{node}` then carries {carries} with every load and every reserve of the build at once"


def total_limit_a(build: Resolved, node: str) -> float | None:
    panel = build.panels[node].part.panel if node in build.panels else None
    block = build.blocks[node].part.block if node in build.blocks else None
    trait = panel or block
    return trait.total_a if trait else None


def at_most(found: Reserve) -> Iterator[str]:
    most = show.plain(found.largest_a, 2)
    yield f"{most} A keep every rule, with conductors and devices as laid, all else on, other reserves at theirs"
    if found.message:
        yield f"then {found.limited_by}: {found.message}"
    else:
        yield "then its protective device ends"


def ends(found: Reserve) -> Iterator[str]:
    build, item = found.sized.build, found.item
    start = found.circuit.feeds[0].start
    yield f"supply: {start.item}, terminal {start.pin}, {build.places[start.place].words}"
    treatment = ", ".join(
        word for word in (item.cap, "" if item.connector == "none" else item.connector) if word
    )
    yield f"far end: {build.places[item.place].words}: {item.end}" + (f" ({treatment})" if treatment else "")


def enable(found: Reserve) -> Iterator[str]:
    """How the supply end comes to life."""
    if found.item.powered:
        yield "it is live already: the far end is under voltage while the source is"
        return
    for device, words in zip(found.sizing.devices, device_words(found), strict=True):
        if device.kind == "channel":
            yield f"enable {words}: it is off until then"
        else:
            where = (
                f"position {device.position} of `{device.host}`"
                if device.host
                else found.sized.build.places[device.place].words
            )
            yield f"put {words} in: {where}; it is out until then"


def render_json(found: Reserve) -> str:
    sizing, item = found.sizing, found.item
    whole: dict[str, Any] = {
        "reserve": item.name,
        "designation": item.designation,
        "circuit": found.circuit.number,
        "allow_a": item.allow_a,
        "conductor": sizing.conductor.name,
        "devices": [
            {"designation": d.designation, "kind": d.kind, "family": d.family, "rating_a": d.rating_a}
            for d in sizing.devices
        ],
        "drop_v": sizing.drop_v,
        "drop_limit_v": sizing.drop_limit_v,
        "volts_at_end": sizing.volts_at_load,
        "lowest_v": sizing.lowest_v,
        "lowest_in": sizing.lowest_in,
        "largest_a": round(found.largest_a, 2),
        "limited_by": found.limited_by,
        "limit_message": found.message,
        "source_carries_a": found.sized.loads_a[found.circuit.source],
        "powered": item.powered,
        "place": item.place,
        "end": item.end,
    }
    return json.dumps(whole, indent=2, ensure_ascii=False) + "\n"
