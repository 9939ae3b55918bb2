"""Random but well-formed specs: panels, blocks, loads, places and runs drawn from a seeded generator."""

from __future__ import annotations

import random
from typing import Any, NamedTuple

import yaml

from buildspec import pipeline, validate
from buildspec.findings import Diagnostic
from buildspec.model import Sized
from buildspec.read import Document, read_text

ENVIRONMENTS = ("engine", "cabin", "outside", "underbody", "cabin", "cabin")


class Shape(NamedTuple):
    """How large a generated build is."""

    panels: int
    blocks: int
    loads: int
    reserves: int = 1


def shape(dice: random.Random) -> Shape:
    return Shape(
        panels=dice.randint(1, 3),
        blocks=dice.randint(0, 2),
        loads=dice.randint(1, 20),
        reserves=dice.randint(0, 3),
    )


def spec(seed: int, size: Shape | None = None) -> dict[str, Any]:
    """A spec by its seed; `size` overrides what the seed would draw."""
    dice = random.Random(seed)
    size = size or shape(dice)
    places = [f"place-{n}" for n in range(dice.randint(2, 6))]
    data = frame(dice, places)
    free = [*panels(dice, data, places, size.panels), *blocks(dice, data, places, size.blocks)]
    dice.shuffle(free)
    for n, way in enumerate(free[: size.loads]):
        data["accessories"][f"load-{n}"] = load(dice, places, way, n)
    for n, way in enumerate(free[size.loads : size.loads + size.reserves]):
        data["reserves"][f"later-{n}"] = reserve(dice, places, way, n)
    return {key: value for key, value in data.items() if value not in ({}, [])}


def frame(dice: random.Random, places: list[str]) -> dict[str, Any]:
    """Vehicle, places in a tree of runs, a stud at each place, two batteries and a charger between them."""
    runs = [
        {
            "between": [places[dice.randrange(n)], place],
            "length": f"{dice.uniform(0.3, 3.5):.2f} m",
            "through": dice.choice(["grommet", "gland"]),
        }
        for n, place in enumerate(places)
        if n
    ]
    return {
        "buildspec": 1,
        "job": {
            "number": "G-1",
            "title": "Generated",
            "revision": "A",
            "date": "2026-10-05",
            "owner": {"name": "Fernhollow Rivers Trust"},
        },
        "vehicle": {
            "description": "Double-cab pickup",
            "system": "12 V",
            "engine": {"fuel": "diesel", "displacement": "2.0 l"},
            "alternator": {"rated": "150 A", "controlled": True, "allowance": "65 A", "source": "survey"},
            "sensed_post": "start",
        },
        "places": {
            p: {"environment": "engine" if n == 0 else dice.choice(ENVIRONMENTS)}
            for n, p in enumerate(places)
        },
        "runs": runs,
        "grounds": {f"stud-{place}": {"at": place} for place in places},
        "signals": {
            "ignition": {"at": places[-1], "kind": "ignition", "allowance": "0.5 A", "source": "survey"}
        },
        "batteries": {
            "start": {
                "chemistry": "flooded",
                "capacity": "80 Ah",
                "cranking": "760 A",
                "at": places[0],
                "existing": True,
            },
            "house": {
                "battery": {"chemistry": "agm", "capacity": "100 Ah", "max_charge": "45 A"},
                "cranking": "520 A",
                "at": dice.choice(places),
            },
        },
        "isolation": {
            "charger": {
                "type": "dc-dc",
                "from": "start",
                "to": "house",
                "output": "40 A",
                "wake": "ignition",
                "at": dice.choice(places),
            }
        },
        "panels": {},
        "blocks": {},
        "accessories": {},
        "reserves": {},
    }


def panels(dice: random.Random, data: dict[str, Any], places: list[str], count: int) -> list[str]:
    """Panels of eight channels on the house battery; free channels are returned."""
    for n in range(count):
        trait: dict[str, Any] = {"kind": "solid-state", "modes": ["latching"]}
        if dice.random() < 0.4:
            trait = {"kind": "rocker", "fuse_family": "blade", "modes": ["latching"]}
        data["panels"][f"panel-{n}"] = {
            "panel": {
                **trait,
                "channels": 8,
                "channel_limit": dice.choice(["10 A", "15 A", "30 A"]),
                "total": "150 A",
                "after_trip": "press again",
            },
            "fed_from": "house",
            "module_at": dice.choice(places),
        }
    return [f"switch panel-{n}.{k}" for n in range(count) for k in range(1, 9)]


def blocks(dice: random.Random, data: dict[str, Any], places: list[str], count: int) -> list[str]:
    """Blocks of six positions, the second behind the first now and then; free positions are returned."""
    free = []
    for n in range(count):
        behind = n == 1 and dice.random() < 0.5
        data["blocks"][f"block-{n}"] = {
            "block": {
                "positions": 6,
                "position_limit": "60 A" if n == 0 else "30 A",
                "total": "150 A",
                "family": "maxi-blade" if n == 0 else "blade",
            },
            "fed_from": "block-0.6" if behind else "house",
            "at": dice.choice(places),
        }
        free += [f"fed_from block-{n}.{k}" for k in range(1, 6)]
    return free


def load(dice: random.Random, places: list[str], way: str, number: int) -> dict[str, Any]:
    key, _, where = way.partition(" ")
    amps = round(dice.choice([dice.uniform(0.2, 3), dice.uniform(3, 9), dice.uniform(9, 20)]), 1)
    electrical: dict[str, Any] = dice.choice(
        [
            {"model": "constant-current", "worst": f"{amps} A"},
            {"model": "constant-power", "power": f"{amps * 11:.0f} W"},
            {"model": "resistive", "power": f"{amps * 11:.0f} W"},
            {"model": "motor", "worst": f"{amps} A", "continuous": False},
        ]
    )
    electrical = {**electrical, "drop": dice.choice(["critical", "general", "general"])}
    item: dict[str, Any] = {"at": dice.choice(places), key: where, "electrical": electrical}
    item |= {"legend": f"L {number}"} if key == "switch" else {}
    item |= {"return": "body"} if dice.random() < 0.2 else {}
    return item


def reserve(dice: random.Random, places: list[str], way: str, number: int) -> dict[str, Any]:
    key, _, where = way.partition(" ")
    item = {
        "at": dice.choice(places),
        key: where,
        "allow": f"{dice.choice([1, 2, 4, 6])} A",
        "end": f"behind trim {number}",
        "cap": "heat-shrink cap",
        "purpose": f"spare {number}",
    }
    return {**item, "legend": f"R {number}"} if key == "switch" else item


def document(data: dict[str, Any]) -> Document:
    """A spec as it is read from a file that has passed its schema."""
    found, said = read_text(yaml.safe_dump(data, sort_keys=False, allow_unicode=True), file="generated")
    assert found is not None, said
    shape_faults = validate.check_schema(found, "spec")
    assert not shape_faults, [d.message for d in shape_faults]
    return found


def checked(data: dict[str, Any]) -> tuple[Sized, tuple[Diagnostic, ...]]:
    """The sized build of a spec and everything that the rules say of it."""
    outcome = pipeline.check_documents(document(data), None, {})
    assert outcome.build is not None, [d.message for d in outcome.diagnostics]
    return outcome.build, outcome.diagnostics
