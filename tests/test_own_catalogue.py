"""The shop's own catalogue: what it adds to the shipped parts, and what is wrong with one, at its place."""

from __future__ import annotations

import pathlib
from decimal import Decimal

import pytest

from buildspec import catalogue, pipeline
from buildspec.findings import Diagnostic
from buildspec.fitted import items
from buildspec.model import Part
from buildspec.money import Money

SPEC = """buildspec: 1
job: {number: T-1, title: Trial, revision: A, date: 2026-10-05, owner: {name: Fernhollow Rivers Trust}}
vehicle: {description: Double-cab pickup, system: 12 V}
places: {bed: {environment: cabin}}
grounds: {stud: {at: bed}}
batteries: {house: {chemistry: agm, capacity: 75 Ah, cranking: 520 A, at: bed}}
accessories:
  lamp: {part: PART, at: bed, fed_from: house}
"""


def job(folder: pathlib.Path, *, part: str, **files: str) -> pathlib.Path:
    """A spec that fits one part, with the files given beside it; `yard` is written as `yard.parts.yaml`."""
    for name, text in files.items():
        (folder / f"{name}.parts.yaml").write_text(text, encoding="utf-8")
    path = folder / "t.build.yaml"
    path.write_text(SPEC.replace("PART", part), encoding="utf-8")
    return path


def fitted(path: pathlib.Path) -> Part:
    outcome = pipeline.check_file(path)
    assert outcome.build is not None, [d.message for d in outcome.diagnostics]
    return next(i.part for i in items(outcome.build.build) if i.at == ("accessories", "lamp"))


def errors(path: pathlib.Path) -> list[Diagnostic]:
    return [d for d in pipeline.check_file(path).diagnostics if d.severity == "error"]


def one(path: pathlib.Path) -> Diagnostic:
    found = errors(path)
    assert len(found) == 1, [d.message for d in found]
    return found[0]


def test_a_shipped_part_gets_the_shops_number_and_price(tmp_path: pathlib.Path) -> None:
    yard = (
        "parts:\n  led-work-27: {extends: led-work-27, own_number: TR-7, supplier: Yard Stores, price: 38.25 EUR,"
        " hours: 90 min, substitutes: [led-work-18], maker_part: drawing 7, mark: trial mark, revision: B}\n"
    )
    part = fitted(job(tmp_path, part="led-work-27", yard=yard))
    assert part.title == catalogue.shipped()["led-work-27"]["title"]
    assert part.price == Money(Decimal("38.25"), "EUR") and part.fitting_s == 90 * 60
    assert (part.own_number, part.supplier, part.substitutes) == ("TR-7", "Yard Stores", ("led-work-18",))
    assert (part.maker_part, part.mark, part.revision) == ("drawing 7", "trial mark", "B")


def test_a_part_of_its_own_may_extend_a_shipped_one_and_change_one_figure(tmp_path: pathlib.Path) -> None:
    yard = "parts:\n  yard-lamp: {extends: led-work-27, title: Yard lamp, mass: 1.25 kg, electrical: {worst: 4 A}}\n"
    part = fitted(job(tmp_path, part="yard-lamp", yard=yard))
    shipped = catalogue.shipped()["led-work-27"]
    assert (part.id, part.title, part.mass_kg) == ("yard-lamp", "Yard lamp", 1.25)
    assert part.electrical is not None and part.electrical.worst_a == 4.0
    assert part.electrical.model == shipped["electrical"]["model"]
    assert part.lamp is not None and part.lamp.colour == shipped["lamp"]["colour"]


def test_a_part_that_nobody_ships_is_used_as_written(tmp_path: pathlib.Path) -> None:
    yard = (
        "parts:\n  yard-buzzer: {title: Buzzer, letter: P, category: alarm, source: bench test,"
        " electrical: {model: constant-current, worst: 0.2 A}}\n"
    )
    part = fitted(job(tmp_path, part="yard-buzzer", yard=yard))
    assert (part.title, part.letter, part.price) == ("Buzzer", "P", None)


def test_the_shipped_catalogue_stays_as_it_is(tmp_path: pathlib.Path) -> None:
    before = dict(catalogue.shipped()["led-work-27"])
    fitted(
        job(
            tmp_path, part="led-work-27", yard="parts:\n  led-work-27: {extends: led-work-27, price: 1 EUR}\n"
        )
    )
    assert catalogue.shipped()["led-work-27"] == before


def test_files_that_the_practice_lists_are_read_once(tmp_path: pathlib.Path) -> None:
    (tmp_path / "stock").mkdir()
    listed = "parts:\n  yard-lamp: {extends: led-work-27, title: From the list}\n"
    (tmp_path / "stock" / "all.parts.yaml").write_text(listed, encoding="utf-8")
    practice = "practice: 1\ncatalogues: [stock/all.parts.yaml, yard.parts.yaml]\n"
    (tmp_path / "practice.yaml").write_text(practice, encoding="utf-8")
    yard = "parts:\n  beacon-led: {extends: beacon-led, price: 84 EUR}\n"
    assert fitted(job(tmp_path, part="yard-lamp", yard=yard)).title == "From the list"


def test_a_listed_file_that_is_not_there_is_said(tmp_path: pathlib.Path) -> None:
    (tmp_path / "practice.yaml").write_text("practice: 1\ncatalogues: [none.parts.yaml]\n", encoding="utf-8")
    found = one(job(tmp_path, part="led-work-27"))
    assert (found.rule, found.span.line, found.span.col) == ("unreadable-file", 2, 14)
    assert found.span.file.endswith("practice.yaml") and "none.parts.yaml: no such file" in found.message


def test_what_is_extended_is_shipped(tmp_path: pathlib.Path) -> None:
    found = one(job(tmp_path, part="led-work-27", yard="parts:\n  yard-lamp:\n    extends: led-work-72\n"))
    assert (found.rule, found.span.line, found.span.col) == ("unknown-name", 3, 14)
    assert found.span.file.endswith("yard.parts.yaml")
    assert "shipped part `led-work-72`" in found.message and "`led-work-27`" in found.help


@pytest.mark.parametrize("extends", ["", "extends: led-work-18, "])
def test_a_shipped_part_is_not_hidden(tmp_path: pathlib.Path, extends: str) -> None:
    yard = f"parts:\n  led-work-27: {{{extends}title: Lamp, letter: E, category: lamp, source: yard}}\n"
    found = one(job(tmp_path, part="led-work-27", yard=yard))
    assert (found.rule, found.span.line) == ("part-hides-shipped", 2)
    assert found.help.endswith("`extends: led-work-27`")


def test_a_part_in_two_files_is_reported_with_both_places(tmp_path: pathlib.Path) -> None:
    first = "parts:\n  yard-lamp: {extends: led-work-27}\n"
    second = "parts:\n  other: {extends: led-work-18}\n  yard-lamp: {extends: led-work-18}\n"
    found = one(job(tmp_path, part="yard-lamp", a=first, b=second))
    assert (found.rule, found.span.line) == ("part-written-twice", 3)
    (where, text), *more = found.related
    assert (where.line, text, more) == (2, "written here first", [])
    assert found.span.file.endswith("b.parts.yaml") and where.file.endswith("a.parts.yaml")


def test_substitutes_are_parts(tmp_path: pathlib.Path) -> None:
    yard = "parts:\n  yard-lamp:\n    extends: led-work-27\n    substitutes: [led-work-18, led-wrk-10]\n"
    found = one(job(tmp_path, part="yard-lamp", yard=yard))
    assert (found.rule, found.span.line) == ("unknown-name", 4)
    assert "`led-wrk-10`" in found.message and "`led-work-10`" in found.help


def test_a_trait_that_cannot_do_is_reported_in_the_catalogue(tmp_path: pathlib.Path) -> None:
    yard = "parts:\n  yard-lamp: {title: Lamp, letter: E, category: lamp, source: yard, lamp: {kind: work}}\n"
    found = one(job(tmp_path, part="yard-lamp", yard=yard))
    assert (found.rule, found.message) == ("missing-rating", "`lamp` lacks `colour`")
    assert found.span.file.endswith("yard.parts.yaml") and found.span.line == 2


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("price: 129.50", "`price` needs a text, but `129.5` is a number"),
        ("price: 129,50 EUR", None),
        ("price: 129.50 euro", "`129.50 euro` does not fit `price`"),
        ("price: -3 EUR", "`-3 EUR` does not fit `price`"),
        ("price: EUR 129.50", "`EUR 129.50` does not fit `price`"),
        ("hours: 1.5", "`1.5` has no unit"),
        ("colour: red", "unknown key `colour`"),
        ("maker_part: ''", "`maker_part` has 0 characters; at least 1 needed"),
    ],
)
def test_prices_and_times_are_checked_where_they_stand(
    tmp_path: pathlib.Path, written: str, said: str | None
) -> None:
    found = errors(
        job(
            tmp_path,
            part="led-work-27",
            yard=f"parts:\n  yard-lamp:\n    extends: led-work-27\n    {written}\n",
        )
    )
    assert (
        found
        and {d.span.file[-15:] for d in found} == {"yard.parts.yaml"}
        and {d.span.line for d in found} == {4}
    )
    assert said is None or any(said in d.message for d in found), [d.message for d in found]


def test_a_part_of_its_own_says_what_it_is(tmp_path: pathlib.Path) -> None:
    found = errors(job(tmp_path, part="led-work-27", yard="parts:\n  yard-lamp: {price: 3 EUR}\n"))
    assert {d.message for d in found} == {
        f"`yard-lamp` lacks key `{key}`" for key in ("title", "letter", "category", "source")
    }
