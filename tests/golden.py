"""Documents and drawings of every example as they were last looked at, to be compared in a review.

Run as a program, it writes them anew: look at `git diff` and at the pictures before you commit.
"""

from __future__ import annotations

import pathlib
import shutil

from sample_packets import EXAMPLES, packet

from buildspec import compile as compiling

FOLDER = pathlib.Path(__file__).parent / "golden"
KINDS = ("documents/", "drawings/")


def made(path: pathlib.Path) -> dict[str, bytes]:
    """File name below the example's folder → content, for every document and drawing of an example."""
    return {
        name: content for name, content in compiling.files_of(packet(path)).items() if name.startswith(KINDS)
    }


def kept(path: pathlib.Path) -> dict[str, bytes]:
    folder = FOLDER / path.parent.name
    files = (file for file in sorted(folder.rglob("*")) if file.is_file())
    return {file.relative_to(folder).as_posix(): file.read_bytes() for file in files}


if __name__ == "__main__":
    shutil.rmtree(FOLDER, ignore_errors=True)
    for example in EXAMPLES:
        for name, content in made(example).items():
            file = FOLDER / example.parent.name / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
