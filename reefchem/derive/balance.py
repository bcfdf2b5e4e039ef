"""Months of dosing: the map of one period, its fixed point, and the proportions of seawater."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Integer, MatMul, Matrix, Rational, Symbol, solve, summation

from reefchem.core.atoms import charge_of
from reefchem.derive.derivation import derivation
from reefchem.dosing.drift import (
    ion_after_periods,
    ion_settled,
    kept_share,
    settling_time,
    share_replaced,
    water_change_for_bound,
)
from reefchem.dosing.proportions import charge_gap, sea_salt_left, seawater_left

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["geometric_series", "sea_salt_from_three_solutions"]


@derivation(share_replaced, title="Fresh water that sets the salinity right")
def replaced_from_salt(salt_gained: Any, salt: Any) -> Stages:
    """Ask that the salt of a litre is what it was."""
    r = Symbol("r", positive=True)
    law = Eq((1 - r) * (salt + salt_gained), salt)
    yield "A share r gives way to water without salt, and the salt is what it was:", law
    (found,) = solve(law, r)
    yield "So:", Eq(r, found)
    return found


@derivation(kept_share, title="What is kept through one period")
def kept_from_two_steps(share: Any, replaced: Any) -> Stages:
    """Take one share, then the other."""
    yield "The correction leaves", 1 - replaced
    yield "and of that the water change leaves", (1 - share) * (1 - replaced)
    return (1 - share) * (1 - replaced)


def fixed_point(fresh: Any, gain: Any, share: Any, kept: Any) -> Stages:
    """Solve the map of one period for the level that it leaves as it is."""
    x = Symbol("x", positive=True)
    after = kept * (x + gain) + share * fresh
    yield (
        "In a period the level gains g, a share a is kept, and a share f is fresh seawater:",
        Eq(Symbol("x_{n+1}"), after.subs(x, Symbol("x_n"))),
    )
    (end,) = solve(Eq(x, after), x)
    yield "It stays where it is when", Eq(Symbol(r"x_\infty"), end)
    return end


@derivation(ion_settled, title="Where an ion settles")
def settled_from_the_map(fresh: Any, gain: Any, share: Any, kept: Any) -> Stages:
    """Find the fixed point."""
    return (yield from fixed_point(fresh, gain, share, kept))


@derivation(ion_after_periods, title="An ion after n periods")
def geometric_series(
    level: Any, fresh: Any, gain: Any, share: Any, kept: Any, periods: Any
) -> Stages:
    """Sum the geometric series of what came in each period."""
    end = yield from fixed_point(fresh, gain, share, kept)
    k = Symbol("k", integer=True, nonnegative=True)
    n = Symbol("n", integer=True, positive=True)
    income = kept * gain + share * fresh
    a = Symbol("a", positive=True)
    summed: Any = summation(a**k, (k, 0, n - 1))
    series = summed.args[-1][0]
    yield (
        "What came in k periods ago has been kept k times; a geometric series:",
        Eq(Symbol("s_n"), series),
    )
    closed = level * kept**periods + income * series.subs({a: kept, n: periods})
    yield "Together with what is left of the start:", Eq(Symbol("x_n"), closed)
    yield (
        "which is the settled level, and a distance from it that shrinks by a each time.",
        Eq(Symbol("x_n"), Symbol(r"x_\infty") + (level - Symbol(r"x_\infty")) * kept**periods),
    )
    if (closed - (end + (level - end) * kept**periods)).simplify() != 0:
        msg = "the series and the fixed point disagree"
        raise ArithmeticError(msg)
    return end + (level - end) * kept**periods


@derivation(settling_time, title="How long it takes to settle")
def time_to_one_in_e(kept: Any, period: Any) -> Stages:
    """Ask when the distance has fallen to one part in e."""
    from sympy import exp, log  # noqa: PLC0415 - names that are common elsewhere

    t = Symbol("t", positive=True)
    law = Eq(kept ** (t / period), exp(-1))
    yield "After a time t there were t/p periods. The distance is one part in e when", law
    found = -period / log(kept)
    if (log(kept) * found / period + 1).simplify() != 0:
        msg = "the time does not solve its law"
        raise ArithmeticError(msg)
    yield "So:", Eq(t, found)
    return found


@derivation(water_change_for_bound, title="The water change that keeps an ion within a bound")
def change_from_the_fixed_point(loss: Any, replaced: Any) -> Stages:
    """Solve the fixed point of an ion that nobody doses for the share of water."""
    f = Symbol("f", positive=True)
    kept = (1 - f) * (1 - replaced)
    law = Eq(f / (1 - kept), 1 - loss)
    yield "Without a gain the ion settles, as a share of what fresh seawater has, at", law
    (found,) = solve(law, f)
    yield "Solved for the water change:", Eq(f, found)
    return found


@derivation(charge_gap, title="Seawater without calcium and alkalinity does not balance")
def gap_from_charges(calcium: Any, alkalinity: Any) -> Stages:
    """Take calcium and alkalinity out of a neutral water."""
    rest = Symbol("z", real=True)
    two = Integer(charge_of("Ca^2+"))
    law = Eq(rest + two * calcium - alkalinity, 0)
    yield "All charges of seawater add up to zero; z is what the rest of the ions carries:", law
    (found,) = solve(law, rest)
    yield "So the rest is negative, and is short of as much positive charge:", Eq(rest, found)
    return -found


THREE = (
    "Moles of CaCl₂, NaHCO₃, MgCl₂, MgSO₄ and KCl, and kilograms s of seawater whose salts stay "
    "(rows: Na, Mg, Ca, K, SO₄, alkalinity). Growth takes A and A/2 of calcium. Chloride has no "
    "row: every salt is neutral, and so is seawater, so it fits by itself."
)


def three_solutions(used: Any, fit: Any) -> Stages:
    """Solve the balance of three solutions for the seawater whose salts are left."""
    salts = Matrix([Symbol(s) for s in ("x", "y", "u", "v", "w", "s")])
    sea = {ion: Symbol(rf"[\mathrm{{{ion}}}]") for ion in ("Mg", "Ca", "K", "SO_4")}
    rows = {
        # CaCl2, NaHCO3, MgCl2, MgSO4, KCl, seawater left
        "Na": [0, 1, 0, 0, 0, -fit.n_sodium],
        "Mg": [0, 0, 1, 1, 0, -sea["Mg"]],
        "Ca": [1, 0, 0, 0, 0, -sea["Ca"]],
        "K": [0, 0, 0, 0, 1, -sea["K"]],
        "SO4": [0, 0, 0, 1, 0, -sea["SO_4"]],
        "alkalinity": [0, 1, 0, 0, 0, -fit.a_sea],
    }
    wanted = Matrix([0, 0, used / 2, 0, 0, used])
    matrix = Matrix(list(rows.values()))
    yield (
        THREE,
        Eq(MatMul(matrix, salts, evaluate=False), wanted, evaluate=False),
    )
    solution = matrix.LUsolve(wanted)
    left = solution[5].factor()
    yield "Sodium and alkalinity alone decide how much sea salt is left:", Eq(Symbol("s"), left)
    return left


@derivation(seawater_left, title="Three solutions that leave sea salt")
def sea_salt_from_three_solutions(alkalinity_used: Any, fit: Any) -> Stages:
    """Solve six balances."""
    return (yield from three_solutions(alkalinity_used, fit))


@derivation(sea_salt_left, title="The mass of sea salt that is left")
def sea_salt_weighed(alkalinity_used: Any, fit: Any) -> Stages:
    """Solve six balances, then weigh."""
    left = yield from three_solutions(alkalinity_used, fit)
    numbers = {fit.n_sodium: Rational("468.9674"), fit.a_sea: Rational("2.3044")}
    yield "Each kilogram has 35.165 g of salt; with the numbers of seawater:", left.subs(numbers)
    return left.subs(numbers) * fit.m_salt
