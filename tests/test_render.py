"""Templates, Markdown and SVG: what a spec says stays text, what is missing is an error."""

from __future__ import annotations

import re

import jinja2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from buildspec.render import html, markdown, svg, templates

WORDS = st.text(st.characters(blacklist_categories=("Cs",), blacklist_characters="\x00"), max_size=40)


def cells_read_back(text: str) -> list[str]:
    tokens = MarkdownIt("commonmark").enable("table").parse(text)
    inside = [n for n, token in enumerate(tokens) if token.type == "td_open"]
    return ["".join(child.content for child in tokens[n + 1].children or []) for n in inside]


@given(WORDS, WORDS)
def test_any_text_survives_a_table_cell(first: str, second: str) -> None:
    rows = [{"a": first, "b": second}]
    text = markdown.table(rows, [("A", "a"), ("B", "b")])
    assert cells_read_back(text) == [" ".join(first.split()), " ".join(second.split())]


@given(WORDS)
def test_any_text_survives_a_list_item(text: str) -> None:
    flat = " ".join(text.split())
    tokens = MarkdownIt("commonmark").parse(markdown.listed([text]))
    read = ["".join(c.content for c in t.children or []) for t in tokens if t.type == "inline"]
    assert read == ([flat] if flat else [])


def test_a_value_is_escaped_once() -> None:
    assert markdown.escape(markdown.escape("a|b")) == r"a\|b"


def test_missing_names_are_errors() -> None:
    with pytest.raises(jinja2.UndefinedError):
        templates.markdown("cover", {"title": "x"})
    with pytest.raises(jinja2.UndefinedError):
        templates.html("page", {})
    with pytest.raises(KeyError):
        markdown.table([{"a": "1"}], [("B", "b")])
    with pytest.raises(jinja2.TemplateNotFound):
        templates.markdown("no_such_document", {})


def test_columns_of_figures_stand_right() -> None:
    rows = [{"a": "F1", "b": "10 A"}, {"a": "F2", "b": "–"}]
    assert markdown.table(rows, [("Device", "a"), ("Rating", "b")]).splitlines()[1] == "| ------ | -----: |"


def test_markup_in_a_spec_stays_text_in_html() -> None:
    row = {"a": "<script>x</script>", "b": "[k](javascript:y)"}
    text = f"# T\n\n{markdown.table([row], [('A', 'a'), ('B', 'b')])}\n"
    made = html.section(text, name="t", anchors={}, links={}, circuits={})
    assert "<script" not in made and "href" not in made
    assert "&lt;script&gt;" in made


def test_rows_get_ids_and_words_in_cells_lead_to_them() -> None:
    text = markdown.table(
        [{"a": "W1", "b": "W1, W10 and W1.2"}, {"a": "W10", "b": "see W1"}], [("A", "a"), ("B", "b")]
    )
    links = {"W1": "#at-W1", "W10": "#at-W10"}
    made = html.section(text, name="t", anchors={"W1": "at-W1", "W10": "at-W10"}, links=links, circuits={})
    assert made.count('id="at-W1"') == made.count('id="at-W10"') == 1
    assert '<a href="#at-W1">W1</a>, <a href="#at-W10">W10</a> and W1.2' in made


def test_a_row_says_which_circuits_it_is_about() -> None:
    rows = [
        {"a": "W1", "b": "beside W10 and F2"},
        {"a": "grommet", "b": "W10, W1, F2"},
        {"a": "grommet", "b": "nothing, W1.2"},
    ]
    known = {"W1": ["AB01"], "W10": ["AB02"], "F2": ["AB02", "AB03"]}
    text = markdown.table(rows, [("A", "a"), ("B", "b")])
    made = html.section(text, name="t", anchors={}, links={}, circuits=known)
    assert re.findall(r"<tr[^>]*>(?=\s*<td)", made) == [
        '<tr data-circuit="AB01">',
        '<tr data-circuit="AB02 AB01 AB03">',
        "<tr>",
    ]


def test_headings_move_down_and_empty_cells_are_to_fill_in() -> None:
    text = (
        f"# Title\n\n## Part\n\n## Part\n\n{markdown.table([{'a': 'x', 'b': ''}], [('A', 'a'), ('B', 'b')])}"
    )
    made = html.section(text, name="doc", anchors={}, links={}, circuits={})
    assert "<h2>Title</h2>" in made
    assert '<h3 id="doc-part">' in made and '<h3 id="doc-part-2">' in made
    assert '<td data-label="B" class="fill"></td>' in made


def test_two_drawings_in_a_page_do_not_meet() -> None:
    drawing = (
        '<?xml version="1.0"?><svg aria-labelledby="t d"><title id="t">x</title><desc id="d"/><use href="#t"/>'
        '<g fill="url(#d)"/></svg>'
    )
    made = svg.inline(drawing, prefix="d1")
    assert made == (
        '<svg aria-labelledby="d1-t d1-d"><title id="d1-t">x</title><desc id="d1-d"/><use href="#d1-t"/>'
        '<g fill="url(#d1-d)"/></svg>'
    )
    assert svg.linked("<text x='1'>W1</text><text>W12</text>", {"W1": "#a"}) == (
        "<a href=\"#a\"><text x='1'>W1</text></a><text>W12</text>"
    )
