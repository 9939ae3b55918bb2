"""A vehicle data file laid under a spec: one document with the values of both, each with its own place in its own file.

The file has the shape of a spec and holds only what is known of a kind of vehicle. Where spec and file say
different things the spec wins, and needs a document for it; what comes from the file and names no document of its
own gets the file's.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.findings import Diagnostic, Path
from buildspec.model import Origin
from buildspec.read import Document, key_span_of, span_of

SECTIONS = (
    "places", "grounds", "signals", "feeds", "feed_groups", "tie_downs", "zones", "batteries", "conductors",
)  # fmt: skip
"""Sections of a vehicle data file that a spec has as well, besides `vehicle`."""
SOURCED = ("grounds", "signals", "feeds", "feed_groups", "tie_downs", "zones")
"""Sections whose items name a document."""
SOURCED_FACTS = ("alternator", "own_loads", "axles")
"""Facts under `vehicle` that name a document."""
FOR_PEOPLE = ("description", "words", "source", "title", "fitted")
"""Keys in which a spec may say something else without contradicting anything: words, and what a survey found."""


def laid(spec: Document, data: Document) -> tuple[Document, tuple[Diagnostic, ...]]:
    """`spec` over the vehicle data file `data`, and what the two disagree on.

    Both have been read; `data` has passed its schema; the result still has to pass the schema of specs, and then
    gets its documents from `sourced`.
    """
    under = {key: data.data[key] for key in ("vehicle", *SECTIONS) if key in data.data}
    merged = Document(
        spec.file,
        spec.doc,
        merge(under, spec.data),
        {**data.spans, **spec.spans},
        {**data.key_spans, **spec.key_spans},
    )
    return merged, (*variant_faults(spec, data), *contradictions(spec, data, under))


def origin(spec: Document, data: Document) -> Origin:
    """What of a build comes from the vehicle data file: the paths of its facts and items, two keys long."""
    facts = [(part, name) for part in ("vehicle", *SECTIONS) for name in data.data.get(part, {})]
    said = spec.data["vehicle"]
    return Origin(
        data.data["name"],
        data.data["variant"],
        data.data["document"],
        frozenset(path for path in facts if path[0] != "vehicle" or path[1] not in said),
    )


def merge(under: Any, over: Any) -> Any:
    """`over` on `under`, group by group; lists and scalars are taken whole."""
    if not isinstance(under, Mapping) or not isinstance(over, Mapping):
        return over
    both = {key: merge(under[key], over[key]) for key in under if key in over}
    return {**under, **over, **both}


def sourced(merged: dict[str, Any], data: Document) -> dict[str, Any]:
    """The document of the file as the source of all that comes from it; its battery and cables are the vehicle's."""
    text = data.data["document"]
    own = {"source": text}
    facts = {k: {**own, **merged["vehicle"][k]} for k in SOURCED_FACTS if k in data.data.get("vehicle", {})}
    result = {**merged, "vehicle": {**merged["vehicle"], **facts}}
    for part, extra in (
        *((part, own) for part in SOURCED),
        ("batteries", {"existing": True}),
        ("conductors", {"existing": True}),
    ):
        items = {name: {**extra, **merged[part][name]} for name in data.data.get(part, {})}
        if items:
            result[part] = {**merged[part], **items}
    return result


def variant_faults(spec: Document, data: Document) -> Iterator[Diagnostic]:
    """The data of another variant are the data of another vehicle."""
    wanted, said = data.data["variant"], spec.data["vehicle"].get("variant")
    at: Path = ("vehicle", "data") if said is None else ("vehicle", "variant")
    if said == wanted:
        return
    text = "is not stated" if said is None else f"is `{said}`"
    yield Diagnostic(
        span_of(spec, at),
        "error",
        "vehicle-variant",
        f"the variant of this vehicle {text}, and its data are for `{wanted}` ({data.data['document']})",
        f"read the variant from the vehicle: write `variant: {wanted}` if it is that, else name the data of the other",
        ((span_of(data, ("variant",)), "the data are for this one"),),
        at,
    )


def contradictions(spec: Document, data: Document, under: Mapping[str, Any]) -> Iterator[Diagnostic]:
    """Values that both write and that differ; accepted where the spec names the survey that found them."""
    survey = spec.data["vehicle"].get("document", "")
    for path, own, other in differing(under, spec.data, ()):
        yield Diagnostic(
            span_of(spec, path),
            "note" if survey else "error",
            "vehicle-data-overruled",
            f"{'.'.join(str(k) for k in path)} is `{other}` here and `{own}` in the data of this vehicle "
            f"({data.data['document']})" + (f"; {survey} holds" if survey else ""),
            "" if survey else "take it out, or name the survey that found it: `vehicle: {document: …}`",
            ((key_span_of(data, path), "the vehicle's data say this"),),
            path,
        )


def differing(under: Any, over: Any, path: Path) -> Iterator[tuple[Path, Any, Any]]:
    """(path, value of the file, value of the spec) of everything that both say differently."""
    if isinstance(under, Mapping) and isinstance(over, Mapping):
        for key in over:
            if key in under and key not in FOR_PEOPLE:
                yield from differing(under[key], over[key], (*path, key))
    elif under != over:
        yield path, written(under), written(over)


def written(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (list, tuple)):
        return ", ".join(str(one) for one in value)
    return str(value)
