"""All sheets of a build: the supply first, then one ladder of circuits after the other."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from buildspec.drawings import (
    checks,
    ladder,
    ladder_heights,
    looms_sheet,
    supply_spread,
    svg,
    titleblock,
    units,
)
from buildspec.drawings import plan as planning
from buildspec.drawings import supply as supplies
from buildspec.drawings import zones as zoning
from buildspec.drawings.looms_sheet import Sheaf
from buildspec.drawings.marks import Group, Page
from buildspec.drawings.plan import Ladder, Split
from buildspec.drawings.strands import FAR, Scene
from buildspec.drawings.units import Leaf
from buildspec.model import Sized
from buildspec.packet import Sheet

MOST_ROUNDS = 6
"""Names of zones are all about as wide: two rounds settle what the first one leaves open."""
CIRCUITS, LAYOUT = "Circuit diagram", "Layout of looms"
SUPPLY_TITLE = "Supply and isolation"


class Outline(NamedTuple):
    """What stands on which sheet, before anything is drawn."""

    split: Split
    supply: tuple[Leaf, ...]
    looms: tuple[Sheaf, ...]
    size: tuple[float, float]

    @property
    def circuits(self) -> int:
        """Number of sheets with circuits."""
        return len(self.supply) + len(self.split.ladders)

    @property
    def total(self) -> int:
        return self.circuits + len(self.looms)


def sheets(sized: Sized) -> tuple[Sheet, ...]:
    """The circuit diagram of a build, one self-contained SVG a sheet, at true size.

    Raises UsageError only when the layout engine is missing.
    """
    return tuple(finished(page) for page in pages(sized))


def finished(page: Page) -> Sheet:
    """A page written out, with what it was checked for on it."""
    found = checks.checked(page)
    whole = page._replace(groups=(*page.groups, checks.line(page, found)))
    size = (page.width / 10, page.height / 10)
    return Sheet(page.id, page.number, page.title, svg.document(whole), *size, found)


def pages(sized: Sized) -> tuple[Page, ...]:
    """The sheets as marks. Drawn again until every reference names the zone where its other end stands."""
    found = outline(sized)
    scene = referenced(sized, found)
    zones: Mapping[str, str] = {}
    for _ in range(MOST_ROUNDS):
        made = drawn(scene._replace(zones=zones), found)
        seen = zoning.anchors(made)
        if seen == zones:
            return made
        zones = seen
    return drawn(scene, found)


def drawn(scene: Scene, found: Outline) -> tuple[Page, ...]:
    made = [supply_page(scene, found, n) for n in range(len(found.supply))]
    made += [ladder_page(scene, found, n) for n in range(len(found.split.ladders))]
    made += [looms_page(scene, found, n) for n in range(len(found.looms))]
    return tuple(made)


def outline(sized: Sized) -> Outline:
    """Loads straight from a battery leave the supply sheet when it would not hold them all."""
    size = titleblock.PAPERS.get(sized.build.practice.paper, titleblock.PAPERS["A4"])
    first = divided(sized, size, loads_on_supply=True)
    return first if len(first.supply) == 1 else divided(sized, size, loads_on_supply=False)


def divided(sized: Sized, size: tuple[float, float], *, loads_on_supply: bool) -> Outline:
    blank, area = unplaced(sized), titleblock.area(*size)
    split = planning.split(
        sized.build,
        lambda sections: ladder_heights.fits(blank, sections, area),
        loads_on_supply=loads_on_supply,
    )
    leaves = supply_spread.pages(blank, split.supply, split.direct, area)
    return Outline(split, leaves, looms_sheet.sheaves(blank, area), size)


def unplaced(sized: Sized) -> Scene:
    """Before anything has its sheet: every reference as wide as it can become."""
    build = sized.build
    far = dict.fromkeys((*build.batteries, *build.isolation, *build.supplies), FAR)
    nodes = dict.fromkeys((*build.panels, *build.blocks, *build.batteries), FAR)
    far |= {f"again:{name}:{FAR}": FAR for name in build.batteries}
    return Scene(sized, 1, {c.key: FAR for c in build.circuits}, nodes, far, {})


def referenced(sized: Sized, found: Outline) -> Scene:
    """On which sheet everything is, for references both ways."""
    circuits = {c.key: 1 for c in found.split.supply}
    devices: dict[str, int] = {}
    nodes: dict[str, int] = {}
    taps: dict[str, int] = {}
    for number, leaf in enumerate(found.supply, start=1):
        devices |= dict.fromkeys(leaf.new, number)
        sources = list(units.sources(sized.build, leaf.units))
        taps |= {n: number for n in sources if n in sized.build.blocks}
        shown = [n for n in sources if n in sized.build.batteries]
        devices |= {f"again:{n}:{number}": number for n in shown if n not in leaf.new}
        circuits |= {c.key: number for c in leaf.bonds}
        for unit in leaf.units:
            circuits |= {c.key: number for c in unit.circuits}
            if unit.kind == "device":
                devices[unit.name] = number
            if unit.kind == "more":
                devices[f"more:{unit.name}"] = number
    for number, page in enumerate(found.split.ladders, start=len(found.supply) + 1):
        for section in page.sections:
            circuits |= {c.key: number for c in section.rows}
            if section.host:
                nodes.setdefault(section.host, number)
                nodes |= {f"rows:{c.key}": number for c in section.rows}
                nodes[f"part:{section.host}:{section.part}"] = number
    nodes = taps | nodes
    return Scene(sized, 1, circuits, nodes, devices)


def supply_page(scene: Scene, found: Outline, index: int) -> Page:
    number = index + 1
    scene = scene._replace(number=number)
    title = SUPPLY_TITLE + (f" ({number}/{len(found.supply)})" if len(found.supply) > 1 else "")
    slug = "supply" + (f"-{number}" if len(found.supply) > 1 else "")
    area = titleblock.area(*found.size)
    drawn = supplies.draw(scene, found.supply[index], area)
    return page(scene, found, slug, title, drawn)


def ladder_page(scene: Scene, found: Outline, index: int) -> Page:
    scene = scene._replace(number=len(found.supply) + index + 1)
    item: Ladder = found.split.ladders[index]
    groups = ladder.draw(scene, item.sections, titleblock.area(*found.size))
    return page(scene, found, item.slug, item.title, groups)


def looms_page(scene: Scene, found: Outline, index: int) -> Page:
    """Places and looms, after all circuits."""
    scene = scene._replace(number=found.circuits + index + 1)
    many = len(found.looms) > 1
    title = looms_sheet.TITLE + (f" ({index + 1}/{len(found.looms)})" if many else "")
    slug = "looms" + (f"-{index + 1}" if many else "")
    groups = looms_sheet.draw(scene, found.looms[index], titleblock.area(*found.size))
    return page(scene, found, slug, title, groups, kind=LAYOUT)


def page(
    scene: Scene, found: Outline, slug: str, title: str, drawn: tuple[Group, ...], *, kind: str = CIRCUITS
) -> Page:
    build = scene.sized.build
    name = f"d{scene.number}-{slug}".replace(".", "-")
    frame = titleblock.frame(
        build, sheet_id=name, kind=kind, title=title, number=scene.number, count=found.total, size=found.size
    )
    desc = f"{kind} of {build.job.number}, {build.vehicle.description}, sheet {scene.number} of {found.total}"
    groups = tuple(svg.distinct((*frame, zoning.grid(name, found.size), *drawn)))
    return Page(name, scene.number, title, desc, found.size[0], found.size[1], groups)
