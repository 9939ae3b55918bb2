"""A packet on disk: replaced whole or left alone, and never over something that is not a packet of ours."""

from __future__ import annotations

import contextlib
import json
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath

from buildspec.errors import UsageError

INDEX = "packet.json"
"""Its `files` lists every file of the packet; a folder without it is somebody else's."""
LITTER = (".DS_Store", "Thumbs.db", "desktop.ini")
"""What file managers leave behind; goes with the old packet."""


def write(folder: Path, files: Mapping[str, bytes]) -> None:
    """Replace the packet in `folder` by `files` (relative names with `/` → contents), whole or not at all.

    Raises UsageError for a folder that holds anything but a packet of this job, and where the disk refuses.
    """
    with staged(folder, files):
        pass


@contextlib.contextmanager
def staged(folder: Path, files: Mapping[str, bytes]) -> Iterator[None]:
    """As `write`, with the new packet written beside the old one first; they change places after the block.

    Where the block fails, the old packet stays.
    """
    place = folder.resolve()
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        _recover(place)
        _refuse_foreign(place, folder)
        _refuse_other_job(place, folder, files)
        _clean(place)
        new = Path(tempfile.mkdtemp(prefix=_prefix(place, "new"), dir=place.parent))
        try:
            _fill(new, files)
            yield
            _swap(new, place)
        except BaseException:
            shutil.rmtree(new, ignore_errors=True)
            raise
    except OSError as error:
        raise UsageError(f"cannot write the packet to {folder}: {error.strerror or error}") from error


def _fill(folder: Path, files: Mapping[str, bytes]) -> None:
    for name, content in files.items():
        file = folder.joinpath(*PurePosixPath(name).parts)
        file.parent.mkdir(parents=True, exist_ok=True)
        with file.open("wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
    folder.chmod(0o777 & ~_umask())


def _umask() -> int:
    """The process's own mask: a temporary folder is private, a packet is not."""
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _swap(new: Path, place: Path) -> None:
    """Old one aside, new one in, old one away; the old one comes back if the new one cannot go in."""
    if not place.exists():
        new.rename(place)
        return
    old = Path(tempfile.mkdtemp(prefix=_prefix(place, "old"), dir=place.parent))
    aside = old / "packet"
    place.rename(aside)
    try:
        new.rename(place)
    except BaseException:
        aside.rename(place)
        old.rmdir()
        raise
    shutil.rmtree(old, ignore_errors=True)


def _prefix(place: Path, what: str) -> str:
    return f".{place.name}.{what}-"


def _recover(place: Path) -> None:
    """A run that was killed between the two renames left the old packet aside: put it back."""
    if place.exists():
        return
    for old in _leftovers(place, "old"):
        if (old / "packet").is_dir():
            (old / "packet").rename(place)
            old.rmdir()
            return


def _clean(place: Path) -> None:
    """Take away what killed runs left beside the packet."""
    for what in ("new", "old"):
        for folder in _leftovers(place, what):
            shutil.rmtree(folder, ignore_errors=True)


def _leftovers(place: Path, what: str) -> list[Path]:
    start = _prefix(place, what)
    return sorted(
        p for p in place.parent.iterdir() if p.name.startswith(start) and p.is_dir() and not p.is_symlink()
    )


def _refuse_foreign(place: Path, shown: Path) -> None:
    if not place.exists():
        return
    if not place.is_dir():
        raise UsageError(f"{shown} is a file; name a folder for the packet")
    there = sorted(_names(place))
    if not there:
        return
    ours = _listed(place / INDEX)
    if ours is None:
        raise UsageError(f"{shown} is not a packet of buildspec (no {INDEX}); name another folder")
    foreign = [name for name in there if name not in ours and PurePosixPath(name).name not in LITTER]
    if foreign:
        more = f" and {len(foreign) - 1} more" if len(foreign) > 1 else ""
        raise UsageError(
            f"{shown} holds {foreign[0]}{more}, not of the packet, and would lose it; move it away first"
        )


def _refuse_other_job(place: Path, shown: Path, files: Mapping[str, bytes]) -> None:
    """A packet makes way for another revision of its job, never for another job."""
    if not (place / INDEX).exists():
        return
    old, new = _job((place / INDEX).read_bytes()), _job(files[INDEX])
    if old and new and old[0] != new[0]:
        raise UsageError(
            f"{shown} holds the packet of job {' '.join(old)} and would lose it to job {' '.join(new)}; "
            "name another folder, or take the old packet away first"
        )


def _job(index: bytes) -> tuple[str, str] | None:
    """(number, title) of the job of a packet; None where it does not say."""
    with contextlib.suppress(ValueError, KeyError, TypeError):
        job = json.loads(index)["job"]
        return str(job["number"]), str(job["title"])
    return None


def _names(folder: Path) -> Iterator[str]:
    for parent, folders, files in os.walk(folder):
        base = Path(parent).relative_to(folder)
        links = [name for name in folders if Path(parent, name).is_symlink()]
        yield from ((base / name).as_posix() for name in (*files, *links))


def _listed(index: Path) -> frozenset[str] | None:
    """Files that a packet says are its own; None where it is not a packet of ours."""
    with contextlib.suppress(OSError, ValueError, KeyError, TypeError):
        data = json.loads(index.read_text(encoding="utf-8"))
        return frozenset(data["files"]) if "buildspec" in data else None
    return None


def write_beside(file: Path, content: bytes) -> bool:
    """Replace one file at once, only when its content changes; says whether it did.

    Raises UsageError where the disk refuses.
    """
    try:
        if file.exists() and file.read_bytes() == content:
            return False
        handle, name = tempfile.mkstemp(prefix=f".{file.name}.", dir=file.parent)
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.write(content)
            os.chmod(name, 0o666 & ~_umask())
            os.replace(name, file)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise UsageError(f"cannot write {file}: {error.strerror or error}") from error
    return True
