"""The numbering file: every designation ever given, so that none is given again."""

from __future__ import annotations

import json
from collections.abc import Mapping

HEAD = (
    "# Designations once given, kept for good. Written by `buildspec compile`; commit it with the spec, "
    "do not edit it.\n"
)


def text(numbers: Mapping[str, str]) -> str:
    """The file, one line a designation, sorted by key. A JSON string is a YAML string too."""
    if not numbers:
        return f"{HEAD}numbers: {{}}\n"
    lines = [f"  {json.dumps(key, ensure_ascii=False)}: {numbers[key]}\n" for key in sorted(numbers)]
    return f"{HEAD}numbers:\n{''.join(lines)}"
