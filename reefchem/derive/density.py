"""Density and what follows from it: the residuals of the inversions, and the scales."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Rational, Symbol, diff, solve

from reefchem.derive.derivation import derivation
from reefchem.seawater.density import (
    pure_water_density,
    salinity_from_density,
    seawater_density,
    temperature_from_density,
)
from reefchem.seawater.specific_gravity import (
    change_of_scale,
    hydrometer_reading,
    hydrometer_salinity,
    salinity_from_specific_gravity,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]


@derivation(salinity_from_density, title="The salinity at which the density fits")
def residual_in_salinity(salinity: Any, density: Any, temperature: Any) -> Stages:
    """Set the residual up, and its slope, which is never zero in water."""
    rho = Function("rho")(salinity, temperature)
    yield "Density is known as a function of salinity, not the other way round.", Eq(density, rho)
    yield "So look for the salinity at which the difference is zero.", rho - density
    a, b, c = (Symbol(name, real=True) for name in ("A", "B", "C"))
    salt = a * salinity + b * salinity ** Rational(3, 2) + c * salinity**2
    yield (
        "The equation of state adds three terms for the salt. Their slope is near A, about "
        "0.76 kg/m³ for each unit of salinity, and never zero in water: there is one answer.",
        Eq(Symbol("rho") - Symbol("rho_w"), salt),
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
        "From 0 °C up, water of salinity 25 or more only gets lighter as it warms, so the slope "
        "keeps its sign and there is one answer.",
        diff(rho, temperature) < 0,
    )
    return seawater_density(salinity, temperature) - density


@derivation(salinity_from_specific_gravity, title="The salinity at which the ratio fits")
def residual_of_ratio(
    salinity: Any, specific_gravity: Any, temperature: Any, reference_temperature: Any
) -> Stages:
    """Set the residual up from the definition."""
    rho, water = Function("rho")(salinity, temperature), Function("rho_w")(reference_temperature)
    yield (
        "Specific gravity is the density of the sample over that of pure water at the reference "
        "temperature.",
        Eq(specific_gravity, rho / water),
    )
    yield "Its slope is that of the density, divided by a constant.", diff(rho / water, salinity)
    return (
        seawater_density(salinity, temperature) / pure_water_density(reference_temperature)
        - specific_gravity
    )


@derivation(hydrometer_reading, title="What floating glass shows")
def from_archimedes(
    salinity: Any,
    temperature: Any,
    calibration_temperature: Any,
    reference_temperature: Any,
    expansion: Any,
) -> Stages:
    """Balance weight against buoyancy at the mark, at two temperatures."""
    mass, volume, reading = (Symbol(n, positive=True) for n in ("m", "V", "R"))
    rho, water = Symbol("rho", positive=True), Symbol("rho_w", positive=True)
    marked = Eq(mass, volume * reading * water)
    yield (
        "The maker puts the mark R where the glass, with the volume V below the mark at the "
        "calibration temperature, floats in a liquid R times as dense as the reference water.",
        marked,
    )
    growth = 1 + expansion * (temperature - calibration_temperature)
    floats = Eq(mass, volume * growth * rho)
    yield "In the tank the same glass floats at that mark, with a volume that has grown.", floats
    (shown,) = solve(floats.subs(mass, marked.rhs), reading)
    yield "The mass and the volume drop out.", Eq(reading, shown)
    return shown.subs(
        {
            rho: seawater_density(salinity, temperature),
            water: pure_water_density(reference_temperature),
        }
    )


@derivation(hydrometer_salinity, title="The salinity at which floating glass shows the reading")
def residual_of_reading(
    salinity: Any,
    reading: Any,
    temperature: Any,
    calibration_temperature: Any,
    reference_temperature: Any,
    expansion: Any,
) -> Stages:
    """Set the residual up from what the glass shows."""
    shown = Function("R")(salinity, temperature)
    yield "Look for the salinity at which the glass would show what it shows.", shown - reading
    return (
        seawater_density(salinity, temperature)
        * (1 + expansion * (temperature - calibration_temperature))
        / pure_water_density(reference_temperature)
        - reading
    )


@derivation(change_of_scale, title="From one reference temperature to another")
def same_sample(
    specific_gravity: Any, reference_temperature: Any, new_reference_temperature: Any
) -> Stages:
    """Write the density of one sample on both scales."""
    rho, other = Symbol("rho", positive=True), Symbol("d'", positive=True)
    first, second = (
        Function("rho_w")(t) for t in (reference_temperature, new_reference_temperature)
    )
    scales = [Eq(specific_gravity, rho / first), Eq(other, rho / second)]
    yield "The sample has one density, whatever it is compared with.", scales
    (solution,) = solve(scales, [rho, other], dict=True)
    yield "It drops out.", Eq(other, solution[other])
    return solution[other].subs(
        {
            first: pure_water_density(reference_temperature),
            second: pure_water_density(new_reference_temperature),
        }
    )
