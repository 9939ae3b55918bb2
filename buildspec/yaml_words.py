"""What is wrong with a text before it is YAML, and faults of YAML syntax in plain words."""

from __future__ import annotations

import re

import yaml

from buildspec.findings import Diagnostic, Span

DEEPEST = 60
"""Levels of groups and lists; no build needs a tenth of them."""
_REFUSED = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufffe\uffff]")
_INVISIBLE = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]")
_LINE_END = re.compile("\r\n|\r|\n")

_INDENT = "check the indentation: keys of one group start in the same column"
_QUOTE = "put the text in quotes"
_GROUP = ("`,` or `}` was expected here", "close the group that begins with `{`")
_LIST = ("`,` or `]` was expected here", "close the list that begins with `[`")
_KEY = ("a key was expected here", _INDENT)
_VALUE = ("a value was expected here", "write one, or put it in quotes if it begins with a sign")
_WORDS: dict[str, tuple[str, str]] = {
    "mapping values are not allowed": (
        "a second `:` in one line, or a key that is indented too far",
        f"{_INDENT}; or {_QUOTE}",
    ),
    "block sequence entries are not allowed": (
        "a list entry `- ` cannot start here",
        "start the list on its own line",
    ),
    "did not find expected key": _KEY,
    "expected <block end>": _KEY,
    "did not find expected '-' indicator": (
        "a list entry `- ` was expected here",
        "align the entries of a list",
    ),
    "',' or '}'": _GROUP,
    "',' or ']'": _LIST,
    "could not find expected ':'": (
        "`:` was expected after a key",
        "write `key: value`, or quote a long text",
    ),
    "unexpected end of stream": ("the file ends inside quotes", "close the quotes"),
    "unknown escape character": (
        "unknown `\\` sequence in double quotes",
        "use single quotes, or double the `\\`",
    ),
    "undefined tag handle": ("a text cannot begin with `!`", _QUOTE),
    "did not find expected node content": _VALUE,
    "expected the node content": _VALUE,
    "expected <document start>": ("the text goes on after its end", _INDENT),
    "unknown directive": ("a line that begins with `%` is not used here", "remove it, or put it in quotes"),
}
"""Fragments of the parser's own wording (with and without its C part), and ours."""


def decode(raw: bytes, file: str) -> str | Diagnostic:
    """Text of a UTF-8 file, with or without a byte order mark; else what to say."""
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return _encoding(Span(file, 1, 1, 1, 1), "the file is UTF-16, not UTF-8")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8-sig")
        return _encoding(_place(before, file), f"byte 0x{raw[error.start]:02X} is not UTF-8 text")


def _encoding(span: Span, message: str) -> Diagnostic:
    return Diagnostic(span, "error", "encoding", message, "save the file as UTF-8")


def refused_character(text: str, file: str) -> Diagnostic | None:
    """The first control character or odd line break, which editors and readers count differently."""
    found = _REFUSED.search(text)
    if not found:
        return None
    said = f"control character U+{ord(found[0]):04X} in the text"
    return Diagnostic(_place(text[: found.start()], file), "error", "encoding", said, "delete it")


def invisible_characters(text: str, file: str) -> Diagnostic | None:
    """One warning for characters that change how a text looks or compares without being seen."""
    found = list(_INVISIBLE.finditer(text))
    if not found:
        return None
    codes = ", ".join(sorted({f"U+{ord(one[0]):04X}" for one in found}))
    said = f"{len(found)} invisible or direction-changing character{'s' * (len(found) > 1)}: {codes}"
    help_ = "delete them, or write them as escapes in double quotes"
    return Diagnostic(_place(text[: found[0].start()], file), "warning", "invisible-character", said, help_)


def too_deep(span: Span, with_what: str = "") -> Diagnostic:
    """Groups and lists nested past the bound; the engine may say so first, at a place further on."""
    message = f"nested deeper than {DEEPEST} levels{with_what}"
    return Diagnostic(span, "error", "too-deep", message, "flatten this part")


def syntax(error: yaml.YAMLError, text: str, file: str) -> Diagnostic:
    """A fault of syntax at its place, in plain words where we have them."""
    mark, context = getattr(error, "problem_mark", None), getattr(error, "context_mark", None)
    problem = str(getattr(error, "problem", None) or "this is not YAML")
    span = _mark(mark, file) if mark else Span(file, 1, 1, 1, 1)
    if "nesting depth" in problem:
        return too_deep(span)
    message, help_ = _plain(problem, _character(text, span))
    begins = _mark(context, file) if context else span
    related = ((begins, "what it belongs to begins here"),) if begins.line != span.line else ()
    return Diagnostic(span, "error", "syntax", message, help_, related)


def _mark(mark: yaml.Mark, file: str) -> Span:
    return Span(file, mark.line + 1, mark.column + 1, mark.line + 1, mark.column + 1)


def _plain(problem: str, character: str) -> tuple[str, str]:
    if "cannot start any token" in problem or "'\\t'" in problem:
        if character == "\t":
            return "a tab cannot be used for indentation", "use spaces"
        return f"a text cannot begin with `{character}`", _QUOTE
    return next((words for fragment, words in _WORDS.items() if fragment in problem), (problem, ""))


def _character(text: str, span: Span) -> str:
    lines = _LINE_END.split(text)
    return lines[span.line - 1][span.col - 1 : span.col] if span.line <= len(lines) else ""


def _place(before: str, file: str) -> Span:
    lines = _LINE_END.split(before)
    line, col = len(lines), len(lines[-1]) + 1
    return Span(file, line, col, line, col + 1)
