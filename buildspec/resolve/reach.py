"""Can every used place be reached over the runs, and does every return find a ground? No feed in a loop?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.findings import Finding, Path
from buildspec.resolve import points
from buildspec.resolve.items import runs
from buildspec.resolve.names import Fault, section
from buildspec.resolve.routes import shortest


def check(data: Mapping[str, Any]) -> tuple[Fault, ...]:
    """Faults of a spec whose names all lead somewhere."""
    return (*unreachable(data), *groundless(data), *loops(data))


def wired_places(data: Mapping[str, Any]) -> Iterator[tuple[Path, str]]:
    """Places to which a conductor must be laid, with the path that says so."""
    for part, keys in (
        ("batteries", ("at",)),
        ("isolation", ("at",)),
        ("panels", ("module_at",)),
        ("blocks", ("at",)),
        ("reserves", ("at",)),
        ("sources", ("at",)),
    ):
        for name, item in section(data, part).items():
            yield from (((part, name, key), item[key]) for key in keys)
    for name in points.used(data):
        yield ("feeds", name, "at"), data["feeds"][name]["at"]
    for name, item in section(data, "accessories").items():
        if "fed_from" in item or "switch" in item:
            yield ("accessories", name, "at"), item["at"]
            for key in (k for k in ("relay", "power_off") if k in item):
                yield ("accessories", name, key, "at"), item[key]["at"]
            if "trigger" in item:
                yield ("signals", item["trigger"], "at"), data["signals"][item["trigger"]]["at"]
    for item in section(data, "isolation").values():
        if item.get("wake") in section(data, "signals"):
            yield ("signals", item["wake"], "at"), data["signals"][item["wake"]]["at"]


def unreachable(data: Mapping[str, Any]) -> Iterator[Fault]:
    laid = runs(data)
    origin = next(iter(data["batteries"].values()))["at"]
    reported: set[str] = set()
    for path, place in wired_places(data):
        if place not in reported and shortest(laid, origin, place) is None:
            reported.add(place)
            yield (
                "no-route",
                Finding(
                    path,
                    f"no run leads from `{origin}` to `{place}`",
                    "add the run under `runs`, with its two places and its length",
                ),
            )


def groundless(data: Mapping[str, Any]) -> Iterator[Fault]:
    origin = next(iter(data["batteries"].values()))["at"]
    laid = runs(data)
    points = [
        g for g in section(data, "grounds").values() if "post_of" not in g and shortest(laid, origin, g["at"])
    ]
    if not points:
        yield (
            "no-ground",
            Finding(
                ("grounds",) if "grounds" in data else ("vehicle",),
                "no ground point can be reached: returns have nowhere to end",
                "add a stud under `grounds`, with its place",
            ),
        )


def loops(data: Mapping[str, Any]) -> Iterator[Fault]:
    """A block that is fed, in the end, from itself."""
    fed: dict[str, list[str]] = {}
    for part in ("blocks", "panels"):
        for name, item in section(data, part).items():
            listed = item["fed_from"] if isinstance(item["fed_from"], list) else [item["fed_from"]]
            fed[name] = [text.partition(".")[0] for text in listed]
    for name in fed:
        seen, front = set(), list(fed[name])
        while front:
            node = front.pop()
            if node == name:
                part = "blocks" if name in section(data, "blocks") else "panels"
                yield (
                    "feed-loop",
                    Finding(
                        (part, name, "fed_from"),
                        f"`{name}` is fed from itself",
                        "feed one block of the ring from a battery",
                    ),
                )
                break
            if node not in seen:
                seen.add(node)
                front += fed.get(node, [])
