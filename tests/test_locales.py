"""Numbers, dates, counts and the clock as CLDR has them, and what no line may part."""

from __future__ import annotations

import datetime

import babel
import catalogues
import pytest
from babel.dates import format_date
from babel.numbers import format_decimal
from test_tongues import TAGS, tongue

from buildspec import typeset


@pytest.mark.parametrize("tag", TAGS)
@pytest.mark.parametrize(
    ("value", "shown"),
    [(7.5, 1), (0.25, 2), (999.0, 0), (1219.0, 0), (12345.6, 1), (1234567.0, 0), (11.4, 1)],
)
def test_numbers_are_those_of_the_locale(tag, value, shown):
    """Babel's own formatting of CLDR data; in Spain four digits stand together (`minimumGroupingDigits` 2)."""
    together = value < tongue(tag).local.grouped_from
    assert tongue(tag).number(value, shown) == format_decimal(
        value, format="0.##" if together else "#,##0.##", locale=tag.replace("-", "_")
    )


@pytest.mark.parametrize(
    ("tag", "four", "five"),
    [
        ("en", "1,219", "12,190"),
        ("en-US", "1,219", "12,190"),
        ("es", "1219", "12.190"),
        ("es-US", "1,219", "12,190"),
        ("fr", "1\u202f219", "12\u202f190"),
        ("de", "1.219", "12.190"),
        ("de-CH", "1’219", "12’190"),
    ],
)
def test_thousands_by_hand(tag, four, five):
    assert (tongue(tag).number(1219), tongue(tag).number(12190)) == (four, five)
    assert tongue(tag).number(999) == "999"


@pytest.mark.parametrize("tag", TAGS)
def test_the_clock_is_that_of_the_locale(tag):
    """CLDR's short time: a pattern with `a` has two halves of the day."""
    pattern = babel.Locale.parse(tag, sep="-").time_formats["short"].pattern
    said = tongue(tag).clock(18)
    assert said.startswith("6 " if "a" in pattern else "18:00")
    assert (said == "18:00") == ("a" not in pattern)


def test_clock_by_hand():
    said = {
        tag: [tongue(tag).clock(h) for h in (0, 8, 12, 18)] for tag in ("en-US", "en-GB", "de", "fr", "es")
    }
    assert said["en-US"] == ["12 AM", "8 AM", "12 PM", "6 PM"]
    for tag in ("en-GB", "de", "fr", "es"):
        assert said[tag] == ["0:00", "8:00", "12:00", "18:00"]


@pytest.mark.parametrize(
    ("lang", "text", "wanted"),
    [
        ("en", "at most 10 A, that is 120 W", "at most_10_A, that is_120_W"),
        ("en", "1 h 10 min", "1_h_10_min"),
        ("en", "below 0 °C", "below_0_°C"),
        ("en", "6 PM to 8 AM", "6_PM to_8_AM"),
        ("es", "6 p. m.", "6_p. m."),
        ("en", "after 490 miles", "after_490_miles"),
        ("es", "tras 490 millas", "tras_490_millas"),
        ("en", "fuse block B 5", "fuse block_B_5"),
        ("en", "side 1 of 2", "side_1 of_2"),
        ("en", "crew 3, the rest", "crew_3, the rest"),
        ("en", "call F16", "call_F16"),
        ("en", "for 1200 people", "for 1200 people"),
        ("en", "10 Amperes", "10 Amperes"),
        ("de", "Taste Nr. 4", "Taste_Nr._4"),
        ("fr", "touche n° 4", "touche n°_4"),
        ("fr", "Attention : « ici » !", "Attention~: «~ici~»~!"),
        ("en", "Note : here !", "Note : here !"),
        ("en", "no numbers here", "no numbers here"),
    ],
)
def test_what_holds_together_at_the_end_of_a_line(lang, text, wanted):
    """A number with its unit, a short name with its word, French signs; `_` is a no-break space, `~` a narrow one."""
    made = typeset.held(text, lang)
    assert made.replace("\u00a0", "_").replace("\u202f", "~") == wanted
    assert typeset.held(made, lang) == made


def test_only_running_text_of_a_view_is_held():
    view = {
        "address": "shop 5 A",
        "swatch": "a 1",
        "rows": [{"what": "lamp 5 A"}],
        "count": 3,
        "pair": ("5 A",),
    }
    assert typeset.held_view(view, "en") == {
        "address": "shop 5 A",
        "swatch": "a 1",
        "rows": [{"what": "lamp 5\u00a0A".replace("lamp ", "lamp\u00a0")}],
        "count": 3,
        "pair": ("5\u00a0A",),
    }


@pytest.mark.parametrize(
    ("tag", "said"),
    [
        ("en", "7.5"),
        ("es", "7,5"),
        ("es-MX", "7.5"),
        ("fr", "7,5"),
        ("fr-CH", "7,5"),
        ("de", "7,5"),
        ("de-CH", "7.5"),
    ],
)
def test_decimal_signs_by_hand(tag, said):
    assert tongue(tag).number(7.5, 1) == said
    assert tongue(tag).amps(7.5) == f"{said} A"


@pytest.mark.parametrize("tag", TAGS)
def test_dates_are_those_of_the_locale(tag):
    for month in range(1, 13):
        day = datetime.date(2026, month, 5)
        assert tongue(tag).date(day.isoformat()) == format_date(day, "long", tag.replace("-", "_"))


@pytest.mark.parametrize(
    ("tag", "said"),
    [
        ("en-US", "October 5, 2026"),
        ("en-GB", "5 October 2026"),
        ("es", "5 de octubre de 2026"),
        ("fr", "5 octobre 2026"),
        ("de", "5. Oktober 2026"),
    ],
)
def test_dates_by_hand(tag, said):
    assert tongue(tag).date("2026-10-05") == said


@pytest.mark.parametrize("lang", ["en", *catalogues.LANGUAGES])
def test_counts_take_the_form_that_cldr_says(lang):
    """CLDR plural rules, `one` against the rest; French counts 0 as one."""
    rule = babel.Locale(lang).plural_form
    for count in (0, 1, 2, 3, 5, 21, 100):
        assert tongue(lang).messages.form_of(count) == (0 if rule(count) == "one" else 1)


def test_counts_by_hand():
    said = {
        lang: [tongue(lang).many("{count} day", "{count} days", n) for n in (1, 2)]
        for lang in ("es", "fr", "de")
    }
    assert said == {"es": ["1 día", "2 días"], "fr": ["1 jour", "2 jours"], "de": ["1 Tag", "2 Tage"]}
