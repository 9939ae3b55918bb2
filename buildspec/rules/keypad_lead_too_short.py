"""The lead that comes with a panel does not reach from its module to its keys.

What
----
Where the keys of a panel are at another place than its module, the shortest way over the runs between both and a
service loop at each end are no longer than the `keypad_lead` of the panel. A panel that states no lead is not checked.

Why
---
The lead is made up with the panel, and carries data. A lead that is cut and joined on the way fails at the joint, and
with it every key at once.

Bad
---
runs: [{between: [bulkhead, roof-rail], length: 4.5 m}]
panels:
  main: {part: panel-solid-8, fed_from: house, module_at: bulkhead, keypad_at: roof-rail}

Good
----
runs: [{between: [bulkhead, roof-rail], length: 2.4 m}]
panels:
  main: {part: panel-solid-8, fed_from: house, module_at: bulkhead, keypad_at: roof-rail}

Sources
-------
Engineering principle: a lead is as long as it is; its length is stated by the panel.
"""

from __future__ import annotations

from collections.abc import Iterator

from buildspec import show
from buildspec.findings import Finding
from buildspec.looms import keypads
from buildspec.model import Sized

SEVERITY = "error"
SOURCES = ("engineering principle: the lead is as long as its panel states",)


def check(sized: Sized) -> Iterator[Finding]:
    practice = sized.build.practice
    for lead in keypads.leads(sized.build):
        if lead.needed_m > lead.length_m:
            panel = lead.panel
            yield Finding(
                (*panel.at, "keypad_at"),
                f"the lead of `{panel.name}` is {show.length(lead.length_m, practice)}; from `{panel.module_at}` to "
                f"`{panel.keypad_at}` it needs {show.length(lead.needed_m, practice)} with a service loop at each end",
                "put the module nearer to the keys, or write `keypad_lead` of a longer lead that its maker offers",
            )
