"""The layout engine: Graphviz sees boxes of fixed size in ranks and says at which height each one stands.

No text reaches it, so no font matters. The engine is the one that the package graphviz-pure brings; with
BUILDSPEC_LAYOUT=dot in the environment a system `dot` does the work.
"""

from __future__ import annotations

import os
import pathlib
import shutil
import subprocess
import sysconfig
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from buildspec.errors import UsageError

UNIT = 254.0
"""Tenths of a millimetre in an inch."""
ENGINES = {"": "graphviz-pure", "pure": "graphviz-pure", "dot": "dot"}


class Node(NamedTuple):
    """A box: column 0 to 3, width and height."""

    key: str
    rank: int
    width: float
    height: float


class Edge(NamedTuple):
    start: str
    end: str
    weight: int = 1


def engine() -> str:
    """Path of the layout command; raises UsageError when it is not installed."""
    asked = os.environ.get("BUILDSPEC_LAYOUT", "")
    if asked not in ENGINES:
        raise UsageError(f"BUILDSPEC_LAYOUT is `{asked}`; write `dot` or leave it unset")
    name = ENGINES[asked]
    beside = pathlib.Path(sysconfig.get_path("scripts")) / name
    found = str(beside) if beside.exists() else shutil.which(name)
    if found is None:
        raise UsageError(
            f"the layout engine `{name}` is not installed; `python -m pip install graphviz-pure` brings one"
        )
    return found


def source(nodes: Sequence[Node], edges: Sequence[Edge], gap: float) -> str:
    """The graph in Graphviz's language, nodes named by their place in the list."""
    index = {node.key: n for n, node in enumerate(nodes)}
    lines = [
        "digraph {",
        f"rankdir=LR; nodesep={gap / UNIT:.4f}; ranksep=0.5; splines=false;",
        'node [shape=box, fixedsize=true, label=""];',
    ]
    lines += [
        f"n{n} [width={node.width / UNIT:.4f}, height={node.height / UNIT:.4f}];"
        for n, node in enumerate(nodes)
    ]
    for rank in sorted({node.rank for node in nodes}):
        same = " ".join(f"n{index[node.key]};" for node in nodes if node.rank == rank)
        lines.append(f"{{rank=same; r{rank} [width=0.01, height=0.01, style=invis]; {same}}}")
    ranks = sorted({node.rank for node in nodes})
    lines += [f"r{a} -> r{b} [style=invis, weight=100];" for a, b in pairwise(ranks)]
    lines += [f"n{index[e.start]} -> n{index[e.end]} [weight={e.weight}, arrowhead=none];" for e in edges]
    return "\n".join([*lines, "}"]) + "\n"


def place(nodes: Sequence[Node], edges: Sequence[Edge], gap: float) -> Mapping[str, float]:
    """Node key → height of its middle, from the top of the drawing. Boxes of one column never overlap."""
    if not nodes:
        return {}
    command = [engine(), "-Kdot", "-Tplain"]
    done = subprocess.run(
        command,
        input=source(nodes, edges, gap),
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    if done.returncode:
        raise UsageError(f"the layout engine failed: {done.stderr.strip() or done.returncode}")
    rows = [line.split() for line in done.stdout.splitlines()]
    heights = {row[1]: -float(row[3]) * UNIT for row in rows if row and row[0] == "node"}
    return {node.key: heights[f"n{n}"] for n, node in enumerate(nodes)}
