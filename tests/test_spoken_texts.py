"""What owners read of a spec's own words: the list that a rule goes by, against what the papers ask for."""

from __future__ import annotations

import functools
import pathlib

import catalogues
import generated
import pytest
import sample_builds

from buildspec import pipeline, spoken_texts, tongues
from buildspec.documents import handover, legend
from buildspec.drawings import legend as strips
from buildspec.model import Sized
from buildspec.packet import Packet
from buildspec.tongues import Tongue

EXAMPLES = sorted(pathlib.Path(__file__).parent.parent.glob("examples/*/*.build.yaml"))
SHARED = ("own", "own_short", "legend")
"""Ways in which a paper asks for words of the spec."""
LANGUAGES = [
    (path, lang)
    for path, languages in zip(
        EXAMPLES, (("en-US", "es-US"), ("en-GB", "de", "fr"), ("en-GB", "es")), strict=True
    )
    for lang in languages
]


@functools.cache
def example(path: pathlib.Path) -> Sized:
    sized = pipeline.check_file(path).build
    assert sized is not None
    return sized


def asked(sized: Sized, lang: str, monkeypatch: pytest.MonkeyPatch) -> dict[str, set[str]]:
    """Way → texts that the sheet, the legend and its strips ask a tongue for."""
    found: dict[str, set[str]] = {way: set() for way in SHARED}
    for way in SHARED:
        monkeypatch.setattr(Tongue, way, listening(getattr(Tongue, way), found[way]))
    packet = Packet(sized, (), (), strips.strips(sized, lang), lang=lang)
    handover.view(packet)
    legend.view(packet)
    monkeypatch.undo()
    return {way: texts - {""} for way, texts in found.items()}


def listening(real, texts):
    def heard(self: Tongue, text: str) -> str:
        texts.add(text)
        return real(self, text)

    return heard


def not_listed(sized: Sized, lang: str, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """Texts that a paper asks for and the list does not have; what is printed whole must be listed whole."""
    texts = asked(sized, lang, monkeypatch)
    listed = spoken_texts.spoken(sized.build)
    whole = {s.text for s in listed if not s.short} | spoken_texts.of_shipped_parts()
    heads = {head(s.text) for s in listed} | {head(text) for text in whole}
    asked_whole = (texts["own"] - {head(text) for text in texts["own_short"]}) | texts["legend"]
    return {text for text in texts["own_short"] if head(text) not in heads} | (asked_whole - whole)


def head(text: str) -> str:
    return text.partition(",")[0].strip()


@pytest.mark.parametrize(
    ("path", "lang"), LANGUAGES, ids=lambda v: v if isinstance(v, str) else v.parent.name
)
def test_all_that_an_example_prints_is_listed(path, lang, monkeypatch):
    assert sum(map(len, asked(example(path), lang, monkeypatch).values())) > 50
    assert not_listed(example(path), lang, monkeypatch) == set()


@pytest.mark.parametrize("seed", range(12))
def test_all_that_a_generated_build_prints_is_listed(seed, monkeypatch):
    sized, _ = generated.checked(generated.spec(seed))
    assert not_listed(sized, "fr", monkeypatch) == set()


@pytest.mark.parametrize(
    "shape", [{"loads": 24, "links": 2, "panels": 2}, {"loads": 8, "houses": 2, "chargers": 2}]
)
def test_all_that_a_build_of_many_links_prints_is_listed(shape, monkeypatch):
    sized = sample_builds.built(sample_builds.spec(**shape))
    assert not_listed(sized, "fr", monkeypatch) == set()


def test_a_text_that_is_not_listed_would_be_seen(monkeypatch):
    monkeypatch.setattr(spoken_texts, "_reserves", lambda build: ())
    with pytest.MonkeyPatch.context() as patch:
        lacking = not_listed(example(EXAMPLES[-1]), "es", patch)
    assert "behind the left canopy trim, front corner" in lacking


@pytest.mark.parametrize(
    ("path", "lang"), LANGUAGES, ids=lambda v: v if isinstance(v, str) else v.parent.name
)
def test_no_word_of_an_example_stays_in_another_language(path, lang):
    packet = Packet(example(path), (), (), strips.strips(example(path), lang), lang=lang)
    assert spoken_texts.missing(example(path).build, lang) == ()
    for page in (handover.html(packet), legend.html(packet)):
        assert '<span lang="' not in page
        assert '<tspan lang="' not in page


def test_words_of_shipped_parts_are_those_of_the_catalogues():
    assert spoken_texts.of_shipped_parts() == set(catalogues.of_parts())


def test_a_region_stands_on_its_language():
    build = example(EXAMPLES[-1]).build._replace(translations={"es": {"main beam": "luz larga"}})
    lacking = {s.printed for s in spoken_texts.missing(build, "es-MX")}
    assert "main beam" not in lacking
    assert "reverse gear" in {
        s.printed for s in spoken_texts.missing(build._replace(translations={}), "es-MX")
    }
    assert spoken_texts.missing(build, "en-US") == ()


def test_a_text_is_listed_once_where_it_stands():
    build = example(EXAMPLES[-1]).build
    listed = spoken_texts.spoken(build)
    assert len({s.printed for s in listed}) == len(listed)
    at = {s.printed: s.at for s in listed}
    assert at["left scene lamp"] == ("reserves", "scene-left", "purpose")
    assert at["behind the glovebox"] == ("places", "bulkhead", "words")
    assert at["main beam"] == ("signals", "main-beam", "words")


@pytest.mark.parametrize(
    ("written", "printed"),
    [
        ({"accessories": {"winch-box": {}}}, "Winch box"),
        ({"panels": {"main": {}}}, "Main panel"),
        ({"batteries": {"house": {}}}, "House battery"),
        ({"accessories": {"horn": {"mode": "momentary"}}}, "hold"),
    ],
)
def test_words_that_nobody_wrote_may_be_translated(written, printed):
    """Titles made of names, and the second line of a key that is held, are printed where nothing is written."""
    from buildspec.resolve import translations

    assert list(translations.check({**written, "translations": {"fr": {printed: "mot"}}}, {})) == []
    assert list(translations.check({**written, "translations": {"fr": {f"{printed}s": "mot"}}}, {})) != []


def test_tongue_and_list_agree_on_what_is_translated():
    for path, lang in LANGUAGES:
        build = example(path).build._replace(translations={})
        tongue = tongues.of(build, lang)
        marked = {s.printed for s in spoken_texts.spoken(build) if tongues.OPEN in tongue.own(s.printed)}
        assert {s.printed for s in spoken_texts.missing(build, lang)} == marked
