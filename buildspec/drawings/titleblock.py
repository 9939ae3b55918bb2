"""Frame, heading and title block: the fields of ISO 7200."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.drawings.marks import Box, Group, Mark, Rect, Stroke, Text
from buildspec.drawings.measure import BODY, SMALL, STRONG, TITLE, fit, largest, wrap
from buildspec.drawings.palette import HEAVY, INK, LINE, QUIET
from buildspec.model import Resolved

MARGIN = 80.0
HEIGHT = 190.0
HEADING = 62.0
LANGUAGE = "en"
PAPERS = {"A4": (2970.0, 2100.0), "Letter": (2794.0, 2159.0)}
"""Landscape, in tenths of a millimetre: ISO 216 A4, ANSI/ASME Y14.1 A."""
SHARES = (0.26, 0.29, 0.26, 0.1, 0.09)


class Field(NamedTuple):
    label: str
    value: str
    sizes: tuple[float, ...]
    bold: bool


def area(width: float, height: float) -> Box:
    """Where a drawing may stand."""
    return Box(MARGIN, MARGIN + HEADING, width - MARGIN, height - MARGIN - HEIGHT)


def columns(
    build: Resolved, kind: str, title: str, number: int, count: int, letter: str
) -> tuple[tuple[Field, Field], ...]:
    job, vehicle = build.job, build.vehicle
    car = " · ".join(part for part in (vehicle.registration, vehicle.description) if part)
    by = f"{job.prepared_by} / {job.approved_by or '—'}"
    return (
        (
            Field("Legal owner", job.owner, (36, STRONG, BODY, SMALL), True),
            Field("Vehicle", car, (BODY, SMALL), False),
        ),
        (
            Field("Title", title, (TITLE, 36, STRONG, BODY, SMALL), True),
            Field(
                "Document type",
                f"{kind} · {job.state} · {build.practice.shop.name}",
                (BODY, SMALL),
                False,
            ),
        ),
        (
            Field("Identification", f"{job.number}-{letter}{number}", (36, STRONG, BODY, SMALL), True),
            Field("Created by / approved by", by, (BODY, SMALL), False),
        ),
        (
            Field("Revision", job.revision, (36, STRONG, BODY, SMALL), True),
            Field("Date of issue", job.date, (BODY, SMALL), False),
        ),
        (
            Field("Sheet", f"{number} / {count}", (36, STRONG, BODY, SMALL), True),
            Field("Language", LANGUAGE, (BODY, SMALL), False),
        ),
    )


def field(item: Field, left: float, top: float, room: float) -> tuple[Mark, ...]:
    """Label and value; a value that is too long at its least size takes two lines, close under the label."""
    size = largest(item.value, room, item.sizes, bold=item.bold)
    lines = wrap(item.value, room, size, bold=item.bold)
    first, step = (43.0, 0.0) if len(lines) < 2 else (27.0, 27.0)
    up = 0.0 if len(lines) < 2 else 8.0
    shown = (*lines[:1], fit(" ".join(lines[1:]), room, size, bold=item.bold)) if len(lines) > 1 else lines
    return (
        Text(left, top - up, item.label, SMALL, colour=QUIET),
        *(
            Text(left, top - up + first + n * step, line, size, item.bold)
            for n, line in enumerate(shown)
            if line
        ),
    )


def heading(title: str, job: str, left: float, right: float) -> tuple[Mark, ...]:
    """Title at the left, job at the right, each smaller or in two lines where it is long."""
    across = right - left
    size = largest(title, across * 0.6, (36, STRONG, BODY, SMALL), bold=True)
    job_lines = wrap(job, across * 0.36)[:2]
    first = MARGIN + 46 if len(job_lines) < 2 else MARGIN + 30
    return (
        Text(left, MARGIN + 46, fit(title, across * 0.6, size, bold=True), size, True),
        *(
            Text(right, first + n * 29, line, SMALL, anchor="end", colour=QUIET)
            for n, line in enumerate(job_lines)
        ),
    )


def frame(
    build: Resolved,
    *,
    sheet_id: str,
    kind: str,
    title: str,
    number: int,
    count: int,
    size: tuple[float, float],
    letter: str = "D",
) -> tuple[Group, ...]:
    """Border, heading and title block of one sheet."""
    width, height = size
    top, bottom, left, right = height - MARGIN - HEIGHT, height - MARGIN, MARGIN, width - MARGIN
    job = f"{build.job.number} · {build.job.title}"
    marks: list[Mark] = [
        Rect(Box(left, MARGIN, right, bottom), colour=INK, width=HEAVY),
        Stroke(((left, top), (right, top)), HEAVY),
        *heading(title, job, left + 30, right - 30),
    ]
    full: list[str] = []
    across = right - left
    found = columns(build, kind, title, number, count, letter)
    for index, (pair, share) in enumerate(zip(found, SHARES, strict=True)):
        wide = share * across
        if index:
            marks.append(Stroke(((left, top), (left, bottom)), LINE))
        marks += field(pair[0], left + 28, top + 40, wide - 50)
        marks += field(pair[1], left + 28, top + 124, wide - 50)
        full += [f"{item.label}: {item.value}" for item in pair]
        left += wide
    name = f"{sheet_id}-title-block"
    return (Group(name, f"{title}, sheet {number} of {count}", "; ".join(full), tuple(marks), layer=0),)
