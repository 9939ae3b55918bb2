"""Which circuit is drawn on which sheet. Nothing is placed here but by count."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from buildspec.drawings import labels
from buildspec.model import Circuit, Resolved

MOST_ROWS = 16
FEW_ROWS = 5
DIRECT_ON_SUPPLY = 4


class Section(NamedTuple):
    """Rows that hang on one source, commands, or what joins several items. `kind`: `host`, `signals`, `branches`."""

    kind: str
    host: str
    rows: tuple[Circuit, ...]
    part: str = ""
    """`1/2` when a source goes on over several sheets."""


class Ladder(NamedTuple):
    """A sheet of sections."""

    slug: str
    title: str
    sections: tuple[Section, ...]


Fits = Callable[[Sequence[Section]], bool]
"""Is there room for these sections on one sheet?"""


class Split(NamedTuple):
    """Circuits of the supply sheet, and the sheets of ladders after it."""

    supply: tuple[Circuit, ...]
    direct: tuple[str, ...]
    """Batteries whose own loads have a sheet."""
    ladders: tuple[Ladder, ...]


LEFT_OVER = (
    ("branches", "between", "Between the items"),
    ("signals", "commands", "Signals and coils"),
)
"""Kind, slug and title of the sheets of what finds no room beside its circuits."""


def split(build: Resolved, fits: Fits, *, loads_on_supply: bool) -> Split:
    """Every circuit on exactly one sheet; a few loads straight from a battery may stand on the supply sheet."""
    straight = [c for c in build.circuits if c.source in build.batteries and c.kind in ("load", "reserve")]
    drawn_here = (
        loads_on_supply and len(straight) <= DIRECT_ON_SUPPLY and all(len(c.contacts) < 2 for c in straight)
    )
    on_supply = tuple(c for c in build.circuits if is_supply(build, c) or (drawn_here and c in straight))
    drawn = {c.key for c in on_supply}
    batteries = tuple(n for n in build.batteries if not drawn_here and any(c.source == n for c in straight))
    rest = [c for c in build.circuits if c.key not in drawn]
    # feeds of the vehicle whose every circuit is on the supply sheet have none of their own
    unseen = {n for n, b in build.blocks.items() if b.feed and not any(c.source == n for c in rest)}
    hosts = (*build.panels, *(n for n in build.blocks if n not in unseen), *batteries)
    pages: list[Ladder] = []
    commands = [c for c in rest if c.source not in hosts]
    for host in hosts:
        mine = sorted((c for c in rest if c.source == host), key=position)
        pages += sheets_of(build, host, mine, commands, fits)
    left = [c for c in commands if not any(c in s.rows for p in pages for s in p.sections)]
    for kind, slug, title in LEFT_OVER:
        mine = [c for c in left if (c.kind == "branch") == (kind == "branches")]
        for number, part in enumerate(divided(mine, kind, "", fits) if mine else ()):
            pages.append(Ladder(f"{slug}-{number + 1}", title, (part,)))
    return Split(on_supply, batteries, tuple(shared(build, pages, fits)))


def is_supply(build: Resolved, circuit: Circuit) -> bool:
    """Batteries, what joins them, what charges them, and what leaves them for a block or a panel."""
    if circuit.kind in ("charge-in", "charge-out", "link", "bond", "tie"):
        return True
    if circuit.kind == "feeder":
        return circuit.source in build.batteries
    charger = build.isolation.get(circuit.item)
    return circuit.kind == "signal" and charger is not None and charger.type == "dc-dc"


def position(circuit: Circuit) -> tuple[int, int]:
    """By position in the block or panel; a module's negative comes last."""
    if circuit.kind == "module":
        return 1, 0
    places = [p.position for p in circuit.protections if p.host]
    pins = [w.start.pin for w in circuit.feeds[:1] if w.start.pin.isdigit()]
    return 0, places[0] if places else int(pins[0]) if pins else 0


def parts(rows: list[Circuit], most: int) -> Iterable[tuple[Circuit, ...]]:
    """As few parts as possible, as even as possible."""
    count = -(-len(rows) // most)
    start = 0
    for number in range(count):
        size = len(rows) // count + (1 if number < len(rows) % count else 0)
        yield tuple(rows[start : start + size])
        start += size


def divided(rows: list[Circuit], kind: str, host: str, fits: Fits) -> list[Section]:
    """Rows of one source as sections, each on a sheet of its own."""
    for most in range(MOST_ROWS, 0, -1):
        made = list(parts(rows, most))
        count = len(made)
        sections = [
            Section(kind, host, p, f"{n}/{count}" if count > 1 else "") for n, p in enumerate(made, start=1)
        ]
        if all(fits([s]) for s in sections):
            break
    return sections or [Section(kind, host, ())]


def sheets_of(
    build: Resolved, host: str, rows: list[Circuit], commands: list[Circuit], fits: Fits
) -> Iterable[Ladder]:
    """The sheets of one source; commands of its circuits go with them where there is room."""
    name = f"{labels.designation(build, host)} {labels.title(build, host)}"
    for section in divided(rows, "host", host, fits):
        keys = {c.key for c in section.rows} | {c.item for c in section.rows if c.kind != "reserve"}
        kept: tuple[Section, ...] = (section,)
        for kind in ("branches", "signals"):
            mine = tuple(
                c for c in commands if c.item in keys and (c.kind == "branch") == (kind == "branches")
            )
            more = (*kept, Section(kind, "", mine))
            kept = more if mine and fits(more) else kept
        slug = host + (f"-{section.part[:-2]}" if section.part else "")
        yield Ladder(slug.partition("/")[0], name + (f" ({section.part})" if section.part else ""), kept)


def few(page: Ladder) -> bool:
    return sum(len(s.rows) for s in page.sections) <= FEW_ROWS


def shared(build: Resolved, pages: list[Ladder], fits: Fits) -> list[Ladder]:
    """A source with few circuits shares a sheet with a neighbour; no sheet stays half empty for it."""
    made: list[Ladder] = []
    for page in pages:
        last = made[-1] if made else None
        if last is not None and (few(last) or few(page)) and fits((*last.sections, *page.sections)):
            made[-1] = joined(build, last, page)
        else:
            made.append(page)
    return made


def joined(build: Resolved, first: Ladder, second: Ladder) -> Ladder:
    """Two sheets on one, named after all that is on it."""
    sections = (*first.sections, *second.sections)
    hosts = [labels.designation(build, s.host) for s in sections if s.host]
    title = f"Circuits of {labels.listed(hosts)}" if len(set(hosts)) > 1 else first.title
    return Ladder(first.slug, title, sections)
