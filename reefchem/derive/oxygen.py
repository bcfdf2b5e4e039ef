"""Oxygen between water and air: balances in time, and the air at an altitude."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Rational, Symbol, diff, dsolve, exp, log, solve, symbols

from reefchem.derive.derivation import derivation, written_out
from reefchem.seawater.gas_exchange import (
    exchange_time,
    exchange_time_from_recovery,
    oxygen_after,
    oxygen_under_respiration,
    transfer_velocity_from_time,
    transfer_velocity_of_another_gas,
)
from reefchem.seawater.oxygen import oxygen_mass_saturation, oxygen_saturation_at_pressure
from reefchem.seawater.room_air import pressure_at_altitude, vapour_pressure_weiss1980

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "approach_to_saturation",
    "balance_with_dry_air",
    "hydrostatic_air",
    "rest_under_respiration",
    "time_from_two_readings",
    "time_of_a_mixed_tank",
    "velocity_by_schmidt_number",
    "velocity_of_a_measured_time",
]

t: Any = Symbol("t", real=True)


@derivation(oxygen_after, title="The way back to saturation")
def approach_to_saturation(
    start: Any, saturation: Any, duration: Any, time_constant: Any
) -> Stages:
    """Solve the balance of a mixed volume."""
    oxygen = Function("rho")
    law = Eq(diff(oxygen(t), t), (saturation - oxygen(t)) / time_constant)
    yield "What the air brings is in proportion to the gap:", law
    solution: Any = dsolve(law, oxygen(t), ics={oxygen(0): start})
    yield "Solved from the first reading on:", solution
    return solution.rhs.subs(t, duration)


@derivation(exchange_time_from_recovery, title="The exchange time from two readings")
def time_from_two_readings(start: Any, end: Any, saturation: Any, duration: Any) -> Stages:
    """Solve the way back for its time."""
    tau = Symbol("tau", positive=True)
    left = (saturation - end) / (saturation - start)
    yield "Of the gap, this share is left after the time:", Eq(left, exp(-duration / tau))
    rate = Symbol("r", positive=True)
    (solution,) = solve(Eq(log(left), -duration * rate), rate)
    yield "The logarithm falls in proportion to time, at the rate:", solution
    return 1 / solution


@derivation(oxygen_under_respiration, title="Oxygen where supply meets use")
def rest_under_respiration(saturation: Any, respiration: Any, time_constant: Any) -> Stages:
    """Set the balance to rest."""
    oxygen = Symbol("rho_infty", real=True)
    law = Eq((saturation - oxygen) / time_constant, respiration)
    yield "At rest, the air brings what is breathed:", law
    (solution,) = solve(law, oxygen)
    return solution


@derivation(exchange_time, title="The exchange time of a mixed tank")
def time_of_a_mixed_tank(volume: Any, surface: Any, velocity: Any) -> Stages:
    """Compare the flow through the surface with what is in the tank."""
    gap, k, a, v = symbols("gap k A V", positive=True)
    rate = k * a * gap / v
    yield "Through the surface goes k A times the gap; spread over the volume, that is:", rate
    time = gap / rate
    yield "The gap over the rate at which it closes:", time
    cubic_metres, metres_per_hour = volume / 1000, velocity / 100
    return time.subs({v: cubic_metres, k: metres_per_hour, a: surface})


@derivation(transfer_velocity_from_time, title="The velocity from a measured time")
def velocity_of_a_measured_time(volume: Any, surface: Any, time_constant: Any) -> Stages:
    """Solve the exchange time for its velocity."""
    sought, k, a, v = symbols("k_w k A V", positive=True)
    law = Eq(time_constant, v / (k * a))
    yield "The time is the volume over the surface and the velocity:", law
    (solution,) = solve(law, k)
    yield "Solved for the velocity, in metres an hour:", Eq(k, solution)
    per_hour = solution.subs({v: volume / 1000, a: surface}) * 100
    yield "In centimetres an hour, from litres and square metres:", Eq(sought, per_hour)
    return per_hour


@derivation(transfer_velocity_of_another_gas, title="Another gas over the same surface")
def velocity_by_schmidt_number(
    velocity: Any, schmidt: Any, other_schmidt: Any, exponent: Any
) -> Stages:
    """Take the ratio of two gases; what the surface does drops out."""
    surface, other = symbols("f k_2", positive=True)
    laws: list[Any] = [
        Eq(velocity, surface * schmidt**-exponent),
        Eq(other, surface * other_schmidt**-exponent),
    ]
    yield "Both velocities are what the surface does, times a power of the Schmidt number:", laws
    (f,) = solve(laws[0], surface)
    result = laws[1].rhs.subs(surface, f)
    yield "What the surface does drops out:", result
    return result


@derivation(oxygen_saturation_at_pressure, title="Saturation at the pressure of the room")
def balance_with_dry_air(salinity: Any, temperature: Any, pressure: Any) -> Stages:
    """Scale the saturation with the pressure of oxygen."""
    share, total, vapour, standard = symbols("x p p_H2O C", positive=True)
    yield (
        "The share of oxygen in dry air is fixed; at the surface, vapour takes its part:",
        (share * (total - vapour)),
    )
    ratio = share * (total - vapour) / (share * (1 - vapour))
    yield (
        "By Henry's law, the saturation goes with it, from that at one atmosphere:",
        (standard * ratio),
    )
    water = {"salinity": salinity, "temperature": temperature}
    return (standard * ratio).subs(
        {
            total: pressure / Rational("1013.25"),
            vapour: written_out(vapour_pressure_weiss1980, **water),
            standard: written_out(oxygen_mass_saturation, **water),
        }
    )


@derivation(pressure_at_altitude, title="The pressure of air that carries itself")
def hydrostatic_air(altitude: Any, fit: Any) -> Stages:
    """Let each layer of air carry those above it."""
    h = Symbol("h", nonnegative=True)
    pressure = Function("p", positive=True)
    temperature = fit.temperature - fit.lapse * h
    yield "Temperature falls evenly:", temperature
    density = fit.molar_mass / (fit.gas_constant * temperature)
    yield "An ideal gas has the density p times:", density
    slope = -fit.gravity * density
    law = Eq(diff(log(pressure(h)), h), slope)
    yield "Each layer carries those above it, so the logarithm of the pressure falls:", law
    z = Symbol("z", real=True)
    ratio = 1 - fit.lapse * altitude / fit.temperature
    exponent = fit.gravity * fit.molar_mass / (fit.gas_constant * fit.lapse)
    candidate = exponent * log(1 - fit.lapse * z / fit.temperature)
    checked = (diff(candidate, z) - slope.subs(h, z)).together().expand().simplify()
    yield "This logarithm has that slope, and is zero at sea level; the rest is:", checked
    return fit.pressure * exp(exponent * log(ratio)) + checked
