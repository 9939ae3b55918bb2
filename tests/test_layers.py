"""Imports go downwards only: the table below is the architecture, and any other edge fails."""

from __future__ import annotations

import ast
import pathlib

import buildspec

ROOT = pathlib.Path(buildspec.__file__).parent

LAYERS: tuple[tuple[str, ...], ...] = (
    ("__init__", "errors", "findings", "discover", "resources", "tabledata", "units", "money", "typeset"),
    ("typeface",),
    ("citations", "model", "quantity", "yaml_words", "calc", "builtin_sources"),
    (
        "branches",
        "fitted",
        "packet",
        "show",
        "values",
        "yaml_tree",
        "bugreport",
        "schema_words",
        "worksheets",
    ),
    ("read", "reports", "network", "tongues", "laxer_gates"),
    ("validate", "letters"),
    ("catalogue", "figures", "vehicle_data"),
    ("layers", "spoken_texts"),
    ("resolve",),
    ("size",),
    ("energy", "looms", "mass", "joints", "fastenings"),
    ("rules", "drawings"),
    ("prove", "documents", "explain"),
    ("pipeline", "render", "output"),
    ("compile", "bench"),
    ("preview",),
    ("cli",),
    ("__main__",),
)
"""From the lowest layer up. A module or package imports from layers below its own, never from its own or above."""

SIBLINGS = ("rules", "documents")
"""Packages whose modules are added one file at a time and do not know one another."""

THIRD_PARTY = {
    "yaml": {"yaml_tree", "yaml_words", "read", "output", "compile"},
    "jsonschema": {"validate"},
    "referencing": {"validate"},
    "jinja2": {"render", "documents"},
    "markdown_it": {"render"},
    "graphviz": {"drawings"},
    "xlsxwriter": {"compile"},
    "watchfiles": {"preview"},
    "segno": {"drawings"},
    "weasyprint": {"compile"},
    "babel": {"tongues"},
}


def place_of(module: str) -> int:
    top = module.split(".")[1] if "." in module else "__init__"
    found = [n for n, layer in enumerate(LAYERS) if top in layer]
    assert found, f"{module} has no place in the table of layers"
    return found[0]


def imports(path: pathlib.Path) -> set[str]:
    """Full names of the modules that a file imports, at its head or inside its functions."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def module_name(path: pathlib.Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return (
        ".".join(("buildspec", *(p for p in parts if p != "__init__")))
        if parts != ("__init__",)
        else "buildspec"
    )


FILES = sorted(ROOT.rglob("*.py"))


def test_imports_go_down() -> None:
    wrong = []
    for path in FILES:
        module = module_name(path)
        here = module.split(".")
        for name in imports(path):
            parts = name.split(".")
            if parts[0] != "buildspec" or len(parts) < 2:
                continue
            same = len(here) > 1 and parts[1] == here[1]
            if not same and parts[1] not in ("__version__",) and place_of(name) >= place_of(module):
                wrong.append(f"{module} imports {name}")
    assert not wrong, "\n".join(wrong)


def test_rules_and_documents_do_not_know_their_siblings() -> None:
    wrong = []
    for path in FILES:
        here = module_name(path).split(".")
        if len(here) < 3 or here[1] not in SIBLINGS:
            continue
        for name in imports(path):
            parts = name.split(".")
            if parts[:2] == ["buildspec", here[1]] and len(parts) > 2 and not parts[2].startswith("_"):
                wrong.append(f"{'.'.join(here)} imports {name}")
    assert not wrong, "\n".join(wrong)


def test_third_party_packages_stay_where_they_belong() -> None:
    wrong = []
    for path in FILES:
        top = (*module_name(path).split("."), "")[1]
        for name in imports(path):
            package = name.split(".")[0]
            if package in THIRD_PARTY and top not in THIRD_PARTY[package]:
                wrong.append(f"{module_name(path)} imports {package}")
    assert not wrong, "\n".join(wrong)


def test_the_table_names_only_what_exists() -> None:
    names = {name for layer in LAYERS for name in layer}
    there = {p.stem for p in ROOT.glob("*.py")} | {
        p.name for p in ROOT.iterdir() if (p / "__init__.py").exists()
    }
    assert names <= there, sorted(names - there)


CLOCKS = {"time", "datetime", "random", "socket", "uuid", "locale", "getpass", "secrets"}
"""Nothing that is emitted may depend on the day, the machine or chance."""


def test_nothing_reads_a_clock_or_a_die() -> None:
    wrong = [
        f"{module_name(path)} imports {name}"
        for path in FILES
        for name in imports(path)
        if name.split(".")[0] in CLOCKS
    ]
    assert not wrong
