"""`buildspec size`: bench questions against hand sums and reported cases, and what a reserve may carry."""

from __future__ import annotations

import json
import pathlib
from typing import Any

import pytest
import yaml
from rule_fixtures import BASE

from buildspec import pipeline, read
from buildspec.bench import answer, question, reserve
from buildspec.bench.command import run
from buildspec.errors import UsageError
from buildspec.model import Sized

EXAMPLES = sorted((pathlib.Path(__file__).parent.parent / "examples").glob("*/*.build.yaml"))
ASKED: dict[str, Any] = {
    "spec": None, "reserve": None, "load": "12 A", "length": "4 m", "system": "12 V", "drop": None, "class": "general",
    "place": "cabin", "bundle": None, "insulation": None, "practice": None, "continuous": True, "return": "own",
    "wire": None, "fuse": None, "format": "text",
}  # fmt: skip


def ask(**changed: Any) -> answer.Answer:
    return answer.answer(question.question({**ASKED, **changed}))


def told(**changed: Any) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run({**ASKED, "format": "json", **changed}).text)
    return found


def rules(found: answer.Answer) -> set[str]:
    return {fault.rule for fault in found.faults if fault.severity == "error"}


# ------------------------------------------------------------------------------ hand sums, reported cases


def test_the_sum_of_a_plain_question() -> None:
    found = told()
    # 12 A / 0.80 (guide of a chassis maker, cabin) = 15 A: a standard blade, blue (ISO 8820-3).
    assert (found["answer"]["fuse"]["rating_a"], found["answer"]["fuse"]["colour"]) == (15.0, "blue")
    # 2 mm²: 25 A by the 16 AWG row of 33 CFR 183.425 Table 5 at 105 °C, two conductors: no bundle factor.
    assert found["answer"]["conductor"]["name"] == "2 mm2"
    assert found["ampacity"]["corrected_a"] == 25.0
    warm = 30 + (105 - 30) * (12 / 25) ** 2
    # 2 × 4 m by 17.241 nΩ m / 2 mm² with the table's stranding, IEC 60028 coefficient, 1 mΩ for the fuse.
    r20 = found["answer"]["conductor"]["r20_ohm_per_m"]
    assert r20 == pytest.approx(17.241e-3 / 2, rel=0.17)
    assert found["answer"]["drop_v"] == pytest.approx(12 * (r20 * 8 * (1 + 0.00393 * (warm - 20)) + 0.001))


def test_a_crowded_loom_in_the_engine_bay() -> None:
    # 33 CFR 183.425 Table 5 with notes 1 and 2: 35 × 0.85 × 0.60 = 17.85 A for a 20 A fuse.
    # 12 AWG: 45 × 0.85 × 0.60 = 22.95 A.
    asked = {"place": "engine", "bundle": "5", "fuse": "20 A", "length": "1 m"}
    thin, fits = ask(wire="14 AWG", **asked), ask(wire="12 AWG", **asked)
    assert thin.sizing.ampacity is not None and fits.sizing.ampacity is not None
    assert thin.sizing.ampacity.corrected_a == pytest.approx(17.85)
    assert rules(thin) == {"undersized-conductor"}
    assert fits.sizing.ampacity.corrected_a == pytest.approx(22.95)
    assert fits.passes
    assert "`12 AWG` fits here" in thin.faults[0].help


@pytest.mark.parametrize(
    ("asked", "cold_percent", "passes"),
    [
        # A reported compressor: 30 A over 15 ft, worked cold in the report: 10 AWG 7.5 %, 8 AWG 4.7 %, 6 AWG 3.0 %.
        ({"load": "30 A", "length": "15 ft", "drop": "5 %", "wire": "10 AWG"}, 7.5, False),
        ({"load": "30 A", "length": "15 ft", "drop": "10 %", "wire": "8 AWG"}, 4.7, True),
        ({"load": "30 A", "length": "15 ft", "drop": "5 %", "wire": "6 AWG"}, 3.0, True),
        # A charger maker's leads: 25 A over 6 ft at 2 %: 12 AWG worked 4.0 %, 8 AWG 1.6 %.
        ({"load": "25 A", "length": "6 ft", "drop": "2 %", "wire": "12 AWG"}, 4.0, False),
        ({"load": "25 A", "length": "6 ft", "drop": "2 %", "wire": "8 AWG"}, 1.6, True),
    ],
)
def test_reported_drops(asked: dict[str, Any], cold_percent: float, passes: bool) -> None:
    found = ask(**asked)
    cold_v = (
        found.sizing.conductor.r20_ohm_per_m
        * 2
        * found.build.circuits[0].feeds[0].cut_m
        * found.sizing.design_a
    )
    assert cold_v / 12 * 100 == pytest.approx(cold_percent, abs=0.16)
    assert found.sizing.drop_v > cold_v
    assert ("excessive-voltage-drop" not in rules(found)) is passes


def test_a_fridge_at_the_end_of_thin_cable() -> None:
    # Reported: 5 A over 6 m of 0.55 mm² loses 1.88 V cold and leaves 10.3 V of 12.2 V.
    found = ask(load="5 A", length="6 m", wire="0.55 mm2")
    assert 12.2 - 5 * found.sizing.conductor.r20_ohm_per_m * 12 == pytest.approx(10.3, abs=0.05)
    assert 10.0 < found.sizing.volts_at_load < 10.3  # warm copper and the fuse take a little more
    assert {"excessive-voltage-drop", "conductor-below-minimum"} <= rules(found)


def test_the_drop_of_a_body_return_is_the_way_out_and_the_body() -> None:
    own, body = ask(wire="4 mm2"), ask(wire="4 mm2", **{"return": "body"})
    copper = (own.sizing.loop_ohm - 0.001) / 2
    assert body.sizing.loop_ohm == pytest.approx(copper + 0.001 + 0.001)  # body and fuse: 1 mΩ each


# ----------------------------------------------------------------------------------------- the answer


def test_what_is_chosen_passes_and_the_next_smaller_does_not() -> None:
    for load in ("0.5 A", "3 A", "7 A", "12 A", "20 A", "45 A", "90 A"):
        for length in ("0.5 m", "3 m", "8 m"):
            found = ask(load=load, length=length)
            assert found.passes, (load, length)
            smaller = found.smaller
            least = found.build.practice.min_area_mm2
            assert (
                smaller is None
                or smaller.conductor.area_mm2 < least
                or min(x.margin for x in smaller.limits) < 0
            )
            assert found.larger is None or found.larger.drop_v < found.sizing.drop_v


def test_a_fuse_that_is_not_made_is_refused_with_those_that_are() -> None:
    found = ask(fuse="12 A")
    assert "fuse-not-made" in rules(found)
    printed = run({**ASKED, "fuse": "12 A"})
    assert not printed.fits
    assert "nearest: 10 A or 15 A" in printed.text
    assert "what would fit: 2 mm², 15 A mini blade fuse, blue" in printed.text


def test_an_intermittent_load_uses_the_whole_fuse() -> None:
    assert ask(load="15 A", continuous=False).sizing.devices[0].rating_a == 15.0
    assert ask(load="15 A").sizing.devices[0].rating_a == 20.0


def test_what_no_stock_can_carry_is_said() -> None:
    printed = run({**ASKED, "load": "400 A", "length": "20 m"})
    assert not printed.fits
    assert printed.text.startswith("does not fit: ")
    assert "no conductor in stock fits here" in printed.text


def test_the_answer_comes_first_and_the_sum_after_it() -> None:
    text = run(ASKED).text
    assert text.splitlines()[0] == "fits: 2 mm², 15 A mini blade fuse, blue, 1.07 V lost (8.9 %)"
    assert "4 m (4.00 m) one way, and the same back" in text
    assert "12 A / 0.8 = 15 A at least" in text
    assert "limit 10 % (general; ABYC E-11 as publicly quoted" in text
    assert "smaller, 1.5 mm²" in text and "larger for comfort, 2.5 mm²" in text


def test_text_and_json_tell_the_same() -> None:
    found, text = told(load="8 A", length="5 m"), run({**ASKED, "load": "8 A", "length": "5 m"}).text
    assert f"{found['answer']['drop_v']:.3f} V" in text
    assert f"{found['answer']['temp_c']:.1f} °C" in text
    assert found["governed_by"] in text and found["smaller"]["fails"][0]["sum"] in text


def test_the_shops_practice_counts(tmp_path: pathlib.Path) -> None:
    file = tmp_path / "practice.yaml"
    file.write_text(
        "practice: 1\nshop: {name: Trial, contact: none}\nconductors: awg\ndrop_limit: {general: 5 %}\n"
    )
    found = told(practice=str(file))
    assert found["answer"]["conductor"]["name"].endswith("AWG")
    assert (found["asked"]["drop_limit"], found["asked"]["drop_limit_source"]) == (
        0.05,
        "the shop's practice",
    )
    assert told(practice=str(file), drop="2 %")["asked"]["drop_limit_source"] == "as asked"


# --------------------------------------------------------------------------------------- wrong words


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"load": "12"}, "`12` has no unit; a current is needed; write `12 A`"),
        ({"load": "0 A"}, "write more than 0"),
        ({"load": "120 W"}, "`120 W` is a power; a current is needed"),
        ({"load": None}, "--load is missing"),
        ({"length": None}, "--length is missing"),
        ({"length": "4"}, "write `4 m` or `4 ft`"),
        ({"wire": "6 mm"}, "is a diameter"),
        ({"drop": "3"}, "write the share of a hundred"),
        ({"drop": "100 %"}, "leaves the load nothing"),
        ({"bundle": "1"}, "write `2` or more"),
        ({"bundle": "x"}, "not a number of loaded conductors"),
        ({"insulation": "100"}, "write one of 60, 75, 80, 90, 105, 125, 200"),
        ({"reserve": "scene"}, "buildspec size SPEC --reserve NAME"),
        ({"spec": "a.build.yaml"}, "buildspec size SPEC --reserve NAME"),
        ({"spec": "a.build.yaml", "reserve": "scene"}, "leave them out beside --reserve"),
        ({"practice": "none.yaml"}, "cannot read none.yaml"),
    ],
)
def test_wrong_words_say_what_to_write(changed: dict[str, Any], said: str) -> None:
    with pytest.raises(UsageError) as caught:
        run({**ASKED, **changed})
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_practice_with_a_fault_is_placed(tmp_path: pathlib.Path) -> None:
    file = tmp_path / "practice.yaml"
    file.write_text("practice: 1\ndrop_limit: {general: 5}\n")
    with pytest.raises(UsageError, match=r"practice\.yaml:2: "):
        run({**ASKED, "practice": str(file)})


# ----------------------------------------------------------------------------------------- reserves


def plain(file: pathlib.Path) -> dict[str, Any]:
    document, said = read.read_text(file.read_text(encoding="utf-8"), file=file.name)
    assert document is not None, said
    data: dict[str, Any] = document.data
    return data


def written(folder: pathlib.Path, **changed: Any) -> pathlib.Path:
    """The base spec with one reserve changed or added, as a file."""
    data = plain(BASE)
    data["reserves"] = {
        "panel-lead": {
            "at": "load-bed",
            "fed_from": "rear.2",
            "allow": "5 A",
            "end": "behind left trim",
            "cap": "heat-shrink cap",
            **changed,
        }
    }
    file = folder / "trial.build.yaml"
    file.write_text(yaml.safe_dump(data))
    return file


def sized(file: pathlib.Path) -> Sized:
    outcome = pipeline.check_file(file)
    assert outcome.build is not None
    assert [d.message for d in outcome.diagnostics if d.severity == "error"] == []
    return outcome.build


def test_a_spare_laid_for_less_refuses_a_larger_load(tmp_path: pathlib.Path) -> None:
    # Reported: a 125 W panel on leads laid for 60 W. 60 W / 12 V = 5 A.
    # Fuse: 5 / 0.8 → 7.5 A, which carries 6.0 A for good.
    found = reserve.reserve(sized(written(tmp_path)), "panel-lead")
    assert found.sizing.devices[0].rating_a == 7.5
    assert found.largest_a == pytest.approx(6.0)
    assert found.limited_by == "overloaded-fuse"
    assert found.largest_a < 125 / 12


def test_the_largest_current_holds_in_a_spec_that_writes_it_and_a_little_more_does_not(
    tmp_path: pathlib.Path,
) -> None:
    found = reserve.reserve(sized(written(tmp_path)), "panel-lead")
    laid = {
        "wire": found.sizing.conductor.name,
        "fuse": {"rating": f"{found.sizing.devices[0].rating_a:g} A"},
    }
    assert sized(written(tmp_path, allow=f"{found.largest_a:.1f} A", **laid)).sizings[
        "panel-lead"
    ].design_a == pytest.approx(6.0)
    outcome = pipeline.check_file(written(tmp_path, allow=f"{found.largest_a + 0.1:.1f} A", **laid))
    assert "overloaded-fuse" in {d.rule for d in outcome.diagnostics if d.severity == "error"}


def test_a_channel_ends_where_its_limit_is(tmp_path: pathlib.Path) -> None:
    lead = written(tmp_path, switch="main.3", legend="LATER")
    data = plain(lead)
    del data["reserves"]["panel-lead"]["fed_from"]
    data["panels"]["main"]["fuse"] = {"rating": "100 A"}
    lead.write_text(yaml.safe_dump(data))
    outcome = pipeline.check_file(lead)
    assert outcome.build is not None
    found = reserve.reserve(outcome.build, "panel-lead")
    assert found.largest_a <= 15.0


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_reserves_of_the_examples(path: pathlib.Path) -> None:
    build = sized(path)
    for name, item in build.build.reserves.items():
        found = reserve.reserve(build, name)
        assert found.largest_a >= item.allow_a
        asked = {**ASKED, "load": None, "length": None, "spec": str(path), "reserve": name}
        text = run(asked).text
        told = json.loads(run({**asked, "format": "json"}).text)
        assert item.end in text and "qualified fitter" in text
        assert f"{build.loads_a[found.circuit.source]:.1f}".rstrip("0").rstrip(".") in text
        assert told["largest_a"] == pytest.approx(found.largest_a)
        assert found.limited_by in ("device", *{m.replace("_", "-") for m in rule_names()})


def rule_names() -> tuple[str, ...]:
    from buildspec import rules
    from buildspec.discover import names

    return names(rules)


def test_an_unknown_reserve_names_the_nearest(tmp_path: pathlib.Path) -> None:
    build = sized(written(tmp_path))
    with pytest.raises(UsageError, match="did you mean `panel-lead`"):
        reserve.reserve(build, "panel-led")
    with pytest.raises(UsageError, match="there are `panel-lead`"):
        reserve.reserve(build, "xyz")


def test_a_spec_with_errors_gets_no_answer(tmp_path: pathlib.Path) -> None:
    file = written(tmp_path, allow="5 A", fuse={"rating": "12 A"})
    printed = run({**ASKED, "load": None, "length": None, "spec": str(file), "reserve": "panel-lead"})
    assert not printed.fits
    assert "no answer: what a reserve may carry holds only in a spec without errors" in printed.text
