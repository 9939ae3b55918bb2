"""What holds an item carries less than is asked of it: the bolt, the rivet nut or the sheet.

What
----
The `load` on one point, or the working load that the part declares where no load is written, stays within what the
weakest of bolt, rivet nut and sheet may carry at that point: a quarter of the bolt's proof load (60 % of that along
the joint), a quarter of a rivet nut's push-out force, a quarter of what the sheet lets through or of the force
that tears the hole; or `holds`, by maker or test. Both directions count unless `pull` says which one.

Why
---
A ring stamped 3500 N on a rivet nut in thin sheet holds a few hundred. The ring stays whole and leaves with its bolt.

Bad
---
    accessories: {rings: {part: load-ring-3500, at: bed, load: 3000 N,
                  fastening: {bolt: M8, class: "8.8", quantity: 1, into: rivet nut, body: round, sheet: 1 mm}}}

Good
----
    accessories: {rings: {part: load-ring-3500, at: bed, load: 3000 N, fastening: {bolt: M10, class: "8.8",
                  quantity: 1, into: through bolt with plate, bearing: 60 mm, sheet: 1.5 mm, pull: out}}}

Sources
-------
Proof load from EN ISO 898-1:2013; rivet nuts from a vehicle maker's standard; the weakest part governs after
49 CFR 393.108(a). The quarter, the 60 % and the strength of sheet are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import fastenings, show
from buildspec.findings import Finding
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("iso-898-1-copies", "rivet-nut-standard", "49cfr393-108")


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for item in sized.build.accessories.values():
        anchor, held = item.part.anchor, item.fastening
        asked = item.anchored_load_n or (anchor.working_load_n if anchor is not None else None)
        if held is None or asked is None:
            continue
        count = fastenings.bolts_per_point(item, held)
        weakest = min(fastenings.strengths(held), key=lambda s: s.may_n, default=None)
        if weakest is not None and weakest.may_n * count < asked:
            may = f"{show.force(weakest.may_n, practice)}" + (f" × {count}" if count > 1 else "")
            word = "load" if item.anchored_load_n is not None else "declared working load"
            yield Finding(
                held.at,
                f"{show.force(asked, practice)} {word} on one point of `{item.name}`; its weakest part carries {may}: "
                f"{weakest.what}",
                "a through bolt with a larger plate, a larger bolt, more bolts a point, or a figure by test (`holds`)",
            )
