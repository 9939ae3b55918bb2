"""The lines of a job with price and working time, rolled up; what has none is counted and named, never taken as 0."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import chain
from typing import NamedTuple

from buildspec import money, show
from buildspec.documents import _materials as materials
from buildspec.documents import _words as words
from buildspec.fitted import Item, items
from buildspec.model import Part
from buildspec.money import Money
from buildspec.packet import Packet

ORDERED = ("item", "goods", "fuse", "holder", "small")
"""Kinds of line that are ordered; reserves and bodywork are in the quote only."""


class Line(NamedTuple):
    """One line of the quote."""

    kind: str
    """`item`, `goods`, `fuse`, `holder`, `small`, `reserve`, `work`."""
    item: str
    marks: str
    quantity: int
    places: str
    each: Money | None
    each_s: int | None
    option: str = ""
    part: Part | None = None
    by_customer: bool = False

    @property
    def price(self) -> Money | None:
        """Of the whole line, rounded."""
        return None if self.each is None or self.by_customer else money.times(self.each, self.quantity)

    @property
    def seconds(self) -> int | None:
        return None if self.each_s is None else self.each_s * self.quantity

    @property
    def wants_price(self) -> bool:
        """A step of bodywork is paid by its time; what the customer brings has no price."""
        return self.kind != "work" and not self.by_customer

    @property
    def wants_time(self) -> bool:
        """Fuses and small parts go in with the items that they belong to."""
        return self.kind not in ("fuse", "holder", "small")


class Sums(NamedTuple):
    parts: Mapping[str, Money]
    """Currency → sum."""
    seconds: int
    labour: Money | None
    """None where nothing says what an hour costs."""
    whole: Mapping[str, Money]
    unpriced: tuple[str, ...]
    untimed: tuple[str, ...]


def lines(packet: Packet) -> tuple[Line, ...]:
    """Every line, items first, bodywork last."""
    return tuple(
        chain(
            item_lines(packet),
            goods_lines(packet),
            reserve_lines(packet),
            bought_lines(packet),
            work_lines(packet),
        )
    )


def item_lines(packet: Packet) -> Iterator[Line]:
    """Items of one part under one option together, in the order of the spec."""
    build = packet.sized.build
    alike: dict[tuple[object, ...], list[Item]] = {}
    for item in items(build):
        part = item.part
        same = (part.id, part.title, part.price, part.fitting_s, part.supplied_by, item.option)
        alike.setdefault(same, []).append(item)
    for found in alike.values():
        part = found[0].part
        yield Line(
            "item",
            part.title,
            ", ".join(i.designation for i in found),
            sum(i.quantity for i in found),
            "; ".join(dict.fromkeys(words.place(build, i.place) for i in found)),
            part.price,
            part.fitting_s,
            found[0].option,
            part,
            part.supplied_by == "customer",
        )


def goods_lines(packet: Packet) -> Iterator[Line]:
    build = packet.sized.build
    for one in materials.goods(build):
        item, part = one.item, one.item.part
        title = f"{part.title}, {show.surface(one.surface_m2, build.practice)}"
        place = words.place(build, item.place)
        customer = part.supplied_by == "customer"
        yield Line(
            "goods",
            title,
            item.designation,
            one.units,
            place,
            part.price,
            part.fitting_s,
            item.option,
            part,
            customer,
        )


def reserve_lines(packet: Packet) -> Iterator[Line]:
    build = packet.sized.build
    for one in build.reserves.values():
        title = f"Reserve: {one.purpose or one.name}"
        place = words.place(build, one.place)
        yield Line("reserve", title, one.designation, 1, place, one.price, one.working_s, one.option)


def bought_lines(packet: Packet) -> Iterator[Line]:
    """Fuses and holders by family, then the small parts of the job as one line."""
    shop = packet.sized.build.practice
    fuses: Counter[str] = Counter()
    for (family, _, _), count in materials.fuse_counts(packet):
        fuses[family] += count + materials.SPARES_EACH
    holders: Counter[str] = Counter()
    for (family, _), count in materials.holder_counts(packet):
        holders[family] += count
    for family, count in sorted(fuses.items()):
        known = shop.fuse_parts.get(family)
        yield Line(
            "fuse", f"Fuses, {show.family(family)}", "", count, "", known.price if known else None, None
        )
    for family, count in sorted(holders.items()):
        known = shop.fuse_parts.get(family)
        yield Line(
            "holder",
            f"Holders, {show.family(family)}",
            "",
            count,
            "",
            known.holder_price if known else None,
            None,
        )
    yield Line("small", "Conductor, terminals, sleeves, seals, labels", "", 1, "", shop.small_parts, None)


def work_lines(packet: Packet) -> Iterator[Line]:
    build = packet.sized.build
    for mark, work in (
        *(("", w) for w in build.works),
        *((a.designation, w) for a in build.accessories.values() for w in a.works),
    ):
        title = f"{words.capital(work.do)}: {work.what}"
        yield Line("work", title, mark, 1, work.where, work.price, work.working_s)


def sums(packet: Packet, found: Sequence[Line]) -> Sums:
    """Totals over rounded lines; labour is rounded once, over the whole time."""
    rate = packet.sized.build.practice.labour
    parts = [line.price for line in found if line.price is not None]
    seconds = sum(line.seconds or 0 for line in found)
    labour = money.labour(rate, seconds) if rate is not None else None
    unpriced = [name(line) for line in found if line.wants_price and line.price is None]
    return Sums(
        parts=money.totals(parts),
        seconds=seconds,
        labour=labour,
        whole=money.totals([*parts, *([labour] if labour else [])]),
        unpriced=tuple(unpriced if rate is not None or not seconds else [*unpriced, "working time"]),
        untimed=tuple(name(line) for line in found if line.wants_time and line.seconds is None),
    )


def order_total(found: Sequence[Line]) -> Mapping[str, Money]:
    """Currency → sum of the lines to order."""
    return money.totals(one.price for one in found if one.kind in ORDERED and one.price is not None)


def supplier(one: Line) -> str:
    if one.by_customer:
        return "customer's own"
    return one.part.supplier if one.part and one.part.supplier else words.NOT_APPLICABLE


def name(line: Line) -> str:
    return f"{line.marks} {line.item}".strip()


def added(amounts: Mapping[str, Money]) -> str:
    """A sum as printed; of two currencies, which a waiver lets pass, both."""
    return " + ".join(money.show(m) for m in amounts.values()) or words.NOT_APPLICABLE


def totals(packet: Packet, found: Sequence[Line]) -> list[dict[str, str]]:
    """The sums at the foot of the quote."""
    done, rate = sums(packet, found), packet.sized.build.practice.labour
    hours = f"Working time, {money.hours(done.seconds)}" + (f" at {money.show(rate)}/h" if rate else "")
    complete = not done.unpriced and not done.untimed
    whole = "Total without tax" if complete else "Total without tax of what is priced; not complete"
    return [
        {"what": "Parts and material", "amount": added(done.parts)},
        {"what": hours, "amount": money.show(done.labour) if done.labour else words.NOT_APPLICABLE},
        {"what": whole, "amount": added(done.whole)},
    ]


def missing(packet: Packet, found: Sequence[Line]) -> list[str]:
    """What the total does not hold, counted and named."""
    done = sums(packet, found)
    said = (("No price", done.unpriced), ("No working time", done.untimed))
    return [
        f"{what} for {words.count(len(names), 'line')}: {'; '.join(names)}." for what, names in said if names
    ]
