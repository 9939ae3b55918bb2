"""How tall the parts of the owner's sheet come out, from text widths alone. In mm."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from typing import Any, NamedTuple

from buildspec.drawings.metrics import text_width, wrapped
from buildspec.tongues import plain

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN = 11.0
MM_PER_PT = 25.4 / 72
SPACING = 1.3
"""Height of a line over its type size."""
CARE = 1.008
"""Heights are taken a little larger than worked out."""
FOOT = 5.0
FOOT_PT = 8.0
GAP = 6.0
"""Between the two columns."""
NUMBER_MM = 27.0
"""Width of the big numbers."""
NUMBER = 1.3
"""Their size over the text's."""
TITLE = 15.0
"""Size of the title [pt]."""
STRIP, STRIP_PT, STRIP_MM = 8, 8.5, 9.4
"""The small panel on side one: keys in a row, type size, height over the names."""
LEAST = 7.0
SWATCH_MM = 4.2
LETTER_EM = 1.6


class Sheet(NamedTuple):
    """What heights depend on."""

    wide: float
    size: float
    """Type size [pt]."""
    check_em: float
    """Width of a fuse with its order, tag and rating over the type size."""

    @property
    def half(self) -> float:
        return (self.wide - GAP) / 2

    @property
    def mm(self) -> float:
        """One em."""
        return self.size * MM_PER_PT


@functools.lru_cache(maxsize=1 << 15)
def tall(text: str, *, width: float, size: float, bold: bool = False) -> float:
    """Height of a paragraph [mm]; `size` in pt."""
    size = max(size, LEAST)
    lines = wrapped(plain(text), width=width / MM_PER_PT, size=size, bold=bold)
    return len(lines) * size * SPACING * MM_PER_PT


def fuse_widths(view: dict[str, Any]) -> tuple[float, float, float]:
    """Room for the order, the tag and the rating of every fuse, over the type size."""
    found = [check for row in view["fuses"]["rows"] for check in row["checks"]]
    return (
        widest((c["nth"] for c in found), 0.5),
        widest((c["tag"] for c in found), 0.6),
        widest((c["rating"] for c in found), 0.4),
    )


def widest(texts: Iterator[str], more: float) -> float:
    found = max((text_width(plain(text), size=1, bold=True) for text in texts), default=0.0)
    return round(found + more, 2) if found else 0.0


def balanced(items: list[float]) -> float:
    """Height of two columns that share items which do not break."""
    whole = sum(items)
    before = [sum(items[:n]) for n in range(len(items) + 1)]
    return min((max(one, whole - one) for one in before), default=0.0)


def heading(sheet: Sheet, text: str, width: float) -> float:
    """A heading with its sign, over its line."""
    size = sheet.size * 1.2
    return tall(text, width=width - size * 1.25 * MM_PER_PT - 1.6, size=size, bold=True) + 5.6


# ---------------------------------------------------------------------------------------- side one


def first_side(view: dict[str, Any], sheet: Sheet) -> float:
    """Panel, two columns of what to do and how long, fuses, two columns of what may be added and whom to call."""
    total = tall(view["name"], width=sheet.wide, size=TITLE, bold=True)
    total += tall(view["meta"], width=sheet.wide, size=sheet.size) + 2
    total += sum(strip(panel["keys"], sheet.wide) for panel in view["panels"])
    total += max(help_height(view, sheet), figures_height(view, sheet))
    total += heading(sheet, view["labels"]["fuses"], sheet.wide) + fuses_height(view, sheet)
    return (total + max(later_height(view, sheet), call_height(view, sheet))) * CARE


def strip(keys: list[dict[str, str]], wide: float) -> float:
    """The small panel: picture and name of each key."""
    cell = wide / min(STRIP, max(len(keys), 1)) - 4
    names = [tall(key["name"], width=cell, size=STRIP_PT, bold=True) for key in keys]
    return sum(max(names[n : n + STRIP]) + STRIP_MM + 1 for n in range(0, len(names), STRIP)) + 1


def help_height(view: dict[str, Any], sheet: Sheet) -> float:
    """A dead battery, and what to do where it burns."""
    half, size = sheet.half, sheet.size
    total = heading(sheet, view["labels"]["start"], half)
    total += tall(view["start"]["caution"], width=half, size=size) + 1
    total += sum(
        tall("".join(step.values()), width=half - 7, size=size) + 0.8 for step in view["start"]["steps"]
    )
    return total + tall(view["off"]["burning"], width=half, size=size, bold=True) + 1


def figures_height(view: dict[str, Any], sheet: Sheet) -> float:
    """How long one may park."""
    park = sum(number_height(number, sheet) for number in view["park"]["numbers"])
    park += tall(view["park"]["note"], width=sheet.half, size=sheet.size * 0.92) + 2
    return heading(sheet, view["labels"]["park"], sheet.half) + park


def number_height(number: dict[str, str], sheet: Sheet) -> float:
    big = tall(number["big"], width=NUMBER_MM, size=sheet.size * NUMBER, bold=True)
    lines = tall(number["small"], width=sheet.half - NUMBER_MM - 2, size=sheet.size)
    return max(big, lines + (NUMBER - 1) * sheet.mm) + 1.6


def fuses_height(view: dict[str, Any], sheet: Sheet) -> float:
    """What to do, where fuses are, which one to look at, keys without one."""
    fuses, half, size = view["fuses"], sheet.half, sheet.size
    total = tall(fuses["lead"], width=sheet.wide, size=size) + 1
    if fuses["rows"]:
        sub = tall(view["labels"]["where"], width=sheet.wide, size=size, bold=True) + 1.4
        total += 2 * sub + balanced([spot_height(spot, half, sheet) for spot in fuses["spots"]])
        total += balanced([dead_height(row, sheet) for row in fuses["rows"]]) + 1
    for one in fuses["limited"]:
        said = f"{fuses['limited_lead']} {one['what']}. {one['text']}"
        total += tall(said, width=sheet.wide * 0.97, size=size) + 1
    return total + (tall(view["lights"], width=sheet.wide, size=size) + 1 if view["lights"] else 0.0)


def spot_height(spot: dict[str, str], half: float, sheet: Sheet) -> float:
    said = f"{spot['words']}. {spot['access']} {spot['bare']}"
    return tall(said, width=(half - LETTER_EM * sheet.mm) * 0.94, size=sheet.size) + 0.6


def dead_height(row: dict[str, Any], sheet: Sheet) -> float:
    """A thing beside its fuses."""
    fuse = sheet.check_em * sheet.mm + SWATCH_MM
    own = tall(row["what"], width=sheet.half - fuse - 2, size=sheet.size)
    return max(own, sum(check_height(check, fuse, sheet) for check in row["checks"])) + 0.6


def check_height(check: dict[str, str], fuse: float, sheet: Sheet) -> float:
    if not check["said"]:
        return sheet.mm * SPACING
    nth = 2.2 * sheet.mm if check["nth"] else 0.0
    return tall(check["said"], width=fuse - nth, size=sheet.size)


def later_height(view: dict[str, Any], sheet: Sheet) -> float:
    later, half, size = view["later"], sheet.half, sheet.size
    rows = sum(
        tall(f"{row['what']}: {row['text']}", width=half * 0.97, size=size) + 0.9 for row in later["rows"]
    )
    return (
        heading(sheet, view["labels"]["later"], half)
        + tall(later["lead"], width=half, size=size)
        + 0.9
        + rows
    )


def call_height(view: dict[str, Any], sheet: Sheet) -> float:
    """Words beside the code, where there is one, and the packet's address below both."""
    call, code, size = view["call"], float(view.get("code_mm", 0.0)), sheet.size
    wide = sheet.half - 7
    beside = wide - (code + 2 if code else 0.0)
    said = sum(
        tall(call[part], width=beside, size=size * 1.1, bold=True) for part in ("name", "phone", "contact")
    )
    said += tall(call["why"], width=beside, size=size)
    address = tall(view["address"], width=wide, size=size) if view.get("address") else 0.0
    box = max(said, code + 1 if code else 0.0) + address + 4
    return heading(sheet, view["labels"]["call"], sheet.half) + box


# ---------------------------------------------------------------------------------------- side two


def second_side(view: dict[str, Any], sheet: Sheet, columns: int) -> float:
    """Keys, the framed notes, the lists in two columns, and the line on service."""
    total = 0.0
    for panel in view["panels"]:
        cell = (sheet.wide - 2.2 * (columns - 1)) / columns
        total += heading(sheet, panel["heading"], sheet.wide) + key_rows(panel["keys"], cell, sheet, columns)
    items = [*off_items(view, sheet), load_height(view, sheet)]
    items += [i for section in view["sections"] for i in section_items(section, sheet)]
    total += balanced(items) + notes_height(view, sheet)
    return (total + tall(view["service"], width=sheet.wide, size=sheet.size, bold=True) + 4) * CARE


def off_items(view: dict[str, Any], sheet: Sheet) -> Iterator[float]:
    """How to shut everything off, line by line as columns may break it, the heading with the first step."""
    off, half, size = view["off"], sheet.half, sheet.size
    steps = [tall(step, width=half - 7, size=size) + 0.8 for step in off["steps"]]
    yield heading(sheet, view["labels"]["off"], half) + sum(steps[:1])
    yield from steps[1:]
    yield tall(off["live"], width=half, size=size) + 1


def load_height(view: dict[str, Any], sheet: Sheet) -> float:
    return heading(sheet, view["labels"]["load"], sheet.half) + number_height(view["payload"], sheet)


def key_rows(keys: list[dict[str, str]], wide: float, sheet: Sheet, columns: int) -> float:
    heights = [card(key, wide - 4.6, sheet.size) for key in keys]
    return sum(max(heights[n : n + columns]) + 2.2 for n in range(0, len(heights), columns))


def card(key: dict[str, str], wide: float, size: float) -> float:
    """Picture and name side by side, sentence and condition below."""
    name = max(8.0, tall(key["name"], width=wide - 14, size=size * 1.05, bold=True))
    below = tall(key["does"], width=wide, size=size)
    below += tall(f"{key['when']}.", width=wide, size=size, bold=True) if key["when"] else 0.0
    return name + below + 3.6


def notes_height(view: dict[str, Any], sheet: Sheet) -> float:
    """The framed notes in two columns."""
    half = (sheet.wide - GAP - 7) / 2
    rows = [tall(note, width=half - 5, size=sheet.size) + 0.8 for note in view["notes"]]
    return balanced(rows) + sheet.size * 1.1 * SPACING * MM_PER_PT + 9


def section_items(section: dict[str, Any], sheet: Sheet) -> Iterator[float]:
    """What may not break: the heading with what follows it, then row by row."""
    items = [row_height(row, sheet) for row in section["rows"]]
    if section["lead"]:
        items.insert(0, tall(section["lead"], width=sheet.half * 0.97, size=sheet.size) + 0.9)
    glued = 2 if section["lead"] else 1
    yield heading(sheet, section["heading"], sheet.half) + sum(items[:glued])
    yield from items[glued:]


def row_height(row: dict[str, str], sheet: Sheet) -> float:
    text = f"{row['what']}: {row['text']}"
    bold = len(row["what"]) > len(row["text"])
    return tall(text, width=sheet.half * 0.97, size=sheet.size, bold=bold) + 0.9
