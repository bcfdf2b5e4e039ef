"""Units of alkalinity from what they are defined by: a mass of a salt in a litre.

The weights enter as exact fractions at the end, so that each result is a ratio of integers.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Integer, Rational, Symbol, solve, symbols

from reefchem.conversion.alkalinity import (
    alkalinity_as_bicarbonate,
    alkalinity_as_calcium_carbonate,
    alkalinity_from_clark_degrees,
    alkalinity_from_french_degrees,
    alkalinity_from_german_degrees,
    german_degrees,
    per_kilogram,
)
from reefchem.core.quantity import DEGREE, GRAIN, IMPERIAL_GALLON
from reefchem.derive.derivation import derivation, written_out
from reefchem.derive.reactions import balanced, exact_mass
from reefchem.seawater.density import seawater_density

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "bicarbonate_from_its_charge",
    "carbonate_from_its_charge",
    "clark_from_its_definition",
    "exact",
    "french_from_its_definition",
    "german_from_its_definition",
    "german_inverted",
    "litre_by_its_mass",
]

M: Any = Symbol("M", positive=True)


def exact(number: float) -> Any:
    """Return a decimal number as the fraction that its digits say."""
    return Rational(repr(number))


def charges_of_oxide() -> Any:
    """Return the acid that a mole of CaO takes up, from the balance of elements and charge."""
    reaction = balanced(["CaO", "H+"], ["Ca^2+", "H2O"])
    return Rational(reaction["H+"], reaction["CaO"])


@derivation(alkalinity_from_german_degrees, title="A German degree from 10 mg of CaO in a litre")
def german_from_its_definition(degrees: Any) -> Stages:
    """Count the acid that 10 mg of quicklime takes up."""
    mass = exact(DEGREE) * degrees
    yield "One German degree is 10 mg of CaO in a litre, so `d` degrees are, in mg/L:", mass
    amount = mass / M
    yield "Divided by the molar mass in g/mol, that is in mmol/L:", amount
    charges = charges_of_oxide()
    yield "CaO + n H⁺ → Ca²⁺ + H₂O balances in hydrogen, oxygen and charge for one n:", charges
    alkalinity = charges * amount
    yield "The alkalinity in meq/L:", alkalinity
    weight = exact_mass("CaO")
    yield "With the weights of calcium and oxygen, 40.078 and 15.999:", Eq(M, weight)
    return alkalinity.subs(M, weight)


@derivation(german_degrees, title="German degrees of an alkalinity")
def german_inverted(alkalinity: Any) -> Stages:
    """Solve the definition for the degrees."""
    degrees = Symbol("d", positive=True)
    law = Eq(alkalinity, charges_of_oxide() * exact(DEGREE) * degrees / M)
    yield "The alkalinity of `d` German degrees:", law
    (solution,) = solve(law, degrees)
    yield "Solved for the degrees:", solution
    return solution.subs(M, exact_mass("CaO"))


@derivation(alkalinity_from_french_degrees, title="A French degree from 10 mg of CaCO3 in a litre")
def french_from_its_definition(degrees: Any) -> Stages:
    """Count the acid that 10 mg of calcium carbonate takes up."""
    amount = exact(DEGREE) * degrees / M
    yield "10 mg of CaCO₃ in a litre for each degree, in mmol/L:", amount
    yield "CO₃²⁻ + 2 H⁺ → CO₂ + H₂O: two moles of acid for each mole.", 2 * amount
    return (2 * amount).subs(M, exact_mass("CaCO3"))


@derivation(alkalinity_from_clark_degrees, title="A Clark degree from a grain in a gallon")
def clark_from_its_definition(degrees: Any) -> Stages:
    """Turn grains in an imperial gallon into mg in a litre, then count the acid."""
    grain, gallon = symbols("g G", positive=True)
    mass = degrees * grain / gallon
    yield "A grain of CaCO₃ in an imperial gallon for each degree, in mg/L:", mass
    alkalinity = 2 * mass / M
    yield "Two moles of acid for each mole of CaCO₃:", alkalinity
    numbers = {grain: exact(GRAIN), gallon: exact(IMPERIAL_GALLON), M: exact_mass("CaCO3")}
    yield "Grain and gallon are exact by definition:", [Eq(k, v) for k, v in numbers.items()]
    return alkalinity.subs(numbers)


@derivation(alkalinity_as_calcium_carbonate, title="Alkalinity told as calcium carbonate")
def carbonate_from_its_charge(alkalinity: Any) -> Stages:
    """Find the mass of calcium carbonate that would take up the same acid."""
    mass = Symbol("rho", positive=True)
    law = Eq(alkalinity, 2 * mass / M)
    yield "CO₃²⁻ + 2 H⁺ → CO₂ + H₂O, so a mass of CaCO₃ in a litre has the alkalinity:", law
    (solution,) = solve(law, mass)
    yield "Solved for the mass:", solution
    return solution.subs(M, exact_mass("CaCO3"))


@derivation(alkalinity_as_bicarbonate, title="Alkalinity told as hydrogencarbonate")
def bicarbonate_from_its_charge(alkalinity: Any) -> Stages:
    """Find the mass of hydrogencarbonate that would take up the same acid."""
    mass = Symbol("rho", positive=True)
    law = Eq(alkalinity, Integer(1) * mass / M)
    yield "HCO₃⁻ + H⁺ → CO₂ + H₂O, one mole of acid for each mole:", law
    (solution,) = solve(law, mass)
    return solution.subs(M, exact_mass("HCO3-"))


@derivation(per_kilogram, title="From a litre to a kilogram by the density")
def litre_by_its_mass(value: Any, salinity: Any, temperature: Any) -> Stages:
    """Share what a litre holds among the kilograms that it weighs."""
    amount, volume, mass, density = symbols("n V m rho", positive=True)
    laws = [Eq(Symbol("c"), amount / volume), Eq(density, mass / volume)]
    yield "An amount `n` in a volume `V` that weighs `m`, with the density in kg/L:", laws
    (volume_of,) = solve(Eq(density, mass / volume), volume)
    per_mass = (value * volume_of / mass).subs(mass, 1)
    yield "The amount in a kilogram is the amount in a litre over the density:", per_mass
    weight = written_out(seawater_density, salinity=salinity, temperature=temperature)
    return per_mass.subs(density, weight / Integer(1000))
