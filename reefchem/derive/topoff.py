"""Evaporation and salinity: salt stays, water comes and goes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Symbol, solve

from reefchem.derive.derivation import derivation
from reefchem.seawater.density import pure_water_density, seawater_density
from reefchem.tank.topoff import (
    correct_salinity,
    evaporation_drift,
    mixed_salinity,
    mixed_temperature,
    top_off_needed,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["out_and_in", "salt_stays", "water_comes"]


@derivation(evaporation_drift, title="Salinity when the top-off fails")
def salt_stays(salinity: Any, temperature: Any, volume: Any, evaporation: Any, days: Any) -> Stages:
    """Keep the mass of salt while water leaves."""
    after = Symbol("S_2", positive=True)
    mass, lost = Symbol("m", positive=True), Symbol("m_w", positive=True)
    balance = Eq(salinity * mass, after * (mass - lost))
    yield "The salt of the start is the salt of the end; only water has gone:", balance
    (solution,) = solve(balance, after)
    yield "so that", Eq(after, solution)
    seawater = seawater_density(salinity, temperature) * volume
    water = pure_water_density(temperature) * evaporation * days
    return solution.subs({mass: seawater, lost: water}, simultaneous=True)


@derivation(top_off_needed, title="Fresh water for a salinity that is too high")
def water_comes(salinity: Any, target: Any, temperature: Any, volume: Any) -> Stages:
    """Keep the mass of salt while water comes."""
    water, mass = Symbol("m_w", positive=True), Symbol("m", positive=True)
    balance = Eq(salinity * mass, target * (mass + water))
    yield "The salt of the start is the salt of the end; only water has come:", balance
    (solution,) = solve(balance, water)
    yield "By mass that is", Eq(water, solution)
    seawater = seawater_density(salinity, temperature) * volume
    return solution.subs(mass, seawater) / pure_water_density(temperature)


@derivation(correct_salinity, title="An exchange that corrects the salinity")
def out_and_in(salinity: Any, target: Any, replacement: Any, volume: Any) -> Stages:
    """Take water out and put other water in."""
    out = Symbol("V_x", positive=True)
    balance = Eq(target * volume, salinity * (volume - out) + replacement * out)
    yield "Salt in the tank, counted by volume, after the exchange:", balance
    (solution,) = solve(balance, out)
    return solution


def poured_together(volume: Any, first: Any, added: Any, second: Any, what: str) -> Stages:
    """Return the volume-weighted mean."""
    after = Symbol("x", real=True)
    balance = Eq(after * (volume + added), first * volume + second * added)
    yield f"The {what} of both waters is that of the mixture:", balance
    (solution,) = solve(balance, after)
    return solution


@derivation(mixed_salinity, title="Two waters poured together")
def salt_of_both(volume: Any, salinity: Any, added: Any, added_salinity: Any) -> Stages:
    """Add the salt."""
    return (yield from poured_together(volume, salinity, added, added_salinity, "salt"))


@derivation(mixed_temperature, title="Two temperatures poured together")
def heat_of_both(volume: Any, temperature: Any, added: Any, added_temperature: Any) -> Stages:
    """Add the heat, with one heat capacity for both."""
    return (yield from poured_together(volume, temperature, added, added_temperature, "heat"))
