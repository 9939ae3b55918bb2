"""`check` is a lint: what it loads is what a user waits for."""

from __future__ import annotations

import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).parent.parent
SPEC = ROOT / "examples" / "river-gauging-pickup" / "pickup.build.yaml"
PROGRAM = """
import sys
from buildspec.cli import main
code = main({words})
print(code, *sorted(m for m in sys.modules if "." not in m))
"""


def loaded(*words: str) -> tuple[int, set[str]]:
    """Exit code and top-level modules of one run in a fresh process."""
    run = subprocess.run(
        [sys.executable, "-c", PROGRAM.format(words=list(words))],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    code, *modules = run.stdout.strip().splitlines()[-1].split()
    return int(code), set(modules)


def test_check_loads_neither_templates_nor_layout() -> None:
    code, modules = loaded("check", str(SPEC.relative_to(ROOT)))
    assert code == 0
    assert {"yaml", "jsonschema"} <= modules
    assert not modules & {"jinja2", "markdown_it", "graphviz", "markupsafe", "csv", "pint", "networkx"} - {
        "csv"
    }


def test_explain_loads_no_schema_engine() -> None:
    code, modules = loaded("explain", "undersized-conductor")
    assert code == 0
    assert "jsonschema" not in modules
