"""Bench answers as JSON for other programs: base units, each unit in its key."""

from __future__ import annotations

import json
from typing import Any

from buildspec.bench.answer import Answer, Tried
from buildspec.bench.question import Question
from buildspec.model import Conductor, Device


def render(asked: Question, found: Answer, fits: Answer | None) -> str:
    """The answer, the sum behind it, and what would fit where something written does not."""
    whole = {
        "passes": found.passes,
        "asked": inputs(asked, found),
        "answer": answer(found),
        "ampacity": found.sizing.ampacity._asdict() if found.sizing.ampacity else None,
        "limits": [limit._asdict() for limit in found.limits],
        "governed_by": found.sizing.reason.governed_by,
        "runner_up": found.sizing.reason.runner_up,
        "smaller": neighbour(found.smaller),
        "larger": neighbour(found.larger),
        "findings": [fault._asdict() for fault in found.faults],
        "would_fit": answer(fits) if fits and fits.passes else None,
    }
    return json.dumps(whole, indent=2, ensure_ascii=False) + "\n"


def inputs(asked: Question, found: Answer) -> dict[str, Any]:
    practice = found.build.practice
    return {
        "load_a": asked.load.value,
        "one_way_m": asked.length.value,
        "system_v": asked.system.value,
        "drop_class": asked.drop_class,
        "drop_limit": practice.drop_limit[asked.drop_class],
        "drop_limit_source": practice.sources["drop_limit"],
        "place": asked.place,
        "insulation_c": practice.insulation_c,
        "continuous": asked.continuous,
        "return": asked.back,
        "fuse_share": found.share,
        "fuse_share_source": practice.sources["fuse_share"],
    }


def answer(found: Answer) -> dict[str, Any]:
    sizing = found.sizing
    return {
        "conductor": conductor(sizing.conductor),
        "fuse": fuse(sizing.devices[0]),
        "temp_c": sizing.temp_c,
        "loop_ohm": sizing.loop_ohm,
        "drop_v": sizing.drop_v,
        "drop": sizing.drop_v / found.build.practice.nominal_v,
        "volts_at_load": sizing.volts_at_load,
    }


def conductor(item: Conductor) -> dict[str, Any]:
    return {
        "name": item.name,
        "area_mm2": item.area_mm2,
        "r20_ohm_per_m": item.r20_ohm_per_m,
        "source": item.source,
    }


def fuse(item: Device) -> dict[str, Any]:
    return {
        "rating_a": item.rating_a,
        "family": item.family,
        "colour": item.colour,
        "holder_a": item.holder_a,
    }


def neighbour(other: Tried | None) -> dict[str, Any] | None:
    if other is None:
        return None
    failing = [limit._asdict() for limit in other.limits if limit.margin < 0]
    return {"conductor": conductor(other.conductor), "drop_v": other.drop_v, "fails": failing}
