"""The owner's sheet in a real browser: two pages when printed, nothing cut off, whatever the build holds."""

from __future__ import annotations

import pathlib
import re

import pytest

from buildspec import pipeline
from buildspec.documents import handover
from buildspec.packet import Packet

ROOT = pathlib.Path(__file__).parents[2]
EXAMPLES = sorted(ROOT.glob("examples/*/*.build.yaml"))
OVERLAPS = """() => [...document.querySelectorAll('.side')].map(side => {
  const box = side.getBoundingClientRect(), foot = side.querySelector('footer').getBoundingClientRect();
  const parts = [...side.querySelectorAll('*')].filter(part => !part.closest('footer'));
  return {
    below: Math.max(...parts.map(part => part.getBoundingClientRect().bottom)) - foot.top,
    beyond: Math.max(...parts.map(part => part.getBoundingClientRect().right)) - foot.right,
    smallest: Math.min(...parts.map(part => parseFloat(getComputedStyle(part).fontSize))) / 96 * 72,
  };
})"""


def packet_of(path):
    sized = pipeline.check_file(path).build
    assert sized is not None
    return Packet(sized, (), (), ())


def crowded(packet, count, panels):
    """The build with `count` accessories and more panels: copies of what it has."""
    sized, build = packet.sized, packet.sized.build
    accessories, circuits, sizings = dict(build.accessories), list(build.circuits), dict(sized.sizings)
    originals = list(accessories)
    for n in range(count - len(originals)):
        old = originals[n % len(originals)]
        new = f"{old}-x{n}"
        accessories[new] = build.accessories[old]._replace(name=new)
        for circuit in (c for c in build.circuits if c.item == old):
            key = circuit.key.replace(old, new)
            circuits.append(circuit._replace(key=key, item=new, target=new))
            sizings[key] = sized.sizings[circuit.key]
    named = {
        f"{p.name}{n}": p._replace(name=f"{p.name}{n}") for n in range(panels) for p in build.panels.values()
    }
    channels = tuple(c._replace(panel=f"{c.panel}{n}") for n in range(panels) for c in build.channels)
    more = build._replace(
        accessories=accessories,
        circuits=tuple(circuits),
        panels={**build.panels, **named},
        channels=(*build.channels, *channels),
    )
    return packet._replace(sized=sized._replace(build=more, sizings=sizings))


def pages(page):
    pdf = page.pdf(prefer_css_page_size=True, print_background=True)
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def fits(page, packet):
    page.set_content(handover.html(packet))
    sides = page.evaluate(OVERLAPS)
    return pages(page), [side["below"] <= 0 and side["beyond"] <= 1 for side in sides]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)
def test_a_build_prints_on_two_sides(page, path):
    assert fits(page, packet_of(path)) == (2, [True, True])


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)
@pytest.mark.parametrize(("count", "panels"), [(40, 1), (40, 3), (90, 2)])
def test_a_crowded_build_prints_on_two_sides(page, path, count, panels):
    packet = crowded(packet_of(path), count, panels)
    assert len(packet.sized.build.accessories) == count
    assert fits(page, packet) == (2, [True, True])


def test_type_is_readable(page):
    """Nothing is set smaller than 8.5 pt, on a crowded sheet either."""
    page.set_content(handover.html(crowded(packet_of(EXAMPLES[-1]), 40, 3)))
    assert min(side["smallest"] for side in page.evaluate(OVERLAPS)) >= 8.49


def test_an_owner_finds_the_four_answers_on_paper(page):
    page.set_content(handover.html(packet_of(ROOT / "examples/river-gauging-pickup/pickup.build.yaml")))
    text = page.inner_text("main")
    for wanted in (
        "Press and hold ASSIST",
        "sample fridge alone",
        "PUMP",
        "At most 4 A, that is 48 W",
        "licensed workshop",
    ):
        assert wanted in text
