"""index.html: every document and drawing in one page that needs nothing else, not even a network."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

from buildspec import branches, documents
from buildspec.documents import Document
from buildspec.documents import _address as kept
from buildspec.packet import Packet, Sheet
from buildspec.render import html as sections
from buildspec.render import svg, templates

FIGURES_OF = {"drawings": "D", "legend": "L", "charts": "C"}
"""Documents that drawings follow, and the letter before a drawing's number."""

FED = ("load", "reserve", "coil", "signal", "branch")
"""Kinds of circuits whose target is theirs alone: a feeder's block belongs to those behind it."""


def html(packet: Packet, written: Mapping[str, str]) -> str:
    """The page. `written`: document name → its Markdown."""
    build = packet.sized.build
    anchors, links = addresses(packet)
    numbers, script = circuits(packet), templates.plain("trace.js")
    return templates.html(
        "page",
        {
            "job": build.job,
            "vehicle": ", ".join(p for p in (build.vehicle.description, build.vehicle.registration) if p),
            "shop": build.practice.shop,
            "paper": build.practice.paper,
            "head": f"{build.job.number} · {build.job.title} · revision {build.job.revision} · {build.job.state}",
            "foot": f"{build.practice.shop.name} · {build.practice.shop.contact}",
            "code": kept.code(build),
            "kept": kept.words(build),
            "style": Markup(templates.plain("print.css") + templates.plain("trace.css")),
            "script": Markup(script),
            "script_hash": Markup(digest(script)),
            "documents": [
                section(
                    packet, document, written[document.name], anchors.get(document.name, {}), links, numbers
                )
                for document in documents.catalogue()
            ],
        },
    )


def addresses(packet: Packet) -> tuple[dict[str, dict[str, str]], dict[str, str]]:
    """(document → designation → id of its row, designation → address)."""
    anchors: dict[str, dict[str, str]] = {}
    for document in documents.catalogue():
        if hasattr(document.module, "anchors"):
            anchors[document.name] = {name: f"at-{name}" for name in document.module.anchors(packet)}
    links = {name: f"#{target}" for found in anchors.values() for name, target in found.items()}
    links |= {f"{document.slug}.md": f"#{document.slug}" for document in documents.catalogue()}
    links |= {f"D{sheet.number}": f"#{sheet.id}" for sheet in packet.sheets}
    links |= {f"L{n}": f"#{strip.id}" for n, strip in enumerate(packet.strips, start=1)}
    links |= {f"C{chart.number}": f"#{chart.id}" for chart in packet.charts}
    return anchors, links


def digest(script: str) -> str:
    """What the page's policy lets run: this script, unchanged, and no other (CSP level 2, hash source)."""
    return "sha256-" + base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()


def circuits(packet: Packet) -> dict[str, tuple[str, ...]]:
    """Designation of a circuit, conductor, device, contact or load → numbers of its circuits."""
    found: dict[str, list[str]] = {}
    for circuit in packet.sized.build.circuits:
        own = [circuit.number, *(w.designation for w in (*circuit.feeds, *circuit.returns))]
        own += [d.designation for d in branches.devices(packet.sized, circuit)]
        own += [c.designation for c in circuit.contacts]
        if circuit.kind in FED:
            own.append(circuit.target_designation)
        if circuit.kind == "branch":
            own += [end.item for wire in circuit.feeds for end in (wire.start, wire.end)]
        for name in dict.fromkeys(own):
            if name:
                found.setdefault(name, []).append(circuit.number)
    return {name: tuple(numbers) for name, numbers in found.items()}


def section(
    packet: Packet,
    document: Document,
    text: str,
    anchors: Mapping[str, str],
    links: Mapping[str, str],
    numbers: Mapping[str, tuple[str, ...]],
) -> dict[str, Any]:
    """What the template needs of one document."""
    body = sections.section(text, name=document.slug, anchors=anchors, links=links, circuits=numbers)
    sheets = {"drawings": packet.sheets, "legend": packet.strips, "charts": packet.charts}
    figures = [
        figure(FIGURES_OF[document.name], n, sheet, links)
        for n, sheet in enumerate(sheets.get(document.name, ()), start=1)
    ]
    return {
        "slug": document.slug,
        "title": document.title,
        "wide": document.wide,
        "own_page": getattr(document.module, "OWN_PAGE", False),
        "body": Markup(body),
        "figures": figures,
        "true_size": document.name == "legend",
    }


def figure(letter: str, number: int, sheet: Sheet, links: Mapping[str, str]) -> dict[str, Any]:
    drawn = svg.linked(svg.inline(sheet.svg, prefix=sheet.id), links)
    return {
        "id": sheet.id,
        "title": f"{letter}{number} {sheet.title}",
        "number": f"{letter}{number}",
        "svg": Markup(drawn),
        "width_mm": sheet.width_mm,
    }
