"""Starting the engine over a link: what flows in it, and what is left at the starter.

The start battery is taken as dead and giving nothing: the worst for the link, its fuses and the voltage. With a
start battery that still works the link carries a share only; that figure is given beside.
"""

from __future__ import annotations

from typing import NamedTuple

from buildspec import show
from buildspec.calc import battery as cells
from buildspec.calc import cranking
from buildspec.model import Isolation, Resolved
from buildspec.network import build as made
from buildspec.network import isolation, posts
from buildspec.network.build import Laid
from buildspec.network.elements import Current, Network, Solution, Source
from buildspec.network.solve import solve
from buildspec.network.states import Mode


class Starter(NamedTuple):
    """What the starter takes, and who says so."""

    amps: float
    words: str


class Crank(NamedTuple):
    """One start over a link."""

    starter: Starter
    posts_v: float
    """At the posts of the dead start battery."""
    link_a: float
    """Through the link, the start battery dead."""
    shared_a: float
    """Through the link, the start battery at rest and in the cold."""


def starter(build: Resolved, way: Isolation) -> Starter | None:
    """Starter current for a link: the vehicle's own figure, else half of the cold cranking rating."""
    own = build.vehicle.own_a.get("crank")
    if own:
        return Starter(own, build.vehicle.own_source or "as written for the vehicle")
    rating = isolation.cold_cranking_a(build, way)
    if rating is None:
        return None
    words = f"half of {show.amps(rating)} cold cranking, workshop load test"
    return Starter(cranking.expected_a(cold_cranking_a=rating), words)


def attempt_s(way: Isolation) -> float:
    """How long one attempt lasts [s]: the link's own short time, else that of the load test."""
    trait = way.part.link
    stated = trait.short_time_s if trait is not None else None
    return stated if stated is not None else cranking.ATTEMPT_S


def least_v(build: Resolved) -> float:
    """Voltage at the posts that a start battery keeps at its cold cranking rating [V]."""
    return cells.CRANKING_TEST_END_V * build.practice.nominal_v / 12.0


def of(laid: Laid, way: Isolation) -> Crank | None:
    """One start over a link; None where the starter's current is not known."""
    wanted = starter(laid.build, way)
    start = next((name for name in way.ends if laid.build.batteries[name].role == "start"), None)
    if wanted is None or start is None:
        return None
    dead = solved(network(laid, way, start, wanted.amps, helps=False))
    weak = solved(network(laid, way, start, wanted.amps, helps=True))
    post = laid.build.batteries[start].designation
    left = dead.volts[f"{post}:+"] - dead.volts[f"{post}:−"]
    return Crank(wanted, left, abs(dead.amps[way.name]), abs(weak.amps[way.name]))


def network(laid: Laid, way: Isolation, start: str, amps: float, *, helps: bool) -> Network:
    """Cranking with one link closed; `helps`: the start battery gives what it can."""
    build = laid.build
    whole = made.network(laid, Mode("crank", "stopped", frozenset({way.name}), frozenset()))
    batteries = [b for b in build.batteries.values() if helps or b.name != start]
    sources = tuple(
        Source(
            b.name,
            f"{b.designation}:+",
            f"{b.designation}:−",
            made.rest_v(build, b),
            posts.weak_ohm(build, b),
        )
        for b in batteries
    )
    post = build.batteries[start].designation
    return whole._replace(sources=sources, currents=(Current("starter", f"{post}:+", f"{post}:−", amps),))


def solved(network: Network) -> Solution:
    made_up = solve(network)
    assert isinstance(made_up, Solution), "a network without constant power always has a working point"
    return made_up
