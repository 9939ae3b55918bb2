"""The foot of the first supply sheet: how start and house meet, and the studs of the body."""

from __future__ import annotations

from buildspec.drawings import labels
from buildspec.drawings.marks import Box, Group, Mark, Rect, Text
from buildspec.drawings.measure import BODY, wrap
from buildspec.drawings.palette import INK, QUIET
from buildspec.drawings.strands import Scene

FOOT_LINE = 34.0


def studs(scene: Scene) -> list[str]:
    build = scene.sized.build
    return [
        f"{g.letter_name} {g.words}, {labels.place(build, g.place)}"
        for g in build.grounds.values()
        if not g.post_of
    ]


def foot_lines(scene: Scene, area: Box) -> tuple[tuple[str, ...], tuple[str, ...]]:
    room = area.right - area.left - 130
    sentence = wrap(labels.meeting(scene.sized.build), room, BODY, bold=True)
    grounds = "Body studs:  " + "   ·   ".join(studs(scene)) if studs(scene) else ""
    return sentence, wrap(grounds, room)


def foot_height(scene: Scene, area: Box) -> float:
    sentence, grounds = foot_lines(scene, area)
    return 40.0 * len(sentence) + FOOT_LINE * len(grounds) + 62


def foot(scene: Scene, area: Box) -> tuple[Group, ...]:
    """How start and house meet, and the studs of the body."""
    sentence, grounds = foot_lines(scene, area)
    top = area.bottom - foot_height(scene, area) + 14
    box = Box(area.left + 30, top, area.right - 30, area.bottom - 24)
    marks: list[Mark] = [Rect(box, "none", INK, 2, 12)]
    y = top + 6
    for line in sentence:
        y += 36
        marks.append(Text(box.left + 24, y, line, BODY, True))
    y += 4
    for line in grounds:
        y += FOOT_LINE
        marks.append(Text(box.left + 24, y, line, colour=QUIET))
    text = labels.meeting(scene.sized.build)
    return (
        Group(
            scene.id("meeting"),
            "How start and house meet",
            f"{text} {' '.join(grounds)}",
            tuple(marks),
            layer=3,
        ),
    )
