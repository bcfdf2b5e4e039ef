"""The way back of a conversion: the way there, solved for what it starts from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Symbol, diff, solve

from reefchem.conversion.alkalinity import (
    alkalinity_as_bicarbonate,
    alkalinity_as_calcium_carbonate,
    alkalinity_from_bicarbonate,
    alkalinity_from_calcium_carbonate,
    alkalinity_from_clark_degrees,
    alkalinity_from_french_degrees,
    alkalinity_from_grains,
    clark_degrees,
    french_degrees,
    grains_per_gallon,
    per_litre,
)
from reefchem.conversion.concentration import (
    mass_per_kilogram,
    nitrate_from_nitrogen,
    nitrite_from_nitrogen,
    nitrogen_from_nitrate,
    nitrogen_from_nitrite,
    phosphate_from_phosphorus,
    phosphorus_from_phosphate,
    silicate_from_silicon,
    silicon_from_silicate,
)
from reefchem.conversion.fahrenheit import celsius_from_fahrenheit, fahrenheit_from_celsius
from reefchem.conversion.hardness import (
    calcium_as_calcium_carbonate,
    calcium_from_calcium_carbonate,
    general_hardness_degrees,
    hardness_from_degrees,
)
from reefchem.core.record import describe
from reefchem.derive.derivation import derivation, written_out
from reefchem.seawater.density import seawater_density

if TYPE_CHECKING:
    from collections.abc import Callable, Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "bicarbonate_inverted",
    "calcium_inverted",
    "carbonate_inverted",
    "clark_inverted",
    "fahrenheit_inverted",
    "french_inverted",
    "grains_inverted",
    "hardness_inverted",
    "kilogram_inverted",
    "litre_inverted",
    "nitrate_inverted",
    "nitrite_inverted",
    "phosphate_inverted",
    "silicate_inverted",
]

RHO: Any = Symbol("rho", positive=True)
"""Density of seawater in kg/L."""


def turned_around(
    there: Callable[..., Any], back: Callable[..., Any], given: Any, start: str
) -> Stages:
    """Solve a conversion by one factor for what it starts from."""
    sought, factor = Symbol(describe(back).symbol, real=True), Symbol("k", positive=True)
    law = Eq(given, factor * sought)
    yield "The way there multiplies by a factor:", law
    (solution,) = solve(law, sought)
    yield "So the way back divides by it:", Eq(sought, solution)
    number = diff(written_out(there, **{start: sought}), sought)
    yield "The factor as a fraction, and in decimals:", [Eq(factor, number), number.evalf(6)]
    return solution.subs(factor, number)


@derivation(french_degrees, title="French degrees of an alkalinity")
def french_inverted(alkalinity: Any) -> Stages:
    """Solve the definition for the degrees."""
    return (
        yield from turned_around(
            alkalinity_from_french_degrees, french_degrees, alkalinity, "degrees"
        )
    )


@derivation(clark_degrees, title="Clark degrees of an alkalinity")
def clark_inverted(alkalinity: Any) -> Stages:
    """Solve the definition for the degrees."""
    return (
        yield from turned_around(
            alkalinity_from_clark_degrees, clark_degrees, alkalinity, "degrees"
        )
    )


@derivation(alkalinity_from_grains, title="The alkalinity of grains in a gallon")
def grains_inverted(grains: Any) -> Stages:
    """Solve for the alkalinity."""
    return (
        yield from turned_around(grains_per_gallon, alkalinity_from_grains, grains, "alkalinity")
    )


@derivation(alkalinity_from_calcium_carbonate, title="The alkalinity of calcium carbonate")
def carbonate_inverted(calcium_carbonate: Any) -> Stages:
    """Solve for the alkalinity."""
    return (
        yield from turned_around(
            alkalinity_as_calcium_carbonate,
            alkalinity_from_calcium_carbonate,
            calcium_carbonate,
            "alkalinity",
        )
    )


@derivation(alkalinity_from_bicarbonate, title="The alkalinity of hydrogencarbonate")
def bicarbonate_inverted(bicarbonate: Any) -> Stages:
    """Solve for the alkalinity."""
    return (
        yield from turned_around(
            alkalinity_as_bicarbonate, alkalinity_from_bicarbonate, bicarbonate, "alkalinity"
        )
    )


@derivation(nitrogen_from_nitrate, title="The nitrogen of a nitrate")
def nitrate_inverted(nitrate: Any) -> Stages:
    """Solve for the nitrogen."""
    return (
        yield from turned_around(nitrate_from_nitrogen, nitrogen_from_nitrate, nitrate, "nitrogen")
    )


@derivation(nitrogen_from_nitrite, title="The nitrogen of a nitrite")
def nitrite_inverted(nitrite: Any) -> Stages:
    """Solve for the nitrogen."""
    return (
        yield from turned_around(nitrite_from_nitrogen, nitrogen_from_nitrite, nitrite, "nitrogen")
    )


@derivation(phosphorus_from_phosphate, title="The phosphorus of a phosphate")
def phosphate_inverted(phosphate: Any) -> Stages:
    """Solve for the phosphorus."""
    return (
        yield from turned_around(
            phosphate_from_phosphorus, phosphorus_from_phosphate, phosphate, "phosphorus"
        )
    )


@derivation(silicon_from_silicate, title="The silicon of a silicate")
def silicate_inverted(silicate: Any) -> Stages:
    """Solve for the silicon."""
    return (
        yield from turned_around(silicate_from_silicon, silicon_from_silicate, silicate, "silicon")
    )


@derivation(calcium_as_calcium_carbonate, title="Calcium told as its carbonate")
def calcium_inverted(calcium: Any) -> Stages:
    """Solve for the carbonate."""
    return (
        yield from turned_around(
            calcium_from_calcium_carbonate,
            calcium_as_calcium_carbonate,
            calcium,
            "calcium_carbonate",
        )
    )


@derivation(hardness_from_degrees, title="The hardness of so many degrees")
def hardness_inverted(degrees: Any) -> Stages:
    """Solve for the hardness."""
    return (
        yield from turned_around(
            general_hardness_degrees, hardness_from_degrees, degrees, "hardness"
        )
    )


def by_the_density(law: Any, sought: Any, salinity: Any, temperature: Any) -> Stages:
    """Solve the law of a litre and a kilogram, and write the density out."""
    yield "A litre weighs as many kilograms as the density says:", law
    (solution,) = solve(law, sought)
    yield "Solved:", Eq(sought, solution)
    density = written_out(seawater_density, salinity=salinity, temperature=temperature)
    return solution.subs(RHO, density / 1000)


@derivation(per_litre, title="From a kilogram to a litre")
def kilogram_inverted(value: Any, salinity: Any, temperature: Any) -> Stages:
    """Solve for the litre."""
    litre = Symbol("c", real=True)
    return (yield from by_the_density(Eq(value, litre / RHO), litre, salinity, temperature))


@derivation(mass_per_kilogram, title="From a litre to a kilogram")
def litre_inverted(value: Any, salinity: Any, temperature: Any) -> Stages:
    """Solve for the kilogram."""
    content = Symbol("w", real=True)
    return (yield from by_the_density(Eq(value, content * RHO), content, salinity, temperature))


@derivation(celsius_from_fahrenheit, title="Celsius from Fahrenheit")
def fahrenheit_inverted(fahrenheit: Any) -> Stages:
    """Solve for the temperature."""
    celsius = Symbol("t", real=True)
    law = Eq(fahrenheit, written_out(fahrenheit_from_celsius, temperature=celsius))
    yield "A degree Celsius is 1.8 degrees Fahrenheit, and water freezes at 32:", law
    (solution,) = solve(law, celsius)
    yield "Solved for the temperature:", Eq(celsius, solution)
    return solution
