"""Slips in what is weighed or counted: element, ion, hydrate, litre and kilogram."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.core.atoms import molar_mass
from reefchem.core.record import records
from reefchem.export.slip import Slip, again, changed

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from reefchem.core.record import Record

__all__ = ["of_kilogram", "of_substance"]

HYDRATES: dict[str, tuple[str, ...]] = {
    "calcium": ("CaCl2", "CaCl2·2H2O", "CaCl2·6H2O"),
    "magnesium": ("MgCl2", "MgCl2·6H2O", "MgSO4·7H2O"),
    "strontium": ("SrCl2", "SrCl2·6H2O"),
    "carbonate": ("Na2CO3", "Na2CO3·H2O", "Na2CO3·10H2O"),
}
"""Forms in which a salt is sold, by a word that its relations have in their names."""


def of_kilogram(record: Record, inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    """Give per litre for per kilogram and the other way round, in an input or in the result."""
    density = records()["seawater_density"]
    salinity, temperature = inputs.get("salinity", 35.0), inputs.get("temperature", 25.0)
    litre = again(density, {"salinity": salinity, "temperature": temperature})
    if litre is None:
        return
    ratio = litre / 1000
    said = f"a litre of seawater weighs {ratio:.4f} kg"
    if _per(record.unit):
        yield Slip("per kilogram for per litre", f"{said}; the result is per litre", right * ratio)
        yield Slip(
            "per litre for per kilogram", f"{said}; the result is per kilogram", right / ratio
        )
        yield Slip("direction", "the density divided where it multiplies", right / ratio**2)
        yield Slip("direction", "the density multiplied where it divides", right * ratio**2)
    for name, argument in record.arguments.items():
        if name in inputs and _per(argument.unit):
            shown = f"{said}; the {name.replace('_', ' ')} was "
            value = inputs[name]
            told = ("per kilogram for per litre", f"{shown}per kilogram, not per litre")
            yield from changed(record, inputs, name, value * ratio, *told)
            told = ("per litre for per kilogram", f"{shown}per litre, not per kilogram")
            yield from changed(record, inputs, name, value / ratio, *told)


def _per(unit: str) -> bool:
    return unit.endswith(("/L", "/kg")) or unit in {"dKH", "ppm_CaCO3"}


def of_substance(record: Record, right: float) -> Iterator[Slip]:
    """Give the element for the ion, one hydrate or salt for another, and carbonate for a metal."""
    about = f"{record.name} {' '.join(record.arguments)}"
    for word, whole, element in (("nitr", "NO3", "N"), ("phosph", "PO4", "P")):
        if word in about:
            share = molar_mass(element) / molar_mass(whole)
            said = (f"the result is {element} alone", f"the result is the whole {whole}")
            yield Slip(f"{element} for {whole}", said[0], right * share)
            yield Slip(f"{whole} for {element}", said[1], right / share)
            micro = f"the result is {element} alone, in µg/L"
            yield Slip(f"{element} for {whole}", micro, right * share * 1000)
    for word, metal in (("calcium", "Ca"), ("magnesium", "Mg"), ("hardness", "Ca")):
        if word in about and record.unit.endswith(("/L", "/kg")):
            ratio = molar_mass("CaCO3") / molar_mass(metal)
            yield Slip(f"CaCO3 for {metal}", f"the result is as CaCO3, not {metal}", right * ratio)
            yield Slip(f"{metal} for CaCO3", f"the result is {metal}, not CaCO3", right / ratio)
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
    if record.unit == "g" and "alkalinity" in about:
        yield from _alkalinity_salts(right)


def _alkalinity_salts(right: float) -> Iterator[Slip]:
    """Give the mass of one salt of alkalinity taken for that of another."""
    per = {"NaHCO3": molar_mass("NaHCO3"), "Na2CO3": molar_mass("Na2CO3") / 2}
    for one, other in (("NaHCO3", "Na2CO3"), ("Na2CO3", "NaHCO3")):
        said = f"{other} was weighed for {one}"
        yield Slip("another salt", said, right * per[other] / per[one])
