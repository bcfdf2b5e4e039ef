"""Density read backwards: the residuals of the inversions, and the slope that Newton takes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Rational, Symbol, diff

from reefchem.derive.derivation import derivation
from reefchem.seawater.density import (
    salinity_from_density,
    seawater_density,
    temperature_from_density,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["residual_in_salinity", "residual_in_temperature"]


@derivation(salinity_from_density, title="The salinity at which the density fits")
def residual_in_salinity(salinity: Any, density: Any, temperature: Any) -> Stages:
    """Set the residual up, and its slope, which is never zero in water."""
    rho = Function("rho")(salinity, temperature)
    yield "Density is known as a function of salinity, not the other way round.", Eq(density, rho)
    yield "So look for the salinity at which the difference is zero.", rho - density
    a, b, c = (Symbol(name, real=True) for name in ("A", "B", "C"))
    salt = a * salinity + b * salinity ** Rational(3, 2) + c * salinity**2
    yield "Above pure water, three terms speak of the salt.", Eq(rho - Symbol("rho_w"), salt)
    yield (
        (
            "Their slope is near A, about 0.76 kg/m³ for each unit of salinity, and never zero in "
            "water: there is one answer, and Newton's correction, difference over slope, finds it."
        ),
        diff(salt, salinity),
    )
    return seawater_density(salinity, temperature) - density


@derivation(temperature_from_density, title="The temperature at which the density fits")
def residual_in_temperature(temperature: Any, density: Any, salinity: Any) -> Stages:
    """Set the residual up."""
    rho = Function("rho")(salinity, temperature)
    yield (
        "Look for the temperature at which the density is the one that was measured.",
        rho - density,
    )
    yield (
        (
            "From 0 °C up, water of salinity 25 or more only gets lighter as it warms: the slope "
            "keeps its sign, and there is one answer."
        ),
        diff(rho, temperature) < 0,
    )
    return seawater_density(salinity, temperature) - density
