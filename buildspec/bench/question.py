"""A bench question: one load at the end of one run, as somebody asks it on the command line."""

from __future__ import annotations

import pathlib
from collections.abc import Mapping
from typing import Any, NamedTuple

from buildspec import pipeline, quantity
from buildspec.calc import ampacity
from buildspec.errors import UsageError
from buildspec.quantity import Quantity

CLASSES = ("critical", "general")
PLACES = ("cabin", "engine", "outside", "underbody")
RETURNS = ("own", "body")


class Question(NamedTuple):
    """What is asked. Quantities keep the text that they were written in."""

    load: Quantity
    length: Quantity
    """One way: from the protective device to the load."""
    system: Quantity
    drop: Quantity | None
    """Largest drop as a fraction of the system's voltage; None takes the practice's for the class."""
    drop_class: str
    place: str
    """Surroundings of the whole run and of the protective device."""
    bundle: int | None
    """Loaded conductors in the loom, this circuit's included; None when it lies alone."""
    insulation_c: int | None
    continuous: bool
    back: str
    wire: Quantity | None
    """Written: checked instead of chosen."""
    fuse: Quantity | None
    practice: Mapping[str, Any]
    """The shop's practice as its file has it, empty without one."""


def question(asked: Mapping[str, Any]) -> Question:
    """The question in the words of the command line, options by name without dashes.

    Raises UsageError for a quantity without a unit, out of reach, or a practice that cannot be used.
    """
    load, length = (needed(asked, name, kind) for name, kind in (("load", "current"), ("length", "length")))
    back: str = asked["return"]
    return Question(
        load=load,
        length=length,
        system=needed(asked, "system", "voltage"),
        drop=share(asked),
        drop_class=asked["class"],
        place=asked["place"],
        bundle=bundle(asked["bundle"], back),
        insulation_c=insulation(asked["insulation"]),
        continuous=asked["continuous"],
        back=back,
        wire=maybe(asked, "wire", "area"),
        fuse=maybe(asked, "fuse", "current"),
        practice=practice(asked["practice"]),
    )


def needed(asked: Mapping[str, Any], name: str, dimension: str) -> Quantity:
    if asked[name] is None:
        raise UsageError(f"--{name} is missing: a bench question needs --load and --length")
    found = quantity.parse(asked[name], dimension)
    if isinstance(found, quantity.Fault):
        raise UsageError(f"--{name}: {found.message}; {found.help}")
    if found.value <= 0:
        raise UsageError(f"--{name}: `{found.text}` is nothing to size; write more than 0")
    return found


def maybe(asked: Mapping[str, Any], name: str, dimension: str) -> Quantity | None:
    return None if asked[name] is None else needed(asked, name, dimension)


def share(asked: Mapping[str, Any]) -> Quantity | None:
    found = maybe(asked, "drop", "ratio")
    if found is not None and found.value >= 1:
        raise UsageError(f"--drop: `{found.text}` leaves the load nothing; write less than `100 %`")
    return found


def own_conductors(back: str) -> int:
    """Conductors of the circuit itself that share its run."""
    return 2 if back == "own" else 1


def bundle(written: str | None, back: str) -> int | None:
    if written is None:
        return None
    least = own_conductors(back)
    if not written.isascii() or not written.isdigit() or not least <= int(written) <= 999:
        raise UsageError(
            f"--bundle: `{quantity.quote(written)}` is not a number of loaded conductors; write `{least}` or more, "
            "this circuit's own included"
        )
    return int(written)


def insulation(written: str | None) -> int | None:
    allowed = [str(c) for c in ampacity.INSULATIONS_C]
    if written is not None and written not in allowed:
        listed = ", ".join(allowed)
        raise UsageError(
            f"--insulation: `{quantity.quote(written)}` is not a column of the table; write one of {listed} (°C)"
        )
    return int(written) if written is not None else None


def practice(file: str | None) -> Mapping[str, Any]:
    """A practice file as it is written; the findings of a bad one are in the message."""
    if file is None:
        return {}
    document, said = pipeline.checked(pathlib.Path(file), "practice")
    if document is None:
        first = next(d for d in said if d.severity == "error")
        raise UsageError(f"--practice: {first.span.file}:{first.span.line}: {first.message}")
    data: Mapping[str, Any] = document.data
    return data
