"""Totals and ionic strength of seawater from fixed ratios."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Rational, Symbol, solve, symbols

from reefchem.core.atoms import charge_of
from reefchem.derive.alkalinity_units import exact
from reefchem.derive.derivation import derivation
from reefchem.seawater.composition import (
    Knudsen,
    ReferenceScale,
    boron_uppstrom1974,
    calcium_riley1967,
    fluoride_riley1965,
    ionic_strength_millero2008,
    reference_amount,
    sulfate_morris1966,
)
from reefchem.seawater.reference_composition import MOLE_FRACTIONS, SPECIES

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "boron_by_chlorinity",
    "calcium_by_chlorinity",
    "fluoride_by_chlorinity",
    "share_of_sea_salt",
    "strength_of_reference_seawater",
    "sulfate_by_chlorinity",
]


def by_chlorinity(name: str, salinity: Any, ratio: Any, weight: Any) -> Stages:
    """Scale a constituent with the chlorinity that a salinity has."""
    chlorinity = Symbol("Cl", positive=True)
    law = Eq(salinity, exact(Knudsen().salinity_per_chlorinity) * chlorinity)
    yield "Salinity and chlorinity go together, by agreement:", law
    (solution,) = solve(law, chlorinity)
    mass = ratio * chlorinity
    yield f"{name} keeps its mass ratio to chlorinity wherever the water is, in g/kg:", mass
    yield "Over its molar mass, in mol/kg:", mass / weight
    return (mass / weight).subs(chlorinity, solution)


@derivation(boron_uppstrom1974, title="Boron from the chlorinity")
def boron_by_chlorinity(salinity: Any, fit: Any) -> Stages:
    """Scale boron."""
    return (yield from by_chlorinity("Boron", salinity, fit.boron, fit.weight))


@derivation(sulfate_morris1966, title="Sulfate from the chlorinity")
def sulfate_by_chlorinity(salinity: Any, fit: Any) -> Stages:
    """Scale sulfate."""
    return (yield from by_chlorinity("Sulfate", salinity, fit.sulfate, fit.weight))


@derivation(fluoride_riley1965, title="Fluoride from the chlorinity")
def fluoride_by_chlorinity(salinity: Any, fit: Any) -> Stages:
    """Scale fluoride."""
    return (yield from by_chlorinity("Fluoride", salinity, fit.fluoride, fit.weight))


@derivation(calcium_riley1967, title="Calcium from the chlorinity")
def calcium_by_chlorinity(salinity: Any, fit: Any) -> Stages:
    """Scale calcium."""
    return (yield from by_chlorinity("Calcium", salinity, fit.calcium, fit.weight))


@derivation(reference_amount, title="A constituent by its share of sea salt")
def share_of_sea_salt(salinity: Any, mole_fraction: Any, fit: Any) -> Stages:
    """Share the amount of salt among its constituents."""
    scale = ReferenceScale()
    salt = exact(scale.salt) / exact(scale.practical) * salinity
    yield "Grams of salt in a kilogram of seawater of this salinity:", salt
    amount = salt / fit.molar_mass
    yield "Over the mean molar mass of sea salt, moles of salt in a kilogram:", amount
    yield "Times the share of the constituent:", mole_fraction * amount
    return mole_fraction * amount


@derivation(ionic_strength_millero2008, title="Ionic strength, ion by ion")
def strength_of_reference_seawater(salinity: Any) -> Stages:
    """Add up half of amount times squared charge over all ions, for each kilogram of water."""
    x, z, mean, salt = symbols("x_i z_i M S_R", positive=True)
    yield "Ionic strength is half the sum of this over the ions:", salt / mean * x * z**2
    half = Rational(sum(MOLE_FRACTIONS[n] * charge_of(SPECIES[n]) ** 2 for n in SPECIES), 2 * 10**7)
    yield "With the mole fractions of the reference composition, half the sum of x z²:", half
    in_water = half * salt / mean / (1 - salt / 1000)
    yield "A kilogram of seawater holds less water, by its salt:", in_water
    scale = ReferenceScale()
    grams = exact(scale.salt) / exact(scale.practical) * salinity
    return in_water.subs({salt: grams, mean: Rational("31.4038218")})
