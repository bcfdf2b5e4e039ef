"""What a calculation gives for some inputs, part by part, as text and as JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.core.sources import citation
from reefchem.export.calculations import parts_of
from reefchem.export.vector import page_of
from reefchem.formula.digits import prose_number, significant
from reefchem.formula.units import plain_unit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.record import Record

__all__ = ["EveryPart", "every_part"]


@dataclass(frozen=True)
class EveryPart:
    """The numbers of a calculation, with their units."""

    record: Record
    inputs: Mapping[str, Any]
    values: Mapping[str, float]
    digits: int

    def text(self) -> str:
        """Return a line for each number, and the source."""
        units = parts_of(self.record)
        wide = max(map(len, self.values))
        lines = [f"{self.record.name}: {self.record.summary}"]
        for name, value in self.values.items():
            shown = prose_number(significant(value, self.digits))
            lines.append(f"  {name:<{wide}} = {shown} {plain_unit(units[name])}".rstrip())
        lines.append(f"by {citation(self.record.source)}, {self.record.at}")
        lines.append(f"explained in the book at {page_of(self.record.name)}")
        return "\n".join(lines)

    def data(self) -> dict[str, Any]:
        """Return the same as dicts, texts and numbers, with all digits."""
        units = parts_of(self.record)
        return {
            "calculation": self.record.name,
            "inputs": dict(self.inputs),
            "parts": {n: {"value": v, "unit": units[n]} for n, v in self.values.items()},
            "source": self.record.source,
            "cited": citation(self.record.source),
            "at": self.record.at,
        }


def every_part(
    record: Record, inputs: Mapping[str, Any], *, only: str = "", digits: int = 6
) -> EveryPart:
    """Return the numbers that a calculation gives.

    Parameters
    ----------
    record
        Of the calculation.
    inputs
        Number by argument; choices of constants as text.
    only
        The one part that is wanted; all when left out.

    Raises
    ------
    TypeError, DomainError
        When inputs are missing or impossible, or there is no such part.
    """
    result = record.function(**inputs)
    if only and only not in parts_of(record):
        msg = f"{record.name} has no part {only!r}; there is {', '.join(parts_of(record))}"
        raise DomainError(msg)
    names = [only] if only else list(parts_of(record))
    found = {name: getattr(result, name) for name in names}
    numbers = {name: float(v) for name, v in found.items() if isinstance(v, int | float)}
    return EveryPart(record, inputs, numbers, digits)
