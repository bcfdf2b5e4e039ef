"""One number from anywhere: whether it agrees, how far off it is, what was probably done."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from reefchem.core.boundary import checked_values
from reefchem.core.errors import DomainError
from reefchem.core.quantity import conversion, quantity
from reefchem.core.record import describe
from reefchem.core.sources import citation
from reefchem.examples.printed import half_last_digit, parse_printed
from reefchem.export.mistakes import Slip, likely_slips
from reefchem.formula.digits import concise, prose_number
from reefchem.formula.units import plain_unit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.record import Record

__all__ = ["Claim", "check_claim"]


@dataclass(frozen=True)
class Claim:
    """A claimed result beside the right one, both in the recorded unit.

    Attributes
    ----------
    within
        Largest difference that agrees.
    slips
        Usual mistakes that lead to the claimed number.
    """

    record: Record
    inputs: Mapping[str, float]
    right: float
    claimed: float
    within: float
    slips: tuple[Slip, ...]

    @property
    def agrees(self) -> bool:
        """Whether the claim is near enough."""
        return abs(self.claimed - self.right) <= self.within * (1 + 1e-9)

    def data(self) -> dict[str, Any]:
        """Return the judgement as dicts, lists, texts and numbers, as JSON has them."""
        return {
            "relation": self.record.name,
            "inputs": dict(self.inputs),
            "agrees": self.agrees,
            "claimed": self.claimed,
            "right": self.right,
            "within": self.within,
            "unit": self.record.unit,
            "perhaps": [slip.explanation for slip in self.slips],
            "source": self.record.source,
            "cited": citation(self.record.source),
            "at": self.record.at,
        }

    def __str__(self) -> str:
        unit = plain_unit(self.record.unit)
        given = ", ".join(f"{name}={concise(x, 10)}" for name, x in self.inputs.items())
        right = f"{self.record.name}({given}) = {_shown(self.right)} {unit}".strip()
        source = f"by {citation(self.record.source)}, {self.record.at}"
        claimed = f"{_shown(self.claimed)} {unit}".strip()
        if self.agrees:
            return f"{claimed} agrees\n{right}\n{source}"
        off = self.claimed - self.right
        share = f", {prose_number(concise(100 * off / self.right, 2))} %" if self.right else ""
        lines = [f"{claimed} differs by {prose_number(concise(off, 4))}{share}", right, source]
        lines += [f"perhaps {slip.name}: {slip.explanation}" for slip in self.slips]
        lines.append(f"explained in the book at relations.html#{self.record.name}")
        return "\n".join(lines)


def check_claim(
    relation: str, inputs: Mapping[str, Any], claimed: str, within: str | None = None
) -> Claim:
    """Return the judgement on a claimed result.

    Parameters
    ----------
    relation
        Name of the relation.
    inputs
        Number or quantity by argument.
    claimed
        The result as text, so that its digits count; with a unit if not the recorded one.
    within
        What still agrees, as ``"0.5 %"`` or a number; half a unit of the last digit otherwise.

    Raises
    ------
    KeyError
        When there is no such relation.
    TypeError, DomainError
        When inputs are missing, unknown or impossible, or a text is no number.
    """
    record = describe(relation)
    unknown = [name for name in inputs if name not in record.arguments]
    missing = [n for n in record.arguments if n not in inputs and n not in record.defaults]
    if unknown or missing:
        msg = f"{relation} takes {list(record.arguments)}; unknown {unknown}, missing {missing}"
        raise TypeError(msg)
    values = tuple(inputs.get(name, record.defaults.get(name)) for name in record.arguments)
    bare, _ = checked_values(record.name, record.arguments, values, record.defaults)
    known = dict(zip(record.arguments, map(float, bare), strict=True))
    right = float(record.function(**known))
    number, _, unit = claimed.strip().partition(" ")
    value, tolerance = parse_printed(number, "result"), half_last_digit(number, "result")
    if unit.strip():
        factor, offset = conversion(quantity(1.0, unit.strip()), record.unit, "result")
        value, tolerance = value * factor + offset, tolerance * abs(factor)
    if within is not None:
        tolerance = _tolerance(within, right)
    slips = () if abs(value - right) <= tolerance else likely_slips(
        record, known, right, value, tolerance
    )  # fmt: skip
    return Claim(record, known, right, value, tolerance, tuple(slips))


def _tolerance(text: str, right: float) -> float:
    plain = text.strip()
    share = plain.endswith("%")
    size = parse_printed(plain.removesuffix("%").strip(), "within")
    if not math.isfinite(size) or size < 0:
        msg = f"within is {text!r}; a number from 0 up, or a percentage, is expected"
        raise DomainError(msg)
    return abs(right) * size / 100 if share else size


def _shown(value: float) -> str:
    return prose_number(concise(value, 10))
