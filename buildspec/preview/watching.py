"""Which files a spec is made from, and when one of them is saved."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from buildspec import read
from buildspec.errors import UsageError

SUFFIXES = (".yaml", ".yml")
MOST_FILES = 200
LONGEST_NAME = 250
SETTLE_MS, TURN_MS = 50, 250
"""A save is over when nothing changed for so long; the watcher looks at Ctrl-C once a turn."""


class Watched(NamedTuple):
    """Folders to listen in, and files there whose names do not tell that they count."""

    folders: frozenset[Path]
    files: frozenset[Path]


def need() -> None:
    """Raises UsageError where watchfiles is not installed."""
    try:
        import watchfiles  # noqa: F401
    except ImportError:
        raise UsageError(
            "preview needs the package `watchfiles`, which is not installed: pip install 'buildspec[preview]'"
        ) from None


def saves(spec: Path) -> Iterator[None]:
    """Once at the start, then after each save of a file that the spec is made from; ends never.

    Raises UsageError when the system refuses to watch.
    """
    watched = sources(spec)
    while True:
        for _ in changes(watched):
            yield None
            now = sources(spec)
            if not now.folders <= watched.folders or not now.files <= watched.files:
                watched = Watched(watched.folders | now.folders, watched.files | now.files)
                break


def changes(watched: Watched) -> Iterator[None]:
    """Once as soon as the watcher listens, so that no save falls between two of them, then once a change."""
    from watchfiles import Change, watch

    def counts(_: Change, name: str) -> bool:
        return name.endswith(SUFFIXES) or Path(name) in watched.files

    there = sorted(str(folder) for folder in watched.folders if folder.is_dir())
    listening = False
    try:
        for changed in watch(
            *there,
            watch_filter=counts,
            step=SETTLE_MS,
            rust_timeout=TURN_MS,
            yield_on_timeout=True,
            recursive=False,
        ):
            if changed or not listening:
                listening = True
                yield None
    except OSError as error:
        raise UsageError(f"cannot watch {', '.join(there)}: {error.strerror or error}") from error


def sources(spec: Path) -> Watched:
    """The files that a spec is made from, as far as they can be read: itself, what it names, what that names."""
    waiting, seen = [spec, spec.with_name("practice.yaml")], dict[Path, Path]()
    while waiting and len(seen) < MOST_FILES:
        file = waiting.pop(0)
        if file.resolve() not in seen:
            seen[file.resolve()] = file
            waiting += named(file)
    links = {file.parent.resolve() / file.name for file in seen.values()}
    places = {*seen, *links}
    folders = frozenset(path.parent for path in places if path.parent.is_dir())
    return Watched(folders, frozenset(path for path in places if path.is_file()))


def named(file: Path) -> list[Path]:
    """Files that a document names anywhere."""
    try:
        document, _ = read.read_file(file)
    except UsageError:
        return []
    found = texts(document.data) if document is not None else ()
    return [file.parent / text for text in dict.fromkeys(found) if may_name_file(file.parent, text)]


def texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from texts(one)
    elif isinstance(value, list):
        for one in value:
            yield from texts(one)


def may_name_file(folder: Path, text: str) -> bool:
    """A name of ours whether it is there or not, any other only where there is such a file."""
    if len(text) > LONGEST_NAME or not text.isprintable():
        return False
    return text.endswith(SUFFIXES) or ("." in text and (folder / text).is_file())
