"""Holding the alkalinity: every relation from one balance, in = out + used + kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Rational, Symbol, expand, simplify, solve, sqrt, summation

from reefchem.derive.derivation import derivation
from reefchem.derive.exchange import integrated
from reefchem.tank.holding import (
    alkalinity_ahead,
    alkalinity_at_end,
    alkalinity_brought,
    alkalinity_need,
    alkalinity_taken,
    alkalinity_uptake,
    daily_dose,
    doses_in_a_day,
    need_on_the_way,
    readings_to_see,
    spread_of_next_reading,
)
from reefchem.tank.nutrients import light_hours_that_hold, nitrate_uptake

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["from_two_readings", "held_from_change_to_change"]


@derivation(alkalinity_uptake, title="Uptake from two readings")
def from_two_readings(first: Any, kept: Any, added: Any, second: Any, days: Any) -> Stages:
    """Write the balance of the alkalinity and solve it for what is used."""
    used = Symbol("u", real=True)
    yield (
        (
            "Without water changes a litre ends with what it had, and what was brought, less what "
            "the corals took:"
        ),
        Eq(second, first + added - used * days),
    )
    yield (
        (
            "A water change takes out a share of all three: of the alkalinity of the start, of "
            "what was brought before it, and of the lack that the uptake left. With k for the "
            "share of the first water still there, and everything else counted by what is still "
            "there:"
        ),
        Eq(second, kept * first + added - used * days),
    )
    (solution,) = solve(Eq(second, kept * first + added - used * days), used)
    return expand(solution)


@derivation(alkalinity_at_end, title="Alkalinity at the end of a time")
def the_balance_itself(first: Any, kept: Any, added: Any, uptake: Any, days: Any) -> Stages:
    """Solve the differential balance between two changes, then let a change follow."""
    time, brought = Symbol("t", nonnegative=True), Symbol("b", real=True)
    alkalinity = Function("A")
    law = Eq(alkalinity(time).diff(time), brought - uptake)
    yield "Between two water changes doses bring and corals take at steady rates:", law
    line = integrated(law, alkalinity(time), {alkalinity(0): first})
    yield "so that the alkalinity follows a straight line:", Eq(alkalinity(time), line)
    yield (
        (
            "A change multiplies by what it leaves and adds what the fresh seawater brings. "
            "Gather what multiplies the alkalinity of the start (k), what multiplies the uptake "
            "(d), and all the rest (a):"
        ),
        kept * first + added - uptake * days,
    )
    return kept * first + added - uptake * days


@derivation(alkalinity_need, title="What doses must bring beside water changes")
def held_from_change_to_change(
    uptake: Any, target: Any, fresh: Any, share: Any, days: Any
) -> Stages:
    """Ask that the alkalinity before a change is the same as before the next."""
    need = Symbol("n", real=True)
    changed = (1 - share) * target + share * fresh
    yield "A change at the target moves the alkalinity to", changed
    ends = Eq(target, changed + (need - uptake) * days)
    yield "Doses and uptake act on the days that follow, and shall end at the target again:", ends
    (solution,) = solve(ends, need)
    return simplify(solution)


@derivation(daily_dose, title="A daily dose from a daily need")
def milliequivalents_in_a_day(need: Any, volume: Any, potency: Any) -> Stages:
    """Count milliequivalents in the tank and in the dose."""
    dose = Symbol("v", positive=True)
    yield "The tank needs in a day, in milliequivalents,", need * volume
    yield "and the dose brings as many:", Eq(dose * potency, need * volume)
    (solution,) = solve(Eq(dose * potency, need * volume), dose)
    return solution


@derivation(need_on_the_way, title="What doses must bring while the level moves")
def hold_and_move(need: Any, alkalinity: Any, target: Any, days: Any) -> Stages:
    """Add the way to what holds the level."""
    brought = Symbol("b", real=True)
    ends = Eq(target, alkalinity + (brought - need) * days)
    yield "What is brought beyond the need moves the level:", ends
    (solution,) = solve(ends, brought)
    return expand(solution)


@derivation(alkalinity_ahead, title="The days to come")
def if_nothing_changes(alkalinity: Any, brought: Any, uptake: Any, days: Any) -> Stages:
    """Integrate steady rates."""
    time = Symbol("t", nonnegative=True)
    level = Function("A")
    law = Eq(level(time).diff(time), brought - uptake)
    yield "With steady rates,", law
    return integrated(law, level(time), {level(0): alkalinity}).subs(time, days)


@derivation(alkalinity_taken, title="Uptake over some days")
def rate_times_time(uptake: Any, days: Any) -> Stages:
    """Integrate a steady rate."""
    time = Symbol("t", nonnegative=True)
    yield "At a steady rate the uptake adds up,", uptake
    return uptake.integrate((time, 0, days))


@derivation(alkalinity_brought, title="What doses brought in a day")
def shared_out(equivalents: Any, volume: Any, days: Any) -> Stages:
    """Share all that was dosed among litres and days."""
    yield "Among the litres of the tank:", equivalents / volume
    return equivalents / volume / days


@derivation(doses_in_a_day, title="Doses in a day")
def none_too_large(need: Any, single: Any, days: Any) -> Stages:
    """Share what is needed among doses that are as large as allowed."""
    count = Symbol("m", positive=True)
    yield "As many of the largest doses as bring what is needed:", Eq(count * single, need * days)
    (solution,) = solve(Eq(count * single, need * days), count)
    return solution


@derivation(spread_of_next_reading, title="How far the next reading may be off")
def errors_add_as_squares(
    level_error: Any, uptake_error: Any, correlation: Any, days: Any, scatter: Any
) -> Stages:
    """Take the variance of level less uptake times days, and of a reading."""
    shared = correlation * level_error * uptake_error
    variance = level_error**2 + days**2 * uptake_error**2 - 2 * days * shared
    yield (
        "The forecast is today's level less the uptake times the days; its variance is",
        variance,
    )
    yield "A reading scatters about the level, independently of both:", variance + scatter**2
    return sqrt(variance + scatter**2)


@derivation(nitrate_uptake, title="Nitrate that is taken")
def nitrate_balance(brought: Any, change: Any) -> Stages:
    """Solve the balance for what is used."""
    used = Symbol("u", real=True)
    yield "What comes in is used or makes the level rise:", Eq(brought, used + change)
    (solution,) = solve(Eq(brought, used + change), used)
    return solution


@derivation(light_hours_that_hold, title="Hours of light that hold the nitrate")
def as_much_as_comes(hours: Any, brought: Any, uptake: Any) -> Stages:
    """Let the uptake follow the hours of light."""
    wanted = Symbol("h", positive=True)
    balance = Eq(brought, uptake * wanted / hours)
    yield "If the uptake follows the hours of light, it meets what comes in at", balance
    (solution,) = solve(balance, wanted)
    return solution


@derivation(readings_to_see, title="Readings that show a change of uptake")
def slopes_on_both_sides(change: Any, scatter: Any, days: Any, quantile: Any) -> Stages:
    """Compare the slopes of two stretches of evenly spaced readings."""
    count, index = Symbol("n", positive=True), Symbol("i", integer=True)
    middle = (count - 1) / 2
    squares = simplify(summation((index - middle) ** 2, (index, 0, count - 1)))
    yield (
        (
            "The slope through n readings, d days apart, has the variance of a reading over the "
            "sum of the squared distances of their days from the mean day, which is d² times"
        ),
        squares,
    )
    slope = scatter**2 / (days**2 * squares)
    yield "The difference of the slopes of two such stretches has twice that variance:", 2 * slope
    large = 24 * scatter**2 / (days**2 * count**3)
    yield "With many readings n² - 1 is nearly n²:", large
    equation = Eq(change**2, quantile**2 * large)
    yield "The change shows when it is a quantile of standard errors:", equation
    return (24 * (quantile * scatter / (days * change)) ** 2) ** Rational(1, 3)
