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
def test_a_crowded_build_loses_nothing(page, path, count, panels):
    """Two sides with all inside them, or more where the page itself says that two are too few."""
    packet = crowded(packet_of(path), count, panels)
    assert len(packet.sized.build.accessories) == count
    found, whole = fits(page, packet)
    long = page.locator("main.long").count() == 1
    assert found > 2 if long else (found, whole) == (2, [True, True])
    text = " ".join(page.text_content("main").split())
    rows = handover.view(packet)["fuses"]["rows"]
    assert page.locator(".dead").count() == len(rows)
    assert all(" ".join(row["what"].split()) in text for row in rows)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)
def test_type_is_readable(page, path):
    """Nothing is set smaller than 7 pt, on a crowded sheet either."""
    for packet in (packet_of(path), crowded(packet_of(path), 40, 3)):
        page.set_content(handover.html(packet))
        assert min(side["smallest"] for side in page.evaluate(OVERLAPS)) >= 6.99


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)
def test_the_sheet_reflows_on_a_telephone(page, path):
    """390 px wide: nothing to scroll sideways, no part beyond the edge."""
    page.set_viewport_size({"width": 390, "height": 844})
    packet = packet_of(path)
    for lang in packet.sized.build.practice.languages:
        page.set_content(handover.html(packet._replace(lang=lang)))
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        right = (
            "Math.max(...[...document.querySelectorAll('main *')].map(e => e.getBoundingClientRect().right))"
        )
        assert page.evaluate(right) <= 390


def test_an_owner_finds_the_four_answers_on_paper(page):
    page.set_content(handover.html(packet_of(ROOT / "examples/river-gauging-pickup/pickup.build.yaml")))
    text = " ".join(page.inner_text("main").split())
    for wanted in (
        "Press and hold ASSIST",
        "sample fridge alone",
        "PUMP",
        "At most 4 A, that is 48 W",
        "licensed workshop",
    ):
        assert wanted in text
