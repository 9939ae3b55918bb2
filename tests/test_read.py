"""Reading: what is typed is what is kept, every value has its place, and every fault of text has one too."""

from __future__ import annotations

import json
import math
import pathlib

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from buildspec import yaml_tree
from buildspec.errors import UsageError
from buildspec.findings import Diagnostic
from buildspec.read import LARGEST_BYTES, Document, key_span_of, read_file, read_text, span_of
from buildspec.validate import schema


def good(text: str) -> Document:
    document, found = read_text(text, file="a.build.yaml")
    assert found == ()
    assert document is not None
    return document


def faults(text: str) -> tuple[Diagnostic, ...]:
    return read_text(text, file="a.build.yaml")[1]


@pytest.mark.parametrize(
    "word",
    [
        "on", "off", "yes", "no", "y", "On", "12:30", "1:10", "010", "0123456", "0555567", "-01", "01.5",
        "1_000", "2026-10-05", ".inf", "-.INF", ".nan", "1e999", "0b11", "0o9", "0xg", "4 A", "1.2.3",
        "tRUE", "9" * 400,
    ],
)  # fmt: skip
def test_text_stays_what_was_typed(word: str) -> None:
    assert good(f"a: {word}\n").data == {"a": word}


@pytest.mark.parametrize(
    ("word", "value"),
    [
        ("true", True), ("FALSE", False), ("null", None), ("~", None), ("", None), ("0", 0), ("-17", -17),
        ("+4", 4), ("0x1F", 31), ("0o17", 15), ("2.50", 2.5), (".5", 0.5), ("1e3", 1000.0),
        ("-0.5E-1", -0.05),
        ("12345678901234567890", 12345678901234567890), ("'4'", "4"), ('"true"', "true"), ("'null'", "null"),
    ],
)  # fmt: skip
def test_core_scalars(word: str, value: object) -> None:
    """YAML 1.2.2 chapter 10.3.2: null, booleans, decimal, octal and hexadecimal integers, floats."""
    data = good(f"a: {word}\n").data
    assert data == {"a": value}
    assert type(data["a"]) is type(value)


def test_switch_keys_stay_text() -> None:
    text = "switch: {on: high_beam, off: ignition}\n1: x\nnull: y\n"
    assert good(text).data == {"switch": {"on": "high_beam", "off": "ignition"}, "1": "x", "null": "y"}


def test_places_of_values_and_keys() -> None:
    document = good("job: on\nlist: [1, 22]\nempty:\ngroup:\n  - fuse: 30 A\n    note: Ωx\n\n# end\n")
    place = {path: span[1:] for path, span in document.spans.items()}
    assert place[("job",)] == (1, 6, 1, 8)
    assert place[("list",)] == (2, 7, 2, 14)
    assert place[("list", 1)] == (2, 11, 2, 13)
    assert place[("empty",)] == (3, 1, 3, 6)
    assert place[("group",)] == (5, 3, 6, 13)
    assert place[("group", 0, "fuse")] == (5, 11, 5, 15)
    assert document.key_spans["group", 0, "note"][1:] == (6, 5, 6, 9)
    assert place[()] == (1, 1, 6, 13)


def test_places_fall_back_to_the_nearest_ancestor() -> None:
    document = good("a:\n  b: 1\n")
    assert span_of(document, ("a", "c", 3)) == document.spans["a",]
    assert key_span_of(document, ("a",))[1:3] == (1, 1)
    assert key_span_of(document, ("a", "c"))[1:3] == (2, 3)
    assert span_of(document, ("z",))[1:3] == (1, 1)


@pytest.mark.parametrize(
    ("text", "rule", "line", "col", "message"),
    [
        ("a: 1\nb: {c: 2}\na: 3\n", "duplicate-key", 3, 1, "key `a` is written twice"),
        ("a: &x {b: 1}\nc:\n  <<: *x\n", "merge-key", 3, 3, "merge key `<<`"),
        ("a: !foo x\n", "tag", 1, 4, "tag `!foo`"),
        ("a: !!binary eA==\n", "tag", 1, 4, "tag `!!binary`"),
        ("a: !!str 4\n", "tag", 1, 4, "tag `!!str`"),
        ("!k a: 4\n", "tag", 1, 1, "on a key"),
        ("? [a]\n: 1\n", "complex-key", 1, 3, "not a list"),
        ("a: &x b\n*x : 1\n", "complex-key", 2, 1, "repeated value"),
        ("{'': 1}\n", "complex-key", 1, 2, "a key is missing"),
        ("a: 1\n---\nb: 2\n", "several-documents", 2, 1, "second document"),
        (f"a: 1\nb: {'x' * 4001}\n", "too-large", 2, 4, "a text of 4001 characters; at most 4000 are read"),
        ("", "empty-file", 1, 1, "empty"),
        ("# nothing\n", "empty-file", 1, 1, "empty"),
        ("a: 1\nb: \x00\n", "encoding", 2, 4, "U+0000"),
        ("a: \x1b[31m\n", "encoding", 1, 4, "U+001B"),
        ("a: x\u2028y\n", "encoding", 1, 5, "U+2028"),
        ("a: x\u202ey\n", "invisible-character", 1, 5, "U+202E"),
        ("a:\n\tb: 1\n", "syntax", 2, 1, "a tab cannot be used"),
        ("a: @x\n", "syntax", 1, 4, "cannot begin with `@`"),
        ("a: 'x\n", "syntax", 2, 1, "ends inside quotes"),
        ("a: b: c\n", "syntax", 1, 5, "a second `:`"),
        ("- a\nb: 1\n", "syntax", 2, 1, "a list entry `- ` was expected"),
        ('a: "\\q"\n', "syntax", 1, 5, "unknown `\\` sequence"),
        ("a: [1\nb: 2\n", "syntax", 2, 2, "`,` or `]`"),
        ("a: {b: 1\n", "syntax", 2, 1, "`,` or `}`"),
        ("a: *z\n", "unknown-anchor", 1, 4, "`*z` stands for nothing"),
        ("a: &z [*z]\n", "unknown-anchor", 1, 8, "`*z` stands for nothing"),
        ("[" * 62 + "]" * 62, "too-deep", 1, 62, "deeper than 60"),
        ("{a: " * 900 + "}" * 900, "too-deep", 1, 245, "deeper than 60"),
    ],
)
def test_one_diagnostic_at_its_place(text: str, rule: str, line: int, col: int, message: str) -> None:
    (found,) = faults(text)
    assert (found.rule, found.span.line, found.span.col) == (rule, line, col)
    assert message in found.message
    assert found.severity == ("warning" if rule == "invisible-character" else "error")


def test_a_wall_of_brackets_is_too_deep_whoever_notices_first() -> None:
    # Some versions of the loader stop at a bound of their own, further on in the line.
    (found,) = faults("[" * 20_000)
    assert found.rule == "too-deep" and found.span.line == 1 and found.span.col >= 62
    assert "deeper than 60" in found.message


@pytest.mark.parametrize("name", ["spec", "practice", "profile", "parts", "numbers"])
def test_an_empty_file_is_told_the_key_that_its_schema_knows(name: str) -> None:
    _, (found,) = read_text("", file="f", doc=f"{name} 1" if name in ("parts", "profile") else name)
    key = found.help.removeprefix("start with `").rstrip("`").partition(":")[0]
    assert key in schema(name)["properties"]


def test_both_places_of_a_duplicate_and_the_first_value_stays() -> None:
    document, (found,) = read_text("a:\n  fuse: 15 A\n  fuse: {x: 30 A}\n", file="a")
    assert document is not None
    assert document.data == {"a": {"fuse": "15 A"}}
    assert [span[1:3] for span, _ in found.related] == [(2, 3)]
    assert span_of(document, ("a", "fuse"))[1:3] == (2, 9)
    assert ("a", "fuse", "x") not in document.spans


def test_all_faults_of_one_file_in_order() -> None:
    assert [found.rule for found in faults("a: !x 1\na: 2\n<<: 3\n")] == ["tag", "duplicate-key", "merge-key"]


def test_quoted_merge_sign_is_an_ordinary_key() -> None:
    assert good("'<<': 1\n").data == {"<<": 1}


def test_aliases_repeat_values() -> None:
    document = good("a: &x {b: [1, 2]}\nc: *x\n")
    assert document.data["c"] == {"b": [1, 2]}
    assert span_of(document, ("c", "b", 0))[1:] == (2, 4, 2, 6)


def test_alias_bomb_is_refused_without_growing() -> None:
    rows = [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]\n" for i in range(1, 40)]
    (found,) = faults("a0: &a0 [x]\n" + "".join(rows))
    assert found.rule == "alias-bomb"
    assert found.span.line <= 6


def test_chain_of_aliases_counts_as_depth() -> None:
    rows = [f"a{i}: &a{i} [*a{i - 1}]\n" for i in range(1, 120)]
    (found,) = faults("a0: &a0 [x]\n" + "".join(rows))
    assert found.rule == "too-deep"


def test_many_ordinary_values_are_no_bomb() -> None:
    assert len(good("".join(f"k{i}: {i}\n" for i in range(12_000))).data) == 12_000


def test_pure_loader_reads_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "a: on\nb: [1, {c: 2.5}]\nd:\ne:\n  - x: 'q'\n    y: 010\n"
    fast = good(text)
    monkeypatch.setattr(yaml_tree, "Loader", yaml.SafeLoader)
    assert good(text) == fast
    for text, message in [
        ("a:\n\tb: 1\n", "a tab"),
        ("a: [1\nb: 2\n", "`,` or `]`"),
        ("a: b: c\n", "a second"),
    ]:
        assert message in faults(text)[0].message


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    document, found = read_text(text, file="a")
    assert document is not None or found
    assert all(one.span.line >= 1 and one.span.col >= 1 for one in found)


VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**12), 10**12)
    | st.floats(allow_nan=False, allow_infinity=False).filter(math.isfinite)
    | st.text(st.characters(codec="ascii", min_codepoint=32, exclude_characters="\x7f"), max_size=12),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.from_regex(r"[a-z]{1,5}", fullmatch=True), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(VALUES)
def test_json_is_read_as_json_reads_it(value: object) -> None:
    """YAML 1.2 is meant to hold JSON: the standard library's writer is the outside check."""
    document, found = read_text(json.dumps({"a": value}), file="a")
    assert found == ()
    assert document is not None
    assert document.data == {"a": value}


def test_bytes_that_are_not_utf8(tmp_path: pathlib.Path) -> None:
    file = tmp_path / "x.build.yaml"
    file.write_bytes(b"a: 1\nb: caf\xe9\n")
    document, (found,) = read_file(file)
    assert document is None
    assert (found.rule, found.span.line, found.span.col) == ("encoding", 2, 7)
    assert "0xE9" in found.message
    file.write_bytes("a: 1\n".encode("utf-16"))
    assert "UTF-16" in read_file(file)[1][0].message


def test_byte_order_mark_and_windows_lines_are_fine(tmp_path: pathlib.Path) -> None:
    file = tmp_path / "x.build.yaml"
    file.write_bytes(b"\xef\xbb\xbfa: 1\r\nb: on\r\n")
    document, found = read_file(file, doc="practice")
    assert found == ()
    assert document is not None
    assert (document.data, document.doc, document.file) == ({"a": 1, "b": "on"}, "practice", str(file))
    assert span_of(document, ("b",))[1:3] == (2, 4)


def test_too_large(tmp_path: pathlib.Path) -> None:
    file = tmp_path / "x.build.yaml"
    file.write_bytes(b"a" * (LARGEST_BYTES + 1))
    document, (found,) = read_file(file)
    assert (document, found.rule) == (None, "too-large")
    assert faults("a" * (LARGEST_BYTES + 1))[0].rule == "too-large"


@pytest.mark.parametrize(("name", "why"), [("missing.yaml", "no such file"), (".", "is a directory")])
def test_what_cannot_be_opened_is_wrong_use(tmp_path: pathlib.Path, name: str, why: str) -> None:
    with pytest.raises(UsageError, match=why):
        read_file(tmp_path / name)
