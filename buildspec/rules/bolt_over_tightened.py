"""A written torque pulls a bolt beyond its proof load.

What
----
The tension that `torque` gives by T = K × diameter × tension (K 0.2 dry, 0.15 oiled) is not above the proof load
of the bolt's class and size.

Why
---
A bolt beyond its proof load stays long: it holds less with each tightening and breaks on the road. An oiled thread
needs a quarter less torque for the same tension.

Bad
---
    accessories: {rack: {part: roof-rack-pickup, at: roof,
                  fastening: {bolt: M8, class: "4.6", quantity: 4, into: tapped, engagement: 10 mm, torque: 25 N m}}}

Good
----
    accessories: {rack: {part: roof-rack-pickup, at: roof,
                  fastening: {bolt: M8, class: "8.8", quantity: 4, into: tapped, engagement: 10 mm, torque: 25 N m}}}

Sources
-------
EN ISO 898-1:2013 as on two suppliers' pages; nut factor 0.2 computed, 0.15 recalled.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.calc import fasteners
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("iso-898-1-copies", "torque-k-factor")


def check(sized: Sized) -> Iterator[Finding]:
    for item in sized.build.accessories.values():
        held = item.fastening
        if held is None or held.torque_nm is None:
            continue
        tension = fasteners.tension_n(
            torque_nm=held.torque_nm, thread=held.bolt, lubrication=held.lubrication
        )
        proof = fasteners.proof_load_n(thread=held.bolt, grade=held.grade)
        usual = fasteners.tightening_torque_nm(
            thread=held.bolt, grade=held.grade, lubrication=held.lubrication
        )
        if proof is not None and usual is not None and tension > proof:
            yield Finding(
                (*held.at, "torque"),
                f"{show.plain(held.torque_nm, 1)} N m pull the {held.lubrication} {held.bolt} of class {held.grade} of "
                f"`{item.name}` with {show.plain(tension, 0)} N; its proof load is {show.plain(proof, 0)} N",
                f"{show.plain(usual, 1)} N m, or a higher class",
            )
