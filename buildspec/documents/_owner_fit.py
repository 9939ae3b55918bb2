"""Two sides and no more: type size, columns, and as a last resort fewer rows, chosen from text widths alone. In mm."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from typing import Any, NamedTuple

from buildspec.drawings.metrics import text_width, wrapped
from buildspec.errors import UsageError
from buildspec.tongues import Tongue, plain

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN = 11.0
MM_PER_PT = 25.4 / 72
SPACING = 1.3
"""Height of a line over its type size."""
SMALLEST = 8.5
"""Nothing is set smaller [pt]."""
TRIES = (
    (11.0, 4), (10.5, 4), (10.0, 4), (9.75, 4), (9.5, 4), (9.25, 4), (9.0, 4), (9.0, 5), (8.75, 5), (SMALLEST, 4),
    (SMALLEST, 5), (SMALLEST, 6),
)  # fmt: skip
"""Type size [pt] and keys in a row, from the most comfortable down."""
SIZES = tuple(dict.fromkeys(size for size, _ in TRIES))
CARE = 1.006
"""Heights are taken a little larger than worked out."""
FOOT = 4.0
GAP = 6.0
"""Between the two columns."""
NUMBER_MM = 27.0
"""Width of the big numbers."""
NUMBER = 1.3
"""Their size over the text's."""
TITLE = 15.0
"""Size of the title [pt]."""
STRIP = 8
"""Keys in a row of the small panel on side one."""
STRIP_MM = 9.4
FIRST_LEFT_OUT = ("fitted", "no-key", "outlets", "itself", "loads", "mains", "bolted")
"""What the packet can say as well goes first when a sheet is too full."""


class Fit(NamedTuple):
    """What was chosen for the two sides."""

    first_pt: float
    second_pt: float
    columns: int
    rating_em: float
    """Width of the widest fuse rating over its type size."""


def room(paper: str) -> tuple[float, float]:
    """Width and height inside the margins, footer taken off."""
    width, height = PAPERS[paper]
    return width - 2 * MARGIN, height - 2 * MARGIN - FOOT


@functools.cache
def tall(text: str, *, width: float, size: float, bold: bool = False) -> float:
    """Height of a paragraph [mm]; `size` in pt."""
    size = max(size, SMALLEST)
    lines = wrapped(plain(text), width=width / MM_PER_PT, size=size, bold=bold)
    return len(lines) * size * SPACING * MM_PER_PT


def fit(view: dict[str, Any], paper: str, t: Tongue) -> tuple[dict[str, Any], Fit]:
    """The view as it goes on paper, and the sizes that make it fit."""
    wide, high = room(paper)
    rating = rating_em(view)
    view, first = first_fit(view, wide, high, rating, t)
    view, second, columns = second_fit(view, wide, high, rating, t)
    return view, Fit(first, second, columns, round(rating, 2))


def rating_em(view: dict[str, Any]) -> float:
    """Room for the widest rating of a fuse, such as `7,5 A hellblau`, in bold."""
    rows = [*view["fuses"]["rows"], *(row for s in view["sections"] for row in s["rows"] if row["group"])]
    return max((text_width(plain(row["what"]), size=1, bold=True) for row in rows), default=0.0) + 0.9


def first_fit(
    view: dict[str, Any], wide: float, high: float, rating: float, t: Tongue
) -> tuple[dict[str, Any], float]:
    """The largest size at which side one holds all; rows are left out below the smallest."""
    while True:
        for size in SIZES:
            if first_side(view, wide, size, rating) <= high:
                return view, size
        shorter_view = fewer_first(view, t)
        if shorter_view is None:
            return view, SMALLEST
        view = shorter_view


def second_fit(
    view: dict[str, Any], wide: float, high: float, rating: float, t: Tongue
) -> tuple[dict[str, Any], float, int]:
    while True:
        for size, columns in tries(view, wide):
            if second_side(view, wide, size, columns, rating) <= high:
                return view, size, columns
        shorter_view = fewer_second(view, t)
        if shorter_view is None:
            raise UsageError(
                f"the owner's sheet does not fit on two sides at {SMALLEST} pt; shorten the notes of the job"
            )
        view = shorter_view


def tries(view: dict[str, Any], wide: float) -> list[tuple[float, int]]:
    """Sizes and columns at which no word on a key breaks; four columns are always tried."""
    words = [word for panel in view["panels"] for key in panel["keys"] for word in key["name"].split()]

    def whole(size: float, columns: int) -> bool:
        cell = (wide - 2.2 * (columns - 1)) / columns - 18
        return all(text_width(w, size=size * 1.05, bold=True) * MM_PER_PT <= cell for w in words)

    return [one for one in TRIES if one[1] == TRIES[0][1] or whole(*one)]


# ---------------------------------------------------------------------------------------- side one


def first_side(view: dict[str, Any], wide: float, size: float, rating: float) -> float:
    half = (wide - GAP) / 2
    total = (
        tall(view["name"], width=wide, size=TITLE, bold=True) + tall(view["meta"], width=wide, size=size) + 2
    )
    total += sum(strip(panel["keys"], wide) for panel in view["strips"])
    start = steps_height(view["start"], half, size)
    park = sum(number_height(number, half, size) for number in view["park"]["numbers"])
    park += tall(view["park"]["note"], width=half, size=size * 0.92) + 2
    labels = view["labels"]
    total += max(heading(size, labels["start"], half) + start, heading(size, labels["park"], half) + park)
    total += heading(size, labels["fuses"], wide) + fuses_height(view["fuses"], wide, size, rating)
    later = heading(size, labels["later"], half) + later_height(view["later"], half, size)
    return (total + max(later, aside_height(view, half, size))) * CARE


def heading(size: float, text: str, width: float) -> float:
    """A heading with its sign, over its line."""
    return tall(text, width=width - size * 1.2 * 1.25 * MM_PER_PT - 1.6, size=size * 1.2, bold=True) + 5.5


def strip(keys: list[dict[str, str]], wide: float) -> float:
    """The small panel: picture and name of each key."""
    cell = wide / min(STRIP, max(len(keys), 1)) - 4
    names = [tall(key["name"], width=cell, size=SMALLEST, bold=True) for key in keys]
    return sum(max(names[n : n + STRIP]) + STRIP_MM + 1 for n in range(0, len(names), STRIP)) + 1


def steps_height(start: dict[str, Any], half: float, size: float) -> float:
    steps = sum(tall("".join(step.values()), width=half - 7, size=size) + 0.8 for step in start["steps"])
    return steps + tall(start["caution"], width=half, size=size * 0.92) + 2


def number_height(number: dict[str, str], half: float, size: float) -> float:
    big = tall(number["big"], width=NUMBER_MM, size=size * NUMBER, bold=True)
    lines = tall(number["small"], width=half - NUMBER_MM - 2, size=size)
    return max(big, lines + (NUMBER - 1) * size * MM_PER_PT) + 1.6


def fuses_height(fuses: dict[str, Any], wide: float, size: float, rating: float) -> float:
    """Fuses in two columns, keys without one below them."""
    half = (wide - GAP) / 2
    total = tall(fuses["lead"], width=wide, size=size) + 1
    total += balanced(list(row_items(fuses["rows"], half, size, rating)))
    if fuses["left"]:
        total += tall(fuses["left"], width=wide, size=size)
    for one in fuses["limited"]:
        said = f"{fuses['limited_lead']} {one['what']}. {one['text']}"
        total += tall(said, width=wide * 0.97, size=size) + 1
    return total


def balanced(items: list[float]) -> float:
    """Height of two columns that share items which do not break."""
    whole = sum(items)
    before = [sum(items[:n]) for n in range(len(items) + 1)]
    return min((max(one, whole - one) for one in before), default=0.0)


def later_height(later: dict[str, Any], half: float, size: float) -> float:
    rows = sum(
        tall(f"{row['what']}: {row['text']}", width=half * 0.97, size=size) + 0.9 for row in later["rows"]
    )
    left = tall(later["left"], width=half, size=size) if later["left"] else 0.0
    return tall(later["lead"], width=half, size=size) + 0.9 + rows + left


def aside_height(view: dict[str, Any], half: float, size: float) -> float:
    """What may still be loaded, over whom to call."""
    load, labels = view["payload"], view["labels"]
    above = heading(size, labels["load"], half) + number_height(load, half, size)
    return above + heading(size, labels["call"], half) + call_height(view, half - 7, size) + 4


def call_height(view: dict[str, Any], wide: float, size: float) -> float:
    """Words beside the code, where there is one, and the packet's address below both."""
    call, code = view["call"], float(view.get("code_mm", 0.0))
    beside = wide - (code + 2 if code else 0.0)
    said = sum(tall(call[part], width=beside, size=size * 1.1, bold=True) for part in ("name", "contact"))
    said += tall(call["why"], width=beside, size=size)
    address = tall(view["address"], width=wide, size=size) if view.get("address") else 0.0
    return max(said, code + 1 if code else 0.0) + address


def fewer_first(view: dict[str, Any], t: Tongue) -> dict[str, Any] | None:
    """One row less on side one: of the fuses first, then of what waits for later, then a small panel."""
    for name in ("fuses", "later"):
        if len(view[name]["rows"]) > 1:
            return {**view, name: shorter(view[name], t)}
    return {**view, "strips": view["strips"][:-1]} if view["strips"] else None


# ---------------------------------------------------------------------------------------- side two


def second_side(view: dict[str, Any], wide: float, size: float, columns: int, rating: float) -> float:
    """Keys, the two columns side by side, the framed notes, and the line on service."""
    half = (wide - GAP) / 2
    total = 0.0
    for panel in view["panels"]:
        cell = (wide - 2.2 * (columns - 1)) / columns
        total += heading(size, panel["heading"], wide) + key_rows(panel["keys"], cell, size, columns)
    total += tall(view["keys_left"], width=wide, size=size) if view["keys_left"] else 0.0
    items = [i for section in view["sections"] for i in section_items(section, half, size, rating)]
    total += balanced(items) + 3 + notes_height(view, wide, size) - 4
    return (total + tall(view["service"], width=wide, size=size, bold=True) + 4) * CARE


def key_rows(keys: list[dict[str, str]], wide: float, size: float, columns: int) -> float:
    heights = [card(key, wide - 4, size) for key in keys]
    return sum(max(heights[n : n + columns]) + 2.2 for n in range(0, len(heights), columns))


def card(key: dict[str, str], wide: float, size: float) -> float:
    """Picture and name side by side, sentence and condition below."""
    name = max(8.0, tall(key["name"], width=wide - 14, size=size * 1.05, bold=True))
    below = tall(key["does"], width=wide, size=size * 0.9)
    below += tall(f"{key['when']}.", width=wide, size=size * 0.9, bold=True) if key["when"] else 0.0
    return name + below + 3.6


def notes_height(view: dict[str, Any], wide: float, size: float) -> float:
    """The framed notes in two columns."""
    half = (wide - GAP - 7) / 2
    rows = [tall(note, width=half - 5, size=size) + 0.8 for note in view["notes"]]
    return balanced(rows) + size * 1.1 * SPACING * MM_PER_PT + 9


def section_items(section: dict[str, Any], half: float, size: float, rating: float) -> Iterator[float]:
    """What may not break: the heading with what follows it, then row by row."""
    items = list(row_items(section["rows"], half, size, rating))
    if section["lead"]:
        items.insert(0, tall(section["lead"], width=half * 0.97, size=size) + 0.9)
    glued = 2 if section["lead"] else 1
    yield heading(size, section["heading"], half) + sum(items[:glued])
    yield from items[glued:]
    if section["left"]:
        yield tall(section["left"], width=half, size=size) + 0.9


def row_items(rows: list[dict[str, str]], half: float, size: float, rating: float) -> Iterator[float]:
    """Rows of one list, the first of each group with its small heading."""
    group = ""
    for row in rows:
        own = row_height(row, half, size, rating)
        if row["group"] and row["group"] != group:
            own += tall(row["group"], width=half, size=size * 0.95, bold=True) + 1.6
        group = row["group"]
        yield own


def row_height(row: dict[str, str], half: float, size: float, rating: float) -> float:
    if row["group"]:
        return tall(row["text"], width=half - 9 - rating * size * MM_PER_PT, size=size) + 0.7
    text = f"{row['what']}: {row['text']}"
    bold = len(row["what"]) > len(row["text"])
    return tall(text, width=half * 0.97, size=size, bold=bold) + 0.9


def fewer_second(view: dict[str, Any], t: Tongue) -> dict[str, Any] | None:
    """One row less in the list that the packet says best, and a line that says how many; at last a key less."""
    for name in FIRST_LEFT_OUT:
        if any(s["id"] == name and len(s["rows"]) > 1 for s in view["sections"]):
            short = [shorter(s, t) if s["id"] == name else s for s in view["sections"]]
            return {**view, "sections": short}
    if not any(panel["keys"] for panel in view["panels"]):
        return None
    most = max(range(len(view["panels"])), key=lambda n: len(view["panels"][n]["keys"]))
    panels = [{**p, "keys": p["keys"][:-1]} if n == most else p for n, p in enumerate(view["panels"])]
    left = view["left"] + 1
    said = t.many("{count} more key: see the packet.", "{count} more keys: see the packet.", left)
    return {**view, "panels": panels, "left": left, "keys_left": said}


def shorter(section: dict[str, Any], t: Tongue) -> dict[str, Any]:
    count = section["count"] + 1
    said = t.many("{count} more: see the packet.", "{count} more: see the packet.", count)
    return {**section, "rows": section["rows"][:-1], "count": count, "left": said}
