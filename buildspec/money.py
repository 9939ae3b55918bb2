"""Amounts of money in one currency: decimal arithmetic, no binary fraction, no conversion.

Rounding is the commercial one, halves away from zero, to hundredths; it happens once for each line and once
for labour, and totals are sums of rounded lines, so that a reader with a pencil gets the same figure.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import ROUND_HALF_UP, Decimal
from typing import NamedTuple

CENT = Decimal("0.01")
HOUR_S = 3600


class Money(NamedTuple):
    amount: Decimal
    currency: str
    """ISO 4217 letters."""


def parse(text: str) -> Money:
    """`129.50 EUR`. Raises ValueError for text that the schema should have refused."""
    amount, _, currency = text.partition(" ")
    if not currency or not amount.replace(".", "", 1).isdigit():
        raise ValueError(f"{text} is not an amount of money")
    return Money(Decimal(amount), currency)


def parse_rate(text: str) -> Money:
    """`65.00 EUR/h`: for one hour."""
    return parse(text.removesuffix("/h"))


def rounded(money: Money) -> Money:
    return money._replace(amount=money.amount.quantize(CENT, ROUND_HALF_UP))


def times(each: Money, number: int) -> Money:
    """The price of several, rounded."""
    return rounded(each._replace(amount=each.amount * number))


def labour(rate: Money, seconds: int) -> Money:
    """The price of working time at an hourly rate, rounded once."""
    return rounded(rate._replace(amount=rate.amount * seconds / HOUR_S))


def totals(amounts: Iterable[Money]) -> Mapping[str, Money]:
    """Currency → sum, in the order in which currencies first occur."""
    found: dict[str, Money] = {}
    for money in amounts:
        before = found.get(money.currency, Money(Decimal(0), money.currency))
        found[money.currency] = before._replace(amount=before.amount + money.amount)
    return found


def show(money: Money) -> str:
    """`1234.50 EUR`; a price of one with more than two places keeps them."""
    places = max(2, -int(money.amount.normalize().as_tuple().exponent))
    return f"{money.amount:.{places}f} {money.currency}"


def hours(seconds: int) -> str:
    """`1.5 h`, to hundredths of an hour."""
    text = f"{(Decimal(seconds) / HOUR_S).quantize(CENT, ROUND_HALF_UP)}"
    return f"{text.rstrip('0').rstrip('.')} h"
