"""What the documents are made from: one sized build, its findings, its drawings."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.findings import Diagnostic
from buildspec.model import Sized


class DrawingChecks(NamedTuple):
    """What a drawn sheet was checked for, counted."""

    crossings: int
    """Conductors that pass right through one another."""
    texts_on_texts: int
    lines_through_texts: int
    lines_through_things: int
    """Conductors through a symbol, card or flag."""


class Sheet(NamedTuple):
    """One drawing sheet: a self-contained SVG at true size."""

    id: str
    """Stable, such as `d1-supply`."""
    number: int
    title: str
    svg: str
    width_mm: float
    height_mm: float
    checks: DrawingChecks | None = None
    """None for a switch legend, which has no conductors."""


class Packet(NamedTuple):
    """The input of every document."""

    sized: Sized
    diagnostics: tuple[Diagnostic, ...]
    """Warnings and notes, waived ones included; a packet is never made from errors."""
    sheets: tuple[Sheet, ...]
    strips: tuple[Sheet, ...]
    """Switch legends at true size, one a panel."""
    charts: tuple[Sheet, ...] = ()
    """What people would rather look at than read."""
    lang: str = ""
    """Language of the papers for owners; the practice's first where none is named."""
