"""The owner's papers printed in every language: two sides, the urgent answers on the first, true sizes on the strips."""

from __future__ import annotations

import functools
import os
import pathlib
import re
import shutil
import subprocess

import pytest

from buildspec import pipeline
from buildspec.documents import handover, legend
from buildspec.drawings import legend as strips
from buildspec.packet import Packet

ROOT = pathlib.Path(__file__).parents[2]
EXAMPLES = sorted(ROOT.glob("examples/*/*.build.yaml"))
LANGUAGES = ("en", "es", "fr", "de")
PRINTED = [(path, lang) for path in EXAMPLES for lang in LANGUAGES]
IDS = [f"{path.parent.name}-{lang}" for path, lang in PRINTED]
OUTSIDE = """() => [...document.querySelectorAll('.side')].map(side => {
  const box = side.getBoundingClientRect(), foot = side.querySelector('footer').getBoundingClientRect();
  const parts = [...side.querySelectorAll('*')].filter(part => !part.closest('footer'));
  return Math.max(
    Math.max(...parts.map(part => part.getBoundingClientRect().bottom)) - foot.top,
    Math.max(...parts.map(part => part.getBoundingClientRect().right)) - foot.right - 1,
  );
})"""
CALLED = {"en": "Whom to call", "es": "A quién llamar", "fr": "Qui appeler", "de": "Ansprechpartner"}
DEAD = {
    "en": ("Call your breakdown service", "Press and hold ASSIST"),
    "es": ("Llame a su servicio de asistencia", "Mantenga pulsada la tecla ASSIST"),
    "fr": ("Appelez votre service de dépannage", "Appuyez sur ASSIST"),
    "de": ("Rufen Sie Ihren Pannendienst", "Drücken und halten Sie ASSIST"),
}
WHO = {
    "en": "licensed workshop",
    "es": "taller autorizado",
    "fr": "atelier agréé",
    "de": "zugelassene Werkstatt",
}
FUSES = {
    "beekeepers-flatbed": {
        "en": "Water pump (WATER)",
        "es": "Bomba de agua (WATER)",
        "fr": "Pompe à eau (WATER)",
        "de": "Wasserpumpe (WATER)",
    },
    "bicycle-workshop-van": {
        "en": "Roof fan (FAN)",
        "es": "Ventilador de techo (FAN)",
        "fr": "Ventilateur de toit (FAN / AÉRER)",
        "de": "Dachlüfter (FAN / LÜFTER)",
    },
    "river-gauging-pickup": {
        "en": "Pump outlet (PUMP)",
        "es": "Toma de la bomba (PUMP / BOMBA)",
        "fr": "Prise de pompe (PUMP)",
        "de": "Pumpensteckdose (PUMP)",
    },
}
ADDED = {"beekeepers-flatbed": (5, 60), "bicycle-workshop-van": (12, 144), "river-gauging-pickup": (4, 48)}
"""What a reserve of each spec allows, and that at 12 V [A, W]."""
DAY = {"en": "days", "es": "días", "fr": "jours", "de": "Tage"}


@pytest.fixture(scope="module", autouse=True)
def poppler():
    if shutil.which("pdftotext") is None and os.environ.get("CI") != "true":
        pytest.skip("pdftotext is not there")


@functools.cache
def packet(path, lang):
    sized = pipeline.check_file(path).build
    assert sized is not None
    return Packet(sized, (), (), strips.strips(sized, lang), lang=lang)


def printed(page, folder, html):
    """The page as PDF: its file."""
    page.set_content(html)
    file = folder / "page.pdf"
    page.pdf(path=str(file), prefer_css_page_size=True, print_background=True)
    return file


def facts(file):
    said = subprocess.run(["pdfinfo", file], capture_output=True, text=True, check=True).stdout
    return dict(re.findall(r"^([^:]+):\s+(.*)$", said, re.M))


def words(file, number):
    """Text of one side, spaces and line breaks evened out."""
    command = ["pdftotext", "-f", str(number), "-l", str(number), file, "-"]
    text = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    return even(text)


def even(text):
    """No-break spaces and line breaks as single spaces."""
    return " ".join(text.split())


@pytest.mark.parametrize(("path", "lang"), PRINTED, ids=IDS)
def test_the_sheet_prints_on_two_sides_with_nothing_cut_off(page, tmp_path, path, lang):
    file = printed(page, tmp_path, handover.html(packet(path, lang)))
    found = facts(file)
    assert found["Pages"] == "2"
    assert found["Page size"].endswith(
        "(letter)" if packet(path, lang).sized.build.practice.paper == "Letter" else "(A4)"
    )
    assert all(beyond <= 0 for beyond in page.evaluate(OUTSIDE))


@pytest.mark.parametrize(("path", "lang"), PRINTED, ids=IDS)
def test_an_owner_in_a_hurry_finds_the_answers_on_the_first_side(page, tmp_path, path, lang):
    """A dead battery, how long it may stand, which fuse, what may be added, whom to call; the load on the other."""
    made = packet(path, lang)
    view = handover.view(made)
    file = printed(page, tmp_path, handover.html(made))
    first, second = words(file, 1), words(file, 2)
    name = path.parent.name
    assert DEAD[lang][name == "river-gauging-pickup"] in first
    assert (
        sum(f"{even(n['big'])} " in first for n in view["park"]["numbers"])
        == len(view["park"]["numbers"])
        >= 4
    )
    assert DAY[lang] in first
    assert FUSES[name][lang] in first
    amps, watts = ADDED[name]
    assert re.search(rf"{amps} A,? \w+[\w ]* {watts} W", first)
    assert WHO[lang] in first
    assert even(view["payload"]["big"]) in second
    assert even(view["labels"]["off"]) in second and even(view["off"]["burning"]) in first
    assert all(even(check["rating"]) in first for row in view["fuses"]["rows"] for check in row["checks"])
    assert CALLED[lang] in first and made.sized.build.practice.shop.contact in first


@pytest.mark.parametrize(("path", "lang"), PRINTED, ids=IDS)
def test_strips_print_at_true_size(page, tmp_path, path, lang):
    """CSS has 96 px to the inch: the strip of the page is as wide as its keys, and inside the paper."""
    made = packet(path, lang)
    file = printed(page, tmp_path, legend.html(made))
    page.emulate_media(media="print")
    for panel in (p for p in made.sized.build.panels.values() if p.part.panel):
        box = page.locator(f"#legend-{panel.name}-outline rect").bounding_box()
        trait = panel.part.panel
        wide = min(trait.columns, trait.channels) * trait.key_width_mm
        assert box["width"] / 96 * 25.4 == pytest.approx(wide, abs=0.5)
    width, height = (float(v) for v in re.findall(r"[\d.]+", facts(file)["Page size"])[:2])
    assert width > height
    assert made.strips[0].width_mm <= width / 72 * 25.4 - 24


def test_the_mains_side_of_a_van_is_named(page, tmp_path):
    """An inverter and a mains charger: what an owner does with them, and who may open them."""
    van = next(path for path in EXAMPLES if path.parent.name == "bicycle-workshop-van")
    second = words(printed(page, tmp_path, handover.html(packet(van, "en"))), 2)
    assert "Mains voltage: it can kill" in second
    assert "Mains charger: its plug and lead carry mains voltage" in second
    assert "Inverter: makes mains voltage" in second
    assert "licensed electrician" in second
