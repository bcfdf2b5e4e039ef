"""One number from anywhere: whether it agrees, how far off it is, what was probably done."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from reefchem.core.boundary import checked_values
from reefchem.core.errors import DomainError
from reefchem.core.quantity import conversion
from reefchem.core.sources import citation
from reefchem.examples.printed import half_last_digit, parse_printed
from reefchem.export.asked_for import asked_for, with_options
from reefchem.export.mistakes import Slip, likely_slips
from reefchem.export.typed_input import number_and_unit, taken, with_unit
from reefchem.export.vector import page_of
from reefchem.formula.digits import concise, prose_number
from reefchem.formula.units import plain_unit
from reefchem.formula.working import misnamed

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
            near = f"within {concise(self.within, 3)} {unit}".strip()
            return f"{claimed} agrees, {near}\n{right}\n{source}"
        lines = [
            f"{claimed} differs by {_difference(self.claimed, self.right, unit)}",
            right,
            source,
        ]
        for slip in self.slips:
            gives = prose_number(concise(slip.value, 5))
            lines.append(f"perhaps {slip.name}: {slip.explanation} ({gives})")
        if not self.slips:
            lines.append("no usual slip leads to this number; compare step by step: reefchem work")
        name = self.record.name.partition(".")[0]
        lines.append(f"explained in the book at {page_of(name)}")
        return "\n".join(lines)


def check_claim(
    relation: str, inputs: Mapping[str, Any], claimed: str, within: str | None = None
) -> Claim:
    """Return the judgement on a claimed result.

    Parameters
    ----------
    relation
        Name of the relation, or of a calculation and its part, as ``"carbonate_system.ph_total"``.
    inputs
        Number or quantity by argument; a choice of constants is text.
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
    record = asked_for(relation)
    options = {name: value for name, value in inputs.items() if name in record.options}
    if options:
        record = with_options(record, options)
    if odd := misnamed(record, (name for name in inputs if name not in options)):
        msg = f"{relation}: {odd}. {taken(record)}"
        raise TypeError(msg)
    values = tuple(inputs.get(name, record.defaults.get(name)) for name in record.arguments)
    bare, _ = checked_values(record.name, record.arguments, values, record.defaults)
    given = zip(record.arguments, bare, strict=True)
    known = {name: float(value) for name, value in given if value is not None}
    right = float(record.function(**known))
    number, unit = number_and_unit(claimed, "result")
    value, tolerance = parse_printed(number, "result"), half_last_digit(number, "result")
    if unit:
        typed = with_unit(1.0, unit, record.unit, "result")
        factor, offset = conversion(typed, record.unit, "result")
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


def _difference(claimed: float, right: float, unit: str) -> str:
    """Return how far a claim is off: as a difference and a share, or as a factor when large."""
    off = f"{prose_number(concise(claimed - right, 4))} {unit}".strip()
    if not right:
        return off
    ratio = claimed / right
    if ratio > 3 or 0 < ratio < 1 / 3:
        return f"{off}: it is {prose_number(concise(ratio, 3))} times the right number"
    return f"{off} ({prose_number(concise(100 * (ratio - 1), 2))} %)"


def _shown(value: float) -> str:
    return prose_number(concise(value, 10))
