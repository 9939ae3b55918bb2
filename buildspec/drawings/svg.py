"""Marks → SVG text, in true millimetres: the only module that writes markup."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape, quoteattr

from buildspec.drawings.marks import Arc, Group, Line, Mark, Page, Point, Rect, Round, Stroke, Text
from buildspec.drawings.palette import EDGE, INK, PAPER, wire_colours

FAMILY = "'DejaVu Sans', Verdana, Arial, sans-serif"
DASH = "26 14"
DASH_TRACER = "12 28"
TRACER = "22 22"
HALO = 7.0


def number(value: float) -> str:
    """One decimal of a tenth of a millimetre, no trailing zero, no negative zero."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


def plain(text: str) -> str:
    """Without the control characters that XML does not allow."""
    return "".join(char if char >= " " or char in "\t\n" else " " for char in text)


def attributes(**given: str | float) -> str:
    """` a="1" b="x"`; empty values are left out, underscores become hyphens."""
    made = []
    for name, value in given.items():
        text = value if isinstance(value, str) else number(value)
        if text:
            made.append(f" {name.replace('_', '-')}={quoteattr(plain(text))}")
    return "".join(made)


def path_data(points: Iterable[Point], *, closed: bool = False) -> str:
    steps = [f"{'L' if n else 'M'}{number(x)} {number(y)}" for n, (x, y) in enumerate(points)]
    return "".join(steps) + ("Z" if closed else "")


def line(mark: Line) -> str:
    """Edge, ground colour and tracer, one above the other; the vehicle's own has the ground alone."""
    ground, tracer = wire_colours(mark.letters)
    data = path_data(mark.points)
    dash = DASH if mark.dashed else ""
    clear = [(mark.width + 2 * EDGE + HALO, PAPER, "", 0.0)] if mark.halo else []
    edge = [(mark.width + 2 * EDGE, INK, dash, 0.0)] if mark.letters else []
    made = [*clear, *edge, (mark.width, ground, dash, 0.0)]
    if tracer:
        stripe, pattern = (DASH_TRACER, -7.0) if mark.dashed else (TRACER, 0.0)
        made.append((mark.width * 0.55, tracer, stripe, pattern))
    return "".join(
        f"<path{attributes(d=data, fill='none', stroke=colour, stroke_width=width, stroke_dasharray=pattern)}"
        + (f' stroke-dashoffset="{number(offset)}"' if offset else "")
        + "/>"
        for width, colour, pattern, offset in made
    )


def text(mark: Text) -> str:
    weight, anchor = "bold" if mark.bold else "", mark.anchor if mark.anchor != "start" else ""
    head = attributes(
        **{"class": mark.kind},
        x=mark.x,
        y=mark.y,
        font_size=mark.size,
        font_weight=weight,
        text_anchor=anchor,
        fill=mark.colour,
    )
    return f"<text{head}>{escape(plain(mark.text))}</text>"


def rect(mark: Rect) -> str:
    box = mark.box
    head = attributes(
        x=box.left,
        y=box.top,
        width=box.right - box.left,
        height=box.bottom - box.top,
        rx=number(mark.radius) if mark.radius else "",
        fill=mark.fill,
        stroke="" if mark.colour == "none" else mark.colour,
        stroke_width="" if mark.colour == "none" else number(mark.width),
        stroke_dasharray=mark.dash,
    )
    return f"<rect{head}/>"


def shape(mark: Mark) -> str:
    match mark:
        case Text():
            return text(mark)
        case Line():
            return line(mark)
        case Rect():
            return rect(mark)
        case Round():
            head = attributes(
                cx=mark.x, cy=mark.y, r=mark.r, fill=mark.fill, stroke=mark.colour, stroke_width=mark.width
            )
            return f"<circle{head}/>"
        case Arc():
            return (
                f"<path{attributes(d=mark.d, fill=mark.fill, stroke=mark.colour, stroke_width=mark.width)}/>"
            )
        case Stroke():
            data = path_data(mark.points, closed=mark.closed)
            head = attributes(
                d=data,
                fill=mark.fill,
                stroke=mark.colour,
                stroke_width=mark.width,
                stroke_dasharray=mark.dash,
            )
            return f"<path{head}/>"


def group(item: Group) -> Iterator[str]:
    head = attributes(id=item.id, data_circuit=item.circuit)
    yield f"<g{head}>"
    yield f"<title>{escape(plain(item.title))}</title>"
    yield f"<desc>{escape(plain(item.desc or item.title))}</desc>"
    yield from (shape(mark) for mark in item.marks)
    yield "</g>"


def distinct(groups: Iterable[Group]) -> Iterator[Group]:
    """Groups with ids of their own: a second one of a name gets `-2`."""
    seen: set[str] = set()
    for item in groups:
        name, count = item.id, 1
        while name in seen:
            count += 1
            name = f"{item.id}-{count}"
        seen.add(name)
        yield item._replace(id=name)


def document(page: Page) -> str:
    """The whole sheet as one self-contained SVG document."""
    head = attributes(
        xmlns="http://www.w3.org/2000/svg",
        id=page.id,
        width=f"{number(page.width / 10)}mm",
        height=f"{number(page.height / 10)}mm",
        viewBox=f"0 0 {number(page.width)} {number(page.height)}",
        role="img",
        aria_labelledby=f"{page.id}-title {page.id}-desc",
        font_family=FAMILY,
        stroke_linejoin="round",
    )
    made = [f"<svg{head}>"]
    made.append(f'<title id="{page.id}-title">{escape(plain(page.title))}</title>')
    made.append(f'<desc id="{page.id}-desc">{escape(plain(page.desc))}</desc>')
    ordered = sorted(distinct(page.groups), key=lambda item: item.layer)
    made += [part for item in ordered for part in group(item)]
    return "\n".join([*made, "</svg>"]) + "\n"
