"""Specific gravity: what floats, what changes with the reference, what a standard tells."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Symbol, diff, solve, sqrt, symbols

from reefchem.derive.derivation import derivation, written_out
from reefchem.seawater.density import pure_water_density, seawater_density
from reefchem.seawater.specific_gravity import (
    change_of_scale,
    hydrometer_reading,
    hydrometer_salinity,
    salinity_from_specific_gravity,
    swing_arm_uncertainty,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "from_archimedes",
    "residual_of_a_ratio",
    "residual_of_floating_glass",
    "same_sample",
    "sum_of_variances",
]


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
    marked: Any = Eq(mass, volume * reading * water)
    yield (
        (
            "The maker puts the mark R where the glass, with the volume V below the mark at the "
            "calibration temperature, floats in a liquid R times as dense as the reference water."
        ),
        marked,
    )
    growth = 1 + expansion * (temperature - calibration_temperature)
    floats = Eq(mass, volume * growth * rho)
    yield "In the tank the same glass floats at that mark, with a volume that has grown.", floats
    (shown,) = solve(floats.subs(mass, marked.rhs), reading)
    yield "The mass and the volume drop out.", Eq(reading, shown)
    return shown.subs(
        {
            rho: written_out(seawater_density, salinity=salinity, temperature=temperature),
            water: written_out(pure_water_density, temperature=reference_temperature),
        }
    )


def _water(temperature: Any) -> Any:
    """Write the density of pure water out."""
    return written_out(pure_water_density, temperature=temperature)


@derivation(salinity_from_specific_gravity, title="The salinity at which the ratio fits")
def residual_of_a_ratio(
    salinity: Any, specific_gravity: Any, temperature: Any, reference_temperature: Any
) -> Stages:
    """Turn the ratio into a density, and look for the salinity that has it."""
    rho, water = Function("rho")(salinity, temperature), Symbol("rho_w", positive=True)
    yield "A specific gravity is a ratio of two densities.", Eq(specific_gravity, rho / water)
    residual = rho - specific_gravity * water
    yield "One is that of pure water and known. What must be zero, then:", residual
    yield (
        "Its slope in the salinity is that of the density, which is never zero in water:",
        diff(residual, salinity),
    )
    ocean = written_out(seawater_density, salinity=salinity, temperature=temperature)
    return residual.subs({rho: ocean, water: _water(reference_temperature)})


@derivation(hydrometer_salinity, title="The salinity at which the glass floats")
def residual_of_floating_glass(
    salinity: Any,
    reading: Any,
    temperature: Any,
    calibration_temperature: Any,
    reference_temperature: Any,
    expansion: Any,
) -> Stages:
    """Find the density in which grown glass floats at the mark, then the salinity."""
    rho, water = Function("rho")(salinity, temperature), Symbol("rho_w", positive=True)
    growth = 1 + expansion * (temperature - calibration_temperature)
    balance = Eq(reading * water, growth * rho)
    yield "Per volume at the calibration, mass and buoyancy are equal at the mark.", balance
    (density,) = solve(balance, rho)
    yield "So the glass floats in water of the density", Eq(rho, density)
    yield "and what must be zero is", rho - density
    yield (
        "Its slope in the salinity is that of the density, which is never zero in water:",
        diff(rho - density, salinity),
    )
    ocean = written_out(seawater_density, salinity=salinity, temperature=temperature)
    return (rho - density).subs({rho: ocean, water: _water(reference_temperature)})


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
            first: written_out(pure_water_density, temperature=reference_temperature),
            second: written_out(pure_water_density, temperature=new_reference_temperature),
        }
    )


@derivation(swing_arm_uncertainty, title="What one standard leaves in doubt")
def sum_of_variances(
    repeatability: Any, standard_uncertainty: Any, further_uncertainty: Any
) -> Stages:
    """Add the variances of what the salinity is made of."""
    reading, shown, standard, rest = symbols("R R_s S_s f", real=True)
    salinity = reading + standard - shown + rest
    yield (
        "The salinity, with a rest that the standard cannot show and that is best put at zero.",
        (salinity),
    )
    doubts = {
        reading: repeatability,
        shown: repeatability,
        standard: standard_uncertainty,
        rest: further_uncertainty,
    }
    variance = sum((diff(salinity, part) * doubt) ** 2 for part, doubt in doubts.items())
    yield "Independent parts add by their squares, each times its slope.", variance
    return sqrt(variance)
