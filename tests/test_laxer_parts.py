"""Figures of a catalogue part that a spec makes laxer: refused at their place unless a document is named."""

from __future__ import annotations

import pathlib

import pytest
import rule_fixtures
from rule_fixtures import laid_over

from buildspec import catalogue, pipeline, read
from buildspec.findings import Diagnostic
from buildspec.resolve import laxer_parts
from buildspec.validate import schema

RULE = "laxer-without-document"


def said(text: str) -> list[Diagnostic]:
    """What the stage says of a text laid over the clean base."""
    base, _ = read.read_text(rule_fixtures.BASE.read_text(encoding="utf-8"), file="base")
    over, faults = read.read_text(text, file="over")
    assert base is not None and over is not None, faults
    found = pipeline.check_documents(laid_over(base, over), None, {}).diagnostics
    return [d for d in found if d.rule == RULE]


ITEMS = {
    "accessories": "accessories:\n  x: {{part: {part}, at: load-bed, fed_from: rear.1, {own}}}\n",
    "relay": (
        "accessories:\n  x: {{at: load-bed, fed_from: rear.1, switch: main.4, legend: X, relay: {{part: {part}, "
        "at: load-bed, {own}}}, electrical: {{model: resistive, worst: 3 A}}}}\n"
    ),
    "batteries": "batteries:\n  spare: {{part: {part}, at: load-bed, role: house, {own}}}\n",
    "charger": (
        "isolation:\n  other: {{part: {part}, type: dc-dc, from: start, to: house, wake: ignition, at: bulkhead, {own}}}\n"
    ),
    "link": (
        "isolation:\n  other: {{part: {part}, type: momentary-link, joins: [start, house], switch: main.7, at: bulkhead, {own}}}\n"
    ),
    "panels": (
        "panels:\n  other: {{part: {part}, fed_from: house, module_at: bulkhead, keypad_at: bulkhead, {own}}}\n"
    ),
    "blocks": "blocks:\n  other: {{part: {part}, fed_from: house, at: load-bed, {own}}}\n",
}

LAXER = [
    ("accessories", "led-work-27", "electrical: {worst: 1 A}", "`worst: 1 A`"),
    ("accessories", "led-work-27", "electrical: {power: 5 W}", "`power: 5 W`"),
    ("accessories", "led-work-27", "electrical: {inrush: {times: 1, for: 10 ms}}", "`inrush.times: 1`"),
    ("accessories", "outlet-iso4165", "electrical: {max_fuse: 30 A}", "`max_fuse: 30 A`"),
    ("accessories", "outlet-iso4165", "outlet: {rating: 20 A}", "`rating: 20 A`"),
    ("accessories", "outlet-iso4165", "electrical: {worst: 2 A}", "`worst: 2 A`"),
    ("accessories", "led-work-27", "mass: 0.1 kg", "`mass: 0.1 kg`"),
    ("relay", "relay-30", "contact: {rating: 70 A}", "`rating: 70 A`"),
    ("batteries", "agm-75-g24", "capacity: 150 Ah", "`capacity: 150 Ah`"),
    ("batteries", "agm-75-g24", "battery: {cranking: 100 A}", "`cranking: 100 A`"),
    ("batteries", "agm-75-g24", "battery: {max_charge: 400 A}", "`max_charge: 400 A`"),
    ("charger", "dc-dc-40", "output: 20 A", "`output: 20 A`"),
    ("charger", "dc-dc-40", "charger: {input_max: 30 A}", "`input_max: 30 A`"),
    ("link", "link-200", "rating: 500 A", "`rating: 500 A`"),
    ("link", "link-200", "link: {short_time: 900 A}", "`short_time: 900 A`"),
    ("panels", "panel-solid-8", "panel: {total: 900 A}", "`total: 900 A`"),
    ("panels", "panel-solid-8", "panel: {channel_limits: {1: 90 A}}", "`channel 1: 90 A`"),
    ("blocks", "block-6-blade", "block: {position_limit: 60 A}", "`position_limit: 60 A`"),
    ("blocks", "block-6-blade", "block: {total: 300 A}", "`total: 300 A`"),
    ("accessories", "led-work-27", "systems: [12 V, 24 V]", "`systems: 12 V, 24 V`"),
    ("relay", "relay-30", "systems: [24 V]", "`systems: 24 V`"),
    ("panels", "panel-solid-8", "panel: {keypad_lead: 40 m}", "`keypad_lead: 40 m`"),
]


@pytest.mark.parametrize(("group", "part", "own", "message"), LAXER)
def test_a_laxer_figure_of_a_part_needs_a_document(group: str, part: str, own: str, message: str) -> None:
    text = ITEMS[group].format(part=part, own=own)
    found = said(text)
    assert len(found) == 1, found
    assert message in found[0].message and f"part `{part}`" in found[0].message
    assert "`document:`" in found[0].help
    assert found[0].span.file == "over"
    assert not said(ITEMS[group].format(part=part, own=f"{own}, document: 'data sheet 4410, revision 3'"))


STRICTER = [
    ("accessories", "led-work-27", "electrical: {worst: 9 A}"),
    ("accessories", "led-work-27", "mass: 4 kg"),
    ("accessories", "outlet-iso4165", "outlet: {rating: 5 A}, electrical: {worst: 5 A, max_fuse: 7.5 A}"),
    ("relay", "relay-30", "contact: {rating: 20 A}"),
    ("batteries", "agm-75-g24", "capacity: 60 Ah"),
    ("link", "link-200", "link: {rating: 150 A}"),
    ("blocks", "block-6-blade", "block: {position_limit: 10 A}"),
    ("accessories", "led-work-27", "systems: [12.0 V]"),
]


@pytest.mark.parametrize(("group", "part", "own"), STRICTER)
def test_a_stricter_figure_of_a_part_needs_none(group: str, part: str, own: str) -> None:
    assert not said(ITEMS[group].format(part=part, own=own))


def test_practice_is_no_document() -> None:
    own = "electrical: {worst: 1 A}, source: 'common practice, no source'"
    assert len(said(ITEMS["accessories"].format(part="led-work-27", own=own))) == 1


def test_the_place_is_the_figure_and_both_values_are_named() -> None:
    text = "accessories:\n  x:\n    part: led-work-27\n    at: load-bed\n    fed_from: rear.1\n    electrical:\n      worst: 1 A\n"
    (one,) = said(text)
    assert one.span.line == 7
    assert str(catalogue.shipped()["led-work-27"]["electrical"]["worst"]) in one.message


def test_another_power_drops_the_currents_of_the_part() -> None:
    """A lamp of twice the power draws twice the current, whatever its part's sheet says of the smaller one."""
    shipped = catalogue.shipped()["led-bar-760"]
    item = {"part": "led-bar-760", "electrical": {"power": "240 W"}}
    part = catalogue.part(item, catalogue.shipped(), name="bar", letter="E")
    assert shipped["electrical"]["worst"] == "11.43 A"
    assert part.electrical is not None and part.electrical.worst_a is None and part.electrical.power_w == 240


def test_the_document_is_printed_as_the_source_of_the_figures() -> None:
    item = {"part": "led-bar-760", "electrical": {"power": "60 W"}, "document": "data sheet 9, revision B"}
    part = catalogue.part(item, catalogue.shipped(), name="bar", letter="E")
    assert part.source.startswith("data sheet 9, revision B; the rest: ")


def test_the_table_names_figures_of_the_schema() -> None:
    traits = schema("traits")["$defs"]
    for trait, figures in laxer_parts.LAXER.items():
        keys = traits[trait or "part"]["properties"]
        for figure, way in figures.items():
            first, _, rest = figure.partition(".")
            found = keys[first]["properties"][rest] if rest else keys[first]
            assert found.get("quantity", "") == ("" if way.dimension == "word" else way.dimension), figure


def test_the_shops_entry_for_a_shipped_part_is_held_the_same(tmp_path: pathlib.Path) -> None:
    spec = tmp_path / "t.build.yaml"
    spec.write_text(rule_fixtures.BASE.read_text(encoding="utf-8"), encoding="utf-8")
    yard = tmp_path / "yard.parts.yaml"
    entry = "parts:\n  relay-30: {{extends: relay-30, contact: {{rating: 60 A}}{source}}}\n"
    yard.write_text(entry.format(source=""), encoding="utf-8")
    (one,) = [d for d in pipeline.check_file(spec).diagnostics if d.rule == RULE]
    assert one.span.file == str(yard) and "`rating: 60 A`" in one.message and "`source:`" in one.help
    yard.write_text(entry.format(source=", source: 'bench test 7, revision A'"), encoding="utf-8")
    assert not [d for d in pipeline.check_file(spec).diagnostics if d.rule == RULE]


@pytest.mark.parametrize(
    ("figures", "lax"),
    [
        ("contact: {rating: 60 A}", "`rating: 60 A`"),
        ("systems: [24 V]", "`systems: 24 V`"),
        ("contact: {rating: 20 A}", ""),
    ],
)
@pytest.mark.parametrize("source", ["", ", source: 'common practice, no source'"])
def test_a_new_part_made_from_a_shipped_one_is_held_the_same(
    tmp_path: pathlib.Path, figures: str, lax: str, source: str
) -> None:
    spec, yard = tmp_path / "t.build.yaml", tmp_path / "yard.parts.yaml"
    spec.write_text(rule_fixtures.BASE.read_text(encoding="utf-8"), encoding="utf-8")
    yard.write_text(f"parts:\n  relay-own: {{extends: relay-30, {figures}{source}}}\n", encoding="utf-8")
    found = [d for d in pipeline.check_file(spec).diagnostics if d.rule == RULE]
    assert [lax in d.message and "part `relay-30`" in d.message for d in found] == ([True] if lax else [])
    yard.write_text(
        f"parts:\n  relay-own: {{extends: relay-30, {figures}, source: 'relay sheet 9, revision A'}}\n",
        encoding="utf-8",
    )
    assert not [d for d in pipeline.check_file(spec).diagnostics if d.rule == RULE]
