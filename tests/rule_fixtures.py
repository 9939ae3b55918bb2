"""Fixtures of rules: small YAML cases laid over a clean base spec, with `# expect:` comments on their lines.

A fixture file holds several cases, each after a line `--- # title`. A case is merged, group by group,
over `tests/rules/_base.build.yaml`; a key with the value `null` is taken out. A comment
`# expect: rule-name "part of the message"` on a line says that exactly this rule reports there; notes are looked at only where one is expected. A case
without such a comment must be clean. A group `practice:` at the root of a case with a mapping is laid
over the practice, `_base.practice.yaml`, which says who makes the fuses; a group `vehicle_data:` is a vehicle data
file that the case is laid over.
"""

from __future__ import annotations

import pathlib
import re
from typing import Any, NamedTuple

from buildspec import pipeline, read, validate, vehicle_data
from buildspec.read import Document

FOLDER = pathlib.Path(__file__).parent / "rules"
BASE = FOLDER / "_base.build.yaml"
PRACTICE = FOLDER / "_base.practice.yaml"
UNIDENTIFIED = "safety-part-not-identified.yaml"
EXPECT = re.compile(r"#\s*expect:\s*([a-z-]+)(?:\s+\"([^\"]*)\")?")


class Case(NamedTuple):
    file: str
    title: str
    text: str
    """Padded with empty lines, so that line numbers are those of the file."""


def cases(path: pathlib.Path) -> list[Case]:
    """The cases of one fixture file; raises ValueError when it has none."""
    found: list[Case] = []
    lines = path.read_text(encoding="utf-8").splitlines()
    starts = [n for n, line in enumerate(lines) if line.startswith("---")]
    for start, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        title = lines[start].removeprefix("---").strip().removeprefix("#").strip()
        found.append(Case(path.name, title, "\n" * (start + 1) + "\n".join(lines[start + 1 : end]) + "\n"))
    if not found:
        raise ValueError(f"{path.name} holds no case")
    return found


def expected(case: Case) -> set[tuple[int, str, str]]:
    """(line, rule, fragment) of every `# expect:` comment."""
    return {
        (number, match[1], match[2] or "")
        for number, line in enumerate(case.text.splitlines(), start=1)
        for match in EXPECT.finditer(line)
    }


def merge(base: Any, over: Any) -> Any:
    if isinstance(base, dict) and isinstance(over, dict):
        keys = [*base, *(k for k in over if k not in base)]
        merged = {k: merge(base.get(k), over[k]) if k in over else base[k] for k in keys}
        return {k: v for k, v in merged.items() if not (k in over and over[k] is None)}
    return over


def laid_over(base: Document, over: Document) -> Document:
    """One document with the data of both; places come from the case where it says something."""
    return Document(
        over.file,
        base.doc,
        merge(base.data, over.data),
        {**base.spans, **over.spans},
        {**base.key_spans, **over.key_spans},
    )


def identified(data: dict[str, Any]) -> dict[str, Any]:
    """The data with a number for each link and accessory that has none: only one rule asks for it."""
    return data | {
        part: {name: {"maker_part": "drawing TR-90", **item} for name, item in data[part].items()}
        for part in ("isolation", "accessories")
        if part in data
    }


def run(case: Case) -> set[tuple[int, str, str]]:
    """(line, rule, message) of everything found in a case, schema faults included."""
    found = checked(case).diagnostics
    asked = {rule for _, rule, _ in expected(case)}
    return {
        (d.span.line if d.span.file == case.file else 0, d.rule, d.message)
        for d in found
        if d.severity != "note" or d.waiver or d.rule in asked
    }


def checked(case: Case) -> pipeline.Outcome:
    """A case laid over the base and checked."""
    base, _ = read.read_text(BASE.read_text(encoding="utf-8"), file=BASE.name)
    over, said = read.read_text(case.text, file=case.file)
    assert base is not None and over is not None, said
    shop, _ = read.read_text(PRACTICE.read_text(encoding="utf-8"), file=PRACTICE.name, doc="practice")
    assert shop is not None
    written = over.data.pop("practice") if isinstance(over.data.get("practice"), dict) else {}
    written_vehicle = over.data.pop("vehicle_data", None)
    practice = Document(over.file, "practice", merge(shop.data, written), over.spans, over.key_spans)
    document = laid_over(base, over)
    if case.file != UNIDENTIFIED:
        document = document._replace(data=identified(document.data))
    document, vehicle = over_vehicle(document, written_vehicle, over)
    shape = validate.check_schema(document, "spec")
    if shape:
        return pipeline.Outcome(shape, None)
    return pipeline.check_documents(document, practice, {}, vehicle=vehicle)


def over_vehicle(
    document: Document, written: dict[str, Any] | None, over: Document
) -> tuple[Document, pipeline.Vehicle | None]:
    """A case laid over its vehicle data, where it has some."""
    if written is None:
        return document, None
    data = Document(over.file, "vehicle", written, {}, {})
    assert not validate.check_schema(data, "vehicle")
    laid, _ = vehicle_data.laid(document, data)
    origin = vehicle_data.origin(document, data)
    return laid._replace(data=vehicle_data.sourced(laid.data, data)), pipeline.Vehicle(data, origin)
