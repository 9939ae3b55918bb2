"""The layout engine: Graphviz sees boxes of fixed size in ranks and says at which height each one stands.

No text reaches it, so no font matters. The engine is the one that the package graphviz-pure brings; with
BUILDSPEC_LAYOUT=dot in the environment a system `dot` does the work.
"""

from __future__ import annotations

import os
import pathlib
import shutil
import sysconfig
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

import graphviz
from graphviz.backend import dot_command

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


def graph(nodes: Sequence[Node], edges: Sequence[Edge], gap: float) -> graphviz.Digraph:
    """The graph as the engine sees it, nodes named by their place in the list."""
    index = {node.key: f"n{n}" for n, node in enumerate(nodes)}
    made = graphviz.Digraph(
        graph_attr={"rankdir": "LR", "nodesep": f"{gap / UNIT:.4f}", "ranksep": "0.5", "splines": "false"},
        node_attr={"shape": "box", "fixedsize": "true", "label": ""},
    )
    for node in nodes:
        made.node(index[node.key], width=f"{node.width / UNIT:.4f}", height=f"{node.height / UNIT:.4f}")
    ranks = sorted({node.rank for node in nodes})
    for rank in ranks:
        with made.subgraph(graph_attr={"rank": "same"}) as same:
            same.node(f"r{rank}", width="0.01", height="0.01", style="invis")
            for node in nodes:
                if node.rank == rank:
                    same.node(index[node.key])
    for a, b in pairwise(ranks):
        made.edge(f"r{a}", f"r{b}", style="invis", weight="100")
    for edge in edges:
        made.edge(index[edge.start], index[edge.end], weight=str(edge.weight), arrowhead="none")
    return made


def laid_out(made: graphviz.Digraph) -> str:
    """Graphviz's plain output for a graph; raises UsageError when the engine fails."""
    usual = dot_command.DOT_BINARY
    dot_command.DOT_BINARY = pathlib.Path(engine())
    try:
        return str(made.pipe(format="plain", encoding="utf-8"))
    except (graphviz.ExecutableNotFound, graphviz.CalledProcessError) as error:
        raise UsageError(f"the layout engine failed: {error}") from error
    finally:
        dot_command.DOT_BINARY = usual


def place(nodes: Sequence[Node], edges: Sequence[Edge], gap: float) -> Mapping[str, float]:
    """Node key → height of its middle, from the top of the drawing. Boxes of one column never overlap."""
    if not nodes:
        return {}
    rows = [line.split() for line in laid_out(graph(nodes, edges, gap)).splitlines()]
    heights = {row[1]: -float(row[3]) * UNIT for row in rows if row and row[0] == "node"}
    return {node.key: heights[f"n{n}"] for n, node in enumerate(nodes)}
