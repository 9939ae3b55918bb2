"""The package's data tables as rows of text, read once per process."""

from __future__ import annotations

import csv
import functools
import importlib.resources


@functools.cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """Rows of `tables/<name>.csv` in file order, each a mapping from column to text.

    The rows are shared by every caller and must not be changed. Raises FileNotFoundError when there
    is no such table.
    """
    table = importlib.resources.files("buildspec") / "tables" / f"{name}.csv"
    return tuple(csv.DictReader(table.read_text(encoding="utf-8").splitlines()))
