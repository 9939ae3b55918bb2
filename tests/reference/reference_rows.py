"""Rows of the reference data as test cases."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest

DATA = Path(__file__).parent / "data"
FOOT_M = 0.3048
AWG_OF_TEXT = {"0": 0, "00": -1, "000": -2, "0000": -3}

Row = dict[str, str]


def rows(name: str) -> list[Row]:
    with open(DATA / name, encoding="utf-8", newline="") as file:
        found = list(csv.DictReader(file))
    assert found, f"{name} is empty"
    return found


def awg(text: str) -> int:
    return AWG_OF_TEXT[text] if text in AWG_OF_TEXT else int(text)


def cases(name: str, *, ids: Iterable[str], where: Callable[[Row], bool]) -> list[object]:
    """Parameters for the rows that pass a filter, named after columns; no rows at all is a fault."""
    columns = list(ids)
    found = [pytest.param(row, id="-".join(row[c] for c in columns)) for row in rows(name) if where(row)]
    assert found, f"no row of {name} passes the filter"
    return found
