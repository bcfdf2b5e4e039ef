"""Published values: ``shared/published/<source>.toml``, digits as printed, place beside each.

A file has a key `source` and a list `[[value]]`. Each value names a `relation` (or a calculation
and one `part` of its result), its `inputs` as text in the recorded units, the `printed` text, and
the place `at` which it stands. Further keys:

`unit`
    Of the printed value, when it is not the recorded one.
`as`
    ``"ln"``, ``"log10"`` or ``"-log10"`` when the source prints that of the value.
`read`
    ``"primary"`` (the document was read), ``"secondary"`` (a transcription was read) or
    ``"memory"``.
`tolerance`, `reason`
    Instead of half a unit of the last digit, and why.
`options`
    Options of the relation, as text.
"""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.core.quantity import quantity
from reefchem.core.record import calculations, records
from reefchem.examples.printed import half_last_digit, parse_printed

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["PublishedValue", "published", "published_values"]

_KEYS = frozenset(
    "relation part inputs options printed unit as at read tolerance reason note".split()
)
_READ = frozenset({"primary", "secondary", "memory"})
_AS: dict[str, Callable[[float], float]] = {
    "": float,
    "ln": math.log,
    "log10": math.log10,
    "-log10": lambda value: -math.log10(value),
}


@dataclass(frozen=True)
class PublishedValue:
    """A value that somebody else printed.

    Attributes
    ----------
    relation, part
        What it checks; `part` is a field of the result of a calculation, or empty.
    inputs, options
        As given, in the recorded units.
    printed, unit
        The text as printed; its unit.
    scale
        ``"ln"`` and so on when the source prints that of the value.
    source, at, read
        Where it stands and how it was read.
    tolerance
        Largest difference that counts as agreement, in the printed unit.
    reason
        Why the tolerance is not half a unit of the last digit.
    """

    relation: str
    part: str
    inputs: Mapping[str, float]
    options: Mapping[str, Any]
    printed: str
    unit: str
    scale: str
    source: str
    at: str
    read: str
    tolerance: float
    reason: str = ""
    note: str = field(default="", compare=False)

    def __str__(self) -> str:
        given = ",".join(f"{name}={value:g}" for name, value in self.inputs.items())
        part = f".{self.part}" if self.part else ""
        return f"{self.source}:{self.relation}{part}({given})={self.printed}"

    @property
    def value(self) -> float:
        """The printed number."""
        return parse_printed(self.printed, str(self.source))

    def computed(self) -> float:
        """Return what the package computes, in the printed unit and scale."""
        known = records() | calculations()
        record = known[self.relation]
        result = record.function(**self.inputs, **self.options)
        if self.part:
            result = getattr(result, self.part)
        elif self.unit != record.unit:
            result = quantity(result, record.unit).to(self.unit).magnitude
        return float(_AS[self.scale](result))

    def deviation(self) -> float:
        """Return computed minus printed, in the printed unit."""
        return self.computed() - self.value

    def agrees(self) -> bool:
        """Return whether the package agrees with the printed value."""
        return abs(self.deviation()) <= self.tolerance * (1 + 1e-9)


def published(source: str, folder: Path) -> list[PublishedValue]:
    """Return the published values of one source, in the order of its file."""
    return _read(folder / f"{source}.toml")


def published_values(folder: Path) -> list[PublishedValue]:
    """Return the published values of every source."""
    return [value for path in sorted(folder.glob("*.toml")) for value in _read(path)]


def _read(path: Path) -> list[PublishedValue]:
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    return [
        _value(entry, data["source"], f"{path.name}, value {index}")
        for index, entry in enumerate(data.get("value", []), 1)
    ]


def _value(entry: dict[str, Any], source: str, where: str) -> PublishedValue:
    unknown = entry.keys() - _KEYS
    if unknown:
        msg = f"{where}: unknown key {sorted(unknown)}; known are {sorted(_KEYS)}"
        raise DomainError(msg)
    read, scale = entry.get("read", ""), entry.get("as", "")
    if read not in _READ or scale not in _AS:
        msg = f"{where}: read is one of {sorted(_READ)} and as one of {sorted(_AS)}"
        raise DomainError(msg)
    if ("tolerance" in entry) != ("reason" in entry):
        msg = f"{where}: a tolerance of its own needs a reason, and the other way round"
        raise DomainError(msg)
    printed, part = entry["printed"], entry.get("part", "")
    known = records() | calculations()
    if entry["relation"] not in known:
        msg = f"{where}: no relation is called {entry['relation']!r}"
        raise DomainError(msg)
    tolerance = (
        parse_printed(entry["tolerance"], where)
        if "tolerance" in entry
        else half_last_digit(printed, where)
    )
    inputs = {k: parse_printed(v, f"{where}: {k}") for k, v in entry.get("inputs", {}).items()}
    return PublishedValue(
        relation=entry["relation"],
        part=part,
        inputs=inputs,
        options=entry.get("options", {}),
        printed=printed,
        unit=entry.get("unit", known[entry["relation"]].unit),
        scale=scale,
        source=source,
        at=entry["at"],
        read=read,
        tolerance=tolerance,
        reason=entry.get("reason", ""),
        note=entry.get("note", ""),
    )
