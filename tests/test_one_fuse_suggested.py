"""A fuse that is too large for several reasons gets one suggestion, within all of its limits."""

from __future__ import annotations

import re

import pytest
import rule_fixtures

RADIO = (
    "accessories:\n  radio: {{at: load-bed, fed_from: rear.2, {own}, "
    "electrical: {{model: constant-current, worst: 3 A, max_fuse: {most}}}}}\n"
)


def suggested(own: str, most: str) -> dict[str, str]:
    """Rule → the fuse that its help names."""
    case = rule_fixtures.Case("x.yaml", "x", RADIO.format(own=own, most=most))
    said = rule_fixtures.checked(case).diagnostics
    return {d.rule: found[1] for d in said if (found := re.search(r"a (\S+ A) blade fuse", d.help))}


@pytest.mark.parametrize(
    ("own", "most", "rules", "fuse"),
    [
        (
            "wire: 1 mm2, fuse: {rating: 30 A}",
            "10 A",
            {"undersized-conductor", "fuse-above-makers-limit"},
            "10 A",
        ),
        ("fuse: {rating: 40 A}", "10 A", {"position-overloaded", "fuse-above-makers-limit"}, "10 A"),
        (
            "wire: 1 mm2, fuse: {rating: 30 A}",
            "25 A",
            {"undersized-conductor", "fuse-above-makers-limit"},
            "20 A",
        ),
    ],
)
def test_the_same_fuse_is_suggested_for_each_fault(own: str, most: str, rules: set[str], fuse: str) -> None:
    """1 mm² carries 20 A alone outside (33 CFR 183.425 table 5, 18 AWG at 105 °C)."""
    assert suggested(own, most) == dict.fromkeys(rules, fuse)
