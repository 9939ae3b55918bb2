"""Folders of files that ship with the program."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

PACKAGE = Path(__file__).parent


def folder(name: Literal["schemas", "templates"]) -> Path:
    """The package's own copy when it was installed, else the folder beside the package in a checkout."""
    installed = PACKAGE / name
    return installed if installed.is_dir() else PACKAGE.parent / name
