"""All relations as JavaScript: the same operations in the same order as the Python bodies."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from reefchem.formula.javascript import function_source, needed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reefchem.core.record import Record

__all__ = ["functions_source", "runtime"]


def runtime() -> str:
    """Return the few functions that generated code stands on: root finding, numbers as text."""
    return files("reefchem.export").joinpath("runtime.js").read_text(encoding="utf-8")


def functions_source(records: Iterable[Record]) -> str:
    """Return the functions of the relations, and of all that they call, called ones first."""
    return "\n\n".join(function_source(record) for record in needed(records))
