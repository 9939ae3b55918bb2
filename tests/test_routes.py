"""Routes against networkx, and by hand."""

from __future__ import annotations

import networkx
from hypothesis import given
from hypothesis import strategies as st

from buildspec.model import Run
from buildspec.resolve.routes import shortest

EDGES = st.lists(st.tuples(st.integers(0, 7), st.integers(0, 7), st.integers(1, 400)), max_size=20)


def run(a: object, b: object, length_m: float) -> Run:
    return Run(f"p{a}", f"p{b}", length_m, "", False, ())


@given(EDGES)
def test_lengths_agree_with_networkx(edges: list[tuple[int, int, int]]) -> None:
    graph = networkx.MultiGraph()
    graph.add_nodes_from(range(8))
    graph.add_weighted_edges_from((a, b, centimetres / 100) for a, b, centimetres in edges)
    expected = networkx.single_source_dijkstra_path_length(graph, 0)
    runs = [run(a, b, centimetres / 100) for a, b, centimetres in edges]
    for node in range(8):
        found = shortest(runs, "p0", f"p{node}")
        if node not in expected:
            assert found is None
        else:
            assert found is not None
            assert abs(found.length_m - expected[node]) < 1e-9
            assert abs(sum(r.length_m for r in found.runs) - found.length_m) < 1e-9
            assert len(found.places) == len(found.runs) + 1
            for here, there, over in zip(found.places, found.places[1:], found.runs, strict=False):
                assert {here, there} == {over.a, over.b}


def test_the_answer_does_not_depend_on_the_order_of_the_runs() -> None:
    square = [run(0, 1, 1), run(1, 3, 1), run(0, 2, 1), run(2, 3, 1)]
    forwards, backwards = shortest(square, "p0", "p3"), shortest(square[::-1], "p0", "p3")
    assert forwards is not None and backwards is not None
    assert forwards.places == backwards.places == ("p0", "p1", "p3")
