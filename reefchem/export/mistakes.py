"""Likely mistakes: what a wrong number would be if a usual slip had been made.

Each slip gives the number that it leads to. A claim that agrees with such a number, and not with
the right one, was probably made that way.
"""

from __future__ import annotations

import contextlib
import warnings
from typing import TYPE_CHECKING

from reefchem.core.errors import DomainError, RangeWarning
from reefchem.core.record import calculations, records
from reefchem.export.calculations import OPTIONS, parts_of
from reefchem.export.slip import Slip, again
from reefchem.export.slips_of_setting import of_ph_scale, of_reference, of_temperature
from reefchem.export.slips_of_substance import of_kilogram, of_substance
from reefchem.export.slips_of_unit import (
    of_alkalinity_unit,
    of_factor,
    of_share,
    of_volume,
    turned_round,
)
from reefchem.formula.units import plain_unit

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from reefchem.core.record import Record

__all__ = ["Slip", "likely_slips", "slips"]

CLOSE = 2e-4
"""Share of a number within which a claim is taken to be that number."""

FAR = 0.03
"""Share of the right number beyond which a claim that nothing explains is compared roughly."""

ROUGHLY = 5e-3
"""Share within which it then is."""

MOST = 3
"""How many slips are told."""


def likely_slips(
    record: Record, inputs: Mapping[str, float], right: float, claimed: float, within: float
) -> list[Slip]:
    """Return the slips that lead to a claimed number, the nearest first.

    Parameters
    ----------
    record, inputs, right
        The relation, its inputs in the recorded units, and its result.
    claimed
        The number to explain, in the recorded unit.
    within
        How far from a number the claim still agrees with it, for rounding.
    """
    every = list(slips(record, inputs, right))
    close = max(within, min(CLOSE * abs(claimed), abs(claimed - right) / 3))
    found = _nearest(every, right, claimed, close)
    if not found and abs(claimed - right) > FAR * abs(right):
        found = _nearest(every, right, claimed, max(close, ROUGHLY * abs(claimed)))
    return found


def _nearest(every: list[Slip], right: float, claimed: float, near: float) -> list[Slip]:
    """Return those within reach, one of each kind; numbers too coarse to tell are left out."""
    found: dict[str, Slip] = {}
    for slip in every:
        off = abs(claimed - slip.value)
        tells = near < abs(slip.value - right) and (not slip.value or near < 0.1 * abs(slip.value))
        kept = found.get(slip.name)
        if off <= near and tells and (kept is None or off < abs(claimed - kept.value)):
            found[slip.name] = slip
    return sorted(found.values(), key=lambda slip: abs(claimed - slip.value))[:MOST]


def slips(record: Record, inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    """Give every slip that could happen with a relation."""
    yield from of_temperature(record, inputs)
    yield from of_reference(record, inputs)
    yield from of_kilogram(record, inputs, right)
    yield from of_substance(record, right)
    yield from of_ph_scale(record, inputs, right)
    yield from of_alkalinity_unit(record, inputs, right)
    yield from of_volume(record, inputs)
    yield from of_share(record, inputs, right)
    yield from _of_neighbour(record, inputs)
    yield from _of_part(record, inputs)
    yield from of_factor(right)
    yield from turned_round(inputs, right)


def _of_neighbour(record: Record, inputs: Mapping[str, float]) -> Iterator[Slip]:
    """Give what other relations make of the same inputs: another source, another unit."""
    asked = {name: argument.unit for name, argument in record.arguments.items()}
    for other in records().values():
        taken = {name: argument.unit for name, argument in other.arguments.items()}
        if other.name == record.name or taken != asked:
            continue
        made = again(other, inputs)
        if made is not None:
            unit = plain_unit(other.unit)
            said = f"{other.name}{f', in {unit}' if unit else ''}, has this result"
            yield Slip("another relation", said, made)


def _of_part(record: Record, inputs: Mapping[str, float]) -> Iterator[Slip]:
    """Give other parts of the same calculation, and what other constants make of this one."""
    whole, _, part = record.name.partition(".")
    calculation = calculations().get(whole)
    if calculation is None:
        return
    options = {name: record.options[name] for name in OPTIONS.get(whole, {})}
    units = parts_of(calculation)
    with contextlib.suppress(DomainError), warnings.catch_warnings():
        warnings.simplefilter("ignore", RangeWarning)
        result = calculation.function(**inputs, **options)
        for other, unit in units.items():
            if other != part and unit == units[part] and other not in inputs:
                said = f"this is {other}, not {part}"
                yield Slip("another part", said, float(getattr(result, other)))
        for name, known in OPTIONS.get(whole, {}).items():
            for one in known:
                result = calculation.function(**inputs, **(options | {name: one}))
                said = f"{name}={one} was chosen, which is no mistake"
                yield Slip("other constants", said, float(getattr(result, part)))
