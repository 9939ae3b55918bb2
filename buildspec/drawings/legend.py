"""The legend of every panel at true size: print, check the ruler, cut on the outer line. All in mm."""

from __future__ import annotations

import math
from collections.abc import Iterator
from html import escape
from typing import NamedTuple

from buildspec import spoken_texts, tongues
from buildspec.drawings import pictograms
from buildspec.drawings.metrics import FAMILY, fitted, text_width, wrapped
from buildspec.drawings.palette import INK, PAPER, QUIET, RULE
from buildspec.model import Channel, Panel, PanelTrait, Sized
from buildspec.packet import Sheet
from buildspec.spoken_texts import legend_of as legend_of
from buildspec.tongues import CLOSE, OPEN, Tongue, mark
from buildspec.tongues import plain as plain_words

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
RULER_TEXT = 2.2
MM_PER_IN = 25.4


def strips(sized: Sized, lang: str = "") -> tuple[Sheet, ...]:
    """One sheet a panel, in the order of the spec, in a language of the practice, its first where none is named."""
    t = tongues.of(sized.build, lang)
    panels = [panel for panel in sized.build.panels.values() if panel.part.panel]
    return tuple(sheet(sized, panel, number, t) for number, panel in enumerate(panels, start=1))


def sheet(sized: Sized, panel: Panel, number: int, t: Tongue) -> Sheet:
    """The strip of one panel with its caption and a ruler."""
    trait = panel.part.panel
    assert trait is not None
    keys = [c for c in sized.build.channels if c.panel == panel.name]
    wide, high = strip_size(trait, len(keys))
    lines = caption(sized, panel, wide, high, t)
    longest = max(text_width(plain_words(line), size=CAPTION) for line in lines)
    note = RULER + 5 + text_width(ruler_words(t), size=RULER_TEXT)
    width = round(2 * MARGIN + max(wide, note, longest), 2)
    height = round(2 * MARGIN + high + len(lines) * CAPTION * 1.5 + 13, 2)
    body = [
        *strip(panel, trait, keys, wide, high, t),
        *words_below(panel, lines, high, t),
        *ruler(panel, height - MARGIN - 4, t),
    ]
    title = t.say("Switch legend {panel}", panel=panel.designation)
    svg = "\n".join([*head(panel, title, width, height, len(keys), t), *body, "</svg>", ""])
    return Sheet(ident(panel), number, title, svg, width, height)


def ident(panel: Panel) -> str:
    return f"legend-{panel.name}"


def strip_size(trait: PanelTrait, keys: int) -> tuple[float, float]:
    """Width and height of all keys together [mm]."""
    columns = min(trait.columns, keys)
    return columns * trait.key_width_mm, math.ceil(keys / columns) * trait.key_height_mm


def where(sized: Sized, panel: Panel) -> str:
    """Where the keys are, in words."""
    return spoken_texts.where(sized.build, panel)


def caption(sized: Sized, panel: Panel, wide: float, high: float, t: Tongue) -> tuple[str, ...]:
    job = sized.build.job
    size = f"{t.number(wide, 1)} mm × {t.number(high, 1)} mm"
    if t.units != "metric":
        size += f" ({t.number(wide / MM_PER_IN, 2)} in × {t.number(high / MM_PER_IN, 2)} in)"
    parts = (
        t.say("Panel {panel}, {place}", panel=panel.designation, place=t.own(where(sized, panel))),
        t.say("true size {size}", size=size),
        f"{job.number} {job.revision}",
        t.say("cut on the outer line"),
    )
    text = " · ".join(part.replace(" ", HOLD) for part in parts)
    return wrapped(text, width=max(wide, RULER + 62), size=CAPTION)


def head(panel: Panel, title: str, width: float, height: float, keys: int, t: Tongue) -> Iterator[str]:
    size = f"{width:g}mm", f"{height:g}mm"
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" id="{escape(ident(panel))}" width="{size[0]}" height="{size[1]}" '
        f'viewBox="0 0 {width:g} {height:g}" font-family="{FAMILY}" role="img" lang="{t.lang}">'
    )
    yield f"<title>{escape(title)}</title>"
    told = t.say("True size, {keys} keys; the ruler below is {length} mm long", keys=keys, length=RULER)
    yield f"<desc>{escape(told)}</desc>"
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
    lang: str
    """Language of the line where it is not that of the strip, or ``."""


class Face(NamedTuple):
    """The size of a picture and the height of the text under it, the same on every key of a panel [mm]."""

    picture: float
    text: float


def look(channel: Channel, t: Tongue) -> Look:
    if channel.use == "reserve":
        return Look(QUIET, True, t.say("reserved"))
    if channel.use == "blank":
        return Look(QUIET, False, t.say("free"))
    return Look(INK, False, t.own(channel.hint))


def rows(channel: Channel, trait: PanelTrait, t: Tongue) -> tuple[Row, ...]:
    """Legend and second line as they fit the key."""
    legend, second = t.own(legend_of(channel)), look(channel, t).second
    found = (*lines_of(legend, trait, LEGEND, t, bold=True), *lines_of(second, trait, HINT, t, bold=False))
    return tuple(row for row in found if row.line)


def lines_of(
    words: str, trait: PanelTrait, sizes: tuple[float, float], t: Tongue, *, bold: bool
) -> Iterator[Row]:
    room, share, least = trait.key_width_mm - 2 * PAD, *sizes
    size, lines = fitted(
        plain_words(words), width=room, largest=share * trait.key_width_mm, smallest=least, bold=bold
    )
    lang = t.source if words.startswith(OPEN) else ""
    return (Row(line, size, bold, lang) for line in lines)


def face_of(keys: list[Channel], trait: PanelTrait, t: Tongue) -> Face:
    """What fits the fullest key is used on all of them, so that pictures and legends stand in line."""
    text = max(sum(row.size * LINE for row in rows(channel, trait, t)) for channel in keys)
    left = trait.key_height_mm - text - 4 * PAD
    return Face(max(SMALLEST_PICTURE, min(trait.key_width_mm * 0.55, left)), text)


def strip(
    panel: Panel, trait: PanelTrait, keys: list[Channel], wide: float, high: float, t: Tongue
) -> Iterator[str]:
    """Every key, the lines between them, and the outline to cut."""
    face = face_of(keys, trait, t)
    for index, channel in enumerate(keys):
        row, column = divmod(index, trait.columns)
        x, y = MARGIN + column * trait.key_width_mm, MARGIN + row * trait.key_height_mm
        yield from key(panel, trait, channel, face, t, x=x, y=y)
    across = [
        f"M{MARGIN + n * trait.key_width_mm:g} {MARGIN:g}v{high:g}"
        for n in range(1, round(wide / trait.key_width_mm))
    ]
    down = [
        f"M{MARGIN:g} {MARGIN + n * trait.key_height_mm:g}h{wide:g}"
        for n in range(1, round(high / trait.key_height_mm))
    ]
    yield f'<g id="{escape(ident(panel))}-outline" fill="none" stroke="{INK}"><title>{escape(t.say("Outline"))}</title>'
    yield f'<desc>{escape(t.say("Cut here"))}</desc><path d="{"".join(across + down)}" stroke-width="0.18"/>'
    yield (
        f'<rect x="{MARGIN:g}" y="{MARGIN:g}" width="{wide:g}" height="{high:g}" rx="1" stroke-width="0.3"/></g>'
    )


def key(
    panel: Panel, trait: PanelTrait, channel: Channel, face: Face, t: Tongue, *, x: float, y: float
) -> Iterator[str]:
    wide, high, style = trait.key_width_mm, trait.key_height_mm, look(channel, t)
    yield f'<g id="{escape(ident(panel))}-{channel.number}"><title>{escape(key_title(channel, t))}</title>'
    yield f"<desc>{escape(key_words(channel, t))}</desc>"
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
    words = rows(channel, trait, t)
    if style.reserved:
        yield from cleared(words, middle, top + below)
    yield from stack(words, middle, top + below, style.ink)
    yield "</g>"


def cleared(lines: tuple[Row, ...], middle: float, top: float) -> Iterator[str]:
    """Bare paper behind words, so that no hatching runs through them."""
    for row in lines:
        wide = text_width(plain_words(row.line), size=row.size, bold=row.bold) + 1
        yield (
            f'<rect x="{middle - wide / 2:.2f}" y="{top:.2f}" width="{wide:.2f}" height="{row.size * LINE:.2f}" '
            f'fill="{PAPER}"/>'
        )
        top += row.size * LINE


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
            lang=row.lang,
        )
        top += row.size * LINE


MODES = {
    "latching": mark("press on, press off"),
    "momentary": mark("only while held"),
    "triggered": mark("key, or by itself"),
}


def key_title(channel: Channel, t: Tongue) -> str:
    legend = plain_words(t.own(legend_of(channel))) or t.say("free")
    return t.say("Key {number}: {legend}", number=channel.number, legend=legend)


def key_words(channel: Channel, t: Tongue) -> str:
    if channel.use == "blank":
        return t.say("Free, no wire")
    use = t.say("reserved, not fitted yet") if channel.use == "reserve" else t.say(MODES[channel.mode])
    return f"{picture_words(channel, t) or t.say('No picture')}; {use}"


def picture_words(channel: Channel, t: Tongue) -> str:
    """What the picture of a key shows, in a word or two."""
    return t.say(pictograms.name_of(channel.pictogram)) if channel.pictogram else ""


# ------------------------------------------------------------------------------------ around the keys


def text(
    line: str,
    *,
    x: float,
    y: float,
    size: float,
    fill: str,
    anchor: str = "start",
    bold: bool = False,
    lang: str = "",
) -> str:
    """One line of text, held to the width of the table whatever font draws it."""
    weight = ' font-weight="bold"' if bold else ""
    weight += f' lang="{lang}"' if lang else ""
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{size:.2f}" fill="{fill}" text-anchor="{anchor}"{weight} '
        f'textLength="{text_width(plain_words(line), size=size, bold=bold):.2f}" '
        f'lengthAdjust="spacingAndGlyphs">{escape(line)}</text>'
    )


def words_below(panel: Panel, lines: tuple[str, ...], high: float, t: Tongue) -> Iterator[str]:
    yield f'<g id="{escape(ident(panel))}-caption"><title>{escape(t.say("Caption"))}</title>'
    yield f"<desc>{escape(t.say('What it is'))}</desc>"
    for index, line in enumerate(lines):
        y = MARGIN + high + 4.6 + index * CAPTION * 1.5
        yield marked(text(line, x=MARGIN, y=y, size=CAPTION, fill=QUIET), t)
    yield "</g>"


def marked(line: str, t: Tongue) -> str:
    """Words of another language in an element that names it; a line break between the marks takes them off."""
    if line.count(OPEN) != line.count(CLOSE):
        return plain_words(line)
    return line.replace(OPEN, f'<tspan lang="{t.source}">').replace(CLOSE, "</tspan>")


def ruler_words(t: Tongue) -> str:
    return t.say("{length} mm: lay a rule on it before you cut; print at 100 %", length=RULER)


def ruler(panel: Panel, y: float, t: Tongue) -> Iterator[str]:
    """50 mm with a tick every 5: what shows whether the printer kept the size."""
    ticks = "".join(
        f"M{MARGIN + tick:g} {y:g}v{-3 if tick % 10 == 0 else -1.8}" for tick in range(0, RULER + 1, 5)
    )
    between = t.say("{length} mm between the outer ticks", length=RULER)
    yield f'<g id="{escape(ident(panel))}-ruler"><title>{escape(t.say("Ruler"))}</title><desc>{escape(between)}</desc>'
    yield f'<path d="M{MARGIN:g} {y:g}h{RULER}{ticks}" fill="none" stroke="{INK}" stroke-width="0.2"/>'
    for tick in range(0, RULER + 1, 10):
        yield text(str(tick), x=MARGIN + tick, y=y + 2.6, size=2.0, fill=QUIET, anchor="middle")
    yield text(
        ruler_words(t),
        x=MARGIN + RULER + 3,
        y=y,
        size=RULER_TEXT,
        fill=QUIET,
    )
    yield "</g>"
