"""The legend of every panel at true size: print, check the ruler, cut on the outer line. All in mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from html import escape
from typing import NamedTuple

from buildspec.drawings import pictograms
from buildspec.drawings.metrics import FAMILY, fitted, text_width, wrapped
from buildspec.drawings.palette import INK, PAPER, QUIET, RULE
from buildspec.model import Channel, Panel, PanelTrait, Sized
from buildspec.packet import Sheet
from buildspec.show import plain

MARGIN = 6.0
PAD = 1.2
"""Free edge inside a key."""
LEGEND = (0.155, 2.1)
"""Type size of the legend: its share of the key's width at most, and the least that is read at arm's length (6 pt)."""
HINT = (0.115, 1.75)
CAPTION = 2.6
SMALLEST_PICTURE = 5.0
LINE = 1.25
HOLD = "\u00a0"
RULER = 50
MM_PER_IN = 25.4


def strips(sized: Sized) -> tuple[Sheet, ...]:
    """One sheet a panel, in the order of the spec."""
    panels = [panel for panel in sized.build.panels.values() if panel.part.panel]
    return tuple(sheet(sized, panel, number) for number, panel in enumerate(panels, start=1))


def sheet(sized: Sized, panel: Panel, number: int) -> Sheet:
    """The strip of one panel with its caption and a ruler."""
    trait = panel.part.panel
    assert trait is not None
    keys = [c for c in sized.build.channels if c.panel == panel.name]
    wide, high = strip_size(trait, len(keys))
    lines = caption(sized, panel, wide, high)
    width = round(2 * MARGIN + max(wide, RULER + 62, *(text_width(line, size=CAPTION) for line in lines)), 2)
    height = round(2 * MARGIN + high + len(lines) * CAPTION * 1.5 + 13, 2)
    body = [
        *strip(panel, trait, keys, wide, high),
        *words_below(panel, lines, high),
        *ruler(panel, height - MARGIN - 4),
    ]
    title = f"Switch legend {panel.designation}"
    svg = "\n".join([*head(panel, title, width, height, len(keys)), *body, "</svg>", ""])
    return Sheet(ident(panel), number, title, svg, width, height)


def ident(panel: Panel) -> str:
    return f"legend-{panel.name}"


def strip_size(trait: PanelTrait, keys: int) -> tuple[float, float]:
    """Width and height of all keys together [mm]."""
    columns = min(trait.columns, keys)
    return columns * trait.key_width_mm, math.ceil(keys / columns) * trait.key_height_mm


def where(sized: Sized, panel: Panel) -> str:
    """Where the keys are, in words."""
    place = sized.build.places[panel.keypad_at]
    return panel.words or place.words or place.name


def caption(sized: Sized, panel: Panel, wide: float, high: float) -> tuple[str, ...]:
    job = sized.build.job
    size = f"{plain(wide, 1)} mm × {plain(high, 1)} mm"
    if sized.build.practice.units == "imperial":
        size += f" ({plain(wide / MM_PER_IN, 2)} in × {plain(high / MM_PER_IN, 2)} in)"
    parts = (
        f"Panel {panel.designation}, {where(sized, panel)}",
        f"true size {size}",
        f"{job.number} {job.revision}",
        "cut on the outer line",
    )
    text = " · ".join(part.replace(" ", HOLD) for part in parts)
    return wrapped(text, width=max(wide, RULER + 62), size=CAPTION)


def head(panel: Panel, title: str, width: float, height: float, keys: int) -> Iterator[str]:
    size = f"{width:g}mm", f"{height:g}mm"
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" id="{escape(ident(panel))}" width="{size[0]}" height="{size[1]}" '
        f'viewBox="0 0 {width:g} {height:g}" font-family="{FAMILY}" role="img">'
    )
    yield f"<title>{escape(title)}</title>"
    yield f"<desc>True size, {keys} keys; the ruler below is {RULER} mm long</desc>"
    yield (
        f'<defs><pattern id="{escape(ident(panel))}-hatch" width="2" height="2" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate(45)"><path d="M0 0V2" stroke="{RULE}" stroke-width="0.25"/></pattern></defs>'
    )
    yield f'<rect width="{width:g}" height="{height:g}" fill="{PAPER}"/>'


# ------------------------------------------------------------------------------------------- keys


class Look(NamedTuple):
    """How a use of a key is drawn, told apart without colour, and its second line."""

    ink: str
    reserved: bool
    second: str


class Row(NamedTuple):
    """A line of text on a key."""

    line: str
    size: float
    bold: bool


class Face(NamedTuple):
    """The size of a picture and the height of the text under it, the same on every key of a panel [mm]."""

    picture: float
    text: float


def look(channel: Channel) -> Look:
    if channel.use == "reserve":
        return Look(QUIET, True, "reserved")
    if channel.use == "blank":
        return Look(QUIET, False, "free")
    return Look(INK, False, channel.hint)


def legend_of(channel: Channel) -> str:
    """Text of a key: its legend, or the item's name where none is written."""
    return "" if channel.use == "blank" else channel.legend or channel.item.replace("-", " ").upper()


def rows(channel: Channel, trait: PanelTrait) -> tuple[Row, ...]:
    """Legend and second line as they fit the key."""
    room = trait.key_width_mm - 2 * PAD
    size, lines = fitted(
        legend_of(channel), width=room, largest=LEGEND[0] * trait.key_width_mm, smallest=LEGEND[1], bold=True
    )
    small, more = fitted(
        look(channel).second, width=room, largest=HINT[0] * trait.key_width_mm, smallest=HINT[1]
    )
    found = [Row(line, size, True) for line in lines] + [Row(line, small, False) for line in more]
    return tuple(row for row in found if row.line)


def face_of(keys: list[Channel], trait: PanelTrait) -> Face:
    """What fits the fullest key is used on all of them, so that pictures and legends stand in line."""
    text = max(sum(row.size * LINE for row in rows(channel, trait)) for channel in keys)
    left = trait.key_height_mm - text - 4 * PAD
    return Face(max(SMALLEST_PICTURE, min(trait.key_width_mm * 0.55, left)), text)


def strip(panel: Panel, trait: PanelTrait, keys: list[Channel], wide: float, high: float) -> Iterator[str]:
    """Every key, the lines between them, and the outline to cut."""
    face = face_of(keys, trait)
    for index, channel in enumerate(keys):
        row, column = divmod(index, trait.columns)
        x, y = MARGIN + column * trait.key_width_mm, MARGIN + row * trait.key_height_mm
        yield from key(panel, trait, channel, face, x=x, y=y)
    across = [
        f"M{MARGIN + n * trait.key_width_mm:g} {MARGIN:g}v{high:g}"
        for n in range(1, round(wide / trait.key_width_mm))
    ]
    down = [
        f"M{MARGIN:g} {MARGIN + n * trait.key_height_mm:g}h{wide:g}"
        for n in range(1, round(high / trait.key_height_mm))
    ]
    yield (
        f'<g id="{escape(ident(panel))}-outline" fill="none" stroke="{INK}"><title>Outline</title><desc>Cut here'
        f'</desc><path d="{"".join(across + down)}" stroke-width="0.18"/><rect x="{MARGIN:g}" y="{MARGIN:g}" '
        f'width="{wide:g}" height="{high:g}" rx="1" stroke-width="0.3"/></g>'
    )


def key(
    panel: Panel, trait: PanelTrait, channel: Channel, face: Face, *, x: float, y: float
) -> Iterator[str]:
    wide, high, style = trait.key_width_mm, trait.key_height_mm, look(channel)
    yield f'<g id="{escape(ident(panel))}-{channel.number}"><title>{escape(key_title(channel))}</title>'
    yield f"<desc>{escape(key_words(channel))}</desc>"
    if style.reserved:
        yield (
            f'<rect x="{x + 0.7:.2f}" y="{y + 0.7:.2f}" width="{wide - 1.4:g}" height="{high - 1.4:g}" rx="0.8" '
            f'fill="url(#{escape(ident(panel))}-hatch)" stroke="{QUIET}" stroke-width="0.25" '
            'stroke-dasharray="1.2 0.9"/>'
        )
    yield text(str(channel.number), x=x + wide - 1.5, y=y + 3, size=1.7, fill=QUIET, anchor="end")
    top = y + (high - face.picture - face.text - PAD) / 2
    middle = x + wide / 2
    if channel.pictogram:
        corner = middle - face.picture / 2
        yield pictograms.group(
            channel.pictogram, x=corner, y=top, size=face.picture, ink=style.ink, dashed=style.reserved
        )
    below = face.picture + PAD if channel.pictogram else face.picture / 2
    yield from stack(rows(channel, trait), middle, top + below, style.ink)
    yield "</g>"


def stack(lines: tuple[Row, ...], middle: float, top: float, ink: str) -> Iterator[str]:
    """Lines of text under each other, centred."""
    for row in lines:
        fill = ink if row.bold else QUIET
        yield text(
            row.line,
            x=middle,
            y=top + row.size * 0.95,
            size=row.size,
            fill=fill,
            anchor="middle",
            bold=row.bold,
        )
        top += row.size * LINE


def key_title(channel: Channel) -> str:
    return f"Key {channel.number}: {legend_of(channel) or 'free'}"


def key_words(channel: Channel) -> str:
    if channel.use == "blank":
        return "Free, no wire behind it"
    use = "reserved, not fitted yet" if channel.use == "reserve" else channel.mode
    shown = pictograms.PICTURES[channel.pictogram].title if channel.pictogram else "No picture"
    return f"{shown}; {use}"


# ------------------------------------------------------------------------------------ around the keys


def text(
    line: str, *, x: float, y: float, size: float, fill: str, anchor: str = "start", bold: bool = False
) -> str:
    """One line of text, held to the width of the table whatever font draws it."""
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{size:.2f}" fill="{fill}" text-anchor="{anchor}"{weight} '
        f'textLength="{text_width(line, size=size, bold=bold):.2f}" lengthAdjust="spacingAndGlyphs">'
        f"{escape(line)}</text>"
    )


def words_below(panel: Panel, lines: tuple[str, ...], high: float) -> Iterator[str]:
    yield f'<g id="{escape(ident(panel))}-caption"><title>Caption</title><desc>What it is</desc>'
    for index, line in enumerate(lines):
        yield text(line, x=MARGIN, y=MARGIN + high + 4.6 + index * CAPTION * 1.5, size=CAPTION, fill=QUIET)
    yield "</g>"


def ruler(panel: Panel, y: float) -> Iterator[str]:
    """50 mm with a tick every 5: what shows whether the printer kept the size."""
    ticks = "".join(
        f"M{MARGIN + mark:g} {y:g}v{-3 if mark % 10 == 0 else -1.8}" for mark in range(0, RULER + 1, 5)
    )
    yield f'<g id="{escape(ident(panel))}-ruler"><title>Ruler</title><desc>{RULER} mm between the outer ticks</desc>'
    yield f'<path d="M{MARGIN:g} {y:g}h{RULER}{ticks}" fill="none" stroke="{INK}" stroke-width="0.2"/>'
    for mark in range(0, RULER + 1, 10):
        yield text(str(mark), x=MARGIN + mark, y=y + 2.6, size=2.0, fill=QUIET, anchor="middle")
    yield text(
        f"{RULER} mm: lay a rule on it before you cut; print at 100 %",
        x=MARGIN + RULER + 3,
        y=y,
        size=2.2,
        fill=QUIET,
    )
    yield "</g>"
