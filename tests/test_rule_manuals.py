"""The docstring of a rule is its manual: headings, examples that are YAML, sources that can be found."""

from __future__ import annotations

import inspect
import re

import pytest
import yaml

from buildspec import citations, discover, rules

HEADINGS = ("What", "Why", "Bad", "Good", "Sources")
OWN_WORDS = ("common practice", "engineering principle")
MODULES = discover.modules(rules, required=("SEVERITY", "SOURCES", "check"))
EACH = pytest.mark.parametrize("name", MODULES)


def sections(name: str) -> dict[str, str]:
    """Heading → text of a manual; the text before the first heading is under ``."""
    text = inspect.cleandoc(MODULES[name].__doc__ or "")
    parts = re.split(r"^(\w+)\n(-+)\n", text, flags=re.MULTILINE)
    for heading, dashes in zip(parts[1::3], parts[2::3], strict=True):
        assert len(heading) == len(dashes), f"{name}: the line under {heading} is not as long as it"
    return {"": parts[0].strip()} | dict(zip(parts[1::3], parts[3::3], strict=True))


@EACH
def test_a_manual_has_its_headings_in_order(name: str) -> None:
    found = sections(name)
    assert tuple(found)[1:] == HEADINGS
    assert all(text.strip() for text in found.values())


@EACH
def test_the_first_line_of_a_manual_is_a_sentence_for_the_list_of_rules(name: str) -> None:
    first = (MODULES[name].__doc__ or "").splitlines()[0]
    assert first.endswith(".") and len(first) <= 110
    assert sections(name)[""] == first


@EACH
@pytest.mark.parametrize("heading", ("Bad", "Good"))
def test_the_examples_of_a_manual_are_yaml(name: str, heading: str) -> None:
    assert isinstance(yaml.safe_load(inspect.cleandoc("\n" + sections(name)[heading])), (dict, list))


@EACH
def test_bad_and_good_differ(name: str) -> None:
    found = sections(name)
    assert found["Bad"] != found["Good"]


@EACH
def test_a_rule_names_its_severity_and_where_its_limit_comes_from(name: str) -> None:
    module = MODULES[name]
    assert module.SEVERITY in ("error", "warning", "note")
    assert isinstance(module.SOURCES, tuple) and module.SOURCES
    for source in module.SOURCES:
        assert source.startswith(OWN_WORDS) or citations.cite(source).key == source
