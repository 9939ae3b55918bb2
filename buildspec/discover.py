"""Modules of a package, in sorted order: one file adds a rule or a document, nothing is registered."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterable, Mapping
from types import ModuleType


def names(package: ModuleType) -> tuple[str, ...]:
    """File names of the package's modules without importing them, sorted; private ones are left out."""
    found = (info.name for info in pkgutil.iter_modules(package.__path__))
    return tuple(sorted(name for name in found if not name.startswith("_")))


def modules(package: ModuleType, *, required: Iterable[str] = ()) -> Mapping[str, ModuleType]:
    """The package's modules by name. Raises TypeError for one that lacks a required attribute."""
    found = {name: importlib.import_module(f"{package.__name__}.{name}") for name in names(package)}
    for name, module in found.items():
        missing = [attribute for attribute in required if not hasattr(module, attribute)]
        if missing:
            raise TypeError(f"{package.__name__}.{name} lacks {', '.join(missing)}")
    return found
