"""The leads that come with panels, from the module to the keys."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from buildspec import show
from buildspec.model import Panel, Resolved, Route
from buildspec.resolve.routes import shortest


class Lead(NamedTuple):
    """The ready-made lead of one panel, on its way over the runs."""

    panel: Panel
    route: Route
    length_m: float
    """As it comes."""
    needed_m: float
    """The route and a service loop at each end."""


def leads(build: Resolved) -> Iterator[Lead]:
    """Of every panel whose keys are at another place than its module and that states a lead."""
    for panel in build.panels.values():
        trait = panel.part.panel
        route = shortest(build.runs, panel.module_at, panel.keypad_at)
        if trait is None or not trait.keypad_lead_m or route is None or not route.runs:
            continue
        needed_m = round(route.length_m + 2 * build.practice.service_loop_m, 6)
        yield Lead(panel, route, trait.keypad_lead_m, needed_m)


def words(build: Resolved, lead: Lead) -> str:
    """`lead to the keys, comes with S1, 4.00 m; 2.60 m needed; not cut`."""
    needed = show.length(lead.needed_m, build.practice)
    return f"lead to the keys, {size(build, lead)}; {needed} needed; not cut"


def size(build: Resolved, lead: Lead) -> str:
    return f"comes with {lead.panel.designation}, {show.length(lead.length_m, build.practice)}"
