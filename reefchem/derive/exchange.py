"""Water changes: one balance of dissolved mass, repeated, ended and turned round."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Symbol, dsolve, exp, log, rsolve, simplify, solve

from reefchem.derive.derivation import derivation
from reefchem.tank.exchange import (
    after_continuous_exchange,
    after_partly_mixed_exchange,
    after_water_changes,
    after_water_changes_with_gain,
    alkalinity_after_water_changes,
    level_before_water_change,
    share_left,
    share_to_change,
    volume_to_change,
    water_changes_needed,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["from_one_change_to_many", "many_changes_with_gain", "old_water_left", "while_it_flows"]

ONE_CHANGE = (
    "A change takes out a share of the water with all that is in it, and puts fresh seawater in "
    "its place. Of the mass in a litre, the share that is not taken out stays, and the fresh "
    "water brings the rest:"
)


def repeated(step: Any, first: Any, changes: Any) -> Any:
    """Return the solution of a step that is made again and again, c → step(c)."""
    count = Symbol("k", integer=True, nonnegative=True)
    level = Function("c")
    solution: Any = rsolve(level(count + 1) - step(level(count)), level(count), {level(0): first})
    if solution is None:
        msg = "SymPy finds no closed form of this series"
        raise ValueError(msg)
    return simplify(solution.subs(count, changes))


def integrated(law: Any, unknown: Any, start: dict[Any, Any]) -> Any:
    """Return the solution of a differential equation from its start."""
    found: Any = dsolve(law, unknown, ics=start)
    return found.rhs


@derivation(share_left, title="What is left of the old water")
def old_water_left(share: Any, changes: Any) -> Stages:
    """Repeat one change."""
    old = Function("k")
    count = Symbol("n", integer=True)
    yield (
        (
            "Each change leaves the share that it does not take out, and it takes old and new "
            "water alike:"
        ),
        Eq(old(count + 1), (1 - share) * old(count)),
    )
    yield "At the start all of the water is old:", Eq(old(0), 1)
    return repeated(lambda c: (1 - share) * c, 1, changes)


def mixed(level: Any, fresh: Any, share: Any, changes: Any) -> Stages:
    """Return the level after some changes from the balance of one."""
    before = Symbol("c", positive=True)
    yield ONE_CHANGE, (1 - share) * before + share * fresh
    yield (
        (
            "Count from the fresh seawater: the distance to it shrinks by the same factor at "
            "every change,"
        ),
        Eq((1 - share) * before + share * fresh - fresh, (1 - share) * (before - fresh)),
    )
    return repeated(lambda c: (1 - share) * c + share * fresh, level, changes)


@derivation(after_water_changes, title="A series of water changes")
def from_one_change_to_many(level: Any, fresh: Any, share: Any, changes: Any) -> Stages:
    """Repeat the balance of one change."""
    return (yield from mixed(level, fresh, share, changes))


@derivation(alkalinity_after_water_changes, title="Alkalinity after a series of water changes")
def alkalinity_mixes_too(alkalinity: Any, fresh: Any, share: Any, changes: Any) -> Stages:
    """Repeat the balance of one change; equivalents mix as masses do."""
    return (yield from mixed(alkalinity, fresh, share, changes))


@derivation(water_changes_needed, title="How many changes a target takes")
def turned_round(level: Any, target: Any, fresh: Any, share: Any) -> Stages:
    """Solve the series for the count."""
    count = Symbol("n", positive=True)
    series = Eq(target, fresh + (level - fresh) * (1 - share) ** count)
    yield "The series that ends at the target:", series
    ratio = (target - fresh) / (level - fresh)
    yield "What is left of the distance to the fresh seawater:", Eq((1 - share) ** count, ratio)
    yield "and its logarithm", Eq(count * log(1 - share), log(ratio))
    return log(ratio) / log(1 - share)


@derivation(share_to_change, title="One change that reaches a target")
def one_large_change(level: Any, target: Any, fresh: Any) -> Stages:
    """Solve one change for its share."""
    share = Symbol("f", positive=True)
    balance = Eq(target, (1 - share) * level + share * fresh)
    yield ONE_CHANGE, balance
    (solution,) = solve(balance, share)
    return solution


@derivation(volume_to_change, title="The volume of a change")
def share_of_the_volume(share: Any, volume: Any) -> Stages:
    """Read the definition of the share."""
    changed = Symbol("V_c", positive=True)
    yield "The share of a change is its volume over that of the tank:", Eq(share, changed / volume)
    (solution,) = solve(Eq(share, changed / volume), changed)
    return solution


@derivation(after_continuous_exchange, title="Water that flows through")
def while_it_flows(level: Any, fresh: Any, exchanged: Any, volume: Any) -> Stages:
    """Solve the balance of a well mixed tank."""
    flowed = Symbol("x", nonnegative=True)
    c = Function("c")
    balance = Eq(volume * c(flowed).diff(flowed), fresh - c(flowed))
    yield (
        (
            "A small volume flows in with the level of the fresh seawater, and as much flows out "
            "with that of the tank, which is well mixed:"
        ),
        balance,
    )
    solution = integrated(balance, c(flowed), {c(0): level})
    yield "From the level at the start this leads to", Eq(c(flowed), solution)
    return simplify(solution.subs(flowed, exchanged).rewrite(exp))


@derivation(after_partly_mixed_exchange, title="Water that flows past")
def while_some_flows_past(
    level: Any, fresh: Any, exchanged: Any, volume: Any, mixed: Any
) -> Stages:
    """Solve the balance of a tank of which some of the inflow never becomes part."""
    flowed = Symbol("x", nonnegative=True)
    c = Function("c")
    balance = Eq(volume * c(flowed).diff(flowed), mixed * (fresh - c(flowed)))
    yield (
        (
            "Of a small volume that flows in, a share mixes and drives out as much of the tank's "
            "water; the rest leaves with the level it came with, and changes nothing:"
        ),
        balance,
    )
    solution = integrated(balance, c(flowed), {c(0): level})
    yield "From the level at the start this leads to", Eq(c(flowed), solution)
    return simplify(solution.subs(flowed, exchanged).rewrite(exp))


@derivation(after_water_changes_with_gain, title="Water changes against a steady gain")
def many_changes_with_gain(level: Any, fresh: Any, gain: Any, share: Any, changes: Any) -> Stages:
    """Repeat one gain and one change."""
    before = Symbol("c", positive=True)
    yield (
        "Between two changes each litre gains something; then a change takes out a share of all:",
        (1 - share) * (before + gain) + share * fresh,
    )
    rest = fresh + gain * (1 - share) / share
    yield (
        (
            "There is a level that such a step leaves as it is; the distance to it shrinks by the "
            "same factor each time:"
        ),
        rest,
    )
    return repeated(lambda c: (1 - share) * (c + gain) + share * fresh, level, changes)


@derivation(level_before_water_change, title="Where gain and water changes meet")
def where_both_meet(fresh: Any, gain: Any, share: Any) -> Stages:
    """Ask for the level that a change and a gain leave as it is."""
    level = Symbol("c", positive=True)
    balance = Eq(level, (1 - share) * level + share * fresh + gain)
    yield "Once settled, a change and the gain after it end where they began:", balance
    (solution,) = solve(balance, level)
    return solution
