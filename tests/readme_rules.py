"""The list of rules in README, made from the rules themselves. Run as a program, it rewrites README."""

from __future__ import annotations

import pathlib
import re

from buildspec import rules
from buildspec.discover import modules

README = pathlib.Path(__file__).parent.parent / "README.md"
START, END = "<!-- rules: generated -->", "<!-- rules: end -->"


def table() -> str:
    """Markdown table: rule, severity, first sentence of its manual."""
    lines = ["| rule | severity | what it reports |", "| --- | --- | --- |"]
    for name, module in modules(rules).items():
        first = (
            re.split(r"(?<=\.)\s", (module.__doc__ or "").strip(), maxsplit=1)[0].replace("\n", " ").strip()
        )
        lines.append(f"| `{name.replace('_', '-')}` | {module.SEVERITY} | {first.replace('|', '/')} |")
    return "\n".join(lines)


def updated(text: str) -> str:
    head, rest = text.split(START)
    return f"{head}{START}\n\n{table()}\n\n{END}{rest.split(END)[1]}"


if __name__ == "__main__":
    README.write_text(updated(README.read_text(encoding="utf-8")), encoding="utf-8")
