"""Two sides and no more: type size, columns, and as a last resort fewer rows, chosen from text widths alone. In mm."""

from __future__ import annotations

import functools
from typing import Any, NamedTuple

from buildspec.drawings.metrics import wrapped
from buildspec.errors import UsageError

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN = 13.0
MM_PER_PT = 25.4 / 72
SPACING = 1.32
"""Height of a line over its type size."""
SMALLEST = 8.5
"""Nothing is set smaller [pt]."""
TRIES = ((11.0, 4), (10.5, 4), (10.0, 4), (9.5, 4), (9.0, 4), (9.0, 5), (SMALLEST, 5), (SMALLEST, 6))
"""Type size [pt] and keys in a row, from the most comfortable down."""
CARE = 1.01
"""Heights are taken a little larger than worked out."""
FOOT = 4.0
GAP = 6.0
"""Between the two columns."""
SEE = "see the packet"
COMFORTABLE = 9.0
NUMBER_MM = 35.0
"""Width of the big numbers."""
NUMBER = 1.45
"""Their size over the text's."""
RATING_EM = 8.8
"""Width of a fuse's rating over its type size."""
FIRST_LEFT_OUT = ("fitted", "no-key", "outlets", "itself", "loads", "fuses", "later", "no-fuse")
"""What the packet can say as well goes first when a sheet is too full."""


class Fit(NamedTuple):
    """What was chosen for the two sides."""

    first_pt: float
    columns: int
    second_pt: float
    notes_first: bool
    """The notes stand on side one."""


def room(paper: str) -> tuple[float, float]:
    """Width and height inside the margins, footer taken off."""
    width, height = PAPERS[paper]
    return width - 2 * MARGIN, height - 2 * MARGIN - FOOT


@functools.cache
def tall(text: str, *, width: float, size: float, bold: bool = False) -> float:
    """Height of a paragraph [mm]; `size` in pt."""
    size = max(size, SMALLEST)
    lines = wrapped(text, width=width / MM_PER_PT, size=size, bold=bold)
    return len(lines) * size * SPACING * MM_PER_PT


def fit(view: dict[str, Any], paper: str) -> tuple[dict[str, Any], Fit]:
    """The view as it goes on paper, and the sizes that make it fit."""
    wide, high = room(paper)
    view, size, columns, notes_first = first_fit(view, wide, high)
    view, second = second_fit(view, wide, high, notes_first)
    return view, Fit(size, columns, second, notes_first)


def first_fit(view: dict[str, Any], wide: float, high: float) -> tuple[dict[str, Any], float, int, bool]:
    """Side one: with the notes where they find room at a comfortable size, without them else."""
    below = notes_height(view, wide, TRIES[0][0])
    for size, columns in TRIES:
        tall_mm = first_side(view, wide, size, columns)
        if tall_mm + below <= high and size >= COMFORTABLE:
            return view, size, columns, True
    while True:
        for size, columns in TRIES:
            if first_side(view, wide, size, columns) <= high:
                return view, size, columns, False
        view = fewer_keys(view)


def second_fit(
    view: dict[str, Any], wide: float, high: float, notes_first: bool
) -> tuple[dict[str, Any], float]:
    sizes = list(dict.fromkeys(size for size, _ in TRIES))
    while True:
        for size in sizes:
            below = 0.0 if notes_first else notes_height(view, wide, size)
            if second_side(view, wide, size) + below <= high:
                return view, size
        view = fewer_rows(view)


# ---------------------------------------------------------------------------------------- side one


def first_side(view: dict[str, Any], wide: float, size: float, columns: int) -> float:
    half = (wide - GAP) / 2
    total = tall(view["name"], width=wide, size=20, bold=True) + tall(view["meta"], width=wide, size=size) + 3
    for panel in view["panels"]:
        total += heading(size) + key_rows(
            panel["keys"], (wide - 2.5 * (columns - 1)) / columns, size, columns
        )
    total += tall(view["keys_left"], width=wide, size=size)
    start = sum(
        tall("".join(step.values()), width=half - 7, size=size) + 0.9 for step in view["start"]["steps"]
    )
    start += tall(view["start"]["caution"], width=half, size=size * 0.92) + 2
    park = sum(number_height(number, half, size) for number in view["park"]["numbers"])
    park += tall(view["park"]["note"], width=half, size=size * 0.92) + 2
    return (total + heading(size) + max(start, park)) * CARE


def heading(size: float) -> float:
    return size * 1.25 * SPACING * MM_PER_PT + 6.5


def key_rows(keys: list[dict[str, str]], wide: float, size: float, columns: int) -> float:
    heights = [card(key, wide - 4, size) for key in keys]
    return sum(max(heights[n : n + columns]) + 2.5 for n in range(0, len(heights), columns))


def card(key: dict[str, str], wide: float, size: float) -> float:
    """Picture and name side by side, sentence and condition below."""
    name = max(8.0, tall(key["name"], width=wide - 14, size=size * 1.1, bold=True))
    below = tall(key["does"], width=wide, size=size * 0.9) + tall(
        key["when"], width=wide, size=size * 0.9, bold=True
    )
    return name + below + 4


def number_height(number: dict[str, str], half: float, size: float) -> float:
    lines = tall(number["small"], width=half - NUMBER_MM - 2, size=size)
    return max(size * NUMBER * SPACING * MM_PER_PT, lines + (NUMBER - 1) * size * MM_PER_PT) + 2.2


def fewer_keys(view: dict[str, Any]) -> dict[str, Any]:
    """One key less on the panel that has the most; what is left out is said."""
    most = max(range(len(view["panels"])), key=lambda n: len(view["panels"][n]["keys"]))
    panels = [{**p, "keys": p["keys"][:-1]} if n == most else p for n, p in enumerate(view["panels"])]
    left = view["left"] + 1
    said = f"{left} more {'key' if left == 1 else 'keys'}: {SEE}."
    return {**view, "panels": panels, "left": left, "keys_left": said}


# ---------------------------------------------------------------------------------------- side two


def second_side(view: dict[str, Any], wide: float, size: float) -> float:
    """Height of the two columns side by side, with the lines on service under them."""
    half = (wide - GAP) / 2
    total = sum(section_height(section, half, size) for section in view["sections"])
    foot = (
        tall(view["service"], width=wide, size=size, bold=True)
        + tall(view["call"], width=wide, size=size)
        + 6
    )
    foot = max(foot, float(view.get("code_mm", 0.0)) + 4)
    # a column may end early by a heading with its first row
    return (total / 2 + heading(size) * 0.9 + foot) * CARE


def notes_height(view: dict[str, Any], wide: float, size: float) -> float:
    """The framed notes in two columns."""
    half = (wide - GAP - 7) / 2
    rows = [tall(note, width=half - 5, size=size) + 0.8 for note in view["notes"]]
    return ((sum(rows) + max(rows)) / 2 + size * 1.1 * SPACING * MM_PER_PT + 5) * CARE


def section_height(section: dict[str, Any], half: float, size: float) -> float:
    total = heading(size) + (tall(section["lead"], width=half, size=size) + 1 if section["lead"] else 0)
    group = ""
    for row in section["rows"]:
        if row["group"] != group:
            group = row["group"]
            total += tall(group, width=half, size=size * 0.95, bold=True) + 1.6
        total += row_height(row, half, size)
    return total + tall(section["left"], width=half, size=size)


def row_height(row: dict[str, str], half: float, size: float) -> float:
    if row["group"]:
        rating = RATING_EM * size * MM_PER_PT
        text = tall(row["text"], width=half - 9 - rating, size=size)
        return max(text, tall(row["what"], width=rating, size=size, bold=True)) + 0.9
    return (
        tall(
            f"{row['what']}: {row['text']}",
            width=half * 0.98,
            size=size,
            bold=len(row["what"]) > len(row["text"]),
        )
        + 0.9
    )


def fewer_rows(view: dict[str, Any]) -> dict[str, Any]:
    """One row less in the list that the packet says best, and a line that says how many are left out."""
    longer = {s["id"] for s in view["sections"] if len(s["rows"]) > 1}
    name = next((n for n in FIRST_LEFT_OUT if n in longer), "")
    if not name:
        raise UsageError(
            f"the owner's sheet does not fit on two sides at {SMALLEST} pt; shorten the notes of the job"
        )
    return {**view, "sections": [shorter(s) if s["id"] == name else s for s in view["sections"]]}


def shorter(section: dict[str, Any]) -> dict[str, Any]:
    count = section["count"] + 1
    return {**section, "rows": section["rows"][:-1], "count": count, "left": f"{count} more: {SEE}."}
