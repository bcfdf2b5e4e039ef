"""Conductivity: the ratio that a salinity needs, and what a meter's shortcuts cost."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Rational, Symbol, collect, diff, expand, factor, solve, symbols

from reefchem.derive.derivation import derivation, written_out
from reefchem.seawater.conductivity import (
    STANDARD_CONDUCTIVITY,
    conductivity_ratio,
    salinity_from_conductivity,
    salinity_from_conductivity_ratio,
)
from reefchem.seawater.conductivity_meter import (
    cell_constant,
    compensated_conductivity,
    compensation_error,
    corrected_conductivity,
    linear_coefficient,
    salinity_from_fixed_factor,
    salinity_from_linear_compensation,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "cell_from_a_standard",
    "coefficient_of_two_temperatures",
    "compensation_of_a_linear_law",
    "compensation_taken_back",
    "error_of_a_coefficient",
    "factor_of_a_standard",
    "factor_taken_back",
    "residual_in_the_ratio",
]


PRINTED_A = ("0.0080", "-0.1692", "25.3851", "14.0941", "-7.0261", "2.7081")
"""The numbers a as printed, for the sum."""


@derivation(conductivity_ratio, title="The ratio at which the salinity fits")
def residual_in_the_ratio(conductivity_ratio: Any, salinity: Any, temperature: Any) -> Stages:
    """Set the residual up, and the slope by the root of the ratio."""
    x, f = symbols("x f", positive=True)
    a = symbols("a_0:6", real=True)
    b = symbols("b_0:6", real=True)
    shown = sum(c * x**i for i, c in enumerate(a)) + f * sum(c * x**i for i, c in enumerate(b))
    yield (
        (
            "The definition is a polynomial in x, the root of the ratio at the temperature of the "
            "water, and f, a function of the temperature that is zero at 15 °C:"
        ),
        Eq(Symbol("S"), shown),
    )
    yield "Its slope is positive throughout, so each salinity has one x:", diff(shown, x)
    yield (
        (
            "The numbers a add up to 35 and the numbers b to zero. So x = 1 is salinity 35 at any "
            "temperature, which makes it the anchor of the scale:"
        ),
        Eq(Symbol("S"), sum(map(Rational, PRINTED_A))),
    )
    function = Function("S")(conductivity_ratio, temperature)
    yield "What must be zero, then, as a function of the ratio:", function - salinity
    known = {"conductivity_ratio": conductivity_ratio, "temperature": temperature}
    return written_out(salinity_from_conductivity_ratio, **known) - salinity


@derivation(compensated_conductivity, title="Back along a straight line")
def compensation_of_a_linear_law(
    conductivity: Any, temperature: Any, coefficient: Any, reference_temperature: Any
) -> Stages:
    """Solve the linear law for the conductivity at the reference temperature."""
    reference = Symbol(r"\kappa_r", positive=True)
    law = Eq(conductivity, reference * (1 + coefficient * (temperature - reference_temperature)))
    yield "The meter takes the conductivity to grow by a fixed share for each degree:", law
    (solution,) = solve(law, reference)
    return solution


@derivation(linear_coefficient, title="The coefficient between two temperatures")
def coefficient_of_two_temperatures(
    conductivity: Any,
    reference_conductivity: Any,
    temperature: Any,
    reference_temperature: Any,
) -> Stages:
    """Solve the linear law for its coefficient."""
    alpha = Symbol("alpha", real=True)
    growth = 1 + alpha * (temperature - reference_temperature)
    law = Eq(conductivity, reference_conductivity * growth)
    yield "Between two temperatures, a line can always be drawn:", law
    (solution,) = solve(law, alpha)
    return solution


@derivation(compensation_error, title="One coefficient for another")
def error_of_a_coefficient(
    temperature: Any, coefficient: Any, water_coefficient: Any, reference_temperature: Any
) -> Stages:
    """Compensate with one coefficient what grew by another."""
    kappa = Symbol(r"\kappa_r", positive=True)
    dt = temperature - reference_temperature
    measured = kappa * (1 + water_coefficient * dt)
    yield "The water has grown by its own coefficient:", measured
    shown = measured / (1 + coefficient * dt)
    yield "The meter takes another away:", shown
    error = factor((shown - kappa) / kappa)
    yield "The share by which it is wrong:", error
    return error


@derivation(salinity_from_linear_compensation, title="A compensation taken back")
def compensation_taken_back(
    reading: Any, temperature: Any, coefficient: Any, conductivity: Any
) -> Stages:
    """Undo what the meter did, from its last step to its first."""
    measured, shown = symbols("kappa kappa_25", positive=True)
    yield (
        (
            "The meter turned a conductivity at 25 °C into a salinity. Back along the same scale, "
            "where the conductivity of a salinity is a root:"
        ),
        Eq(shown, conductivity(reading, 25)),
    )
    law = Eq(shown, measured / (1 + coefficient * (temperature - 25)))
    yield "It had that from the conductivity that it measured, along a straight line:", law
    (solution,) = solve(law, measured)
    yield "So it measured:", Eq(measured, solution)
    salinity = Function("S")(measured, temperature)
    yield (
        "The definition of salinity, now at the temperature of the water:",
        Eq(Symbol("S"), salinity),
    )
    growth = collect(expand(solution / shown), coefficient, factor)
    found = conductivity(reading, 25) * growth
    return written_out(salinity_from_conductivity, conductivity=found, temperature=temperature)


@derivation(cell_constant, title="The constant of a cell")
def cell_from_a_standard(conductance: Any, standard_conductivity: Any) -> Stages:
    """Solve the definition of the constant."""
    constant = Symbol("K", positive=True)
    law = Eq(standard_conductivity, constant * conductance)
    yield "A cell turns conductivity into conductance by its shape alone:", law
    (solution,) = solve(law, constant)
    return solution


@derivation(corrected_conductivity, title="One standard, one factor")
def factor_of_a_standard(reading: Any, standard_reading: Any, standard_conductivity: Any) -> Stages:
    """Take the meter as wrong by one factor."""
    kappa, gain = symbols("kappa g", positive=True)
    laws = [Eq(standard_reading, gain * standard_conductivity), Eq(reading, gain * kappa)]
    yield "A wrong constant makes every reading wrong by one and the same factor:", laws
    (solution,) = solve(laws, [kappa, gain], dict=True)
    yield "The standard tells the factor:", Eq(gain, solution[gain])
    return solution[kappa]


@derivation(salinity_from_fixed_factor, title="A factor taken back")
def factor_taken_back(reading: Any, factor: Any) -> Stages:
    """Undo the factor, then ask the definition of salinity."""
    kappa, ratio = symbols("kappa R", positive=True)
    law = Eq(reading, factor * kappa)
    yield "The meter multiplies the conductivity at 25 °C by its factor:", law
    (solution,) = solve(law, kappa)
    standard = Rational(repr(STANDARD_CONDUCTIVITY))
    found = solution / standard
    yield (
        "So it knew the conductivity, and the ratio to the standard:",
        [
            Eq(kappa, solution),
            Eq(ratio, found),
        ],
    )
    salinity = written_out(
        salinity_from_conductivity_ratio, conductivity_ratio=ratio, temperature=25
    )
    yield "The definition of salinity, at 25 °C:", Eq(Symbol("S"), Function("S")(ratio, 25))
    return salinity.subs(ratio, found)
