"""All chart sheets of a build, in order; a chart without its data has no sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from buildspec.drawings import svg
from buildspec.drawings.charts import (
    axle,
    axle_draw,
    battery,
    battery_draw,
    sheet,
    time_current,
    time_current_draw,
    voltage,
    voltage_draw,
)
from buildspec.drawings.marks import Box, Group, Page
from buildspec.model import Sized
from buildspec.packet import Sheet


class Plan(NamedTuple):
    """A sheet before it has its number."""

    slug: str
    title: str
    desc: str
    groups: Sequence[Group]


def charts(sized: Sized) -> tuple[Sheet, ...]:
    """The charts, one self-contained SVG a sheet, at true size."""
    return tuple(
        Sheet(page.id, page.number, page.title, svg.document(page), page.width / 10, page.height / 10)
        for page in pages(sized)
    )


def pages(sized: Sized) -> tuple[Page, ...]:
    """The sheets as marks."""
    found = list(plans(sized))
    return tuple(
        sheet.page(
            sized.build,
            slug=one.slug,
            title=one.title,
            desc=one.desc,
            number=n,
            count=len(found),
            groups=one.groups,
        )
        for n, one in enumerate(found, start=1)
    )


def plans(sized: Sized) -> Iterator[Plan]:
    """Every sheet for which there are figures."""
    area = sheet.area(sized.build)
    yield from protection(sized, area)
    for n, batteries in enumerate(battery.leaves(sized), start=1):
        desc = "Charge of each battery while it stands, the level at which to stop, and how it comes back"
        yield Plan(f"battery-{n}", "Batteries while parked", desc, battery_draw.sheet(batteries, area))
    for n, loads in enumerate(voltage.leaves(sized), start=1):
        desc = (
            "Volts that are left after each conductor, device and contact, for the loads nearest to a limit"
        )
        title = f"Voltage on the way to {' and '.join(one.circuit.target_designation for one in loads)}"
        yield Plan(f"voltage-{n}", title, desc, voltage_draw.sheet(loads, area))
    stacks = axle.stacks(sized)
    if stacks:
        desc = "What each axle and the whole vehicle bears, step by step, against its limit"
        groups = axle_draw.sheet(stacks, area, sized.build.practice)
        yield Plan("mass", "Mass against its limits", desc, groups)


def protection(sized: Sized, area: Box) -> Iterator[Plan]:
    """Time and current, six devices a sheet."""
    for n, some in enumerate(time_current.leaves(sized), start=1):
        ends = dict.fromkeys((some[0].device.designation, some[-1].device.designation))
        title = f"Time and current, {' to '.join(ends)}"
        desc = "When each protective device opens, against its load, its conductor and a dead short"
        yield Plan(f"time-current-{n}", title, desc, time_current_draw.sheet(some, area))
