"""Slips in units and factors: hardness degrees, gallons, percentages, powers of ten, rounding."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.core.atoms import molar_mass
from reefchem.core.constants import LN10
from reefchem.core.quantity import IMPERIAL_GALLON, US_GALLON
from reefchem.export.slip import Slip, again, changed

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from reefchem.core.record import Record

__all__ = ["of_alkalinity_unit", "of_factor", "of_share", "of_volume", "turned_round"]

CALCIUM_CARBONATE = molar_mass("CaCO3") / 2
"""Milligrams of CaCO3 to a milliequivalent."""

DEGREE = 2 * 10 / molar_mass("CaO")
"""Milliequivalents to a German degree, in a litre."""

UNITS = {
    "meq/L": 1.0,
    "dKH": 1 / DEGREE,
    "mg/L CaCO3": CALCIUM_CARBONATE,
    "mg/L HCO3": molar_mass("HCO3-"),
    "°f (French degrees)": CALCIUM_CARBONATE / 10,
}
"""What a milliequivalent in a litre is in each unit of alkalinity."""

RECORDED = {
    "meq/L": "meq/L",
    "dKH": "dKH",
    "ppm_CaCO3": "mg/L CaCO3",
    "French_degree": "°f (French degrees)",
}
"""The same units by the way records write them."""

ROUNDED = {
    "2.8 dKH to a meq/L": 2.8 * DEGREE,
    "50 mg of CaCO3 to a meq": 50 / CALCIUM_CARBONATE,
    "17.9 mg/L CaCO3 to a degree": 17.9 / (DEGREE * CALCIUM_CARBONATE),
    "0.36 meq/L to a degree": 0.36 / DEGREE,
}
"""Factors that are in use, over what the atomic weights say."""


def of_alkalinity_unit(record: Record, inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    """Give one unit of alkalinity for another, in the result or in an input, and rounded ones."""
    units = {record.unit, *(argument.unit for argument in record.arguments.values())}
    if not units & RECORDED.keys():
        return
    own = _own_unit(record)
    for unit, size in UNITS.items():
        if own and unit != own:
            said = f"the result is in {unit}, not in {own}"
            yield Slip("alkalinity unit", said, right * size / UNITS[own])
    for name, argument in record.arguments.items():
        taken = RECORDED.get(argument.unit)
        for unit, size in UNITS.items():
            if taken and name in inputs and unit != taken:
                shown = name.replace("_", " ")
                said = f"the {shown} was given in {unit}, where {taken} is expected"
                value = inputs[name] * size / UNITS[taken]
                yield from changed(record, inputs, name, value, "alkalinity unit", said)
                said = f"{shown}: {taken} was taken for {unit}"
                value = inputs[name] * UNITS[taken] / size
                yield from changed(record, inputs, name, value, "alkalinity unit", said)
    for told, ratio in ROUNDED.items():
        for value in (right * ratio, right / ratio):
            off = f"{100 * abs(ratio - 1):.2g} %"
            said = f"{told} was used, which is {off} off"
            yield Slip("rounded factor", said, value)


def _own_unit(record: Record) -> str | None:
    """Return the unit of alkalinity that a result is in, if any; a name says what a mass is of."""
    if record.unit == "mg/L":
        whose = {"calcium_carbonate": "mg/L CaCO3", "bicarbonate": "mg/L HCO3"}
        return next((unit for word, unit in whose.items() if record.name.endswith(word)), None)
    return RECORDED.get(record.unit)


def of_volume(record: Record, inputs: Mapping[str, float]) -> Iterator[Slip]:
    """Give gallons where litres are expected."""
    for name, argument in record.arguments.items():
        if argument.unit != "L" or name not in inputs:
            continue
        for label, size in (("US gallons", US_GALLON), ("imperial gallons", IMPERIAL_GALLON)):
            said = f"the {name.replace('_', ' ')} was in {label}, where litres are expected"
            yield from changed(record, inputs, name, inputs[name] * size, "gallons", said)
            yield from changed(record, inputs, name, inputs[name] / size, "gallons", said)


def of_share(record: Record, inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    """Give a percentage for a share, in an input or in the result, and purity left out."""
    for name, argument in record.arguments.items():
        if argument.unit != "1" or name not in inputs or argument.span[1] > 1:
            continue
        shown = name.replace("_", " ")
        said = f"the {shown} was given in per cent, where a share of 1 is expected"
        yield from changed(record, inputs, name, inputs[name] * 100, "per cent", said)
        if inputs[name] != 1:
            said = f"the {shown} was left out, or taken as 1"
            yield from changed(record, inputs, name, 1.0, "left out", said)
            multiplied = again(record, inputs, **{name: 1.0})
            if multiplied is not None and "purity" in name:
                said = "the mass was multiplied by the purity instead of divided"
                yield Slip("purity", said, multiplied * inputs[name])
    if {"share", "changes"} <= inputs.keys():
        once = {"share": inputs["share"] * inputs["changes"], "changes": 1.0}
        added = again(record, inputs, **once)
        if added is not None:
            yield Slip("added up", "the shares were added up; each acts on what is left", added)
    if record.unit == "1":
        yield Slip("per cent", "the result is in per cent, not a share of 1", right * 100)


def of_factor(right: float) -> Iterator[Slip]:
    """Give powers of ten, equivalents for moles, a sign, a logarithm to another base."""
    for factor, said in (
        (1000.0, "a thousand times too large: milli for one, or grams for kilograms"),
        (0.001, "a thousand times too small: one for milli, or kilograms for grams"),
        (2.0, "twice: two equivalents were counted for each mole, or the other way round"),
        (0.5, "half: one mole was counted for two equivalents, or the other way round"),
        (-1.0, "the sign is turned round"),
        (LN10, "ln 10 too large: a natural logarithm for a decimal one"),
        (1 / LN10, "ln 10 too small: a decimal logarithm for a natural one"),
    ):
        yield Slip("factor", said, right * factor)


def turned_round(inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    """Give what comes of dividing where a conversion multiplies."""
    if len(inputs) == 1 and right:
        (given,) = inputs.values()
        said = "the conversion was done the other way round"
        yield Slip("direction", said, given * given / right)
