"""Drawings of a build: circuit-diagram sheets as SVG. `sheets` makes them all."""

from __future__ import annotations

from buildspec.drawings.sheet_set import sheets

__all__ = ["sheets"]
