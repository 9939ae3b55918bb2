"""Standard conductor sizes with their resistance.

AWG: 17.241 / area, times 1.02 for stranding. Metric: the class 5 limit of IEC 60228 for plain copper;
for sizes that it does not list, 17.241 / area times 1.157, the largest ratio in that class, because a
nominal area is more than the copper in it.
"""

from __future__ import annotations

import functools
from typing import Literal, NamedTuple

from buildspec.tabledata import rows

System = Literal["awg", "metric"]


class Conductor(NamedTuple):
    """One standard size; `verified` marks the resistance, `diameter_verified` the outside diameter.

    `outside_diameter_mm` is over the insulation of a thin-wall single wire, None where no source gives
    one. A size that is not `stocked` has a name and an ampacity but no wire in the trade lists.
    """

    name: str
    system: str
    area_mm2: float
    r20_ohm_per_km: float
    source: str
    verified: str
    outside_diameter_mm: float | None
    diameter_source: str
    diameter_verified: str
    stocked: bool


@functools.cache
def _all() -> dict[str, Conductor]:
    return {row["name"]: _conductor(row) for row in rows("conductors")}


def _conductor(row: dict[str, str]) -> Conductor:
    return Conductor(
        name=row["name"],
        system=row["system"],
        area_mm2=float(row["area_mm2"]),
        r20_ohm_per_km=float(row["r20_ohm_per_km"]),
        source=row["source"],
        verified=row["verified"],
        outside_diameter_mm=float(row["outside_diameter_mm"]) if row["outside_diameter_mm"] else None,
        diameter_source=row["diameter_source"],
        diameter_verified=row["diameter_verified"],
        stocked=row["stocked"] == "yes",
    )


@functools.cache
def conductors(system: System) -> tuple[Conductor, ...]:
    """Stocked sizes of one system, ascending by area.

    Parameters
    ----------
    system : str
        `awg` (20 AWG to 4/0 AWG) or `metric` (0.35 mm2 to 120 mm2). [-]

    Returns
    -------
    tuple of Conductor
        Sizes to choose from. [mm2]

    Examples
    --------
    >>> conductors("awg")[0].name, conductors("metric")[-1].name
    ('20 AWG', '120 mm2')

    References
    ----------
    astm-b258
    iec-60228
    """
    found = [c for c in _all().values() if c.system == system and c.stocked]
    return tuple(sorted(found, key=lambda c: c.area_mm2))


def conductor(name: str) -> Conductor | None:
    """The size of one name, stocked or not.

    Parameters
    ----------
    name : str
        Such as `14 AWG`, `2/0 AWG` or `2.5 mm2`. [-]

    Returns
    -------
    Conductor or None
        None for a name that is no standard size. [mm2]

    Examples
    --------
    >>> conductor("2.5 mm2").r20_ohm_per_km
    7.98

    References
    ----------
    iec-60228
    """
    return _all().get(name)
