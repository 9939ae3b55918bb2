"""Do the names in a spec lead anywhere? Everything here must hold before a build can be made."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from buildspec.catalogue import Catalogue
from buildspec.findings import Finding, Path

Data = Mapping[str, Any]
Fault = tuple[str, Finding]
"""Rule name and finding of a stage."""

NAMED = [
    "places",
    "grounds",
    "signals",
    "feeds",
    "batteries",
    "isolation",
    "panels",
    "blocks",
    "accessories",
    "reserves",
    "sources",
]
SOURCES = ("batteries", "blocks", "panels")


def check(data: Data, catalogue: Catalogue) -> tuple[Fault, ...]:
    """Every fault of reference in a spec that has passed its schema."""
    return (
        *repeated(data),
        *places(data),
        *passed(data),
        *parts(data, catalogue),
        *feeds(data, catalogue),
        *ways(data, catalogue),
        *others(data),
    )


def section(data: Data, name: str) -> Mapping[str, Any]:
    found: Mapping[str, Any] = data.get(name, {})
    return found


def unknown(at: Path, what: str, name: str, known: Iterable[str]) -> Fault:
    """`name` is not one of `known`; the nearest one is offered."""
    names = sorted(known)
    near = difflib.get_close_matches(name, names, 1)
    listed = ", ".join(f"`{n}`" for n in names) or "none"
    help = f"did you mean `{near[0]}`?" if near else f"known here: {listed}"
    return "unknown-name", Finding(at, f"{what} `{name}` is not defined", help)


def repeated(data: Data) -> Iterator[Fault]:
    """One name means one thing, whatever section it is in."""
    first: dict[str, Path] = {}
    for part in NAMED:
        for name in section(data, part):
            if name in first and first[name] != (part, name):
                yield (
                    "name-used-twice",
                    Finding(
                        (part, name),
                        f"`{name}` names something in `{part}` and in `{first[name][0]}`",
                        "give each thing a name of its own; labels and drawings use it",
                        ((first[name], "first used here"),),
                    ),
                )
            first.setdefault(name, (part, name))


def place_references(data: Data) -> Iterator[Path]:
    for part, keys in (
        ("grounds", ("at",)),
        ("signals", ("at",)),
        ("feeds", ("at",)),
        ("tie_downs", ("at",)),
        ("batteries", ("at",)),
        ("isolation", ("at",)),
        ("panels", ("module_at", "keypad_at")),
        ("blocks", ("at",)),
        ("accessories", ("at",)),
        ("reserves", ("at",)),
        ("sources", ("at",)),
        ("holes", ("at",)),
    ):
        for name, item in section(data, part).items():
            yield from ((part, name, key) for key in keys if key in item)
            yield from ((part, name, k, "at") for k in ("relay", "power_off") if k in item)
    for key in ("occupants", "cargo", "removed"):
        yield from (("vehicle", key, n, "at") for n, _ in enumerate(data["vehicle"].get(key, ())))
    for index, run in enumerate(data.get("runs", ())):
        yield from (("runs", index, "between", end) for end in range(len(run["between"])))


def passed(data: Data) -> Iterator[Fault]:
    """Holes that runs, and the leads of items, pass."""
    holes = section(data, "holes")
    users: list[tuple[Path, Any]] = [(("runs", n), run) for n, run in enumerate(data.get("runs", ()))]
    users += [(("accessories", name), item) for name, item in section(data, "accessories").items()]
    for path, user in users:
        for nth, name in enumerate(user.get("passes", ())):
            if name not in holes:
                yield unknown((*path, "passes", nth), "hole", name, holes)


def at(data: Data, path: Path) -> Any:
    value: Any = data
    for key in path:
        value = value[key]
    return value


def places(data: Data) -> Iterator[Fault]:
    known = section(data, "places")
    for path in place_references(data):
        if at(data, path) not in known:
            yield unknown(path, "place", at(data, path), known)


def parts(data: Data, catalogue: Catalogue) -> Iterator[Fault]:
    for part in ("batteries", "isolation", "panels", "blocks", "accessories", "sources"):
        for name, item in section(data, part).items():
            for path, holder in (
                (("part",), item),
                *((((k, "part"), item[k])) for k in ("relay", "power_off") if k in item),
            ):
                if "part" in holder and holder["part"] not in catalogue:
                    yield unknown((part, name, *path), "part", holder["part"], catalogue)


def feed_faults(data: Data, catalogue: Catalogue, path: Path, text: str) -> Iterator[Fault]:
    """`battery`, `feed`, `block.position`."""
    name, _, position = text.partition(".")
    blocks, whole = section(data, "blocks"), (*section(data, "batteries"), *section(data, "feeds"))
    if name in whole and not position:
        return
    if name in whole:
        yield (
            "unknown-name",
            Finding(path, f"`{name}` has no positions", f"write `{name}`"),
        )
    elif name not in blocks:
        yield unknown(path, "source", name, [*whole, *blocks])
    elif not (position.isascii() and position.isdigit()) or int(position) < 1:
        yield (
            "unknown-name",
            Finding(
                path,
                f"`{text}` does not say which position of `{name}`",
                f"write `{name}.1` or another position",
            ),
        )
    else:
        yield from over_count(data, catalogue, path, "blocks", name, int(position))


def over_count(
    data: Data, catalogue: Catalogue, path: Path, part: str, name: str, number: int
) -> Iterator[Fault]:
    item = data[part][name]
    trait = {"blocks": "block", "panels": "panel"}[part]
    word = {"blocks": "positions", "panels": "channels"}[part]
    merged = {**catalogue.get(item.get("part", ""), {}).get(trait, {}), **item.get(trait, {})}
    if word in merged and number > merged[word]:
        yield (
            "unknown-name",
            Finding(
                path,
                f"`{name}.{number}` does not exist: `{name}` has {merged[word]} {word}",
                f"use 1 to {merged[word]}, or a larger {trait}",
                (((part, name), f"`{name}` is defined here"),),
            ),
        )


def feeds(data: Data, catalogue: Catalogue) -> Iterator[Fault]:
    for part in ("panels", "blocks", "accessories", "reserves"):
        for name, item in section(data, part).items():
            path: Path = (part, name, "fed_from")
            fed = item.get("fed_from", ())
            for index, text in enumerate([fed] if isinstance(fed, str) else fed):
                yield from feed_faults(
                    data, catalogue, path if isinstance(fed, str) else (*path, index), text
                )
            yield from switch_faults(data, catalogue, (part, name, "switch"), item.get("switch"))
            if part in ("accessories", "reserves"):
                yield from connection_faults((part, name), item)
                yield from left_out_faults(data, catalogue, (part, name), item)
            for position in item.get("empty", ()):
                yield from over_count(
                    data, catalogue, (part, name, "empty", position), part, name, int(position)
                )


def left_out_faults(data: Data, catalogue: Catalogue, path: Path, item: Mapping[str, Any]) -> Iterator[Fault]:
    """An electronic channel is its own protective device: there is nothing to leave out."""
    panel = section(data, "panels").get(item.get("switch", "").partition(".")[0])
    if panel is None or "fed_from" in item or "none" not in item.get("fuse", {}):
        return
    base = catalogue.get(panel.get("part", ""), {}).get("panel", {})
    if {**base, **panel.get("panel", {})}.get("kind") == "solid-state":
        yield (
            "no-single-feed",
            Finding(
                (*path, "fuse", "none"),
                f"`{item['switch']}` is an electronic channel; its limit cannot be left out",
                "drop `none`, or write `rating` to set the limit",
            ),
        )


def connection_faults(path: Path, item: Mapping[str, Any]) -> Iterator[Fault]:
    """Does an item have exactly one way to its power?"""
    fed, switch, trigger = (key in item for key in ("fed_from", "switch", "trigger"))
    if path[0] == "reserves" and fed == switch:
        yield (
            "no-single-feed",
            Finding(
                path,
                "a reserve needs one of `switch` and `fed_from`",
                "write the key or the position that it is left on",
            ),
        )
    if path[0] == "accessories" and fed and (switch or trigger) and "relay" not in item:
        word = "switch" if switch else "trigger"
        yield (
            "no-single-feed",
            Finding(
                (*path, word),
                f"`{word}` and `fed_from` are both written, and nothing joins them",
                "add `relay` with its place, commanded by the first and carrying the second, or drop one",
            ),
        )
    if path[0] == "accessories" and "relay" in item and not (fed and (switch or trigger)):
        yield (
            "no-single-feed",
            Finding(
                (*path, "relay"),
                "a relay needs `fed_from` for its power and `switch` or `trigger` for its coil",
                "write the missing one",
            ),
        )


def switch_faults(data: Data, catalogue: Catalogue, path: Path, text: str | None) -> Iterator[Fault]:
    if text is None:
        return
    name, _, channel = text.partition(".")
    if name not in section(data, "panels"):
        yield unknown(path, "panel", name, section(data, "panels"))
    else:
        yield from over_count(data, catalogue, path, "panels", name, int(channel))


def ways(data: Data, catalogue: Catalogue) -> Iterator[Fault]:
    """Isolation devices and written conductors."""
    batteries = section(data, "batteries")
    for name, item in section(data, "isolation").items():
        path: Path = ("isolation", name)
        wanted = ("from", "to") if item["type"] == "dc-dc" else ("joins",)
        for key in (k for k in wanted if k not in item):
            yield (
                "missing-end",
                Finding(path, f"a {item['type']} needs `{key}`", "name the batteries that it joins"),
            )
        ends = [((*path, k), item[k]) for k in ("from", "to") if k in item]
        ends += [((*path, "joins", n), end) for n, end in enumerate(item.get("joins", ()))]
        feeds = section(data, "feeds") if item["type"] == "dc-dc" else {}
        yield from (
            unknown(p, "battery", end, [*batteries, *(feeds if p[-1] == "from" else ())])
            for p, end in ends
            if end not in batteries and not (p[-1] == "from" and end in feeds)
        )
        yield from alike(ends)
        known = [end for _, end in ends]
        yield from (
            unknown((*path, "fuses", end), "end", end, known)
            for end in item.get("fuses", {})
            if end not in known
        )
        yield from switch_faults(data, catalogue, (*path, "switch"), item.get("switch"))
    nodes = {name for part in SOURCES for name in section(data, part)}
    for name, item in section(data, "conductors").items():
        for key in ("from", "to"):
            if item[key] not in nodes:
                yield unknown(("conductors", name, key), "source", item[key], nodes)
        yield from alike([(("conductors", name, key), item[key]) for key in ("from", "to")])
        for end in item.get("fuses", {}):
            if end not in (item["from"], item["to"]):
                yield unknown(("conductors", name, "fuses", end), "end", end, (item["from"], item["to"]))


def alike(ends: list[tuple[Path, str]]) -> Iterator[Fault]:
    """Two ends that are the same thing."""
    if len(ends) == 2 and ends[0][1] == ends[1][1]:
        yield (
            "ends-alike",
            Finding(ends[1][0], f"both ends are `{ends[0][1]}`", "name the two things that it joins"),
        )


def others(data: Data) -> Iterator[Fault]:
    """Signals, grounds and batteries that are named in passing."""
    signals, grounds, batteries = (section(data, n) for n in ("signals", "grounds", "batteries"))
    for part in ("batteries", "panels", "blocks", "accessories", "reserves", "sources"):
        for name, item in section(data, part).items():
            back = item.get("return", "own")
            if back not in (*grounds, "own", "body"):
                yield unknown((part, name, "return"), "ground", back, [*grounds, "own", "body"])
            if "trigger" in item and item["trigger"] not in signals:
                yield unknown((part, name, "trigger"), "signal", item["trigger"], signals)
    for name, item in section(data, "isolation").items():
        if item.get("wake", "voltage") not in (*signals, "voltage"):
            yield unknown(("isolation", name, "wake"), "signal", item["wake"], [*signals, "voltage"])
    for name, item in grounds.items():
        if "post_of" in item and item["post_of"] not in batteries:
            yield unknown(("grounds", name, "post_of"), "battery", item["post_of"], batteries)
    post = data["vehicle"].get("sensed_post", "")
    if post and post not in batteries:
        yield unknown(("vehicle", "sensed_post"), "battery", post, batteries)
    for name, item in section(data, "sources").items():
        if item["to"] not in batteries:
            yield unknown(("sources", name, "to"), "battery", item["to"], batteries)
    yield from own_states(data)
    yield from of_vehicle(data)


def of_vehicle(data: Data) -> Iterator[Fault]:
    """What the vehicle's points, and those who use them, name."""
    batteries, groups, ties = (section(data, n) for n in ("batteries", "feed_groups", "tie_downs"))
    for name, item in section(data, "feeds").items():
        if item.get("from", "") and item["from"] not in batteries:
            yield unknown(("feeds", name, "from"), "battery", item["from"], batteries)
        if item.get("group", "") and item["group"] not in groups:
            yield unknown(("feeds", name, "group"), "feed group", item["group"], groups)
    for name, item in section(data, "zones").items():
        for index, place in enumerate(item["places"]):
            if place not in section(data, "places"):
                yield unknown(("zones", name, "places", index), "place", place, section(data, "places"))
    for name, item in section(data, "accessories").items():
        for index, tie in enumerate(item.get("tie_downs", ())):
            if tie not in ties:
                yield unknown(("accessories", name, "tie_downs", index), "tie-down", tie, ties)


WORD_OF = {"isolation": "link or charger", "sources": "source", "accessories": "accessory"}


def own_states(data: Data) -> Iterator[Fault]:
    """What the states of a spec name."""
    known = {"closed": "isolation", "sources": "sources", "on": "accessories"}
    for name, item in section(data, "states").items():
        for key, part in known.items():
            for index, text in enumerate(item.get(key, ())):
                if text not in section(data, part):
                    yield unknown(("states", name, key, index), WORD_OF[part], text, section(data, part))
