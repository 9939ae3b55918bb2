"""Strips at true size, and the table of keys."""

from __future__ import annotations

import pathlib
import re
from xml.etree import ElementTree

import jinja2
import pytest

from buildspec import pipeline, resources
from buildspec.documents import legend as document
from buildspec.drawings import legend, metrics
from buildspec.packet import Packet

ROOT = pathlib.Path(__file__).parents[1]
PICKUP = ROOT / "examples/river-gauging-pickup/pickup.build.yaml"
EXAMPLES = sorted(ROOT.glob("examples/*/*.build.yaml"))
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def pickup():
    sized = pipeline.check_file(PICKUP).build
    assert sized is not None
    return sized


def changed(sized, *, trait=None, **channels):
    """The pickup with another key layout, or with other channels: `legend`, `hint`, … of key 1."""
    build = sized.build
    panel = build.panels["main"]
    part = panel.part._replace(panel=panel.part.panel._replace(**(trait or {})))
    first = build.channels[0]._replace(**channels)
    return sized._replace(
        build=build._replace(
            panels={"main": panel._replace(part=part)}, channels=(first, *build.channels[1:])
        )
    )


def drawn(sized):
    (sheet,) = legend.strips(sized)
    return ElementTree.fromstring(sheet.svg)


def by_id(root, name):
    (found,) = [node for node in root.iter() if node.get("id") == name]
    return found


def words(node):
    return [text.text for text in node.iter(f"{SVG}text")]


def mm(text):
    assert text.endswith("mm")
    return float(text[:-2])


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)
def test_the_outline_is_the_true_size_of_the_keys(path):
    """One unit of the drawing is 1 mm, and the outline is columns by rows of the panel's own keys."""
    sized = pipeline.check_file(path).build
    assert sized is not None
    for sheet, panel in zip(legend.strips(sized), sized.build.panels.values(), strict=True):
        root, trait = ElementTree.fromstring(sheet.svg), panel.part.panel
        box = [float(v) for v in root.get("viewBox").split()]
        assert (
            box
            == [0, 0, mm(root.get("width")), mm(root.get("height"))]
            == [0, 0, sheet.width_mm, sheet.height_mm]
        )
        outline = by_id(root, f"legend-{panel.name}-outline").find(f"{SVG}rect")
        rows = -(-trait.channels // trait.columns)
        assert float(outline.get("width")) == pytest.approx(
            min(trait.columns, trait.channels) * trait.key_width_mm
        )
        assert float(outline.get("height")) == pytest.approx(rows * trait.key_height_mm)


def test_the_ruler_is_50_mm(pickup):
    path = by_id(drawn(pickup), "legend-main-ruler").find(f"{SVG}path").get("d")
    start, length = re.match(r"M([\d.]+) [\d.]+h([\d.]+)", path).groups()
    ticks = [float(x) - float(start) for x in re.findall(r"M([\d.]+) [\d.]+v", path)]
    assert float(length) == 50
    assert ticks == list(range(0, 51, 5))


def test_every_key_shows_its_legend_its_second_line_and_its_number(pickup):
    root = drawn(pickup)
    assert words(by_id(root, "legend-main-2")) == ["2", "BAR", "with main beam"]
    assert words(by_id(root, "legend-main-5")) == ["5", "SCENE L", "reserved"]
    assert words(by_id(root, "legend-main-7")) == ["7", "free"]
    assert words(by_id(root, "legend-main-8")) == ["8", "ASSIST", "hold"]


def test_reserved_and_free_are_told_apart_without_colour(pickup):
    """A reserved key is hatched, framed by dashes and drawn with a dashed picture; a free one is none of it."""
    root = drawn(pickup)
    marks = {n: ElementTree.tostring(by_id(root, f"legend-main-{n}"), encoding="unicode") for n in (1, 5, 7)}
    assert "url(#legend-main-hatch)" in marks[5] and marks[5].count("stroke-dasharray") == 2
    assert not any("hatch" in marks[n] or "dasharray" in marks[n] for n in (1, 7))


def test_caption_names_panel_place_size_and_job(pickup):
    text = " ".join(words(by_id(drawn(pickup), "legend-main-caption"))).replace("\u00a0", " ")
    assert text == (
        "Panel S1, roof rail, above the mirror · true size 148 mm × 20 mm · FR-0117 B · cut on the outer line"
    )


def test_imperial_shops_read_inches_too():
    """25.4 mm to the inch: 132 mm is 5.2 in, 37 mm is 1.46 in."""
    sized = pipeline.check_file(ROOT / "examples/beekeepers-flatbed/flatbed.build.yaml").build
    assert sized is not None
    text = " ".join(words(by_id(drawn(sized), "legend-rockers-caption"))).replace("\u00a0", " ")
    assert "true size 132 mm × 37 mm (5.2 in × 1.46 in)" in text


def test_more_channels_than_columns_make_rows(pickup):
    root = drawn(changed(pickup, trait={"columns": 3}))
    outline = by_id(root, "legend-main-outline").find(f"{SVG}rect")
    assert (float(outline.get("width")), float(outline.get("height"))) == (55.5, 60)
    tops = [float(by_id(root, f"legend-main-{n}").find(f"{SVG}text").get("y")) for n in (1, 4, 7)]
    assert tops[1] - tops[0] == pytest.approx(20) == tops[2] - tops[1]


@pytest.mark.parametrize("text", ["SCENE", "MAIN FLOOD", "LEFT FLOOD LAMP", "Rückfahrscheinwerfer", "W" * 30])
def test_text_stays_inside_its_key_and_readable(pickup, text):
    key = by_id(drawn(changed(pickup, legend=text)), "legend-main-1")
    lines = [t for t in key.iter(f"{SVG}text") if t.get("font-weight") == "bold"]
    assert "".join(t.text for t in lines).replace(" ", "") == text.replace(" ", "")
    assert all(float(t.get("textLength")) <= 18.5 - 2 * legend.PAD + 1e-6 for t in lines)
    assert all(float(t.get("font-size")) >= 2.1 for t in lines)


def test_text_of_a_spec_cannot_become_markup(pickup):
    root = drawn(changed(pickup, legend='<b>&"', hint="</svg>"))
    assert words(by_id(root, "legend-main-1"))[1:] == ['<b>&"', "</svg>"]


def test_ids_are_unique_and_every_group_is_titled(pickup):
    root = drawn(pickup)
    ids = [node.get("id") for node in root.iter() if node.get("id")]
    assert len(ids) == len(set(ids))
    groups = [node for node in root.iter(f"{SVG}g") if node.get("id")]
    assert len(groups) == 11
    assert all(node.find(f"{SVG}{part}").text for node in groups for part in ("title", "desc"))


def test_the_same_build_gives_the_same_strip(pickup):
    again = pipeline.check_file(PICKUP).build
    assert again is not None
    assert legend.strips(pickup) == legend.strips(again)


@pytest.mark.parametrize(
    ("text", "bold", "width"),
    [("mm", False, 1.948), ("mm", True, 2.084), (" ", False, 0.318), ("é", False, 0.615)],
)
def test_widths_are_those_of_the_typeface(text, bold, width):
    """`hmtx` of DejaVu Sans 2.37: m 1995/2048, bold 2134/2048, space 651/2048, eacute 1260/2048."""
    assert metrics.text_width(text, size=1, bold=bold) == pytest.approx(width, abs=0.002)


# ------------------------------------------------------------------------------------------ the table


def keys(sized):
    (panel,) = document.view(Packet(sized, (), (), ()))["panels"]
    return {key["position"]: key for key in panel["keys"]}


def test_the_table_says_what_a_key_does_and_what_protects_it(pickup):
    bar = keys(pickup)["S1.2"]
    assert bar["picture"] == "Light bar"
    assert bar["limit"] == "30 A electronic limit"
    assert bar["interlock"] == "only with main beam, upfitter connector pin 8"
    assert bar["key_off"] == "dead without main beam"
    assert bar["colour"] == "white"


def test_reserved_keys_say_how_much_they_may_carry(pickup):
    found = keys(pickup)
    assert found["S1.5"]["load"] == "at most 4 A"
    assert found["S1.5"]["function"] == "Reserved: left scene lamp"
    assert found["S1.7"]["function"] == "Free, no wire"
    assert found["S1.8"]["mode"] == "only while held"


def test_a_key_that_works_a_relay_shows_both_currents():
    """The catalogue's hive lift draws at most 100 A; the key carries the contactor's coil."""
    sized = pipeline.check_file(ROOT / "examples/beekeepers-flatbed/flatbed.build.yaml").build
    assert sized is not None
    lift = sized.build.accessories["hive-hoist"].part.electrical
    text = keys(sized)["S1.1"]["load"]
    assert lift is not None and lift.worst_a is not None
    assert text.endswith(f"coil, {lift.worst_a:g} A behind it")


def table(rows, columns, none=""):
    return "\n".join("|".join(row[key] for _, key in columns) for row in rows) or none


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)
def test_the_template_takes_everything_from_the_view(path):
    sized = pipeline.check_file(path).build
    assert sized is not None
    env = jinja2.Environment(
        loader=jinja2.FileSystemLoader(resources.folder("templates")), undefined=jinja2.StrictUndefined
    )
    env.filters["table"] = table
    head = dict.fromkeys(("number", "revision", "state", "title", "vehicle", "date"), "x")
    text = env.get_template("legend.md.j2").render(head=head, **document.view(Packet(sized, (), (), ())))
    assert all(channel.legend in text for channel in sized.build.channels)
    assert "After a trip" in text
