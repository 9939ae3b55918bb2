"""Packets of the examples, changed builds of them, and what the owner's sheet says, for its tests."""

from __future__ import annotations

import functools
import pathlib

import pytest

from buildspec import pipeline
from buildspec.documents import handover
from buildspec.packet import Packet
from buildspec.typeset import HELD

ROOT = pathlib.Path(__file__).parents[1]
EXAMPLES = sorted(ROOT.glob("examples/*/*.build.yaml"))
EACH = pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.parent.name)


@functools.cache
def packet_of(path):
    sized = pipeline.check_file(path).build
    assert sized is not None
    return Packet(sized, (), (), ())


def free(value):
    """The same with every no-break space as a space: where lines may end is asked elsewhere."""
    if isinstance(value, dict):
        return {key: free(one) for key, one in value.items()}
    if isinstance(value, list):
        return [free(one) for one in value]
    return value.replace(HELD, " ") if isinstance(value, str) else value


def view_of(packet):
    return free(handover.view(packet))


def section(packet, name):
    return next((s for s in view_of(packet)["sections"] if s["id"] == name), None)


def rows(packet, name):
    return {row["what"]: row["text"] for row in section(packet, name)["rows"]}


def with_build(packet, **changes):
    sized = packet.sized
    return packet._replace(sized=sized._replace(build=sized.build._replace(**changes)))
