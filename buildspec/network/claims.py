"""Who claims a key of a panel or a position of a block, in the order of the spec."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from buildspec.findings import Path
from buildspec.model import Resolved


class Claim(NamedTuple):
    """`host.number` is wanted by `item`; `at` is the key that says so."""

    host: str
    number: int
    item: str
    at: Path

    @property
    def text(self) -> str:
        """As it is written: `main.2`."""
        return f"{self.host}.{self.number}"


def keys(build: Resolved) -> Iterator[Claim]:
    """Every `switch`."""
    for items in (build.accessories, build.reserves, build.isolation):
        for item in items.values():
            yield from _claim(item.switch, item.name, (*item.at, "switch"))


def positions(build: Resolved) -> Iterator[Claim]:
    """Every `fed_from` that names a position of a block."""
    for items in (build.accessories, build.reserves):
        for item in items.values():
            yield from _claim(item.fed_from, item.name, (*item.at, "fed_from"))
    for hosts in (build.blocks, build.panels):
        for host in hosts.values():
            for index, text in enumerate(host.fed_from):
                at = (*host.at, "fed_from", index) if len(host.fed_from) > 1 else (*host.at, "fed_from")
                yield from _claim(text, host.name, at)


def _claim(text: str, item: str, at: Path) -> Iterator[Claim]:
    host, _, number = text.partition(".")
    if number:
        yield Claim(host, int(number), item, at)


def twice(claims: Iterable[Claim]) -> Iterator[tuple[Claim, Claim]]:
    """(later, first) for everything that is claimed again."""
    first: dict[tuple[str, int], Claim] = {}
    for claim in claims:
        key = (claim.host, claim.number)
        if key in first:
            yield claim, first[key]
        first.setdefault(key, claim)
