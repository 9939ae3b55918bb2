"""A bench answer for people: the answer first, then the sum behind it line by line."""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.bench.answer import Answer, Fault, Tried
from buildspec.bench.question import Question
from buildspec.calc import copper
from buildspec.model import Device
from buildspec.size import loom

CAUTION = (
    "not looked at here: the fault current where the device sits, its distance from the source, heat of neighbours;\n"
    "the vehicle maker's instructions, local codes and a licensed practitioner come first"
)


def render(asked: Question, found: Answer, fits: Answer | None) -> str:
    """The whole answer; `fits` is what would fit where something written does not."""
    sections = (
        headline(found),
        faults(found.faults),
        [f"what would fit: {summary(fits)}"] if fits and fits.passes else [],
        ["", "asked", *indented(inputs(asked, found))],
        ["", "fuse", *indented(fuse(found))],
        ["", "conductor", *indented(conductor(found))],
        ["", "voltage drop", *indented(drop(found))],
        ["", "next sizes", *indented(neighbours(found))],
        ["", *CAUTION.split("\n")],
    )
    return "\n".join(line for section in sections for line in section) + "\n"


def indented(lines: Iterator[str]) -> Iterator[str]:
    return (f"  {line}" for line in lines)


def headline(found: Answer) -> list[str]:
    return [f"{'fits' if found.passes else 'does not fit'}: {summary(found)}"]


def summary(found: Answer) -> str:
    """Conductor, device and drop in one line."""
    sizing = found.sizing
    nominal = found.build.practice.nominal_v
    lost = f"{show.volts(sizing.drop_v)} lost ({show.percent(sizing.drop_v / nominal)})"
    return f"{show.both_sizes(sizing.conductor)}, {device(sizing.devices[0])}, {lost}"


def device(item: Device) -> str:
    colour = f", {item.colour}" if item.colour else ""
    return f"{show.amps(item.rating_a)} {show.family(item.family)} fuse{colour}"


def faults(found: tuple[Fault, ...]) -> list[str]:
    lines: list[str] = []
    for fault in found:
        lines += [
            f"{fault.severity}[{fault.rule}]: {fault.message}",
            *([f"  {fault.help}"] if fault.help else []),
        ]
    return lines


def inputs(asked: Question, found: Answer) -> Iterator[str]:
    practice = found.build.practice
    metres = show.length(asked.length.value, practice)
    same = "" if asked.length.text == metres else f" ({metres})"
    way = (
        "and the same back in a conductor of its own"
        if asked.back == "own"
        else "and back through the vehicle body"
    )
    lasting = "continuous" if asked.continuous else "intermittent"
    yield f"load: {asked.load.text}, {lasting}, {practice.nominal_v:g} V system"
    yield f"length: {asked.length.text}{same} one way, {way}"
    loaded = found.sizing.ampacity.loaded if found.sizing.ampacity else 0
    among = f", {loaded} loaded conductors in the loom" if loaded > 1 else ", alone in the loom"
    yield f"place: {asked.place}, run and fuse{among}; insulation {practice.insulation_c:g} °C"


def fuse(found: Answer) -> Iterator[str]:
    item, design = found.sizing.devices[0], found.sizing.design_a
    source = found.build.practice.sources["fuse_share"]
    if found.share < 1:
        why = f"may use {show.percent(found.share)} of it for good ({found.circuit.environment}; {source})"
    else:
        why = "an intermittent load may use the whole rating"
    yield f"{show.amps(design)} / {found.share:g} = {show.plain(design / found.share, 2)} A at least: {why}"
    verb = "written" if item.written else "smallest that is made"
    yield f"{verb}: {device(item)}; holder {show.amps(item.holder_a)}"


def conductor(found: Answer) -> Iterator[str]:
    if found.sizing.ampacity is None:
        yield f"{show.size(found.sizing.conductor)} is below the ampacity table"
    else:
        yield "ampacity is base × place factor × bundle factor"
    for limit in (x for x in found.limits if x.name != "voltage drop"):
        yield tell(limit.name, limit.sum, limit.margin)
    practice, why = found.build.practice, found.sizing.reason
    yield f"times {practice.wire_margin:g} of the fuse: {practice.sources['wire_margin']}"
    second = f"; second: {why.runner_up}" if why.runner_up else ""
    yield f"governed by {why.governed_by}, {left(why.governed_by, why.margin)}{second}"


def tell(name: str, sum: str, margin: float) -> str:
    return f"{name}: {sum}; {left(name, margin)}"


def left(name: str, margin: float) -> str:
    """How far a limit is away, or by how much it is missed."""
    verdict = "margin" if margin >= 0 else "over by" if name == "voltage drop" else "short by"
    return f"{verdict} {show.percent(abs(margin))}"


def drop(found: Answer) -> Iterator[str]:
    practice, sizing, circuit = found.build.practice, found.sizing, found.circuit
    metres = sum(w.cut_m for w in (*circuit.feeds, *circuit.returns))
    cold = sizing.conductor.r20_ohm_per_m * metres
    hot = copper.resistance_at(r20_ohm=cold, temp_c=sizing.temp_c)
    yield (
        f"copper: {sizing.conductor.r20_ohm_per_m * 1000:.3g} mΩ/m × {show.plain(metres, 3)} m × "
        f"(1 + {copper.TEMP_COEFFICIENT_PER_K:g} × ({sizing.temp_c:.1f} − 20)) = {hot * 1000:.2f} mΩ "
        f"at {sizing.temp_c:.1f} °C ({sizing.conductor.source.replace(';', ', ')})"
    )
    body = f", vehicle body {practice.body_ohm * 1000:g} mΩ" if circuit.body_return else ""
    yield f"fuse and its terminations {practice.contact_ohm * 1000:g} mΩ{body}: {sizing.loop_ohm * 1000:.2f} mΩ in all"
    used = show.plain(sizing.drop_v / practice.nominal_v * 100, 2)
    limit = practice.drop_limit[circuit.drop_class]
    yield (
        f"{show.amps(sizing.design_a)} × {sizing.loop_ohm * 1000:.2f} mΩ = {sizing.drop_v:.3f} V = {used} % "
        f"of {practice.nominal_v:g} V; limit {show.percent(limit)} "
        f"({circuit.drop_class}; {practice.sources['drop_limit']})"
    )
    left_v = max(0.0, sizing.volts_at_load)
    yield f"at the load: {show.volts(left_v)} with the battery at rest at {show.volts(practice.resting_v)}"


def neighbours(found: Answer) -> Iterator[str]:
    if found.smaller is None:
        yield "smaller: none in stock"
    else:
        yield f"smaller, {beside(found, found.smaller)}"
        failing = [x for x in found.smaller.limits if x.margin < 0]
        yield from (f"  fails: {tell(x.name, x.sum, x.margin)}" for x in failing)
        if not failing:
            yield f"  {why_not(found)}"
    yield (
        "larger: none in stock"
        if found.larger is None
        else f"larger for comfort, {beside(found, found.larger)}"
    )


def why_not(found: Answer) -> str:
    """Why a smaller size that breaks no limit was not chosen."""
    least = found.build.practice.min_area_mm2
    assert found.smaller is not None
    if loom.rated(found.build, found.smaller.conductor) is None:
        return "below the ampacity table: signals only"
    if found.smaller.conductor.area_mm2 < least * 0.995:
        return f"below {least:g} mm², the least for power ({found.build.practice.sources['min_wire']})"
    return "would do as well"


def beside(found: Answer, other: Tried) -> str:
    nominal = found.build.practice.nominal_v
    lost = show.percent(other.drop_v / nominal)
    return f"{show.both_sizes(other.conductor)}: {show.volts(other.drop_v)} lost ({lost})"
