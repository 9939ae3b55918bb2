"""What several rules about the vehicle's own points need: which are used, by what, and what they may give."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.model import Block, Circuit, Feed, Resolved, Sized
from buildspec.size import currents


def used(build: Resolved) -> Iterator[tuple[Block, Feed]]:
    """Every feed that something is joined to, with the node that stands for it."""
    for block in build.blocks.values():
        if block.feed is not None:
            yield block, block.feed


def joined(build: Resolved, name: str) -> tuple[Circuit, ...]:
    """Circuits that are joined to a feed, in the order of the spec."""
    return tuple(c for c in build.circuits if c.source == name and c.kind in currents.DRAWING)


def allows_a(build: Resolved, feed: Feed) -> float | None:
    """What a feed gives for good [A]: the vehicle's own figure, or the shop's share of its fuse; None unsurveyed."""
    if feed.allows_a is not None:
        return feed.allows_a
    return feed.fuse_a * share(build, feed) if feed.fuse_a is not None else None


def share(build: Resolved, feed: Feed) -> float:
    """Share of a fuse for continuous loads where the vehicle's data give no figure."""
    return build.practice.fuse_share[build.places[feed.place].environment]


def limit_words(build: Resolved, feed: Feed) -> str:
    """Where the limit of a feed comes from."""
    if feed.allows_a is not None:
        return feed.source or "source not stated"
    fuse = show.amps(feed.fuse_a) if feed.fuse_a is not None else "its fuse"
    return f"{show.percent(share(build, feed))} of {fuse}; its data give no figure"


def others(sized: Sized, needed_a: float, feed: Feed) -> str:
    """Feeds of the vehicle that could give a current as well as what they give already; `` where none can."""
    build = sized.build
    found = []
    for other in build.vehicle.feeds.values():
        gives = allows_a(build, other)
        taken = sized.loads_a.get(other.name, 0.0)
        if other.name != feed.name and not other.occupied and gives is not None and gives - taken >= needed_a:
            found.append(f"`{other.name}` ({show.amps(gives)}, {when(other)})")
    return ", ".join(found)


def when(feed: Feed) -> str:
    return {"any": "always live", "ignition": "with the ignition", "engine": "with the engine"}[feed.state]


def owner_document(build: Resolved, key: str) -> str:
    """The document that forbids something for this vehicle, or `` where nothing does."""
    return build.vehicle.forbids.get(key, "")


def allowed_points(build: Resolved) -> str:
    """The feeds that the vehicle offers, as a help names them."""
    offered = [f"`{f.name}` ({f.words})" for f in build.vehicle.feeds.values() if not f.occupied]
    return ", ".join(offered) or "none is in its data"
