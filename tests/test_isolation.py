"""Ways through the positive side: against networkx on random graphs, and on builds made by hand."""

from __future__ import annotations

import random

import networkx as nx
import pytest
import rule_fixtures

from buildspec import layers, read, resolve
from buildspec.model import Resolved
from buildspec.network import graph, isolation
from buildspec.network.graph import Edge

NODES = "abcdefghij"
SEEDS = range(300)


def random_edges(seed: int) -> list[Edge]:
    chance = random.Random(seed)
    return [
        Edge(
            *chance.sample(NODES, 2),
            name=f"e{n}",
            kind="tie",
            one_way=chance.random() < 0.5,
            states=frozenset(chance.sample(graph.STATES, chance.randint(2, 4))),
            at=(),
        )
        for n in range(chance.randint(0, 24))
    ]


def same_for_networkx(edges: list[Edge], state: str) -> nx.DiGraph:
    """The same graph in networkx: a two-way edge is an arc each way."""
    made = nx.DiGraph()
    made.add_nodes_from(NODES)
    for edge in (e for e in edges if state in e.states):
        made.add_edge(edge.a, edge.b)
        if not edge.one_way:
            made.add_edge(edge.b, edge.a)
    return made


@pytest.mark.parametrize("seed", SEEDS)
def test_ways_agree_with_networkx(seed: int) -> None:
    edges = random_edges(seed)
    for state in graph.STATES:
        reference = same_for_networkx(edges, state)
        for start, end in (("a", "b"), ("h", "a")):
            way = graph.path(edges, start=start, end=end, state=state)
            assert (way is not None) == nx.has_path(reference, start, end)
            if way is not None:
                assert len(way) == nx.shortest_path_length(reference, start, end)
                nodes = [way[0].start, *(step.end for step in way)]
                assert (nodes[0], nodes[-1]) == (start, end)
                assert nx.is_path(reference, nodes)
                assert all(state in step.edge.states for step in way)


def test_random_graphs_have_ways_and_dead_ends() -> None:
    """The comparison above must see both answers often, and ways of several edges."""
    ways = [graph.path(random_edges(s), start="a", end="b", state="parked") for s in SEEDS]
    assert ways.count(None) > 30
    assert sum(1 for way in ways if way is not None and len(way) > 2) > 20


def edge(
    a: str, b: str, name: str, kind: str = "tie", *, one_way: bool = False, states: str = "parked"
) -> Edge:
    return Edge(a, b, name, kind, one_way, frozenset({states}), ())


def test_one_way_edges_conduct_one_way() -> None:
    edges = [edge("start", "house", "charger", "charger", one_way=True)]
    assert graph.path(edges, start="house", end="start", state="parked") is None
    way = graph.path(edges, start="start", end="house", state="parked")
    assert way is not None
    assert graph.spelled(way) == "house ← charger (awake) ← start"


def test_edges_conduct_in_their_states_only() -> None:
    edges = [edge("start", "house", "assist", "link", states="assist held")]
    assert graph.path(edges, start="start", end="house", state="parked") is None
    assert graph.path(edges, start="start", end="house", state="assist held") is not None


def test_the_first_of_two_equal_ways_is_taken() -> None:
    edges = [edge("start", "house", "first"), edge("start", "house", "second")]
    way = graph.path(edges, start="start", end="house", state="parked")
    assert way is not None
    assert graph.spelled(way) == "house ← first ← start"


def test_a_way_to_itself_has_no_steps() -> None:
    assert graph.path([], start="a", end="a", state="parked") == ()


def built(text: str) -> Resolved:
    base, _ = read.read_text(rule_fixtures.BASE.read_text(encoding="utf-8"), file="base")
    over, _ = read.read_text(text, file="case")
    assert base is not None and over is not None
    build, faults = resolve.resolve(rule_fixtures.merge(base.data, over.data), layers.of_practice({}), {})
    assert build is not None, faults
    return build


STATES_OF = {
    "type: dc-dc, from: start, to: house, output: 20 A, wake: ignition": {"running"},
    "type: dc-dc, from: start, to: house, output: 20 A": set(graph.STATES),
    "type: momentary-link, joins: [start, house], rating: 200 A": {"assist held"},
    "type: momentary-link, joins: [start, house], rating: 200 A, crank: closed": {"assist held", "cranking"},
    "type: voltage-relay, joins: [start, house], rating: 200 A, crank: open": {"running"},
    "type: voltage-relay, joins: [start, house], rating: 200 A, crank: closed": {"running", "cranking"},
    "type: voltage-relay, joins: [start, house], rating: 200 A": {"running", "cranking"},
    "type: manual-switch, joins: [start, house], rating: 200 A, crank: open": {
        "parked",
        "running",
        "assist held",
    },
    "type: manual-switch, joins: [start, house], rating: 200 A, crank: closed": set(graph.STATES),
}


@pytest.mark.parametrize("written", STATES_OF)
def test_states_of_a_declared_device(written: str) -> None:
    build = built(f"isolation: {{way: {{{written}, at: bulkhead}}}}\n")
    assert isolation.conducts(build.isolation["way"]) == STATES_OF[written]


SIDES = {"start side": ("start", "front"), "house side": ("house", "main", "rear")}
FRONT = """
blocks:
  front: {block: {positions: 4, position_limit: 20 A, total: 60 A, family: blade}, at: bulkhead, fed_from: start}
"""


def test_the_clean_base_joins_nothing() -> None:
    assert list(isolation.joins(built(FRONT))) == []


@pytest.mark.parametrize("house", SIDES["house side"])
@pytest.mark.parametrize("start", SIDES["start side"])
@pytest.mark.parametrize("turned", [False, True])
def test_a_conductor_between_the_sides_is_always_found(start: str, house: str, turned: bool) -> None:
    ends = (house, start) if turned else (start, house)
    build = built(f"conductors: {{extra: {{from: {ends[0]}, to: {ends[1]}, existing: true}}}}\n{FRONT}")
    ways = list(isolation.joins(build))
    assert [isolation.culprit(way).name for way in ways] == ["extra"]
    assert ways[0][0].start == "start" and ways[0][-1].end == "house"


@pytest.mark.parametrize("nodes", SIDES.values(), ids=SIDES)
def test_a_conductor_within_one_side_joins_nothing(nodes: tuple[str, ...]) -> None:
    build = built(f"conductors: {{extra: {{from: {nodes[0]}, to: {nodes[1]}, existing: true}}}}\n{FRONT}")
    assert list(isolation.joins(build)) == []


def test_a_block_fed_from_both_sides_is_found_at_its_feed() -> None:
    build = built("blocks: {rear: {fed_from: [start, house]}}\n")
    (way,) = isolation.joins(build)
    assert graph.spelled(way) == "house ← rear ← start"
    assert isolation.culprit(way).at == ("blocks", "rear", "fed_from", 0)


def test_every_parallel_conductor_is_named_once() -> None:
    listed = "".join(
        f"  t{n}: {{from: start, to: {to}, existing: true}}\n" for n, to in enumerate(SIDES["house side"])
    )
    ways = isolation.joins(built(f"conductors:\n{listed}"))
    assert sorted(isolation.culprit(way).name for way in ways) == ["t0", "t1", "t2"]


def test_batteries_and_loads_behind_feeders() -> None:
    build = built(
        FRONT
        + "accessories: {usb: {at: bulkhead, fed_from: front.1, electrical: {model: motor, worst: 2 A}}}\n"
    )
    assert isolation.batteries_behind(build, "front") == {"start"}
    assert isolation.batteries_behind(build, "main") == {"house"}
    feeder = next(c for c in build.circuits if c.kind == "feeder" and c.target == "front")
    assert [c.item for c in isolation.loads_behind(build, feeder)] == ["usb"]
