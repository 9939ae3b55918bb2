"""Silence is not a pass: what a stage needs to know about a part and nobody has written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.catalogue import TRAITS, Catalogue, merged
from buildspec.findings import Finding, Path
from buildspec.resolve.names import Fault, section
from buildspec.validate import schema

NEEDED = {
    "batteries": ("battery", "chemistry and capacity"),
    "panels": ("panel", "kind, channels and their limits"),
    "blocks": ("block", "positions and their limits"),
}


def check(data: Mapping[str, Any], parts: Catalogue) -> tuple[Fault, ...]:
    """Missing ratings, one finding an item. `data` has its short forms written out."""
    return (
        *incomplete(data, parts),
        *traits(data, parts),
        *isolation(data, parts),
        *loads(data, parts),
        *contacts(data, parts),
    )


def full(item: Mapping[str, Any], parts: Catalogue) -> dict[str, Any]:
    return merged(item, parts.get(item.get("part", ""), {}))


def missing(at: Path, what: str, help: str) -> Fault:
    return "missing-rating", Finding(at, f"cannot check: {what}", help)


def traits(data: Mapping[str, Any], parts: Catalogue) -> Iterator[Fault]:
    for part, (trait, words) in NEEDED.items():
        for name, item in section(data, part).items():
            if trait not in full(item, parts):
                yield missing(
                    (part, name), f"{words} are not stated", f"name a part that has them, or write `{trait}:`"
                )
    for name, item in section(data, "batteries").items():
        if "role" not in item and name not in ("start", "house"):
            yield missing(
                ("batteries", name),
                "its side of the isolation is not stated",
                "write `role: start` or `role: house`",
            )


def isolation(data: Mapping[str, Any], parts: Catalogue) -> Iterator[Fault]:
    for name, item in section(data, "sources").items():
        if "charger" not in full(item, parts):
            yield missing(("sources", name), "its output is not stated", "write `output:` or name a part")
    for name, item in section(data, "isolation").items():
        trait = "charger" if item["type"] == "dc-dc" else "link"
        if trait not in full(item, parts):
            key = "output" if trait == "charger" else "rating"
            yield missing(
                ("isolation", name),
                f"the rating of this {item['type']} is not stated",
                f"write `{key}:` or name a part",
            )


def draws(trait: Mapping[str, Any]) -> bool:
    """Is the largest current known? The usual one is the largest only where the voltage does not move it."""
    steady = trait.get("model") == "constant-current" and "typical" in trait
    return "worst" in trait or "power" in trait or steady


def loads(data: Mapping[str, Any], parts: Catalogue) -> Iterator[Fault]:
    for name, item in section(data, "accessories").items():
        whole, at = full(item, parts), ("accessories", name)
        connected = any(key in item for key in ("fed_from", "switch"))
        current = "outlet" in whole or draws(whole.get("electrical", {}))
        if connected and not current:
            yield missing(
                at,
                "its current is not stated",
                "write `electrical:` with `power` or `worst`, from its maker's sheet",
            )
        if "electrical" in whole and not connected:
            yield (
                "no-single-feed",
                Finding(at, "it draws current and is connected to nothing", "write `switch` or `fed_from`"),
            )


def contacts(data: Mapping[str, Any], parts: Catalogue) -> Iterator[Fault]:
    for name, item in section(data, "accessories").items():
        for key in ("relay", "power_off"):
            if key in item and "contact" not in full(item[key], parts):
                yield missing(
                    ("accessories", name, key),
                    "its contact rating is not stated",
                    "name a part, or write `contact:` with `rating`",
                )


def incomplete(data: Mapping[str, Any], parts: Catalogue) -> Iterator[Fault]:
    """A trait, the part's and the item's keys taken together, that lacks a key it cannot do without."""
    for part in (*NEEDED, "isolation", "accessories", "sources"):
        for name, item in section(data, part).items():
            for path, holder in (
                (("",), item),
                *((((k, ""), item[k])) for k in ("relay", "power_off") if k in item),
            ):
                whole = full(holder, parts)
                at: Path = (part, name, *(k for k in path if k))
                for trait in (t for t in TRAITS if t in whole):
                    needed = schema("traits")["$defs"][trait].get("x-required", ())
                    lacking = [key for key in needed if key not in whole[trait]]
                    if lacking:
                        yield missing(
                            (*at, trait) if trait in holder else at,
                            f"`{trait}` lacks {', '.join(f'`{k}`' for k in lacking)}",
                            "write it, or name a part that has it",
                        )
