"""The text printed when the program itself fails, ready to paste; it names no folder of the machine."""

from __future__ import annotations

import platform
import re
import traceback
from collections.abc import Sequence
from pathlib import Path

from buildspec import __version__

_ROOT = r"(?:~[/\\]|/|[A-Za-z]:[/\\])"
_QUOTED = re.compile(rf"""(["']){_ROOT}(?:[^"'\n]*[/\\])?([^"'/\\\n]*)\1""")
_BARE = re.compile(rf"""(?<![\w.:/\\-]){_ROOT}(?:[^\s"'/\\:,;()]+[/\\])*([^\s"'/\\:,;()]+)""")


def write(error: BaseException, argv: Sequence[str]) -> str:
    """Version, Python, platform, command and traceback, with every absolute path cut to its last part."""
    command = " ".join(["buildspec", *(_last_part(word) for word in argv)])
    report = [
        "this is a fault of buildspec, not of your file; please report it with the text below",
        "",
        f"buildspec {__version__}",
        f"python {platform.python_version()} on {platform.system()} {platform.machine()}",
        f"command: {command}",
        "",
        "".join(traceback.format_exception(error)),
    ]
    return without_folders("\n".join(report))


def without_folders(text: str) -> str:
    """Absolute paths and paths below the home folder cut to the file's own name."""
    text = text.replace(str(Path.home()), "~") if len(Path.home().parts) > 1 else text
    text = _QUOTED.sub(lambda found: f"{found[1]}{found[2]}{found[1]}", text)
    return _BARE.sub(lambda found: found[1], text)


def _last_part(word: str) -> str:
    path = Path(word)
    return path.name if path.is_absolute() else word
