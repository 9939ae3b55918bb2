"""read → validate → resolve → size → prove, for one spec. The documents are made from what comes out."""

from __future__ import annotations

import pathlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from buildspec import layers, letters, read, resolve, size, validate, vehicle_data
from buildspec.errors import UsageError
from buildspec.figures import Layer
from buildspec.findings import Diagnostic, Path
from buildspec.model import Origin, Sized
from buildspec.prove import placed, prove
from buildspec.read import Document
from buildspec.resolve import own_parts

SUFFIX = ".build.yaml"
PARTS_SUFFIX = ".parts.yaml"


class Vehicle(NamedTuple):
    """A vehicle data file, and what of a build comes from it."""

    document: Document
    origin: Origin


class Outcome(NamedTuple):
    """What a spec came to: its findings, and the sized build unless something stood in its way."""

    diagnostics: tuple[Diagnostic, ...]
    build: Sized | None


def check_file(path: pathlib.Path) -> Outcome:
    """Everything that can be said of one spec; raises UsageError for a file that cannot be read."""
    spec, vehicle, said = spec_of(path)
    if spec is None:
        return Outcome(said, None)
    practice, more = practice_of(path, spec)
    numbers, last = numbers_of(path)
    own, said_of_parts = own_parts_of(path, practice)
    profiles, said_of_profiles = profiles_of(path, spec)
    said = (*said, *more, *last, *said_of_parts, *said_of_profiles)
    if any(d.severity == "error" for d in said):
        return Outcome(ordered(said), None)
    kept = numbers.data["numbers"] if numbers else {}
    outcome = check_documents(spec, practice, kept, own, profiles, vehicle)
    return outcome._replace(diagnostics=ordered((*said, *outcome.diagnostics)))


def check_documents(
    spec: Document,
    practice: Document | None,
    kept: Mapping[str, str],
    own: Sequence[Document] = (),
    profiles: Sequence[Document] = (),
    vehicle: Vehicle | None = None,
) -> Outcome:
    """resolve → size → prove for documents that have passed their schemas.

    `own`: the shop's catalogue files; `profiles`: the customer's, weakest first; `vehicle`: the
    vehicle data file that `spec` has been laid over.
    """
    others = (*((practice,) if practice else ()), *((vehicle.document,) if vehicle else ()))
    documents = {d.doc: d for d in (spec, *own, *profiles, *others)}
    parts, wrong = own_parts.merged(own)
    names = tuple(profile.data["name"] for profile in profiles)
    decided = layers.layered(layers_of(spec, practice, profiles, vehicle))
    origin = vehicle.origin if vehicle else None
    build, faults = (
        (None, wrong) if wrong else resolve.resolve(spec.data, decided, kept, parts, names, origin)
    )
    said = tuple(placed(finding, rule, "error", documents) for rule, finding in faults)
    if build is None:
        return Outcome(ordered(said), None)
    sized = size.size(build)
    return Outcome(ordered((*said, *prove(sized, documents))), sized)


def layers_of(
    spec: Document, practice: Document | None, profiles: Sequence[Document], vehicle: Vehicle | None
) -> tuple[Layer, ...]:
    """The layers of figures of a job, weakest first; the built-in basis lies under them."""
    shop = Layer("the shop's practice", "practice", (), without(data_of(practice), "practice"))
    customer = [
        Layer(f"profile {p.data['name']}", p.doc, (), without(p.data, "profile", "name")) for p in profiles
    ]
    kind = [vehicle_layer(vehicle)] if vehicle else []
    job = Layer("this job", "spec", ("limits",), spec.data.get("limits", {}))
    return (shop, *customer, *kind, job)


def vehicle_layer(vehicle: Vehicle) -> Layer:
    """The figures of a vehicle data file; its document stands behind each that names no other."""
    data = vehicle.document.data
    limits = data.get("limits", {})
    return Layer(
        f"vehicle data {data['variant']}",
        vehicle.document.doc,
        ("limits",),
        {"document": data["document"], **limits} if limits else {},
    )


def without(data: Mapping[str, Any], *keys: str) -> dict[str, Any]:
    return {key: value for key, value in data.items() if key not in keys}


def spec_of(path: pathlib.Path) -> tuple[Document | None, Vehicle | None, tuple[Diagnostic, ...]]:
    """A spec, laid over the vehicle data file that it names, held against its schema."""
    spec, said = read.read_file(path, doc="spec")
    file = named_data(spec)
    if spec is None or any(d.severity == "error" for d in said) or file is None:
        document, said = shaped(spec, said, "spec")
        return document, None, said
    data, more = asked(path.parent / file, "vehicle", by=spec, at=("vehicle", "data"))
    said = (*said, *more)
    if data is None:
        return None, None, said
    laid, disagreed = vehicle_data.laid(spec, data)
    document, said = shaped(laid, (*said, *disagreed), "spec")
    if document is not None:
        document = document._replace(data=vehicle_data.sourced(document.data, data))
    return document, Vehicle(data, vehicle_data.origin(spec, data)), said


def named_data(spec: Document | None) -> str | None:
    """The vehicle data file that a spec names, as far as its shape allows to say."""
    vehicle = spec.data.get("vehicle") if spec is not None and isinstance(spec.data, dict) else None
    file = vehicle.get("data") if isinstance(vehicle, dict) else None
    return file if isinstance(file, str) else None


def profiles_of(path: pathlib.Path, spec: Document) -> tuple[tuple[Document, ...], tuple[Diagnostic, ...]]:
    """The customer profiles that a spec names, in its order."""
    named: Any = spec.data.get("profile", ())
    files = [named] if isinstance(named, str) else named
    read_in = [
        asked(path.parent / name, "profile", f"profile {n}", by=spec, at=profile_key(named, n))
        for n, name in enumerate(files, 1)
    ]
    return tuple(d for d, _ in read_in if d is not None), tuple(
        said for _, found in read_in for said in found
    )


def profile_key(named: str | Sequence[str], number: int) -> Path:
    """Where a profile is named: the one of a spec, or one of a list."""
    return ("profile",) if isinstance(named, str) else ("profile", number - 1)


def data_of(document: Document | None) -> Mapping[str, Any]:
    """What a document says; nothing where there is none."""
    found: Mapping[str, Any] = document.data if document else {}
    return found


def checked(path: pathlib.Path, schema: str, doc: str = "") -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """A file read and held against its schema; None where it has an error of shape."""
    document, said = read.read_file(path, doc=doc or schema)
    return shaped(document, said, schema)


def shaped(
    document: Document | None, said: tuple[Diagnostic, ...], schema: str
) -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """A document held against its schema; None where it has an error."""
    if document is not None:
        said = (*said, *validate.check_schema(document, schema), *letters.unprintable(document))
    return (None if any(d.severity == "error" for d in said) else document), said


def asked(
    path: pathlib.Path, schema: str, doc: str = "", *, by: Document | None = None, at: Path = ()
) -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """As `checked`, but a file that cannot be read is a finding: at the key of `by` that names it, or its own."""
    try:
        return checked(path, schema, doc)
    except UsageError as error:
        span = read.start_of(path) if by is None else read.span_of(by, at)
        return None, (read.unreadable(error, span, at),)


def practice_of(path: pathlib.Path, spec: Document) -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """The practice file that the spec names, or `practice.yaml` beside it, or none."""
    named: Any = spec.data.get("practice")
    file = path.parent / (named or "practice.yaml")
    if named is None and not file.exists():
        return None, ()
    at: Path = ("practice",) if named is not None else ()
    return asked(file, "practice", by=spec if at else None, at=at)


def own_parts_of(
    path: pathlib.Path, practice: Document | None
) -> tuple[tuple[Document, ...], tuple[Diagnostic, ...]]:
    """The shop's own catalogue files: those beside the spec, then those that its practice lists."""
    files: list[tuple[pathlib.Path, Document | None, Path]] = [
        (file, None, ()) for file in sorted(path.parent.glob(f"*{PARTS_SUFFIX}"))
    ]
    if practice is not None:
        folder = pathlib.Path(practice.file).parent
        listed = enumerate(data_of(practice).get("catalogues", ()))
        files += [(folder / name, practice, ("catalogues", n)) for n, name in listed]
    once = {file.resolve(): (file, by, at) for file, by, at in reversed(files)}
    read_in = [
        asked(file, "parts", f"parts {n}", by=by, at=at)
        for n, (file, by, at) in enumerate(reversed(once.values()), 1)
    ]
    return tuple(d for d, _ in read_in if d is not None), tuple(
        said for _, found in read_in for said in found
    )


def numbers_file(path: pathlib.Path) -> pathlib.Path:
    """The numbering file of a spec: beside it, same stem."""
    return path.with_name(path.name.removesuffix(SUFFIX).removesuffix(".yaml") + ".numbers.yaml")


def numbers_of(path: pathlib.Path) -> tuple[Document | None, tuple[Diagnostic, ...]]:
    """Designations kept from earlier, or none yet."""
    file = numbers_file(path)
    if not file.exists():
        return None, ()
    document, said = asked(file, "numbers")
    return document, said if document is None else (*said, *given_twice(document), *wrong_letter(document))


def given_twice(numbers: Document) -> Iterator[Diagnostic]:
    """Designations that two keys have, as after two branches were merged; circuits count apart."""
    first: dict[tuple[bool, str], str] = {}
    for key, designation in numbers.data["numbers"].items():
        holder = first.setdefault((key.startswith("circuit "), plainest(designation)), key)
        if holder != key:
            yield Diagnostic(
                read.span_of(numbers, ("numbers", key)),
                "error",
                "name-used-twice",
                f"designation `{designation}` of `{key}` is that of `{holder}` already",
                f"take the line of `{key}` out, and it gets a new one",
                ((read.span_of(numbers, ("numbers", holder)), "given here"),),
                ("numbers", key),
            )


LETTERS = {"fuse": "F", "relay": "K", "power_off": "S", "common": "X"}
"""Last part of a key → class letter (IEC 81346-2); every other part of an item is a conductor, `W`."""
WORDS = {"F": "a fuse", "K": "a relay", "S": "a switch", "W": "a conductor", "X": "a common point"}


def wrong_letter(numbers: Document) -> Iterator[Diagnostic]:
    """Designations whose letter is not that of what they name: a fuse kept as `W03`, a conductor as `F2`."""
    for key, designation in numbers.data["numbers"].items():
        item, _, part = key.rpartition("/")
        letter = designation.rstrip("0123456789")
        wanted = LETTERS.get(part, "W") if item else ""
        if not key.startswith("circuit ") and (letter != wanted if wanted else letter == "W"):
            what = WORDS[wanted] if wanted else "an item and no conductor"
            is_a = f"; its letter is `{wanted}`" if wanted else "; `W` is the letter of a conductor"
            yield Diagnostic(
                read.span_of(numbers, ("numbers", key)),
                "error",
                "designation-of-wrong-kind",
                f"`{key}` is {what} and is kept as `{designation}`{is_a} (IEC 81346-2)",
                f"write what is printed on its label, or take the line out, and `{key}` gets a new designation",
                path=("numbers", key),
            )


def plainest(designation: str) -> str:
    """`W2` of `W02`: on a label they are one."""
    letters = designation.rstrip("0123456789")
    return letters + designation.removeprefix(letters).lstrip("0")


def ordered(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    return tuple(sorted(set(diagnostics), key=lambda d: d.order))
