"""Evaporation and salinity: salt stays, water comes and goes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Rational, Symbol, solve, symbols

from reefchem.derive.derivation import derivation
from reefchem.seawater.density import pure_water_density, seawater_density
from reefchem.tank.topoff import (
    REFERENCE_SALT,
    correct_salinity,
    evaporation_drift,
    mixed_salinity,
    mixed_temperature,
    salinity_of_new_water,
    salt_to_raise,
    temperature_of_new_water,
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


@derivation(salt_to_raise, title="Salt that raises a salinity")
def salt_comes(volume: Any, salinity: Any, target: Any, temperature: Any, dry_share: Any) -> Stages:
    """Keep the mass of salt while salt comes, and its water with it."""
    added, mass, k = symbols("m_a m k", positive=True)
    balance = Eq(k * target * (mass + added), k * salinity * mass + dry_share * added)
    yield (
        (
            "A gram of seawater holds k grams of salt for each unit of salinity. The salt of the "
            "end is that of the start and that of the mix, which adds its whole mass to the water:"
        ),
        balance,
    )
    (solution,) = solve(balance, added)
    yield "so that", Eq(added, solution)
    seawater = seawater_density(salinity, temperature) * volume
    return solution.subs(
        {mass: seawater, k: Rational(str(REFERENCE_SALT)) / 35000}, simultaneous=True
    )


@derivation(salinity_of_new_water, title="New water that brings a tank to a salinity")
def the_rest_of_the_salt(salinity: Any, target: Any, share: Any) -> Stages:
    """Solve one change for the salinity of what goes in."""
    new = Symbol("S_n", real=True)
    balance = Eq(target, (1 - share) * salinity + share * new)
    yield "What stays and what comes make the target, counted by volume:", balance
    (solution,) = solve(balance, new)
    return solution


@derivation(temperature_of_new_water, title="How cold new water may be")
def the_rest_of_the_heat(temperature: Any, coldest: Any, share: Any) -> Stages:
    """Solve one change for the temperature of what goes in."""
    new = Symbol("t_n", real=True)
    balance = Eq(coldest, (1 - share) * temperature + share * new)
    yield "With one heat capacity for both, the tank comes to the bound when", balance
    (solution,) = solve(balance, new)
    return solution
