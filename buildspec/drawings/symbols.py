"""Circuit symbols after IEC 60617, drawn here from their geometry. Each one is centred on its conductor."""

from __future__ import annotations

from buildspec.drawings.marks import Arc, Box, Mark, Rect, Round, Stroke, Text
from buildspec.drawings.measure import BODY, CAP, SMALL
from buildspec.drawings.palette import HEAVY, INK, LINE, PAPER

FUSE_HALF = 32.0
CHANNEL_HALF = 24.0
CONTACT_HALF = 34.0
LOAD_HALF = 22.0
CAP_HALF = 18.0
DASH = "8 6"


def centred(x: float, y: float, text: str, size: float = SMALL, *, bold: bool = True) -> Text:
    """Text whose capitals stand centred on (x, y)."""
    return Text(x, y + size * CAP / 2, text, size, bold, "middle")


def fuse(x: float, y: float, *, dashed: bool = False) -> tuple[Mark, ...]:
    """Rectangle with the conductor straight through; dashed when no link is in it."""
    body = Rect(Box(x - FUSE_HALF, y - 11, x + FUSE_HALF, y + 11), PAPER, INK, dash=DASH if dashed else "")
    return (body, Stroke(((x - FUSE_HALF, y), (x + FUSE_HALF, y)), LINE, dash=DASH if dashed else ""))


def channel(x: float, y: float, *, dashed: bool = False) -> tuple[Mark, ...]:
    """Electronic switch with a current limit."""
    body = Rect(
        Box(x - CHANNEL_HALF, y - 15, x + CHANNEL_HALF, y + 15), PAPER, INK, dash=DASH if dashed else ""
    )
    return (body, centred(x, y, "I>"))


def contact(x: float, y: float, *, manual: bool = False, held: bool = False) -> tuple[Mark, ...]:
    """Make contact at rest; by hand with its operating mark, a small triangle when it springs back."""
    made: list[Mark] = [
        Stroke(((x - CONTACT_HALF, y), (x - 22, y))),
        Stroke(((x - 22, y), (x + 18, y - 21))),
        Stroke(((x + 22, y), (x + CONTACT_HALF, y))),
        Round(x - 22, y, 3.4, 1, INK, INK),
        Round(x + 22, y, 3.4, 1, INK, INK),
    ]
    if manual:
        made += [
            Stroke(((x - 4, y - 11), (x - 4, y - 36)), 2, dash="5 4"),
            Stroke(((x - 14, y - 36), (x + 6, y - 36))),
        ]
    if held:
        made.append(Stroke(((x + 7, y - 41), (x + 7, y - 31), (x + 14, y - 36)), 1, fill=INK, closed=True))
    return tuple(made)


def link(x: float, y: float, *, coil: bool) -> tuple[Mark, ...]:
    """Make contact of a link; worked by its coil, which stands below it."""
    if not coil:
        return contact(x, y, manual=True)
    box = Rect(Box(x - 22, y + 22, x + 22, y + 44), PAPER, INK)
    return (*contact(x, y), Stroke(((x - 2, y - 10), (x - 2, y + 22)), 2, dash="5 4"), box)


def coil(x: float, y: float) -> tuple[Mark, ...]:
    """Relay coil: a plain rectangle."""
    return (Rect(Box(x - 15, y - LOAD_HALF, x + 15, y + LOAD_HALF), PAPER, INK),)


def lamp(x: float, y: float) -> tuple[Mark, ...]:
    leg = 18 * 0.7071
    return (
        Round(x, y, 18, LINE, INK, PAPER),
        Stroke(((x - leg, y - leg), (x + leg, y + leg))),
        Stroke(((x - leg, y + leg), (x + leg, y - leg))),
    )


def motor(x: float, y: float) -> tuple[Mark, ...]:
    return (
        Round(x, y, 21, LINE, INK, PAPER),
        centred(x, y - 2, "M"),
        Stroke(((x - 7, y + 12), (x + 7, y + 12)), 2),
    )


def socket(x: float, y: float) -> tuple[Mark, ...]:
    """Socket outlet: a half circle open to what is plugged in."""
    return (
        Round(x, y, 20, LINE, INK, PAPER),
        Arc(f"M{x + 8:g} {y - 11:g}A11 11 0 0 0 {x + 8:g} {y + 11:g}"),
        Stroke(((x - 3, y), (x + 8, y))),
    )


def heater(x: float, y: float) -> tuple[Mark, ...]:
    body: tuple[Mark, ...] = (Rect(Box(x - LOAD_HALF, y - 12, x + LOAD_HALF, y + 12), PAPER, INK),)
    return (*body, *(Stroke(((x + dx, y - 12), (x + dx, y + 12))) for dx in (-11, 0, 11)))


def item(x: float, y: float, letter: str) -> tuple[Mark, ...]:
    """Any other device: a box with the letter of its class."""
    return (Rect(Box(x - 20, y - 18, x + 20, y + 18), PAPER, INK), centred(x, y, letter))


def converter(x: float, y: float, half: float = 20, *, to_ac: bool = False) -> tuple[Mark, ...]:
    """Square with a diagonal: direct current in at the upper left, out at the lower right."""
    size = half / 20
    made: list[Mark] = [
        Rect(Box(x - half, y - half, x + half, y + half), PAPER, INK),
        Stroke(((x - half, y + half), (x + half, y - half))),
        *dc_mark(x - 9 * size, y - 10 * size, size),
    ]
    if to_ac:
        wave = (
            f"M{x + 2 * size:g} {y + 11 * size:g}q{3.5 * size:g} {-7 * size:g} {7 * size:g} 0t{7 * size:g} 0"
        )
        made.append(Arc(wave, 2))
    else:
        made += dc_mark(x + 9 * size, y + 10 * size, size)
    return tuple(made)


def dc_mark(x: float, y: float, size: float) -> tuple[Mark, ...]:
    """The sign of direct current: a line over three dashes."""
    reach, drop = 7 * size, 5 * size
    return (
        Stroke(((x - reach, y - drop / 2), (x + reach, y - drop / 2)), 2),
        *(
            Stroke(
                (
                    (x + n * 5.4 * size - 1.6 * size, y + drop / 2),
                    (x + n * 5.4 * size + 1.6 * size, y + drop / 2),
                ),
                2,
            )
            for n in (-1, 0, 1)
        ),
    )


def battery(x: float, top: float, bottom: float) -> tuple[Mark, ...]:
    """Two cells, upright, positive on top, with leads from `top` to `bottom`."""
    middle = (top + bottom) / 2
    levels = [middle - 30, middle - 10, middle + 10, middle + 30]
    plates: list[Mark] = [
        Stroke(((x - half, level), (x + half, level)), width)
        for level, half, width in zip(levels, (28, 13, 28, 13), (LINE, 9, LINE, 9), strict=True)
    ]
    leads = (Stroke(((x, top), (x, levels[0])), HEAVY), Stroke(((x, levels[3]), (x, bottom)), HEAVY))
    return (*leads, *plates)


def generator(x: float, y: float, letters: str = "G") -> tuple[Mark, ...]:
    """Alternator with its rectifier: circle, G over the sign of direct current."""
    return (Round(x, y, 42, HEAVY, INK, PAPER), centred(x, y - 8, letters, BODY), *dc_mark(x, y + 18, 1.3))


def chassis(x: float, y: float) -> tuple[Mark, ...]:
    """Vehicle body, hanging from (x, y)."""
    return (
        Stroke(((x - 18, y), (x + 18, y)), HEAVY),
        *(Stroke(((x + dx, y), (x + dx - 8, y + 13))) for dx in (-16, 0, 16)),
    )


def terminal(x: float, y: float) -> tuple[Mark, ...]:
    return (Round(x, y, 6, LINE, INK, PAPER),)


def dot(x: float, y: float) -> Mark:
    """Conductors joined."""
    return Round(x, y, 6, 1, INK, INK)


def capped(x: float, y: float) -> tuple[Mark, ...]:
    """Two ends, each under its cap: the feed from the left, the return from the right."""
    left, right = x - 6, x + 6
    return (
        Arc(
            f"M{left - 12:g} {y - 11:g}H{left - 5:g}A11 11 0 0 1 {left - 5:g} {y + 11:g}H{left - 12:g}Z",
            LINE,
            INK,
            PAPER,
        ),
        Arc(
            f"M{right + 12:g} {y - 11:g}H{right + 5:g}A11 11 0 0 0 {right + 5:g} {y + 11:g}H{right + 12:g}Z",
            LINE,
            INK,
            PAPER,
        ),
    )


def flag(box: Box, *, dashed: bool = False) -> Mark:
    """Reference to another sheet: a box whose right side points on."""
    middle, tip = (box.top + box.bottom) / 2, box.right - min(30, (box.bottom - box.top) / 2)
    points = (
        (box.left, box.top),
        (tip, box.top),
        (box.right, middle),
        (tip, box.bottom),
        (box.left, box.bottom),
    )
    return Stroke(points, LINE, INK, PAPER, closed=True, dash="12 8" if dashed else "")
