"""Charts of a build, where people would rather look than read. `charts` makes them all."""

from __future__ import annotations

from buildspec.drawings.charts.chart_set import charts

__all__ = ["charts"]
