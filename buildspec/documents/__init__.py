"""The documents of a packet: one module each, picked up by its name, set by `templates/<name>.md.j2`.

A document has `TITLE`, `ORDER` (place in the packet) and `view(packet)`, which returns plain values with
every number already formatted and every sentence decided; templates only set them. It may have
`WIDE = True` (landscape when printed), `OWN_PAGE = True` (starts a printed page, since it is handed out by
itself), `anchors(packet)` (designations to whose table row others lead), `csv(packet)` (file name and rows),
`book(packet)` (a spreadsheet), `html(packet)` (a page of its own, `<name>.html`), and `pages(packet)` (file
name and HTML of further pages). One with `SPOKEN = True` speaks every language of the practice: `packet.lang`
says which.
"""

from __future__ import annotations

import sys
from types import ModuleType
from typing import Any, NamedTuple

from buildspec import discover
from buildspec.packet import Packet
from buildspec.tongues import plain


class Document(NamedTuple):
    """A document as found."""

    name: str
    title: str
    order: int
    wide: bool
    module: ModuleType

    @property
    def slug(self) -> str:
        """`cut_list` → `cut-list`: its file name and its anchor."""
        return self.name.replace("_", "-")


def catalogue() -> tuple[Document, ...]:
    """Every document, in the order of the packet."""
    found = discover.modules(sys.modules[__name__], required=("TITLE", "ORDER", "view"))
    documents = [
        Document(name, module.TITLE, module.ORDER, getattr(module, "WIDE", False), module)
        for name, module in found.items()
    ]
    return tuple(sorted(documents, key=lambda d: (d.order, d.name)))


def context(document: Document, packet: Packet) -> dict[str, Any]:
    """What the template of a document gets: its title, the line that names the job, and its view."""
    job, vehicle = packet.sized.build.job, packet.sized.build.vehicle
    head = {
        "number": job.number,
        "revision": job.revision,
        "state": job.state,
        "title": job.title,
        "vehicle": ", ".join(part for part in (vehicle.description, vehicle.registration) if part),
    }
    return {"title": document.title, "head": head, **bare(document.module.view(packet))}


def bare(value: Any) -> Any:
    """Without the marks around words of another language, for which Markdown has no form."""
    if isinstance(value, str):
        return plain(value) if type(value) is str else value
    if isinstance(value, dict):
        return {key: bare(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)) and type(value) in (list, tuple):
        return type(value)(bare(one) for one in value)
    return value
