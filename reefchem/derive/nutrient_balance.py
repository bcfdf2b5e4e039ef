"""Nitrate in time: a steady gain against water changes, and what algae and bacteria build."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Integer, Rational, Symbol, exp, log, solve, symbols

from reefchem.derive.derivation import derivation
from reefchem.derive.exchange import integrated
from reefchem.derive.reactions import exact_mass
from reefchem.tank.nutrient_balance import (
    carbon_taken_with_nitrate,
    days_to_nitrate,
    nitrate_settled,
    nitrate_taken_by_bacteria,
    phosphate_from_food,
    uptake_at_hours,
    water_change_rate,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["as_a_flow", "from_now_to_the_target"]

BALANCE = (
    "Food and doses less what is taken add the same to each litre every day. The water changes, "
    "as a steady flow, pull the level towards that of the fresh seawater:"
)


def balance(fresh: Any, gain: Any, rate: Any) -> tuple[Any, Any, Any]:
    """Return the time, the level as its function, and the balance of the two."""
    time = Symbol("t", nonnegative=True)
    level = Function("c")(time)
    return time, level, Eq(level.diff(time), gain - rate * (level - fresh))


@derivation(water_change_rate, title="Water changes as a steady flow")
def as_a_flow(share: Any, days: Any) -> Stages:
    """Ask that as much of the old water is left after the same time."""
    rate = Symbol("\\lambda", positive=True)
    law = Eq(exp(-rate * days), 1 - share)
    yield (
        (
            "A change leaves a share of the old water. A steady flow leaves an exponential of it; "
            "it is the same flow when as much is left after the same days:"
        ),
        law,
    )
    logarithm = Eq(-rate * days, log(1 - share))
    yield "The logarithm of both sides:", logarithm
    (solution,) = solve(logarithm, rate)
    return solution


@derivation(nitrate_settled, title="Where a steady gain settles")
def where_nothing_moves(fresh: Any, gain: Any, rate: Any) -> Stages:
    """Let the balance stand still."""
    _, level, law = balance(fresh, gain, rate)
    yield BALANCE, law
    settled = Symbol("c_\\infty", real=True)
    still = Eq(0, law.rhs.subs(level, settled))
    yield "Once settled, nothing moves any more:", still
    (solution,) = solve(still, settled)
    return solution


@derivation(days_to_nitrate, title="The time to a level of nitrate")
def from_now_to_the_target(level: Any, target: Any, fresh: Any, gain: Any, rate: Any) -> Stages:
    """Solve the balance from now on, and the solution for the time."""
    time, course, law = balance(fresh, gain, rate)
    yield BALANCE, law
    solution = integrated(law, course, {course.subs(time, 0): level})
    settled = fresh + gain / rate
    yield "From the level now it runs to where it settles, ever more slowly:", Eq(course, solution)
    left = Eq((target - settled) / (level - settled), exp(-rate * time))
    yield "At the target, what is left of the distance is", left
    return log((level - settled) / (target - settled)) / rate


@derivation(uptake_at_hours, title="Uptake with other hours of light")
def a_power_of_the_light(uptake: Any, hours: Any, new_hours: Any, response: Any) -> Stages:
    """Let the uptake grow by as many per cent as the light, times a response."""
    h, r = Symbol("h", positive=True), Symbol("r", positive=True)
    u = Function("u", positive=True)(h)
    yield (
        (
            "Assume that one per cent more light raises the uptake by a fixed number of per cent, "
            "the response; it is one where the uptake is in proportion:"
        ),
        Eq(u.diff(h) / u, r / h),
    )
    course = uptake * (h / hours) ** response
    yield "From the uptake at the hours of now this leads to", Eq(u, course)
    return course.subs(h, new_hours)


@derivation(phosphate_from_food, title="Phosphate from a day's food")
def one_phosphate_for_each(food: Any, phosphorus: Any, volume: Any) -> Stages:
    """Count atoms."""
    milligrams = food * phosphorus * 1000
    yield "Milligrams of phosphorus in the food of a day:", milligrams
    moles = milligrams / exact_mass("P")
    yield "As many millimoles of phosphate, shared by the whole tank:", moles / volume
    return moles * exact_mass("PO4^3-") / volume


@derivation(carbon_taken_with_nitrate, title="Carbon of algae")
def carbon_by_atoms(nitrate: Any) -> Stages:
    """Count atoms by the printed ratio."""
    moles = nitrate / exact_mass("NO3-")
    yield "Millimoles of nitrogen:", nitrate / Symbol("M_\\mathrm{NO_3}", positive=True)
    ratio = Rational(Integer(550), Integer(30))
    yield "Atoms of carbon for each of nitrogen (550:30):", ratio
    return moles * ratio * exact_mass("C")


@derivation(nitrate_taken_by_bacteria, title="Nitrate that bacteria build in")
def what_is_not_burnt(carbon: Any, built: Any, carbon_per_nitrogen: Any) -> Stages:
    """Count the carbon that is built in, and the nitrogen beside it."""
    M_C, M_N = symbols("M_\\mathrm{C} M_\\mathrm{NO_3}", positive=True)
    moles = carbon / M_C * built
    yield "Millimoles of carbon that are not burnt:", moles
    yield "Each nitrogen goes with so many of them:", moles / carbon_per_nitrogen
    found = moles / carbon_per_nitrogen * M_N
    return found.subs({M_C: exact_mass("C"), M_N: exact_mass("NO3-")})
