"""Figures of a part that an item, or the shop's own entry, makes laxer: allowed by a named document, not by typing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from buildspec.catalogue import TRAITS, USUAL_SYSTEM, Catalogue
from buildspec.figures import named_document
from buildspec.findings import Finding, Path
from buildspec.resolve.names import Fault, section
from buildspec.values import number

LESS, MORE, OTHER = "less", "more", "other"
"""Which way a figure asks for less care: smaller, larger, or any other value."""


class Way(NamedTuple):
    laxer: str
    dimension: str = ""
    """Of `units.py`; `` for a count, `word` for a word or a truth value, whose laxer value is `value`."""
    value: Any = None


def amps(laxer: str) -> Way:
    return Way(laxer, "current")


def word(value: Any = None) -> Way:
    return Way(OTHER, "word", value)


LAXER: Mapping[str, Mapping[str, Way]] = {
    "electrical": {
        "model": word(), "power": Way(LESS, "power"), "typical": amps(LESS), "worst": amps(LESS),
        "inrush.times": Way(LESS), "inrush.for": Way(LESS, "time"), "duty": Way(LESS, "ratio"),
        "continuous": word(False), "standby": amps(LESS), "cut_out": Way(LESS, "voltage"), "drop": word("general"),
        "min_wire": Way(LESS, "area"), "max_wire": Way(MORE, "area"), "max_fuse": amps(MORE), "steady": word(False),
    },
    "battery": {
        "chemistry": word(), "capacity": Way(MORE, "charge"), "cranking": amps(OTHER), "short_circuit": amps(LESS),
        "max_charge": amps(MORE), "max_discharge": amps(MORE), "max_voltage": Way(MORE, "voltage"),
    },
    "charger": {
        "output": amps(OTHER), "output_voltage": Way(OTHER, "voltage"), "input_max": amps(LESS), "wake": amps(LESS),
        "min_input": Way(LESS, "voltage"),
    },
    "link": {
        "rating": amps(MORE), "short_time": amps(MORE), "for": Way(MORE, "time"), "momentary": word(True),
        "coil": amps(LESS), "joins_at": Way(OTHER, "voltage"), "parts_at": Way(OTHER, "voltage"),
    },
    "panel": {
        "kind": word(), "channels": Way(MORE), "channel_limit": amps(MORE), "total": amps(MORE),
        "trips.at": Way(MORE, "ratio"), "trips.within": Way(MORE, "time"), "trips.then": word("latching"),
        "fuse_family": word(), "modes": word(), "trigger_input": amps(LESS), "max_wire": Way(MORE, "area"),
        "indicators": word(True), "keypad_lead": Way(MORE, "length"), "legend_characters": Way(MORE),
    },
    "block": {
        "positions": Way(MORE), "position_limit": amps(MORE), "total": amps(MORE), "family": word(),
        "max_wire": Way(MORE, "area"),
    },
    "contact": {"rating": amps(MORE), "motor": amps(MORE), "coil": amps(LESS), "momentary": word(True)},
    "outlet": {"rating": amps(MORE)},
    "envelope": {key: Way(LESS, "length") for key in ("width", "height", "depth")},
    "anchor": {"working_load": Way(MORE, "force"), "points": Way(MORE)},
    "": {"mass": Way(LESS, "mass")},
}  # fmt: skip
"""Trait → figure → which way is laxer. `cranking` both starts an engine and feeds a fault, so both ways count."""

SHORT = {
    "batteries": dict.fromkeys(("chemistry", "capacity", "cranking", "short_circuit"), "battery"),
    "isolation": {"output": "charger", "rating": "link"},
    "sources": {"output": "charger"},
}
"""Keys that an item may write beside its traits, and the trait that each belongs to."""


def check(data: Mapping[str, Any], parts: Catalogue) -> Iterator[Fault]:
    """One fault a figure of a spec that has passed its schema and whose names all lead somewhere."""
    for group in ("batteries", "isolation", "panels", "blocks", "accessories", "sources"):
        for name, item in section(data, group).items():
            yield from laxer((group, name), item, parts, SHORT.get(group, {}))
            for key in (k for k in ("relay", "power_off") if k in item):
                yield from laxer((group, name, key), item[key], parts, {})


def laxer(at: Path, item: Mapping[str, Any], parts: Catalogue, short: Mapping[str, str]) -> Iterator[Fault]:
    """What an item says of its part that asks for less than the part itself."""
    if "part" not in item or document(item):
        return
    base = parts[item["part"]]
    for key, trait in short.items():
        if key in item:
            yield from figures(at, trait, {key: item[key]}, base, item["part"])
    yield from traits(at, item, base, item["part"])


def of_own(at: Path, entry: Mapping[str, Any], base: Mapping[str, Any], name: str) -> Iterator[Fault]:
    """What the shop's entry for a shipped part says that asks for less than the part as shipped."""
    if not document(entry):
        yield from traits(at, entry, base, name)


def document(item: Mapping[str, Any]) -> str:
    """The document that stands behind an item's own figures, or ``."""
    return named_document(item.get("document")) or named_document(item.get("source"))


def traits(at: Path, item: Mapping[str, Any], base: Mapping[str, Any], part: str) -> Iterator[Fault]:
    for trait in (t for t in TRAITS if t in item and t in LAXER):
        yield from figures((*at, trait), trait, labelled(trait, item, base), base, part)
    yield from figures(at, "", item, base, part)
    yield from systems(at, item, base, part)


def systems(at: Path, item: Mapping[str, Any], base: Mapping[str, Any], part: str) -> Iterator[Fault]:
    """Voltages that the part is not made for."""
    before, now = base.get("systems", list(USUAL_SYSTEM)), item.get("systems", [])
    if {number(v, "voltage") for v in now} - {number(v, "voltage") for v in before}:
        yield "laxer-without-document", finding((*at, "systems"), part, "systems", (before, now))


def labelled(trait: str, item: Mapping[str, Any], base: Mapping[str, Any]) -> Mapping[str, Any]:
    """A trait as written; what an outlet draws is what its label and its fuse allow, so less is no slip."""
    written: Mapping[str, Any] = item[trait]
    label = item.get("outlet", {}).get("rating")
    if trait != "electrical" or "outlet" not in base or label is None or "worst" not in written:
        return written
    enough = number(written["worst"], "current") >= number(label, "current")
    return {key: value for key, value in written.items() if not (enough and key == "worst")}


def figures(
    at: Path, trait: str, written: Mapping[str, Any], base: Mapping[str, Any], part: str
) -> Iterator[Fault]:
    """Every figure of one trait that is laxer than the part's."""
    shipped = base.get(trait, {}) if trait else base
    for figure, way in LAXER[trait].items():
        before, now = found(shipped, figure), found(written, figure)
        if before is not None and now is not None and asks_less(way, before, now):
            yield "laxer-without-document", finding((*at, *figure.split(".")), part, figure, (before, now))
    if trait == "panel":
        yield from channels(at, written.get("channel_limits", {}), shipped, part)


def channels(at: Path, limits: Mapping[str, Any], shipped: Mapping[str, Any], part: str) -> Iterator[Fault]:
    """Limits of single channels, against the same channel of the part."""
    of_part = shipped.get("channel_limits", {})
    for channel, now in limits.items():
        before = of_part.get(channel, shipped.get("channel_limit"))
        if before is not None and asks_less(amps(MORE), before, now):
            yield (
                "laxer-without-document",
                finding((*at, "channel_limits", channel), part, f"channel {channel}", (before, now)),
            )


def found(group: Mapping[str, Any], figure: str) -> Any:
    """`inrush.times` of a group, or None."""
    key, _, rest = figure.partition(".")
    value = group.get(key)
    return value.get(rest) if rest and isinstance(value, Mapping) else None if rest else value


def asks_less(way: Way, before: Any, now: Any) -> bool:
    if isinstance(now, list):
        return not set(now) <= set(before)
    if way.dimension == "word":
        return bool(now != before and (way.value is None or now == way.value))
    old, new = (number(str(v), way.dimension) if way.dimension else float(v) for v in (before, now))
    return {LESS: new < old, MORE: new > old, OTHER: new != old}[way.laxer]


def finding(at: Path, part: str, figure: str, values: tuple[Any, Any]) -> Finding:
    old, new = (said(value) for value in values)
    key = "source" if at[0] == "parts" else "document"
    return Finding(
        at,
        f"`{figure}: {new}` asks for less than part `{part}` of the catalogue, {old}, and no document says so",
        f"write `{key}:` with the maker's sheet and its revision that gives {new}, keep {old}, "
        "or name the part that is fitted",
    )


def said(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(value)
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)
