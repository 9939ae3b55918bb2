"""No battery of the build starts the engine.

What
----
A vehicle with an engine has a battery with `role: start`, the vehicle's own. Where the spec speaks of an
alternator, an engine, the vehicle's own loads or a sensed post and has none, that is an error; where it
speaks of none of them, it may be a trailer, and a waiver says so.

Why
---
Isolation, standby drain, start help, charging and the alternator's budget are all checked against the battery
that starts the engine. Without it, or with it written as a house battery, they are silent, and silence reads
as a pass.

Bad
---
    batteries:
      front: {chemistry: flooded, capacity: 80 Ah, at: engine-bay, existing: true, role: house}

Good
----
    batteries:
      front: {chemistry: flooded, capacity: 80 Ah, at: engine-bay, existing: true, role: start}

Sources
-------
Engineering principle: silence is not a pass.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec.findings import Finding, Path
from buildspec.model import Resolved, Sized
from buildspec.network import isolation

SEVERITY = "error"
SOURCES = ("engineering principle: silence is not a pass",)
SILENT = "isolation, standby, start help and alternator"


def check(sized: Sized) -> Iterator[Finding]:
    build = sized.build
    if isolation.side(build, "start"):
        return
    at, suspect = likely(build)
    spoken = engine_words(build)
    if spoken:
        message = f"no battery of this build starts the engine ({spoken}): {SILENT} cannot be checked"
        yield Finding(at, message, f"write the vehicle's own battery with `role: start`{suspect}")
    else:
        message = f"no battery of this build starts an engine: {SILENT} are not checked"
        yield Finding(
            at,
            message,
            f"write the vehicle's own battery with `role: start`{suspect}; for a trailer, a waiver that says so",
            severity="warning",
        )


def likely(build: Resolved) -> tuple[Path, str]:
    """Where the start battery should stand: the one that looks like it, or the vehicle."""
    own = [b for b in build.batteries.values() if b.existing or b.name == build.vehicle.sensed_post]
    if own:
        return (*own[0].at, "role"), f"; `{own[0].name}` looks like it"
    return build.vehicle.at, ""


def engine_words(build: Resolved) -> str:
    """What in the spec says that there is an engine, or ``."""
    vehicle = build.vehicle
    said = (
        ("an alternator", vehicle.alternator is not None),
        ("an engine", vehicle.engine is not None),
        ("own loads", bool(vehicle.own_a)),
        ("a sensed post", bool(vehicle.sensed_post)),
    )
    words = [word for word, there in said if there]
    return f"the vehicle is described with {', '.join(words)}" if words else ""
