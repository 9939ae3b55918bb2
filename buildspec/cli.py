"""The command line. Exit codes: 0 clean, 1 findings that refuse the build, 2 wrong use, 3 a fault of ours."""

from __future__ import annotations

import argparse
import contextlib
import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NoReturn, TextIO

from buildspec import __version__
from buildspec.errors import UsageError
from buildspec.findings import Diagnostic

CLEAN, FINDINGS, WRONG_USE, BUG = 0, 1, 2, 3
INTERRUPTED, READER_GONE = 130, 141
SPEC_SUFFIX = ".build.yaml"


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise UsageError(f"{message} (see {self.prog} --help)")


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code; nothing else in the program exits or prints."""
    words = list(sys.argv[1:] if argv is None else argv)
    _replace_closed_streams()
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    try:
        return _run(words)
    except UsageError as error:
        return _one_line(error)
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        _close_quietly()
        return READER_GONE
    except Exception as error:
        from buildspec import bugreport

        print(bugreport.write(error, words), file=sys.stderr)
        return BUG


def check(paths: Sequence[str], *, strict: bool, form: str) -> int:
    """Report the findings of all specs named, or found in the folders named, on standard output.

    A spec that cannot be read is reported among them, and makes this wrong use.
    """
    files = find_specs(paths)
    from buildspec import pipeline, read

    found, unread = list[Diagnostic](), False
    for file in files:
        try:
            found += pipeline.check_file(file).diagnostics
        except UsageError as error:
            found.append(read.unreadable(error, read.start_of(file)))
            unread = True
    _print(_report(found, form=form, files=len(files), stream=sys.stdout), sys.stdout)
    return WRONG_USE if unread else FINDINGS if _fails(found, strict) else CLEAN


def compile_spec(spec: str, *, out: str | None, strict: bool, pdf: bool = False) -> int:
    """Write the packet of one spec, unless findings refuse it; findings go to standard error."""
    from buildspec import pipeline

    path = Path(spec)
    outcome = pipeline.check_file(path)
    if outcome.diagnostics:
        _print(_report(outcome.diagnostics, form="text", files=1, stream=sys.stderr), sys.stderr)
    if outcome.build is None or _fails(outcome.diagnostics, strict):
        _print("packet refused: nothing was written\n", sys.stderr)
        return FINDINGS
    from buildspec.compile import compile_file

    folder = Path(out) if out else path.parent / f"{stem(path)}-packet"
    names = compile_file(path, folder, outcome, pdf=pdf)
    _print(f"{len(names)} files in {folder}; look first at {folder / 'index.html'}\n", sys.stdout)
    return CLEAN


def size(asked: argparse.Namespace) -> int:
    """Answer a bench question, or say what a reserve of a spec may carry."""
    from buildspec.bench import command

    printed = command.run(vars(asked))
    _print(printed.text, sys.stdout)
    return CLEAN if printed.fits else FINDINGS


def preview(spec: str, *, port: int) -> int:
    """Serve the packet of one spec to a browser on this machine, built again at each save, until Ctrl-C."""
    from buildspec import preview as previewing

    previewing.run(Path(spec), port=port, say=lambda text: _print(text, sys.stdout))
    return CLEAN


def explain(rule: str | None) -> int:
    """Print the manual of a rule, or the list of rules."""
    from buildspec.explain import listing, manual

    _print((manual(rule) if rule else listing()) + "\n", sys.stdout)
    return CLEAN


def find_specs(paths: Sequence[str]) -> tuple[Path, ...]:
    """Files as named and specs below the folders named, each once.

    Raises `UsageError` for a path that is not there and for a folder without specs.
    """
    found: dict[Path, None] = {}
    for path in map(Path, paths):
        if path.is_dir():
            below = sorted(_specs_below(path))
            if not below:
                raise UsageError(f"no *{SPEC_SUFFIX} in {path}")
            found |= dict.fromkeys(below)
        elif path.exists():
            found[path] = None
        else:
            raise UsageError(f"cannot read {path}: no such file or folder")
    return tuple(found)


def stem(path: Path) -> str:
    """`fr-0117` of `fr-0117.build.yaml`."""
    return path.name.removesuffix(SPEC_SUFFIX) if path.name.endswith(SPEC_SUFFIX) else path.stem


def _run(words: list[str]) -> int:
    try:
        asked = _parser().parse_args(words)
    except SystemExit as done:  # argparse leaves this way after --help and --version
        return int(done.code or 0)
    if asked.command == "check":
        return check(asked.paths, strict=asked.strict, form=asked.format)
    if asked.command == "compile":
        return compile_spec(asked.spec, out=asked.out, strict=asked.strict, pdf=asked.pdf)
    if asked.command == "size":
        return size(asked)
    if asked.command == "preview":
        return preview(asked.spec, port=asked.port)
    return explain(asked.rule)


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="buildspec", description="check build specs and compile install packets", allow_abbrev=False
    )
    parser.add_argument("--version", action="version", version=f"buildspec {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="command")
    checking = commands.add_parser("check", help="report what is wrong with specs", allow_abbrev=False)
    checking.add_argument("paths", nargs="+", metavar="path", help=f"a spec, or a folder of *{SPEC_SUFFIX}")
    checking.add_argument("--format", choices=("text", "json"), default="text", help="form of the report")
    compiling = commands.add_parser("compile", help="write the install packet of a spec", allow_abbrev=False)
    compiling.add_argument("spec", help="the spec")
    compiling.add_argument("--out", metavar="folder", help="where to write; default <spec>-packet beside it")
    compiling.add_argument("--pdf", action="store_true", help="packet and owner's sheet as PDF as well")
    for command in (checking, compiling):
        command.add_argument("--strict", action="store_true", help="warnings refuse the build as well")
    _size_options(
        commands.add_parser("size", help="size one circuit, or ask about a reserve", allow_abbrev=False)
    )
    previewing = commands.add_parser(
        "preview", help="show the packet in a browser while the spec is written", allow_abbrev=False
    )
    previewing.add_argument("spec", help="the spec")
    previewing.add_argument("--port", type=int, default=8017, help="on 127.0.0.1; default 8017, 0 for any")
    explaining = commands.add_parser("explain", help="say what a rule wants and why", allow_abbrev=False)
    explaining.add_argument("rule", nargs="?", help="its name, as a report prints it; without it, all rules")
    return parser


def _size_options(sizing: argparse.ArgumentParser) -> None:
    sizing.description = (
        "Size one circuit from --load and --length, check what --wire and --fuse say, "
        "or say what a reserve of a spec may carry. Exit code 1 when it does not fit."
    )
    sizing.add_argument("spec", nargs="?", help="a spec, together with --reserve")
    sizing.add_argument("--reserve", metavar="name", help="what may be put on this reserve of the spec")
    sizing.add_argument("--load", metavar="current", help="worst working current, such as 12A")
    sizing.add_argument(
        "--length",
        metavar="length",
        help="ONE WAY, from the fuse to the load, such as 4m; the way back is added",
    )
    sizing.add_argument("--system", metavar="voltage", default="12 V", help="nominal voltage; default 12 V")
    sizing.add_argument(
        "--drop", metavar="share", help='largest drop out and back, such as "3 %%"; default by --class'
    )
    sizing.add_argument(
        "--class", choices=("critical", "general"), default="general", help="drop class of the load"
    )
    places = ("cabin", "engine", "outside", "underbody")
    sizing.add_argument("--place", choices=places, default="cabin", help="around the whole run and the fuse")
    sizing.add_argument(
        "--bundle", metavar="number", help="loaded conductors in the loom, this circuit's included"
    )
    sizing.add_argument(
        "--insulation", metavar="degrees", help="temperature class of the insulation, such as 105"
    )
    sizing.add_argument(
        "--practice", metavar="file", help="the shop's practice.yaml; default the built-in basis"
    )
    lasting = sizing.add_mutually_exclusive_group()
    lasting.add_argument("--continuous", action="store_true", default=True, help="on for hours; the default")
    lasting.add_argument(
        "--intermittent", dest="continuous", action="store_false", help="never on for three hours"
    )
    sizing.add_argument(
        "--return", choices=("own", "body"), default="own", help="a conductor back, or the body"
    )
    sizing.add_argument(
        "--wire", metavar="size", help='check this size instead of choosing, such as "14 AWG"'
    )
    sizing.add_argument("--fuse", metavar="rating", help="check this rating instead of choosing, such as 15A")
    sizing.add_argument("--format", choices=("text", "json"), default="text", help="form of the answer")


def _specs_below(folder: Path) -> Iterator[Path]:
    for parent, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        yield from (Path(parent, name) for name in files if name.endswith(SPEC_SUFFIX))


def _report(found: Sequence[Diagnostic], *, form: str, files: int, stream: TextIO) -> str:
    if form == "json":
        from buildspec.reports import json

        return json.render(found)
    from buildspec.reports import text

    return text.render(found, colour=text.wants_colour(stream, os.environ), files=files)


def _fails(found: Sequence[Diagnostic], strict: bool) -> bool:
    from buildspec.reports import fails

    return fails(found, strict=strict)


def _print(text: str, stream: TextIO) -> None:
    """Write at once, so that a closed pipe or a full disk shows here and not at exit."""
    try:
        stream.write(text)
        stream.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise UsageError(f"cannot write the report: {error.strerror}") from error


def _replace_closed_streams() -> None:
    """A stream that the caller closed is None; what is said on it goes nowhere, the exit code still tells."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115 - as long as the run


def _one_line(error: UsageError) -> int:
    with contextlib.suppress(OSError):  # nobody reads it; the exit code still tells
        print(f"buildspec: {' '.join(str(error).split())}", file=sys.stderr, flush=True)
    return WRONG_USE


def _close_quietly() -> None:
    """Point standard output at nothing, or the interpreter complains when it flushes at exit."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
