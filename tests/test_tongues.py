"""Languages of the owner's papers: whole catalogues, numbers and dates as CLDR has them, words that stay marked."""

from __future__ import annotations

import functools
import json
import pathlib
import re

import babel
import catalogues
import pytest
import sample_builds

from buildspec import mass, pipeline, tongues
from buildspec.documents import _owner, _owner_units, handover, legend
from buildspec.drawings import legend as strips
from buildspec.packet import Packet

ROOT = pathlib.Path(__file__).parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*/*.build.yaml"))
PICKUP = ROOT / "examples/river-gauging-pickup/pickup.build.yaml"
TAGS = json.loads((ROOT / "schemas/practice.schema.json").read_text(encoding="utf-8"))["properties"][
    "languages"
]["items"]["enum"]
SAME = {
    "de": {"Text", "{miles} miles", "orange", "Motor", "Radio", "Monitor"},
    "es": {"natural", "Radio", "Motor", "Monitor", "Contactor"},
    "fr": {"orange", "violet", "Radio", "Mode", "{miles} miles", "place"},
}
"""Words that are the same in both languages."""
SIGNS_ONLY = re.compile(r"[^a-z]*(\{\w+\}[^a-z]*)*")
EVERY = [(lang, domain) for lang in catalogues.LANGUAGES for domain in catalogues.DOMAINS]


@functools.cache
def build_of(path=PICKUP):
    sized = pipeline.check_file(path).build
    assert sized is not None
    return sized


def tongue(lang, **changes):
    return tongues.of(build_of().build._replace(**changes), lang)


# -------------------------------------------------------------------------------------- the catalogues


@pytest.mark.parametrize(("lang", "domain"), EVERY)
def test_every_message_is_translated_and_no_other(lang, domain):
    wanted, held = catalogues.DOMAINS[domain](), catalogues.catalogue(lang, domain)
    there = {e.id[0] if isinstance(e.id, tuple) else e.id: e for e in held if e.id}
    assert set(there) == set(wanted)
    for name, message in wanted.items():
        entry = there[name]
        assert not entry.fuzzy, name
        forms = entry.string if isinstance(entry.string, tuple) else (entry.string,)
        assert all(forms), name
        assert len(forms) == (held.num_plurals if message.more else 1), name


def places(text):
    return sorted(re.findall(r"\{\w+\}", text))


@pytest.mark.parametrize(("lang", "domain"), EVERY)
def test_places_of_a_translation_are_those_of_its_message(lang, domain):
    for name, message in catalogues.DOMAINS[domain]().items():
        entry = catalogues.catalogue(lang, domain).get(name)
        forms = entry.string if isinstance(entry.string, tuple) else (entry.string,)
        for original, form in zip((message.one, message.more or message.one), forms * 2, strict=False):
            assert places(form) == places(original), name


@pytest.mark.parametrize(("lang", "domain"), EVERY)
def test_a_translation_is_not_the_message(lang, domain):
    alike = {
        e.id
        for e in catalogues.catalogue(lang, domain)
        if e.id and e.id == e.string and not SIGNS_ONLY.fullmatch(e.id.lower().replace("panel", ""))
    }
    assert alike <= SAME[lang]


@pytest.mark.parametrize("lang", catalogues.LANGUAGES)
def test_owners_are_spoken_to_politely(lang):
    """German `Sie`, Spanish `usted`, French `vous`: the familiar forms of the pronouns do not occur."""
    familiar = {
        "de": r"\b(du|dein\w*|dir|dich)\b",
        "es": r"\b(tú|tus?|ti|vosotros)\b",
        "fr": r"\b(tu|toi|tes?|ton)\b",
    }
    texts = [str(e.string) for domain in catalogues.DOMAINS for e in catalogues.catalogue(lang, domain)]
    assert [t for t in texts if re.search(familiar[lang], t.lower())] == []


REGIONAL = [(lang, domain) for lang in catalogues.REGIONS for domain in catalogues.DOMAINS]


def regional(lang, domain):
    """Message → its forms in the catalogue of a region."""
    return {
        e.id[0] if isinstance(e.id, tuple) else e.id: e.string if isinstance(e.string, tuple) else (e.string,)
        for e in catalogues.catalogue(lang, domain)
        if e.id
    }


@pytest.mark.parametrize(("lang", "domain"), REGIONAL)
def test_a_region_holds_only_messages_of_the_code_with_their_places(lang, domain):
    wanted, base = catalogues.DOMAINS[domain](), lang.partition("_")[0]
    held = regional(lang, domain)
    assert set(held) <= set(wanted)
    for name, forms in held.items():
        message = wanted[name]
        plurals = 2 if message.more else 1
        assert len(forms) == plurals and all(forms), name
        for original, form in zip((message.one, message.more), forms, strict=False):
            assert places(form) == places(original), name
        there = catalogues.catalogue(base, domain).get(name).string if base != "en" else message.one
        usual = there if isinstance(there, tuple) else (there,)
        if base == "en" and message.more:
            usual = (message.one, message.more)
        assert forms != usual, f"{name}: as the language has it"


def test_regions_are_those_of_the_package_and_say_something():
    assert {r.replace("-", "_") for r in tongues.REGIONS} == set(catalogues.REGIONS)
    assert all(regional(lang, "owner") for lang in catalogues.REGIONS)


@pytest.mark.parametrize(
    ("tag", "colour"),
    [("en", "grey"), ("en-GB", "grey"), ("en-US", "gray"), ("es", "gris"), ("es-US", "gris")],
)
def test_a_region_s_message_goes_over_that_of_its_language(tag, colour):
    assert tongue(tag).say("grey") == colour


@pytest.mark.parametrize("tag", TAGS)
def test_what_a_region_does_not_say_its_language_says(tag):
    base, region = tongue(tongues.base_of(tag)), tongue(tag)
    own = regional(tag.replace("-", "_"), "owner") if tag in tongues.REGIONS else {}
    for name in catalogues.of_code():
        wanted = own.get(name, base.messages.forms.get(name))
        assert region.messages.forms.get(name) == wanted, name


def test_a_new_message_is_missed():
    """What the test above would report: a message of the code that no catalogue has."""
    found = list(
        catalogues.spoken("t.say('never said'); t.many('{count} a', '{count} b', 2)\nX = mark('kept')")
    )
    assert found == [("never said", ""), ("{count} a", "{count} b"), ("kept", "")]
    assert catalogues.catalogue("de", "owner").get("never said") is None


# ---------------------------------------------------------------------------------------------- units


@pytest.mark.parametrize(
    ("units", "mass_said", "road_said", "warm_said"),
    [
        ("metric", "203 kg", "800 km", "20 °C"),
        ("imperial", "449 lb", "490 miles", "68 °F"),
        ("both", "203 kg (449 lb)", "800 km (490 miles)", "20 °C (68 °F)"),
    ],
)
def test_units_are_those_of_the_practice(units, mass_said, road_said, warm_said):
    """203.94 kg is 449.6 lb, 800 km is 497 miles, 20 °C is 68 °F; what may be is rounded down."""
    t = tongue("en", practice=build_of().build.practice._replace(units=units))
    assert _owner_units.at_most(203.94, t) == mass_said
    assert _owner_units.road(800, t) == road_said
    assert _owner_units.warmth(20, t) == warm_said


def test_both_units_on_every_paper():
    """1 in is 25.4 mm, 1 lb 0.45359237 kg, 1 ft 0.3048 m."""
    from buildspec import show

    both = build_of().build.practice._replace(units="both")
    assert show.length(3.6576, both) == "3.66 m (12 ft 0 in)"
    assert show.small_length(0.0254, both) == "25 mm (1 in)"
    assert show.mass(4.5359237, both) == "4.5 kg (10 lb)"
    assert show.force(4.4482216, both) == "4 N (1 lbf)"


# -------------------------------------------------------------------------------------- a spec's own words


def packet(lang, **changes):
    sized = build_of()._replace(build=build_of().build._replace(**changes))
    return Packet(sized, (), (), strips.strips(sized, lang), lang=lang)


def test_what_nobody_translates_is_marked_with_its_language():
    page = handover.html(packet("fr"))
    assert page.startswith('<!doctype html>\n<html lang="fr">')
    assert '<span lang="en">behind the left canopy trim, front corner</span>' in page
    assert not re.search("[\ue000\ue001]", page)
    assert not re.search("[\ue000\ue001]", legend.html(packet("fr")))


def test_what_the_spec_translates_is_not_marked():
    page = handover.html(packet("es"))
    assert "detrás del revestimiento izquierdo de la capota" in page
    assert '<span lang="en">' not in page


def test_a_spec_in_another_language_is_marked_as_such():
    """Words of a German spec on the English sheet; those of the shipped parts are English."""
    page = handover.html(packet("en", language="de", translations={}))
    assert '<span lang="de">behind the left canopy trim, front corner</span>' in page
    assert '<span lang="de">Sample fridge' not in page


def test_a_region_s_words_go_over_those_of_its_language():
    t = tongue("es-MX", translations={"es": {"roof": "techo", "bed": "caja"}, "es-MX": {"roof": "toldo"}})
    assert (t.own("roof"), t.own("bed")) == ("toldo", "caja")


def test_a_key_is_named_as_it_is_engraved():
    t = tongue("es", translations={"es": {"ASSIST": "AYUDA"}})
    assert t.legend("ASSIST") == "ASSIST / AYUDA"
    assert t.legend("BEACON") == "BEACON"


def test_german_nouns_stay_large_inside_a_sentence():
    assert tongue("de").small("Pumpensteckdose") == "Pumpensteckdose"
    assert tongue("es").small("Toma de la bomba") == "toma de la bomba"
    assert tongue("en").small("LED lamp") == "LED lamp"


def test_a_translation_of_nothing_is_refused():
    data = sample_builds.spec(3) | {"translations": {"es": {"roof rail, where it iz": "riel"}}}
    from buildspec import layers, resolve

    build, faults = resolve.resolve(data, layers.of_practice({}), {})
    ((rule, finding),) = faults
    assert build is None
    assert rule == "translation-unused"
    assert finding.at == ("translations", "es", "roof rail, where it iz")
    assert finding.help == "did you mean `roof rail, where it is`?"


# ------------------------------------------------------------------------------------------- figures


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)
def test_what_may_still_be_loaded_is_the_rating_less_everything(path):
    """Gross rating − kerb − people − cargo − what was added: what is left is rounded down, the rest up."""
    sized = build_of(path)
    vehicle = sized.build.vehicle
    spent = sum(c.mass_kg for c in (*vehicle.occupants, *vehicle.cargo))
    left = vehicle.gross_kg - vehicle.kerb_kg - spent - mass.total_kg(mass.lines(sized))
    said = handover.view(Packet(sized, (), (), (), lang="en"))["payload"]["big"]
    number, unit = said.replace(",", "").split()
    shown = left / 0.45359237 if unit == "lb" else left
    assert int(number) <= shown < int(number) + 1


def test_days_of_the_second_battery():
    """75 Ah at 50 %: 37.5 Ah over the standby of all that hangs on it; 37.5 / (27 × 24) h is 57.9 mA at most."""
    numbers = {n["small"]: n["big"] for n in handover.view(packet("en"))["park"]["numbers"]}
    from buildspec import energy

    (one,) = energy.energy(build_of().build).resting
    draws_ma = 1000 * sum(d.standby_a for d in one.draws)
    assert 37.5 / (28 * 24) * 1000 < draws_ma <= 37.5 / (27 * 24) * 1000
    assert numbers["everything off: the second battery stays usable"] == "27 days"


def test_names_of_languages_in_a_practice_are_known_to_cldr():
    assert all(babel.Locale.parse(tag, sep="-") for tag in TAGS)
    assert (
        {tongues.base_of(tag) for tag in TAGS} == {"en", *tongues.TRANSLATED} == {"en", *catalogues.LANGUAGES}
    )


@pytest.mark.parametrize("lang", ["en", *catalogues.LANGUAGES])
def test_the_strip_keeps_its_size_in_every_language(lang):
    """148 mm × 20 mm of keys, and every text inside its key."""
    (sheet,) = packet(lang).strips
    outline = re.search(r'<rect x="6" y="6" width="([\d.]+)" height="([\d.]+)" rx="1"', sheet.svg)
    assert outline is not None
    assert (float(outline[1]), float(outline[2])) == (148, 20)
    inside = re.findall(r'text-anchor="middle"[^>]*textLength="([\d.]+)"', sheet.svg)
    assert len(inside) > 16
    assert all(float(width) <= 18.5 - 2 * strips.PAD + 1e-6 for width in inside)
    assert f'lang="{lang}"' in sheet.svg


def test_names_of_the_sheet_are_those_of_the_language():
    assert _owner.names(build_of().build, tongue("de"))["pump-outlet"] == "Pumpensteckdose (PUMP)"
    assert _owner.names(build_of().build, tongue("fr"))["fridge"] == "Réfrigérateur à échantillons"
