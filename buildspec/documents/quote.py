"""What the job costs, line by line: quantity, place, option, price, hours; what is left out; who approves it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from buildspec import money
from buildspec.documents import _prices as prices
from buildspec.documents import _words as words
from buildspec.model import Resolved
from buildspec.packet import Packet

TITLE = "Quote"
ORDER = 5
OWN_PAGE = True
COLUMNS = (
    "line", "item", "mark", "option", "quantity", "place", "price_each", "line_price", "currency", "hours",
    "supplied_by",
)  # fmt: skip
ROUNDING = "Each line is rounded to hundredths, halves up, labour once over the whole time; sums are of rounded lines."


def view(packet: Packet) -> dict[str, Any]:
    build = packet.sized.build
    found = prices.lines(packet)
    return {
        "intro": intro(build),
        "lines": [line(n, one) for n, one in enumerate(found, 1)],
        "totals": prices.totals(packet, found),
        "missing": prices.missing(packet, found),
        "rounding": ROUNDING,
        "tax": build.practice.tax_note or "Tax is not stated.",
        "validity": build.practice.validity or "No validity is stated.",
        "customer": [f"{prices.name(one)}, {one.quantity}" for one in found if one.by_customer],
        "no_customer": "Nothing.",
        "excluded": build.quote.excluded,
        "no_excluded": "Nothing is named. What is not on this quote is not part of the job.",
        "instructions": build.quote.instructions,
        "no_instructions": "None.",
        "approval": list(approval(build)),
    }


def intro(build: Resolved) -> str:
    job = build.job
    return (
        f"For {job.owner}, job {job.number}, revision {job.revision} of {job.date}. "
        "Another revision needs a new approval."
    )


def line(number: int, one: prices.Line) -> dict[str, str]:
    return {
        "line": str(number),
        "item": one.item,
        "mark": one.marks or words.NOT_APPLICABLE,
        "option": one.option or words.NOT_APPLICABLE,
        "quantity": str(one.quantity),
        "place": one.places or words.NOT_APPLICABLE,
        "each": each(one),
        "price": amount(one),
        "hours": hours(one),
    }


def each(one: prices.Line) -> str:
    if one.by_customer:
        return "customer's own"
    if one.each is None:
        return "not stated" if one.wants_price else words.NOT_APPLICABLE
    return money.show(one.each)


def amount(one: prices.Line) -> str:
    if one.price is None:
        return "not stated" if one.wants_price else words.NOT_APPLICABLE
    return money.show(one.price)


def hours(one: prices.Line) -> str:
    if one.seconds is None:
        return "not stated" if one.wants_time else words.NOT_APPLICABLE
    return money.hours(one.seconds)


def approval(build: Resolved) -> Iterator[dict[str, str]]:
    """Lines to sign; a revision is approved, not a job."""
    for role, name in (("For the shop", build.job.approved_by), ("For the customer", words.BLANK)):
        yield {
            "role": role,
            "name": name,
            "revision": build.job.revision,
            "signature": words.BLANK,
            "date": words.BLANK,
        }


def csv(packet: Packet) -> tuple[str, list[list[str]]]:
    """`quote.csv`: the lines as numbers; an empty cell is a price or a time that is not stated."""
    rows = [row(n, one) for n, one in enumerate(prices.lines(packet), 1)]
    return "quote.csv", [list(COLUMNS), *([cells[column] for column in COLUMNS] for cells in rows)]


def row(number: int, one: prices.Line) -> dict[str, str]:
    price = one.price
    return {
        "line": str(number),
        "item": one.item,
        "mark": one.marks,
        "option": one.option,
        "quantity": str(one.quantity),
        "place": one.places,
        "price_each": str(one.each.amount) if one.each is not None and price is not None else "",
        "line_price": str(price.amount) if price is not None else "",
        "currency": price.currency if price is not None else "",
        "hours": "" if one.seconds is None else money.hours(one.seconds).removesuffix(" h"),
        "supplied_by": "customer" if one.by_customer else "shop",
    }
