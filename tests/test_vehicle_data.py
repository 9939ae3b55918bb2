"""Vehicle data files: laid under a spec, each value with its place and its document; what disagrees is said."""

from __future__ import annotations

import pathlib

import pytest
from sample_packets import EXAMPLES, ROOT, written

from buildspec import pipeline
from buildspec.cli import main
from buildspec.findings import Diagnostic
from buildspec.model import Sized

DATA = """\
vehicle_data: 1
name: Panel van
variant: PV-2
document: body builder guide PV, edition 3
vehicle:
  description: Panel van
  system: 12 V
  alternator: {rated: 150 A, controlled: true, allowance: 65 A}
  engine: {fuel: diesel, displacement: 2.0 l}
  sensed_post: start
  own_loads: {cranking: 250 A}
places:
  engine-bay: {environment: engine}
  cabin: {environment: cabin}
grounds:
  stud: {at: cabin, studs: 3}
feeds:
  aux-1: {at: cabin, words: switch AUX 1, fuse: 15 A, family: blade, allows: 10 A, state: ignition, wire: 1 mm2, length: 3 m}
  up-25: {at: cabin, fuse: 25 A, family: blade, allows: 17 A, state: any, wire: 4 mm2, length: 2 m}
batteries:
  start: {chemistry: flooded, capacity: 80 Ah, cranking: 760 A, at: engine-bay}
"""
SPEC = """\
buildspec: 1
job: {number: T-2, title: Trial, revision: A, date: 2026-10-05, owner: {name: Fernhollow Rivers Trust}}
vehicle: {data: van.vehicle.yaml, variant: PV-2}
runs:
  - {between: [engine-bay, cabin], length: 1 m, through: grommet}
accessories:
  lamp:
    at: cabin
    fed_from: aux-1
    fuse: {none: the vehicle's own fuse}
    electrical: {model: constant-power, power: 40 W}
"""


def job(folder: pathlib.Path, spec: str = SPEC, data: str = DATA) -> pathlib.Path:
    (folder / "van.vehicle.yaml").write_text(data, encoding="utf-8")
    path = folder / "van.build.yaml"
    path.write_text(spec, encoding="utf-8")
    return path


def found(path: pathlib.Path) -> dict[str, Diagnostic]:
    return {d.rule: d for d in pipeline.check_file(path).diagnostics}


def sized(path: pathlib.Path) -> Sized:
    outcome = pipeline.check_file(path)
    assert outcome.build is not None, outcome.diagnostics
    return outcome.build


def test_what_the_file_says_holds_as_if_the_spec_said_it(tmp_path: pathlib.Path) -> None:
    build = sized(job(tmp_path)).build
    assert build.vehicle.alternator is not None and build.vehicle.alternator.allowance_a == 65.0
    assert build.vehicle.alternator.source == "body builder guide PV, edition 3"
    assert build.batteries["start"].existing
    assert list(build.blocks) == ["aux-1"], "a feed that nobody uses is no part of the build"
    assert set(build.vehicle.feeds) == {"aux-1", "up-25"}


def test_an_extension_left_to_the_compiler_is_no_thinner_than_the_vehicles_wire(
    tmp_path: pathlib.Path,
) -> None:
    """A27: 1.0 mm² behind 15 A; the extension has at least that, and outlasts the 15 A."""
    for area, fuse in (("1 mm2", 15.0), ("6 mm2", 15.0)):
        lamp = sized(job(tmp_path, data=DATA.replace("wire: 1 mm2", f"wire: {area}"))).sizings["lamp"]
        assert lamp.conductor.area_mm2 >= float(area.split()[0])
        assert lamp.devices == ()
        assert lamp.ampacity is not None and lamp.ampacity.corrected_a >= fuse


def test_the_vehicles_own_wire_counts_in_the_drop_by_hand(tmp_path: pathlib.Path) -> None:
    """3 m of 1 mm² copper at 20 °C is 51.7 mohm (IEC 60028: 17.241 nohm m); it comes on top and is hotter than that."""
    near = sized(job(tmp_path, data=DATA.replace("length: 3 m", "length: 0.1 m"))).sizings["lamp"]
    far = sized(job(tmp_path)).sizings["lamp"]
    amps = far.design_a
    least = amps * 17.241e-9 * 2.9 / 1e-6
    assert far.conductor == near.conductor
    assert least <= far.drop_v - near.drop_v <= 1.4 * least


def test_a_fault_in_the_file_is_shown_in_the_file(tmp_path: pathlib.Path) -> None:
    path = job(tmp_path, data=DATA.replace("allows: 17 A", "allows: 17 kg"))
    said = found(path)["schema"]
    assert said.span.file.endswith("van.vehicle.yaml") and said.span.line == 19
    path = job(tmp_path, data=DATA.replace("at: cabin, fuse: 25 A", "at: nowhere, fuse: 25 A"))
    said = found(path)["unknown-name"]
    assert said.span.file.endswith("van.vehicle.yaml") and said.span.line == 19


@pytest.mark.parametrize(
    ("variant", "words"),
    [("variant: PV-3", "is `PV-3`, and its data are for `PV-2`"), ("", "is not stated")],
)
def test_the_data_of_another_variant_are_refused(tmp_path: pathlib.Path, variant: str, words: str) -> None:
    text = SPEC.replace("variant: PV-2", variant).replace(".yaml, }", ".yaml}")
    said = found(job(tmp_path, text))["vehicle-variant"]
    assert said.severity == "error" and words in said.message and "PV-2" in said.help


def test_a_spec_that_contradicts_the_file_needs_a_survey(tmp_path: pathlib.Path) -> None:
    other = SPEC.replace("variant: PV-2", "variant: PV-2, alternator: {allowance: 90 A}")
    said = found(job(tmp_path, other))["vehicle-data-overruled"]
    assert said.severity == "error"
    assert (
        "is `90 A` here and `65 A` in the data of this vehicle (body builder guide PV, edition 3)"
        in said.message
    )
    surveyed = other.replace("variant: PV-2", 'variant: PV-2, document: "test of 2026-09-30"')
    path = job(tmp_path, surveyed)
    said = found(path)["vehicle-data-overruled"]
    assert said.severity == "note" and "test of 2026-09-30 holds" in said.message
    alternator = sized(path).build.vehicle.alternator
    assert alternator is not None and alternator.allowance_a == 90.0


def test_the_same_value_in_both_is_no_contradiction(tmp_path: pathlib.Path) -> None:
    other = SPEC.replace("variant: PV-2", "variant: PV-2, sensed_post: start")
    assert "vehicle-data-overruled" not in found(job(tmp_path, other))


def test_a_figure_of_the_file_holds_over_profile_and_names_its_document(tmp_path: pathlib.Path) -> None:
    path = job(tmp_path, data=DATA + "limits: {fuse_share: {cabin: 90 %}}\n")
    practice = sized(path).build.practice
    assert practice.fuse_share["cabin"] == pytest.approx(0.9)
    choice = next(c for c in practice.choices if c.figure == "fuse_share.cabin")
    assert choice.layer == "vehicle data PV-2" and "body builder guide PV, edition 3" in choice.source
    assert [(b.layer, b.value) for b in choice.beaten] == [("built-in basis", "80 %")]


@pytest.mark.parametrize(
    "vehicle",
    ["vehicle: []", "vehicle: {data: 3}", "vehicle: {data: [van.vehicle.yaml]}", "vehicle:"],
)
def test_a_vehicle_of_the_wrong_shape_is_said_and_nothing_breaks(
    tmp_path: pathlib.Path, vehicle: str
) -> None:
    text = SPEC.replace("vehicle: {data: van.vehicle.yaml, variant: PV-2}", vehicle)
    assert "schema" in found(job(tmp_path, text))


@pytest.mark.parametrize("section", ["feeds", "grounds", "places", "batteries", "zones"])
def test_sections_of_the_wrong_shape_are_said_and_nothing_breaks(
    tmp_path: pathlib.Path, section: str
) -> None:
    said = found(job(tmp_path, f"{SPEC}{section}: [a, b]\n"))
    assert "schema" in said


def test_a_charger_takes_its_input_from_a_feed(tmp_path: pathlib.Path) -> None:
    """A37: where the posts are forbidden, the listed point is what a charger is joined to."""
    text = SPEC + (
        "batteries:\n  house: {chemistry: agm, capacity: 75 Ah, cranking: 520 A, at: cabin, battery: {max_charge: 45 A}}\n"
        "isolation:\n  charger: {type: dc-dc, from: up-25, to: house, output: 8 A, at: cabin}\n"
    )
    build = sized(job(tmp_path, text))
    circuit = next(c for c in build.build.circuits if c.key == "charger/in")
    assert circuit.source == "up-25" and build.build.isolation["charger"].ends == ("start", "house")
    ends = {end.item for wire in circuit.feeds for end in (wire.start, wire.end)}
    assert build.build.batteries["start"].designation not in ends


def test_each_example_uses_a_vehicle_of_its_own() -> None:
    names = set()
    for path in EXAMPLES:
        origin = sized(path).build.vehicle.origin
        assert origin is not None
        names.add(origin.variant)
    assert len(names) == len(EXAMPLES) >= 3


def test_the_survey_sheet_prints_every_value_with_its_document_and_a_blank() -> None:
    for path in EXAMPLES:
        sheet, vehicle = written(path)["survey_sheet"], sized(path).build.vehicle
        assert vehicle.origin is not None and vehicle.origin.document in sheet
        for feed in vehicle.feeds.values():
            row = next(line for line in sheet.splitlines() if line.startswith(f"| {feed.words} "))
            assert f"| {feed.source} " in row
            for figure in (feed.fuse_a, feed.allows_a):
                assert figure is None or f" {figure:g} A " in row
        for zone in vehicle.zones.values():
            assert zone.words in sheet and ", ".join(zone.forbids) in sheet
        assert "not surveyed" in sheet, "the number of this vehicle is never in its data"


def test_what_is_not_surveyed_is_listed_to_be_surveyed(
    tmp_path: pathlib.Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = DATA.replace(", length: 3 m", "")
    path = job(tmp_path, data=data)
    assert main(["compile", str(path), "--out", str(tmp_path / "packet")]) == 0
    capsys.readouterr()
    sheet = (tmp_path / "packet" / "documents" / "survey-sheet.md").read_text(encoding="utf-8")
    open_points = sheet.split("## Still to be surveyed")[1]
    assert "cannot check drop and short in front of feed “aux-1”" in open_points


def test_the_examples_of_the_manuals_are_files_that_ship() -> None:
    for path in sorted((ROOT / "examples").glob("*/*.vehicle.yaml")):
        document, said = pipeline.checked(path, "vehicle")
        assert document is not None and not said
