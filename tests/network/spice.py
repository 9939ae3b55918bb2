"""A network as ngspice sees it: the deck, the run, the node voltages and source currents read back."""

from __future__ import annotations

import os
import re
import shutil
import subprocess

import pytest

from buildspec.network.elements import BODY, Network

PRINTED = re.compile(r"^(v|i)\(([^)]+)\) = (\S+)$", re.MULTILINE)


def deck(network: Network, *, small_a: float = 1e-12) -> tuple[str, dict[str, str]]:
    """SPICE text of a network and the number of each node in it; `small_a`: current below which it is settled."""
    names = sorted({n for group in network for e in group for n in (e.a, e.b)} - {BODY})
    node = {BODY: "0"} | {name: f"n{i}" for i, name in enumerate(names, start=1)}
    lines = ["* network"]
    lines += [f"R{i} {node[r.a]} {node[r.b]} {r.ohm!r}" for i, r in enumerate(network.resistors)]
    for i, s in enumerate(network.sources):
        lines += [f"V{i} s{i} {node[s.b]} {s.volts!r}", f"RS{i} s{i} {node[s.a]} {s.ohm!r}"]
    lines += [f"I{i} {node[c.a]} {node[c.b]} {c.amps!r}" for i, c in enumerate(network.currents)]
    lines += [
        f"B{i} {node[p.a]} {node[p.b]} I={p.watts!r}/V({node[p.a]},{node[p.b]})"
        for i, p in enumerate(network.powers)
    ]
    start = max(s.volts for s in network.sources)
    low = negatives(network) if network.powers else set()
    lines += [
        ".nodeset "
        + " ".join(f"v({n})={0.0 if name in low else start!r}" for name, n in node.items() if n != "0")
    ]
    wanted = [f"v({n})" for n in node.values() if n != "0"] + [
        f"i(v{i})" for i in range(len(network.sources))
    ]
    prints = "\n".join(f"print {w}" for w in wanted)
    lines += [
        f".options reltol=1e-9 abstol={small_a!r} vntol=1e-9 gmin=1e-15",
        ".control",
        "set numdgt=12",
        "op",
        prints,
        "quit",
        ".endc",
        ".end",
    ]
    return "\n".join(lines) + "\n", node


def negatives(network: Network) -> set[str]:
    """Nodes on the return side: reached from the body without passing a source or a load.

    A constant-power load whose ends began at one voltage would be driven onto its second, collapsed solution.
    """
    found, waiting = set(), [BODY]
    while waiting:
        here = waiting.pop()
        found.add(here)
        beyond = {r.b if r.a == here else r.a for r in network.resistors if here in (r.a, r.b)}
        waiting += sorted(beyond - found)
    return found


def operating_point(network: Network, *, small_a: float = 1e-12) -> tuple[dict[str, float], list[float]]:
    """Node → V and the current of each source [A], from `a` through it to `b`, by ngspice."""
    program = shutil.which("ngspice")
    if program is None:
        assert os.environ.get("CI") != "true", "ngspice is missing"
        pytest.skip("ngspice is not installed")
    text, node = deck(network, small_a=small_a)
    run = subprocess.run(
        [program, "-b", "/dev/stdin"], input=text, capture_output=True, text=True, check=False
    )
    found = {(kind, name): float(value) for kind, name, value in PRINTED.findall(run.stdout)}
    volts = {name: found["v", number] for name, number in node.items() if number != "0"}
    return volts, [found["i", f"v{i}"] for i in range(len(network.sources))]
