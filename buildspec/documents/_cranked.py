"""Cranking, by the key alone and over a link: what should be read, with the state of each link."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.documents import _checks as checks
from buildspec.documents import _words as words
from buildspec.model import Isolation, Resolved, Sized
from buildspec.network import cranking
from buildspec.network.build import Laid

HEALTHY_V = 9.6
"""Kept by a healthy 12 V battery while cranking; common practice, no source."""
OPEN, CLOSED = "open", "closed"
STATE_WORDS = {"dc-dc": "off", "momentary-link": "not held", "voltage-relay": OPEN, "manual-switch": OPEN}


def plain(sized: Sized) -> Iterator[dict[str, str]]:
    """A start by the key: every way between the two sides apart, unless the spec says that it is closed then."""
    build = sized.build
    start = next((b for b in build.batteries.values() if b.role == "start"), None)
    if start is None:
        return
    how = f"engine cranked by the key; {', '.join(state(build, w) for w in build.isolation.values()) or 'no link'}"
    where = words.capital(words.node(build, start.name))
    yield checks.row(
        f"{where} while cranking", how, f"{show.volts(least_v(build))} or more, engine turns at once"
    )
    for name in (n for n, b in build.batteries.items() if b.role != "start"):
        apart = all(w.crank != CLOSED or w.type == "momentary-link" for w in build.isolation.values())
        expected = (
            f"unchanged within {show.volts(checks.SAME_V)}" if apart else "falls with the start battery"
        )
        yield checks.row(f"{words.capital(words.node(build, name))} while cranking", how, expected)


def least_v(build: Resolved) -> float:
    """What a healthy battery keeps while cranking [V]."""
    return HEALTHY_V * build.practice.nominal_v / 12.0


def state(build: Resolved, way: Isolation) -> str:
    """`assist K1 not held`, `charger T1 off, its wake fuse F3 out`."""
    stated = CLOSED if way.crank == CLOSED and way.type != "momentary-link" else STATE_WORDS[way.type]
    wake = next(
        (c for c in build.circuits if c.kind == "signal" and c.item == way.name and c.protections), None
    )
    out = f", its wake fuse {wake.protections[0].designation} out" if wake and way.type == "dc-dc" else ""
    return f"{words.node(build, way.name)} {stated}{out}"


def helped(sized: Sized) -> Iterator[dict[str, str]]:
    """A start over a link that a hand holds: the network's answer with the start battery giving nothing."""
    build = sized.build
    for way in (w for w in build.isolation.values() if w.type == "momentary-link"):
        found = cranking.of(Laid(build, sized.sizings), way)
        start = next((e for e in way.ends if build.batteries[e].role == "start"), None)
        if found is None or start is None:
            continue
        name = words.capital(words.node(build, way.name))
        yield checks.row(
            f"{name}: {words.node(build, start)} while cranking",
            f"held; starter {show.amps(found.starter.amps)}; dead start battery is the worst case",
            f"{show.volts(found.posts_v)} or more",
        )
        yield checks.row(
            f"{name}: current",
            "held, clamp ammeter on its cable while cranking",
            f"about {show.amps(found.shared_a)} with a good start battery, at most {show.amps(found.link_a)}",
        )
