"""Misprints of sources: ``errata.toml`` among the published values, a list ``[[erratum]]``.

Each names a `source` and the place `at`, a `relation`, what is `printed`, what it `should_be`, how
it was `read` and the `reason` to take it for a misprint. Where `inputs` are given, both are
numbers: the relation has to disagree with the one and agree with the other.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.core.record import records
from reefchem.examples.printed import half_last_digit, parse_printed

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

__all__ = ["Erratum", "errata"]

_NEEDED = ("source", "at", "relation", "printed", "should_be", "read", "reason")


@dataclass(frozen=True)
class Erratum:
    """A misprint.

    Attributes
    ----------
    source, at, read
        Where it stands and how it was read.
    relation
        What it concerns.
    printed, should_be
        As printed, and what stands there in its right form.
    reason
        Why it is taken for a misprint.
    inputs
        Of the relation, where both are its results.
    """

    source: str
    at: str
    relation: str
    printed: str
    should_be: str
    read: str
    reason: str
    inputs: Mapping[str, str] = field(default_factory=dict)

    def faults(self) -> list[str]:
        """Return what speaks against it: a misprint that is right, or a correction that is not."""
        if not self.inputs:
            return []
        where = f"{self.source}, {self.at}"
        inputs = {name: parse_printed(text, where) for name, text in self.inputs.items()}
        computed = float(records()[self.relation].function(**inputs))
        said = f"{where}: {self.relation} computes {computed:.10g}"
        found = []
        if _agrees(computed, self.printed, where):
            found.append(f"{said}, as printed ({self.printed}); that is no misprint")
        if not _agrees(computed, self.should_be, where):
            found.append(f"{said}, not {self.should_be} as it is said to be right")
        return found


def _agrees(computed: float, text: str, where: str) -> bool:
    return abs(computed - parse_printed(text, where)) <= half_last_digit(text, where) * (1 + 1e-9)


def errata(folder: Path) -> list[Erratum]:
    """Return the misprints that a folder of published values knows of.

    Raises
    ------
    DomainError
        When an entry lacks a key, has an unknown one, or names no relation.
    """
    path = folder / "errata.toml"
    if not path.exists():
        return []
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    entries: list[dict[str, Any]] = data.get("erratum", [])
    return [_read(entry, f"{path.name}, erratum {n}") for n, entry in enumerate(entries, 1)]


def _read(entry: dict[str, Any], where: str) -> Erratum:
    missing = [key for key in _NEEDED if not entry.get(key)]
    unknown = sorted(entry.keys() - {*_NEEDED, "inputs"})
    if missing or unknown:
        msg = f"{where}: missing {missing}, unknown {unknown}"
        raise DomainError(msg)
    if entry["relation"] not in records():
        msg = f"{where}: no relation is called {entry['relation']!r}"
        raise DomainError(msg)
    return Erratum(**entry)
