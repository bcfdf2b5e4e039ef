"""Likely mistakes: what a wrong number would be if a usual slip had been made.

Each slip gives the number that it leads to. A claim that agrees with such a number, and not with
the right one, was probably made that way.
"""

from __future__ import annotations

import contextlib
import warnings
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.atoms import molar_mass
from reefchem.core.constants import LN10
from reefchem.core.errors import DomainError, RangeWarning
from reefchem.core.record import records

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from reefchem.core.record import Record

__all__ = ["Slip", "likely_slips", "slips"]

CLOSE = 2e-4
"""Share of a number within which a claim is taken to be that number."""

MOST = 3
"""How many slips are told."""

REFERENCES = {"4 °C": 3.98, "15 °C": 15.0, "60 °F": 15.5556, "20 °C": 20.0, "25 °C": 25.0}
"""Reference temperatures of hydrometers and tables."""

HYDRATES = {
    "calcium": ("CaCl2", "CaCl2·2H2O", "CaCl2·6H2O"),
    "magnesium": ("MgCl2", "MgCl2·6H2O", "MgSO4·7H2O"),
    "strontium": ("SrCl2", "SrCl2·6H2O"),
    "carbonate": ("Na2CO3", "Na2CO3·H2O", "Na2CO3·10H2O"),
}


@dataclass(frozen=True)
class Slip:
    """A usual mistake and the number that it leads to."""

    name: str
    explanation: str
    value: float


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
    near = max(within, CLOSE * abs(claimed))
    found = [
        slip
        for slip in slips(record, inputs, right)
        if abs(claimed - slip.value) <= near < abs(slip.value - right)
    ]
    return sorted(found, key=lambda slip: abs(claimed - slip.value))[:MOST]


def slips(record: Record, inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    """Give every slip that could happen with a relation."""
    yield from _temperature(record, inputs)
    yield from _reference(record, inputs)
    yield from _kilogram(record, inputs, right)
    yield from _substance(record, right)
    yield from _ph_scale(record, inputs, right)
    yield from _unit(record, right)
    yield from _turned_round(inputs, right)


def _again(record: Record, inputs: Mapping[str, float], **changed: float) -> float | None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RangeWarning)
        with contextlib.suppress(DomainError):
            return float(record.function(**{**inputs, **changed}))
    return None


def _changed(
    record: Record, inputs: Mapping[str, float], name: str, value: float, *said: str
) -> Iterator[Slip]:
    made = _again(record, inputs, **{name: value})
    if made is not None:
        yield Slip(said[0], said[1], made)


def _temperature(record: Record, inputs: Mapping[str, float]) -> Iterator[Slip]:
    for name, argument in record.arguments.items():
        if argument.unit != "degC" or name not in inputs:
            continue
        t, shown = inputs[name], name.replace("_", " ")
        for value, said in (
            (1.8 * t + 32, f"the {shown} was given in °F where °C is expected"),
            ((t - 32) / 1.8, f"the {shown} was taken for °F and converted"),
            (t + 273.15, f"the {shown} was given in kelvins where °C is expected"),
            (t - 273.15, f"the {shown} was taken for kelvins and converted"),
        ):
            yield from _changed(record, inputs, name, value, "temperature unit", said)


def _reference(record: Record, inputs: Mapping[str, float]) -> Iterator[Slip]:
    names = [name for name in record.arguments if name.endswith("_temperature") and name in inputs]
    for name in names:
        for label, value in REFERENCES.items():
            said = f"the {name.replace('_', ' ')} was {label}, not {inputs[name]:g} °C"
            yield from _changed(record, inputs, name, value, "reference temperature", said)
    if names and "temperature" in inputs:
        swapped = {"temperature": inputs[names[0]], names[0]: inputs["temperature"]}
        made = _again(record, inputs, **swapped)
        if made is not None:
            yield Slip("reference temperature", "the two temperatures were swapped", made)


def _kilogram(record: Record, inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    density = records()["seawater_density"]
    salinity, temperature = inputs.get("salinity", 35.0), inputs.get("temperature", 25.0)
    litre = _again(density, {"salinity": salinity, "temperature": temperature})
    if litre is None:
        return
    ratio = litre / 1000
    said = f"a litre of seawater weighs {ratio:.4f} kg"
    if _per(record.unit):
        yield Slip("per kilogram for per litre", f"{said}; the result is per litre", right * ratio)
        yield Slip(
            "per litre for per kilogram", f"{said}; the result is per kilogram", right / ratio
        )
    for name, argument in record.arguments.items():
        if name in inputs and _per(argument.unit):
            shown = f"{said}; the {name.replace('_', ' ')} was "
            value = inputs[name]
            told = ("per kilogram for per litre", f"{shown}per kilogram, not per litre")
            yield from _changed(record, inputs, name, value * ratio, *told)
            told = ("per litre for per kilogram", f"{shown}per litre, not per kilogram")
            yield from _changed(record, inputs, name, value / ratio, *told)


def _per(unit: str) -> bool:
    return unit.endswith(("/L", "/kg")) or unit in {"dKH", "ppm_CaCO3"}


def _substance(record: Record, right: float) -> Iterator[Slip]:
    about = f"{record.name} {' '.join(record.arguments)}"
    for word, whole, element in (("nitr", "NO3", "N"), ("phosph", "PO4", "P")):
        if word in about:
            share = molar_mass(element) / molar_mass(whole)
            said = (f"the result is {element} alone", f"the result is the whole {whole}")
            yield Slip(f"{element} for {whole}", said[0], right * share)
            yield Slip(f"{whole} for {element}", said[1], right / share)
    if record.unit not in {"g", "mg", "g/L", "mg/L"} and "molar_mass" not in record.arguments:
        return
    for word, forms in HYDRATES.items():
        if word not in about:
            continue
        for one in forms:
            for other in forms:
                if one != other:
                    ratio = molar_mass(other) / molar_mass(one)
                    yield Slip("hydrate", f"{other} was weighed for {one}", right * ratio)


def _ph_scale(record: Record, inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    scales = {
        name.removeprefix("ph_").removesuffix("_from_total"): other
        for name, other in records().items()
        if name.startswith("ph_") and name.endswith("_from_total")
    }
    water = {
        "salinity": inputs.get("salinity", 35.0),
        "temperature": inputs.get("temperature", 25.0),
    }
    for scale, other in scales.items():
        pH = next((inputs[n] for n in inputs if n.startswith("ph")), right)
        given = [name for name in other.arguments if name.startswith("ph")]
        if not given or not 2 < pH < 12:
            continue
        known = {name: value for name, value in water.items() if name in other.arguments}
        made = _again(other, {given[0]: pH, **known})
        if made is None:
            continue
        step = made - pH
        if record.symbol.startswith(r"\mathrm{pH}"):
            said = f"the result is on the {scale} scale, {step:+.3f} from the total scale"
            yield Slip("pH scale", said, right + step)
            yield Slip("pH scale", said.replace("is on", "was taken from"), right - step)
        for name in record.arguments:
            if name.startswith("ph") and name in inputs:
                said = f"{name} was on the {scale} scale, {abs(step):.3f} away"
                for value in (inputs[name] - step, inputs[name] + step):
                    yield from _changed(record, inputs, name, value, "pH scale", said)


def _unit(record: Record, right: float) -> Iterator[Slip]:
    degree = 2 * 10 / molar_mass("CaO")
    carbonate = molar_mass("CaCO3") / 2
    if record.unit in {"meq/L", "dKH", "ppm_CaCO3", "mmol/L", "umol/kg"}:
        for one, other, factor in (
            ("dKH", "meq/L", 1 / degree),
            ("mg/L CaCO3", "meq/L", carbonate),
            ("mg/L CaCO3", "dKH", carbonate * degree),
        ):
            yield Slip("alkalinity unit", f"the result is in {one}, not in {other}", right * factor)
            yield Slip("alkalinity unit", f"the result is in {other}, not in {one}", right / factor)
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


def _turned_round(inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    """Give what comes of dividing where a conversion multiplies."""
    if len(inputs) == 1 and right:
        (given,) = inputs.values()
        said = "the conversion was done the other way round"
        yield Slip("direction", said, given * given / right)
