"""Generated specs of any size for tests of drawings: batteries, chargers, links, ties, panels, blocks, loads."""

from __future__ import annotations

import pathlib
from itertools import pairwise
from typing import Any

import yaml

from buildspec import layers, pipeline, resolve, size, validate
from buildspec.model import Sized
from buildspec.read import read_text

PLACES = ("engine-bay", "bulkhead", "roof-rail", "load-bed", "left-wall")
NASTY = "Lamp <b> & \"quoted\" 'thing' of a very long name that no column of any sheet can ever hold in full"


def base() -> dict[str, Any]:
    return {
        "buildspec": 1,
        "job": {
            "number": "T-9",
            "title": "Generated & <drawn>",
            "revision": "A",
            "date": "2026-10-05",
            "owner": {"name": "Fernhollow <Rivers> & Trust"},
        },
        "vehicle": {"description": "Double-cab pickup", "system": "12 V"},
        "places": {
            name: {
                "environment": "engine" if name == "engine-bay" else "cabin",
                "words": f"{name.replace('-', ' ')}, where it is",
            }
            for name in PLACES
        },
        "runs": [{"between": [a, b], "length": "1.4 m"} for a, b in pairwise(PLACES)],
        "grounds": {f"stud-{name}": {"at": name} for name in PLACES},
        "signals": {
            "ignition": {"at": "bulkhead", "kind": "ignition", "allowance": "0.5 A", "source": "survey"},
            "reverse": {"at": "load-bed", "kind": "relay output", "allowance": "0.5 A", "source": "survey"},
        },
        "batteries": {
            "start": {
                "chemistry": "flooded",
                "capacity": "80 Ah",
                "cranking": "760 A",
                "at": "engine-bay",
                "existing": True,
            }
        },
        "isolation": {},
        "panels": {},
        "blocks": {},
        "accessories": {},
        "reserves": {},
        "conductors": {},
    }


def add_house(data: dict[str, Any], count: int) -> list[str]:
    names = ["house", *(f"house-{n}" for n in range(2, count + 1))][:count]
    for n, name in enumerate(names):
        data["batteries"][name] = {
            "chemistry": "agm",
            "capacity": "75 Ah",
            "cranking": "520 A",
            "at": PLACES[n % 5],
            "role": "house",
        }
    return names


def add_isolation(data: dict[str, Any], houses: list[str], chargers: int, links: int) -> None:
    for n in range(chargers if houses else 0):
        data["isolation"][f"charger-{n}"] = {
            "type": "dc-dc",
            "from": "start",
            "to": houses[n % len(houses)],
            "output": "40 A",
            "at": PLACES[n % 5],
            "wake": "ignition" if n % 2 == 0 else "voltage",
        }
    kinds = ("momentary-link", "voltage-relay", "manual-switch")
    for n in range(links if houses else 0):
        data["isolation"][f"link-{n}"] = {
            "type": kinds[n % 3],
            "joins": ["start", houses[n % len(houses)]],
            "rating": "200 A",
            "at": PLACES[n % 5],
        }
    for first, second in pairwise(houses):
        data["conductors"][f"tie-{first}"] = {
            "from": first,
            "to": second,
            "fuses": {first: {}, second: {}},
            "note": NASTY,
        }


def add_hosts(data: dict[str, Any], houses: list[str], panels: int, blocks: int) -> list[str]:
    """Panels and blocks; every third block hangs on the block before it. Free positions are returned."""
    free: list[str] = []
    sources = houses or ["start"]
    for n in range(blocks):
        fed = f"block-{n - 1}.12" if n % 3 == 2 else sources[n % len(sources)]
        data["blocks"][f"block-{n}"] = {
            "block": {"positions": 12, "position_limit": "30 A", "total": "100 A", "family": "blade"},
            "fed_from": fed,
            "at": PLACES[n % 5],
            "empty": {"11": "the lid rests here, & a fuse <stops> it"},
        }
        free += [f"block-{n}.{k}" for k in range(1, 11)]
    for n in range(panels):
        kind = (
            {"kind": "solid-state", "modes": ["latching", "momentary", "triggered"]}
            if n % 2 == 0
            else {"kind": "rocker", "fuse_family": "blade"}
        )
        data["panels"][f"panel-{n}"] = {
            "panel": {
                **kind,
                "channels": 8,
                "channel_limit": "15 A",
                "total": "100 A",
                "after_trip": "press again",
            },
            "fed_from": sources[n % len(sources)],
            "module_at": PLACES[(n + 1) % 5],
        }
        free += [f"panel-{n}.{k}" for k in range(1, 8)]
    return free


def joined(n: int) -> dict[str, Any]:
    """A star or a chain of two items."""
    star = n % 16 == 1
    return {"form": "star" if star else "chain", "lengths": ["0.8 m", "1.1 m"] if star else ["1.4 m"]}


def add_loads(data: dict[str, Any], free: list[str], count: int, direct: int) -> None:
    houses = [n for n in data["batteries"] if n != "start"] or ["start"]
    for n in range(direct):
        data["accessories"][f"direct-{n}"] = {
            "at": PLACES[n % 5],
            "fed_from": houses[n % len(houses)],
            "electrical": {"model": "motor", "worst": "20 A"},
            "title": NASTY,
        }
    for n in range(count):
        way = free[n % len(free)]
        key = "switch" if way.startswith("panel") else "fed_from"
        if n % 6 == 5:
            data["reserves"][f"later-{n}"] = {
                "at": PLACES[n % 5],
                key: way,
                "allow": "4 A",
                "end": f"behind trim {n} <left>",
                "cap": "heat-shrink cap",
            }
            continue
        item: dict[str, Any] = {
            "at": PLACES[n % 5],
            key: way,
            "electrical": {"model": "constant-current", "worst": "3 A"},
        }
        item |= {"lamp": {"kind": "work", "colour": "white"}} if n % 3 == 0 else {}
        item |= {"quantity": 2, "title": NASTY} if n % 4 == 1 else {}
        item |= {"branches": joined(n)} if n % 8 == 1 else {}
        item |= {"return": "body"} if n % 7 == 3 else {}
        if n % 5 == 2 and key == "fed_from":
            item |= {
                "relay": {"contact": {"rating": "30 A", "coil": "0.2 A"}, "at": PLACES[(n + 1) % 5]},
                "trigger": "reverse",
            }
            item |= {"power_off": {"contact": {"rating": "30 A"}, "at": "bulkhead"}}
        data["accessories"][f"load-{n}"] = item


def spec(
    loads: int,
    *,
    houses: int = 1,
    chargers: int = 1,
    links: int = 0,
    panels: int = 1,
    blocks: int = 1,
    direct: int = 0,
    alternator: bool = True,
) -> dict[str, Any]:
    data = base()
    if alternator:
        data["vehicle"]["alternator"] = {
            "rated": "150 A",
            "controlled": True,
            "allowance": "65 A",
            "source": "survey",
        }
    names = add_house(data, houses)
    add_isolation(data, names, chargers, links)
    free = add_hosts(data, names, panels, blocks)
    add_loads(data, free, loads, direct)
    return {key: value for key, value in data.items() if value not in ({}, [])}


def built(data: dict[str, Any], practice: dict[str, Any] | None = None) -> Sized:
    """The spec read, validated, resolved and sized; the rules have no part in a drawing."""
    text = yaml.safe_dump(data, sort_keys=False, allow_unicode=True)
    document, said = read_text(text, file="generated", doc="spec")
    assert document is not None, said
    said = validate.check_schema(document, "spec")
    assert not said, [d.message for d in said]
    build, faults = resolve.resolve(document.data, layers.of_practice(practice or {}), {})
    assert build is not None, faults
    return size.size(build)


def example(path: pathlib.Path) -> Sized:
    """A shipped example sized; whether it passes the rules is not asked here."""
    spec_file, _, said = pipeline.spec_of(path)
    assert spec_file is not None, said
    practice, _ = pipeline.practice_of(path, spec_file)
    build, faults = resolve.resolve(spec_file.data, layers.of_practice(practice.data if practice else {}), {})
    assert build is not None, faults
    return size.size(build)


CASES: dict[str, dict[str, Any]] = {
    "three circuits, one battery": {"loads": 3, "houses": 0, "chargers": 0, "panels": 0, "alternator": False},
    "nothing but a panel": {"loads": 4, "houses": 1, "chargers": 0, "panels": 1, "blocks": 0},
    "usual": {"loads": 14, "links": 1, "direct": 2},
    "three house batteries": {
        "loads": 20,
        "houses": 3,
        "chargers": 3,
        "links": 3,
        "panels": 2,
        "blocks": 3,
        "direct": 3,
    },
    "many direct loads": {"loads": 6, "houses": 2, "direct": 12},
    "sixty": {"loads": 52, "houses": 2, "chargers": 2, "links": 2, "panels": 3, "blocks": 5, "direct": 8},
    "many blocks": {"loads": 8, "houses": 1, "panels": 4, "blocks": 9},
}
