"""Who may say what: the layers of figures, the most specific one that speaks wins, and laxer ones need a document.

Layers, weakest first: built-in basis, shop practice, customer profile, vehicle data, spec. Each is a group of keys
as in a practice file. A figure that is laxer than what held before it needs a named document with its revision;
the packet prints every figure that was beaten beside the one that is used.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from buildspec import laxer_gates
from buildspec.findings import Finding, Path
from buildspec.model import Beaten, Choice
from buildspec.values import number

MORE_IS_LAXER = {
    "fuse_share": "ratio", "drop_limit": "ratio", "unprotected": "length", "signal_fuse": "current",
    "alternator_share": "ratio", "signal_allowance": "current", "key_off_current": "current",
    "support_spacing": "length", "relay_from": "current",
    "lamps_max": "", "insulation": "",
}  # fmt: skip
"""Figure → dimension: a larger value asks for less."""
LESS_IS_LAXER = {
    "wire_margin": "ratio", "min_wire": "area", "signal_wire": "area", "clearance": "length", "loom_spare": "ratio",
    "body_resistance": "resistance", "contact_resistance": "resistance",
}  # fmt: skip
"""Figure → dimension: a smaller value asks for less."""
DEMANDS = ("main_beam_interlock", "lamps_symmetric", "covers", "indicators")
"""Demands that are on or off: off is laxer."""
GATES = "fuse_gates"
ABOUT = ("source", "document", "documents")
"""Keys that say where figures come from."""


BASIS = "built-in basis"
LEAST_NAME, NAMES_NOTHING = 6, "common practice"
"""Characters that a document and its revision take at the least, and words that name none."""


class Layer(NamedTuple):
    """One layer as written. `doc` is the document that findings point into, `root` the path of its keys there."""

    name: str
    doc: str
    root: Path
    written: Mapping[str, Any]


class Spot(NamedTuple):
    """Where the figure that holds is written, and the document named for it, or ``."""

    doc: str
    path: Path
    document: str


class Decision(NamedTuple):
    """All layers laid over one another."""

    written: dict[str, Any]
    """As one practice file would say it."""
    choices: tuple[Choice, ...]
    faults: tuple[tuple[str, Finding], ...]
    spots: Mapping[str, Spot]
    """Figure → its place, for those that a layer writes."""


def decide(base: Mapping[str, Any], sources: Mapping[str, str], layers: Sequence[Layer]) -> Decision:
    """Lay the layers over the built-in `base`, whose figures have their `sources`, and keep what was beaten."""
    now = {
        figure: Choice(figure, text(value), BASIS, sources.get(top(figure), ""), ())
        for figure, value in flat(base)
    }
    faults: list[tuple[str, Finding]] = []
    merged: dict[str, Any] = {}
    spots: dict[str, Spot] = {}
    for layer in layers:
        faults += gates(layer, merged.get(GATES, {}))
        merged = laid(merged, layer.written)
        for figure, value in flat(layer.written):
            before = now.get(figure)
            named = document(layer, figure)
            if before is not None and not named and laxer(figure, before.value, text(value)):
                faults.append(("laxer-without-document", lax_finding(layer, figure, before, text(value))))
            now[figure] = replaced(figure, before, layer, text(value), named)
            spots[figure] = Spot(layer.doc, place(layer, figure), named)
    return Decision(merged, tuple(now[key] for key in sorted(now)), tuple(faults), spots)


def flat(written: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """(`fuse_share.cabin`, value) of every figure in a layer; groups that are no figures stay whole."""
    for key, value in written.items():
        if key in ABOUT:
            continue
        if isinstance(value, Mapping) and (key in MORE_IS_LAXER or key in LESS_IS_LAXER):
            yield from ((f"{key}.{part}", one) for part, one in value.items() if part not in ABOUT)
        else:
            yield key, value


def top(figure: str) -> str:
    return figure.partition(".")[0]


def text(value: Any) -> str:
    """A figure as it was written."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (list, tuple)):
        return ", ".join(str(one) for one in value)
    return str(value)


def laid(under: Mapping[str, Any], over: Mapping[str, Any]) -> dict[str, Any]:
    """`over` on `under`; groups are merged key by key."""
    result = dict(under)
    for key, value in over.items():
        below = result.get(key)
        result[key] = (
            {**below, **value} if isinstance(below, Mapping) and isinstance(value, Mapping) else value
        )
    return result


def document(layer: Layer, figure: str) -> str:
    """The document that a layer names for a figure: its own, its group's, or the layer's."""
    named = layer.written.get("documents", {})
    group = layer.written.get(top(figure))
    own = group.get("source", "") if isinstance(group, Mapping) else ""
    found = (named.get(figure), named.get(top(figure)), own, layer.written.get("document"))
    return next((name for name in map(named_document, found) if name), "")


def named_document(text: str | None) -> str:
    """The document that a text names, or `` where it names none: too short to look up, or nobody's."""
    plain = (text or "").strip()
    return "" if len(plain) < LEAST_NAME or plain.casefold().startswith(NAMES_NOTHING) else plain


def laxer(figure: str, before: str, now: str) -> bool:
    """Does `now` ask for less than `before`?"""
    key = top(figure)
    if key in DEMANDS:
        return before == "yes" and now == "no"
    if key in MORE_IS_LAXER:
        return measure(now, MORE_IS_LAXER[key]) > measure(before, MORE_IS_LAXER[key])
    if key in LESS_IS_LAXER:
        return measure(now, LESS_IS_LAXER[key]) < measure(before, LESS_IS_LAXER[key])
    return False


def measure(written: str, dimension: str) -> float:
    return number(written, dimension) if dimension else float(written)


def replaced(figure: str, before: Choice | None, layer: Layer, value: str, named: str) -> Choice:
    beaten = (*before.beaten, Beaten(before.layer, before.value, before.source)) if before is not None else ()
    return Choice(figure, value, layer.name, named or layer.name, beaten)


def lax_finding(layer: Layer, figure: str, before: Choice, now: str) -> Finding:
    key = top(figure)
    return Finding(
        place(layer, figure),
        f"`{figure}: {now}` asks for less than the {before.layer}'s {before.value} and names no document"
        + (f" ({before.source})" if before.source else ""),
        f"name the document and its revision under `documents: {{{key}: …}}`, or keep {before.value}",
        doc=layer.doc,
    )


def gates(layer: Layer, below: Mapping[str, Any]) -> Iterator[tuple[str, Finding]]:
    """Opening times by which a layer asks for less than those below it, or than the built-in ones."""
    written = layer.written.get(GATES, {}) if not document(layer, GATES) else {}
    for family, rows in written.items():
        how = laxer_gates.asks_less(family, rows, below.get(family))
        if how:
            yield (
                "laxer-without-document",
                Finding(
                    (*layer.root, GATES, family),
                    f"`{GATES}.{family}` asks for less than what held before it and names no document: {how}",
                    f"name the maker's curve sheet and its revision under `documents: {{{GATES}: …}}`, or leave it out",
                    doc=layer.doc,
                ),
            )


def place(layer: Layer, figure: str) -> Path:
    """Path of a figure in its layer's document."""
    key, _, part = figure.partition(".")
    return (*layer.root, key, part) if part else (*layer.root, key)
