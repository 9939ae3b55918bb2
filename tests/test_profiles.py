"""One spec, three customers: three different verdicts, each naming the profile that asks for it."""

from __future__ import annotations

import pathlib

import pytest

from buildspec import pipeline

ROOT = pathlib.Path(__file__).parent.parent
PICKUP = ROOT / "examples" / "river-gauging-pickup"
PROFILES = ROOT / "examples" / "profiles"


def verdict(folder: pathlib.Path, profile: str) -> pipeline.Outcome:
    """The pickup example under one profile; as it stands for ``."""
    for name in ("pickup.build.yaml", "practice.yaml", "pickup.numbers.yaml"):
        (folder / name).write_bytes((PICKUP / name).read_bytes())
    for file in (*PICKUP.glob("*.parts.yaml"), *PICKUP.glob("*.vehicle.yaml")):
        (folder / file.name).write_bytes(file.read_bytes())
    spec = folder / "pickup.build.yaml"
    if profile:
        (folder / profile).write_bytes((PROFILES / profile).read_bytes())
        text = spec.read_text(encoding="utf-8")
        assert "practice: practice.yaml\n" in text
        spec.write_text(
            text.replace("practice: practice.yaml\n", f"practice: practice.yaml\nprofile: {profile}\n"),
            encoding="utf-8",
        )
    return pipeline.check_file(spec)


def rules(outcome: pipeline.Outcome, severity: str) -> set[str]:
    return {d.rule for d in outcome.diagnostics if d.severity == severity}


def test_the_job_as_it_stands_has_no_error(tmp_path: pathlib.Path) -> None:
    assert rules(verdict(tmp_path, ""), "error") == set()


def test_the_fire_authority_gets_larger_wire_and_asks_for_indicators(tmp_path: pathlib.Path) -> None:
    plain = verdict(tmp_path, "")
    fire = verdict(tmp_path, "fire-authority.profile.yaml")
    assert plain.build is not None and fire.build is not None
    larger = [
        key
        for key, sizing in fire.build.sizings.items()
        if sizing.conductor.area_mm2 > plain.build.sizings[key].conductor.area_mm2
    ]
    assert larger
    for sizing in fire.build.sizings.values():
        if sizing.ampacity is not None and sizing.devices and not sizing.written:
            assert sizing.ampacity.corrected_a >= 1.25 * max(d.rating_a for d in sizing.devices)
    assert not {"reset-not-as-asked"} & rules(fire, "error")


def test_the_parks_fleet_refuses_fuses_and_says_who_asks(tmp_path: pathlib.Path) -> None:
    outcome = verdict(tmp_path, "parks-fleet.profile.yaml")
    said = [d for d in outcome.diagnostics if d.rule == "reset-not-as-asked"]
    assert said and all("Long Fell Parks: fleet requirement LF-7, revision 1" in d.message for d in said)
    assert outcome.build is not None
    tables = {s.ampacity.table for s in outcome.build.sizings.values() if s.ampacity is not None}
    assert tables == {"truck body-builder guide, cross-linked insulation"}


def test_the_private_owner_may_ask_for_less_with_a_document(tmp_path: pathlib.Path) -> None:
    outcome = verdict(tmp_path, "private-owner.profile.yaml")
    assert rules(outcome, "error") == set()
    assert outcome.build is not None
    critical = next(c for c in outcome.build.build.practice.choices if c.figure == "drop_limit.critical")
    assert (critical.value, critical.layer) == ("5 %", "profile Private owner")
    assert [b.value for b in critical.beaten][-1] == "3 %"


@pytest.mark.parametrize("profile", sorted(p.name for p in PROFILES.glob("*.yaml")))
def test_the_packet_says_whose_figures_hold(profile: str, tmp_path: pathlib.Path) -> None:
    outcome = verdict(tmp_path, profile)
    assert outcome.build is not None
    assert len(outcome.build.build.practice.profiles) == 1
