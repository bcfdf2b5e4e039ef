"""Ammonium, silicate and carbon from what is weighed, counted atom by atom."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Integer, Rational, Symbol, symbols

from reefchem.core.atoms import atoms_in
from reefchem.derive.derivation import derivation
from reefchem.derive.reactions import balanced, decimal, exact_mass
from reefchem.dosing.scarce_nutrients import (
    acetic_acid_mass,
    ammonium_chloride_mass,
    ethanol_mass,
    oxygen_for_carbon_from_ethanol,
    sodium_metasilicate_mass,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["ammonium_from_its_salt"]


def weighed(rise: Any, volume: Any, counted: str, element: str, substance: str) -> Stages:
    """Return the milligrams of a substance that bring a rise, by the atoms of one element."""
    M_c, M_s = symbols("M_c M_s", positive=True)
    each = Rational(atoms_in(substance)[element], atoms_in(counted)[element])
    yield "Millimoles of what is counted, for the whole tank:", rise * volume / M_c
    yield (
        f"A mole of {substance} brings this many, by its atoms of {element}:",
        each,
    )
    milligrams = rise * volume / M_c / each * M_s
    yield "So it weighs, in milligrams:", milligrams
    yield (
        "The two molar masses, in g/mol:",
        [Eq(M_c, decimal(counted)), Eq(M_s, decimal(substance))],
    )
    return milligrams.subs({M_c: exact_mass(counted), M_s: exact_mass(substance)})


@derivation(ammonium_chloride_mass, title="Ammonium chloride for a rise of ammonium")
def ammonium_from_its_salt(ammonium_rise: Any, volume: Any) -> Stages:
    """Count nitrogen."""
    return (yield from weighed(ammonium_rise, volume, "NH4+", "N", "NH4Cl"))


@derivation(sodium_metasilicate_mass, title="Metasilicate for a rise of silicon")
def silicon_from_its_salt(silicon_rise: Any, volume: Any) -> Stages:
    """Count silicon."""
    return (yield from weighed(silicon_rise, volume, "Si", "Si", "Na2SiO3·5H2O"))


@derivation(ethanol_mass, title="Ethanol for some carbon")
def carbon_from_ethanol(carbon_rise: Any, volume: Any) -> Stages:
    """Count carbon."""
    milligrams = yield from weighed(carbon_rise, volume, "C", "C", "C2H5OH")
    return milligrams / 1000


@derivation(acetic_acid_mass, title="Acetic acid for some carbon")
def carbon_from_acetic_acid(carbon_rise: Any, volume: Any) -> Stages:
    """Count carbon."""
    milligrams = yield from weighed(carbon_rise, volume, "C", "C", "CH3COOH")
    return milligrams / 1000


@derivation(oxygen_for_carbon_from_ethanol, title="Oxygen for the carbon of ethanol")
def oxygen_from_the_reaction(carbon_rise: Any) -> Stages:
    """Balance the reaction, and count oxygen for each carbon."""
    numbers = balanced(("C2H5OH", "O2"), ("CO2", "H2O"))
    yield (
        "a C₂H₅OH + b O₂ → c CO₂ + d H₂O balances only for these whole numbers:",
        [Eq(Symbol(s), n) for s, n in zip("abcd", numbers.values(), strict=True)],
    )
    each = Rational(numbers["O2"], numbers["C2H5OH"] * Integer(2))
    yield "Ethanol has two carbons, so each carbon takes this many O₂:", each
    return carbon_rise / exact_mass("C") * each * exact_mass("O2")
