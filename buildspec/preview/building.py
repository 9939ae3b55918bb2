"""One build in memory, and what is shown after it: while a spec has errors, the last good packet stays."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from buildspec import bugreport, pipeline
from buildspec.compile import files_of, packet_of
from buildspec.errors import UsageError
from buildspec.findings import Diagnostic
from buildspec.reports import fails

NO_FILES: Mapping[str, bytes] = MappingProxyType({})


class Built(NamedTuple):
    """What one build came to."""

    files: Mapping[str, bytes]
    """The packet; empty when it was refused."""
    diagnostics: tuple[Diagnostic, ...]
    trouble: str
    """Why there are not even findings: a file that cannot be read, or a fault of ours."""


class Showing(NamedTuple):
    """What the browser gets."""

    number: int
    """Builds so far that came to something else than the one before."""
    age: int
    """How many of them are younger than the packet that is shown; 0 when it is up to date."""
    files: Mapping[str, bytes]
    diagnostics: tuple[Diagnostic, ...]
    trouble: str
    mark: str
    """Changes exactly when the page does."""


NOTHING = Showing(0, 0, NO_FILES, (), "", "0")
"""Before the first build."""


def build(spec: Path) -> Built:
    """Read, check and compile one spec; nothing is written, and nothing that goes wrong ends the preview."""
    try:
        outcome = pipeline.check_file(spec)
        if outcome.build is None or fails(outcome.diagnostics, strict=False):
            return Built(NO_FILES, outcome.diagnostics, "")
        return Built(files_of(packet_of(outcome)), outcome.diagnostics, "")
    except UsageError as error:
        return Built(NO_FILES, (), str(error))
    except Exception as error:
        return Built(NO_FILES, (), bugreport.write(error, ["preview", spec.name]))


def follow(before: Showing, built: Built) -> Showing:
    """What is shown after a build: the same as before when it came to the same."""
    same = (before.diagnostics, before.trouble) == (built.diagnostics, built.trouble)
    if (
        before.number
        and same
        and built.files == (NO_FILES if before.age or not before.files else before.files)
    ):
        return before
    age = 0 if built.files else before.age + 1
    shown = Showing(
        before.number + 1, age, built.files or before.files, built.diagnostics, built.trouble, mark=""
    )
    return shown._replace(mark=fingerprint(shown))


def fingerprint(showing: Showing) -> str:
    """A digest of all that the page is made of; the number of the build is printed nowhere on it."""
    digest = hashlib.sha256(
        repr((showing.age, showing.diagnostics, showing.trouble)).encode("utf-8", "replace")
    )
    for name, content in showing.files.items():
        digest.update(f"\0{name}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()[:32]
