"""The docstrings of the calculations are a contract: names, units, sources, worked examples."""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re

import pytest

from buildspec import calc, citations, discover, rules, tabledata

MODULES = [importlib.import_module(f"buildspec.calc.{m.name}") for m in pkgutil.iter_modules(calc.__path__)]
FUNCTIONS = [
    pytest.param(function, id=f"{module.__name__.rpartition('.')[2]}.{name}")
    for module in MODULES
    for name, function in vars(module).items()
    if callable(function)
    and not inspect.isclass(function)
    and not name.startswith("_")
    and getattr(function, "__module__", "") == module.__name__
]
TABLES = (
    "ampacity_33cfr183",
    "ampacity_33cfr183_factors",
    "battery_chemistry",
    "battery_cold",
    "battery_rest_voltage",
    "conductors",
    "fuse_gates",
    "fuses",
    "interrupting",
    "sleeves",
    "torque",
    "crimp_pull",
    "battery_cases",
)
MARKS = {"yes", "computed", "memory", "breaking only"}


def section(function, name):
    text = inspect.getdoc(function) or ""
    found = re.search(rf"^{name}\n-+\n(.*?)(?=^\w[\w ]*\n-+\n|\Z)", text, re.DOTALL | re.MULTILINE)
    return found[1] if found else ""


def test_there_are_functions_to_check():
    assert len(FUNCTIONS) > 25


@pytest.mark.parametrize("function", FUNCTIONS)
def test_parameters_match_the_signature(function):
    documented = re.findall(r"^(\w+) : ", section(function, "Parameters"), re.MULTILINE)
    assert documented == list(inspect.signature(function).parameters)


@pytest.mark.parametrize("function", FUNCTIONS)
def test_every_parameter_and_result_has_a_unit(function):
    for name in ("Parameters", "Returns"):
        entries = re.split(r"^(?=\S)", section(function, name), flags=re.MULTILINE)
        for entry in filter(str.strip, entries):
            assert re.search(r"\[[^\]]+\]\s*\Z", entry), entry


@pytest.mark.parametrize("function", FUNCTIONS)
def test_references_are_known_sources(function):
    cited = section(function, "References").split()
    assert cited
    for key in cited:
        assert citations.cite(key).key == key


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.__name__.rpartition(".")[2])
def test_worked_examples(module):
    failed, attempted = doctest.testmod(module)
    assert attempted > 0
    assert failed == 0


@pytest.mark.parametrize("table", TABLES)
def test_every_row_of_a_table_names_known_sources_and_marks(table):
    found = tabledata.rows(table)
    assert found
    for row in found:
        for key in filter(None, f"{row['source']};{row.get('diameter_source', '')}".split(";")):
            assert citations.cite(key).key == key
        for column, mark in row.items():
            if "verified" in column and mark:
                assert mark in MARKS
        assert row.get("verified", "mark per column")


def test_every_source_is_used():
    used = {key for param in FUNCTIONS for key in section(param.values[0], "References").split()}
    for table in TABLES:
        for row in tabledata.rows(table):
            used.update(f"{row['source']};{row.get('diameter_source', '')}".split(";"))
    used |= {key for rule in discover.modules(rules).values() for key in rule.SOURCES}
    assert set(citations.keys()) <= used


def test_an_unknown_source_is_named():
    with pytest.raises(KeyError, match="no source `iec-0`"):
        citations.cite("iec-0")


def test_a_missing_table_is_an_error():
    with pytest.raises(FileNotFoundError, match="no-such-table"):
        tabledata.rows("no-such-table")
