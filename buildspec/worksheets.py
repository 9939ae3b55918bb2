"""Tables for a spreadsheet as plain values: which column is a number, in which unit, and what stands below it."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from buildspec.money import Money

WHOLE, HUNDREDTHS, TENTHS = "#,##0", "#,##0.00", "#,##0.0"
"""Number formats; what is shown is rounded, what is kept is not."""


class Formula(NamedTuple):
    """A sum that the spreadsheet keeps up to date, and its value now. Never holds a word of a spec."""

    text: str
    value: int | float | Money


Cell = str | int | float | Money | Formula | None
"""Text stays text whatever it begins with; None is an empty cell."""


class Column(NamedTuple):
    """A column; the unit of its numbers stands in its head, `Mass [kg]`."""

    head: str
    form: str = ""
    """Number format, or `` for text. Money brings its own."""


class Worksheet(NamedTuple):
    """One sheet: a head row, rows, and lines below that no filter hides."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    foot: tuple[tuple[Cell, ...], ...] = ()
    kept: int = 1
    """Columns that stay in sight when one scrolls to the right."""


class Workbook(NamedTuple):
    """One file."""

    file: str
    sheets: tuple[Worksheet, ...]


def letter(column: int) -> str:
    """Letters of a column, counted from 0: `A`, `Z`, `AA`."""
    more, last = divmod(column, 26)
    return (letter(more - 1) if more else "") + chr(ord("A") + last)


def cells(column: int, rows: int, *, sheet: str = "") -> str:
    """Address of a column below its head: `$F$2:$F$60`, of another sheet `'Cut list'!$F$2:$F$60`."""
    name = letter(column)
    own = f"${name}$2:${name}${rows + 1}"
    return f"'{sheet}'!{own}" if sheet else own


def currency_form(money: Money) -> str:
    """Number format of an amount with its currency letters; a price of one may have more than two places."""
    places = max(2, -int(money.amount.normalize().as_tuple().exponent))
    return f"#,##0.{'0' * places} [${money.currency}]"


def plain(value: int | float | Money) -> int | float | Decimal:
    return value.amount if isinstance(value, Money) else value
