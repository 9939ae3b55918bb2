"""One job has prices in two currencies.

What
----
Every price of a job, the labour rate and the fuses of the practice included, is in one currency.

Why
---
A sum over two currencies is no sum, and a rate of exchange is not the business of a build spec.

Bad
---
    parts:
      beacon-led: {extends: beacon-led, price: 84.00 EUR}
      relay-40: {extends: relay-40, price: 9.80 USD}

Good
----
    parts:
      beacon-led: {extends: beacon-led, price: 84.00 EUR}
      relay-40: {extends: relay-40, price: 9.10 EUR}

Sources
-------
Engineering principle.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import money
from buildspec.findings import Finding
from buildspec.fitted import prices
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("engineering principle",)


def check(sized: Sized) -> Iterator[Finding]:
    """One finding for each further currency, at the first price in it."""
    first: dict[str, str] = {}
    for what, price, at in prices(sized.build):
        if price.currency in first or not first:
            first.setdefault(price.currency, f"{what} costs {money.show(price)}")
            continue
        other = next(iter(first.values()))
        first[price.currency] = f"{what} costs {money.show(price)}"
        yield Finding(
            at, f"{first[price.currency]}, and {other}", "write every price of the job in one currency"
        )
