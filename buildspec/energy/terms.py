"""Sums that anybody can follow: a value with its formula and every figure that went into it."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.show import plain


class Term(NamedTuple):
    """A figure that goes into a sum. `verified` as in the tables: `yes`, `computed`, `memory`, `spec`."""

    what: str
    value: float
    unit: str
    source: str
    verified: str


class Sum(NamedTuple):
    """A result, spelled out."""

    value: float
    unit: str
    formula: str
    terms: tuple[Term, ...]
    source: str

    @property
    def from_memory(self) -> tuple[str, ...]:
        """What in it rests on a recalled default."""
        return tuple(term.what for term in self.terms if term.verified == "memory")


def spelled(result: Sum) -> str:
    """A sum in one line: `24.2 h = formula; capacity 75 Ah, share 0.5, …`."""
    terms = ", ".join(f"{t.what} {plain(t.value, 3)} {t.unit}".rstrip() for t in result.terms)
    return f"{plain(result.value, 1)} {result.unit} = {result.formula}; {terms}"
