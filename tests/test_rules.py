"""Every rule against its fixture file: what it must report, on which line, and what must stay clean."""

from __future__ import annotations

import pytest
import rule_fixtures

from buildspec import rules
from buildspec.discover import names

FILES = sorted(p for p in rule_fixtures.FOLDER.glob("*.yaml") if not p.name.startswith("_"))
CASES = [case for path in FILES for case in rule_fixtures.cases(path)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.file}: {case.title}")
def test_case(case: rule_fixtures.Case) -> None:
    wanted, found = rule_fixtures.expected(case), rule_fixtures.run(case)
    assert {(line, rule) for line, rule, _ in found} == {(line, rule) for line, rule, _ in wanted}, found
    for line, rule, fragment in wanted:
        assert any(fragment in text for at, name, text in found if (at, name) == (line, rule)), (
            fragment,
            found,
        )


def test_every_rule_has_a_firing_and_a_clean_case() -> None:
    for module in names(rules):
        rule = module.replace("_", "-")
        mine = [c for c in CASES if c.file == f"{rule}.yaml"]
        firing = [c for c in mine if any(name == rule for _, name, _ in rule_fixtures.expected(c))]
        clean = [c for c in mine if not rule_fixtures.expected(c)]
        assert firing, f"{rule} has no firing case"
        assert clean, f"{rule} has no clean case"
