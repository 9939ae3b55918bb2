"""The PDF engine with the packet's own typeface and no other, so that no font of a machine moves anything."""

from __future__ import annotations

import contextlib
import io
import os
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from buildspec import typeface
from buildspec.errors import UsageError

PACKAGE = "pip install 'buildspec[pdf]'"
SYSTEM = "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 (Debian, Ubuntu), pango elsewhere"
ASKED = "FONTCONFIG_FILE"
"""Where fontconfig is told which file to read in place of the machine's."""


def engine() -> Any:
    """WeasyPrint. Raises UsageError with what to install where it or its libraries are missing."""
    try:
        with contextlib.redirect_stdout(io.StringIO()), own_fonts():  # it prints advice of its own
            import weasyprint
    except ImportError as error:
        raise UsageError(f"--pdf needs WeasyPrint ({error}): {PACKAGE}; system packages: {SYSTEM}") from error
    except OSError as error:
        raise UsageError(
            f"WeasyPrint is there, its system libraries are not ({error}): install {SYSTEM}"
        ) from error
    return weasyprint


@cache
def fonts() -> Any:
    """The typeface for the engine, once a run; the machine's fonts, and its settings for them, are not read."""
    engine()
    from weasyprint.text.fonts import FontConfiguration

    with own_fonts():
        return FontConfiguration()


@contextlib.contextmanager
def own_fonts() -> Iterator[None]:
    """While fontconfig is asked, it knows our folder alone."""
    before = os.environ.get(ASKED)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "fonts.conf"
        file.write_text(configuration(folder), encoding="utf-8")
        os.environ[ASKED] = str(file)
        try:
            yield
        finally:
            os.environ.pop(ASKED)
            os.environ |= {} if before is None else {ASKED: before}


def configuration(cache_folder: str) -> str:
    """What fontconfig is to read: where the fonts are, and where it may keep its list of them."""
    folders = f"<dir>{escape(str(typeface.FOLDER))}</dir><cachedir>{escape(cache_folder)}</cachedir>"
    return f'<?xml version="1.0"?>\n<fontconfig>{folders}</fontconfig>\n'
