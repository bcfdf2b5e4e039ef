"""All-in-one dosing: the oxidation of formate and acetate, and that nothing is left."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Function, Integer, Rational, Symbol, dsolve, exp, log, solve

from reefchem.derive.derivation import derivation
from reefchem.derive.reactions import balanced, exact_mass, solved
from reefchem.dosing.oxidation import (
    LN2,
    alkalinity_waiting,
    calcium_with_formate,
    carbon_from_acetate,
    carbon_from_formate,
    formate_dosed,
    oxidised_share,
    oxygen_for_acetate,
    oxygen_for_ethanol,
    oxygen_for_formate,
)
from reefchem.dosing.salt_mass import calcium_formate_mass

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "nothing_is_left",
    "oxygen_from_the_oxidation_of_acetate",
    "oxygen_from_the_oxidation_of_formate",
]

FORMATE = ("HCOO-", "O2"), ("HCO3-",)
ACETATE = ("CH3COO-", "O2"), ("HCO3-", "CO2", "H2O")
ETHANOL = ("C2H5OH", "O2"), ("CO2", "H2O")

CALCIUM_FORMATE = {"Ca": 1, "formate": 2}
BURNT = {"formate": -1, "alkalinity": 1, "C": 1}
GROWTH = {"Ca": -1, "alkalinity": -2, "growth": 2, "C": -1}


def burnt(reaction: tuple[tuple[str, ...], tuple[str, ...]], written: str) -> Stages:
    """Balance an oxidation and return the oxygen for a mole of what is burnt."""
    numbers = balanced(*reaction)
    letters = (Symbol(letter, positive=True) for letter in "abcde")
    yield (
        f"{written} balances in every element and in charge only for these whole numbers:",
        [Eq(letter, number) for letter, number in zip(letters, numbers.values(), strict=False)],
    )
    (fuel, oxygen), _ = reaction
    return Rational(numbers[oxygen], numbers[fuel])


def for_an_equivalent(
    alkalinity: Any, reaction: tuple[tuple[str, ...], tuple[str, ...]], written: str
) -> Stages:
    """Return the moles of oxygen for an alkalinity that ends as hydrogencarbonate."""
    oxygen = yield from burnt(reaction, written)
    numbers = balanced(*reaction)
    fuel = reaction[0][0]
    per_equivalent = oxygen * Rational(numbers[fuel], numbers["HCO3-"])
    yield "Each hydrogencarbonate is one equivalent, so the oxygen is", per_equivalent * alkalinity
    return per_equivalent * alkalinity


FORMATE_WRITTEN = "a HCOO⁻ + b O₂ → c HCO₃⁻"
ACETATE_WRITTEN = "a CH₃COO⁻ + b O₂ → c HCO₃⁻ + d CO₂ + e H₂O"


@derivation(oxygen_for_formate, title="Oxygen for the formate of some alkalinity")
def oxygen_from_the_oxidation_of_formate(alkalinity: Any) -> Stages:
    """Balance the oxidation, then weigh the oxygen."""
    moles = yield from for_an_equivalent(alkalinity, FORMATE, FORMATE_WRITTEN)
    return moles * exact_mass("O2")


@derivation(oxygen_for_acetate, title="Oxygen for the acetate of some alkalinity")
def oxygen_from_the_oxidation_of_acetate(alkalinity: Any) -> Stages:
    """Balance the oxidation, then weigh the oxygen."""
    moles = yield from for_an_equivalent(alkalinity, ACETATE, ACETATE_WRITTEN)
    return moles * exact_mass("O2")


@derivation(oxygen_for_ethanol, title="Oxygen for ethanol")
def oxygen_from_the_oxidation_of_ethanol(ethanol: Any) -> Stages:
    """Balance the oxidation, then weigh the oxygen."""
    per_mole = yield from burnt(ETHANOL, "a C₂H₅OH + b O₂ → c CO₂ + d H₂O")
    moles = ethanol / exact_mass("C2H5OH")
    yield "Millimoles of ethanol in a litre, with its molar mass:", ethanol / Symbol("M")
    return per_mole * moles * exact_mass("O2")


def all_in_one_balance(gained: Any) -> Stages:
    """Solve the balance of a litre that gets calcium formate, burns it and grows a skeleton."""
    demands = {"Ca": 0, "formate": 0, "alkalinity": 0, "growth": gained}
    extents = {"x": CALCIUM_FORMATE, "y": BURNT, "z": GROWTH}
    rows = ("formate", "alkalinity", "growth")
    shown, found = solved(extents, {row: demands[row] for row in rows})
    yield (
        (
            "Let x moles of calcium formate go in, y moles of formate be burnt, and z moles of "
            "CaCO₃ grow. Formate and alkalinity end where they were, and growth takes the "
            "alkalinity A (rows: formate, alkalinity, growth):"
        ),
        shown,
    )
    yield "The solution:", [Eq(Symbol(name), value) for name, value in found.items()]
    calcium = sum(change.get("Ca", 0) * found[name] for name, change in extents.items())
    yield (
        "Calcium was not asked for, and ends where it was all the same. No ion is left over:",
        Eq(Symbol(r"\Delta\mathrm{Ca}"), calcium, evaluate=False),
    )
    if calcium != 0:
        msg = "calcium formate leaves calcium behind"
        raise ArithmeticError(msg)
    return found


@derivation(formate_dosed, title="Formate for some alkalinity")
def formate_weighed(alkalinity: Any) -> Stages:
    """Solve the balance and weigh the formate."""
    found = yield from all_in_one_balance(alkalinity)
    return found["y"] * exact_mass("HCOO-")


@derivation(calcium_with_formate, title="Nothing is left of calcium formate")
def nothing_is_left(alkalinity: Any) -> Stages:
    """Solve the balance and weigh the calcium that came, which is the calcium that grew."""
    found = yield from all_in_one_balance(alkalinity)
    return found["x"] * exact_mass("Ca")


@derivation(calcium_formate_mass, title="Calcium formate for a rise of alkalinity")
def calcium_formate_from_its_ions(alkalinity_rise: Any, volume: Any, purity: Any) -> Stages:
    """Solve the balance of the whole tank for the moles of salt."""
    found = yield from all_in_one_balance(alkalinity_rise * volume)
    yield "In grams, with M the molar mass of the salt:", found["x"] * Symbol("M") / 1000
    return found["x"] * exact_mass("Ca(HCOO)2") / 1000 / purity


@derivation(carbon_from_formate, title="Organic carbon dosed as formate")
def carbon_of_formate(alkalinity: Any) -> Stages:
    """Count one carbon for each equivalent."""
    numbers = balanced(*FORMATE)
    moles = alkalinity * Rational(numbers["HCOO-"], numbers["HCO3-"])
    yield "Moles of formate, each with one carbon:", moles
    return moles * exact_mass("C")


@derivation(carbon_from_acetate, title="Organic carbon dosed as acetate")
def carbon_of_acetate(alkalinity: Any) -> Stages:
    """Count two carbons for each equivalent."""
    numbers = balanced(*ACETATE)
    moles = alkalinity * Rational(numbers["CH3COO-"], numbers["HCO3-"])
    yield "Moles of acetate, each with two carbons:", moles
    return 2 * moles * exact_mass("C")


def first_order(time: Any, half_life: Any) -> Stages:
    """Solve the first-order rate law and put the half-life for its constant."""
    t, k, c0 = Symbol("t", positive=True), Symbol("k", positive=True), Symbol("c_0", positive=True)
    c = Function("c")
    law = Eq(c(t).diff(t), -k * c(t))
    yield "Suppose that a fixed share of what is there is burnt in each moment:", law
    solution: Any = dsolve(law, c(t), ics={c(0): c0})
    yield "Then it falls from its start as", solution
    (rate,) = solve(Eq(solution.rhs.subs(t, half_life), c0 / 2), k)
    yield "Half is gone after the half-life, which gives the constant:", Eq(k, rate)
    return (solution.rhs / c0).subs(t, time).subs(k, rate)


@derivation(oxidised_share, title="The share of a dose that is oxidised")
def share_from_the_rate_law(time: Any, half_life: Any) -> Stages:
    """Solve the rate law."""
    left = yield from first_order(time, half_life)
    exact = exp(-log(2) * time / half_life)
    if (left - exact).simplify() != 0:
        msg = "the rate law did not give the half-life form"
        raise ArithmeticError(msg)
    yield "What is not left has become hydrogencarbonate:", 1 - exact
    return 1 - exp(-Rational(repr(LN2)) * time / half_life)


@derivation(alkalinity_waiting, title="What waits in formate when dosing is steady")
def waiting_at_steady_state(daily_alkalinity: Any, half_life: Any) -> Stages:
    """Set what is burnt in a day equal to what comes in."""
    k, pool = Symbol("k", positive=True), Symbol("A_w", positive=True)
    law = Eq(daily_alkalinity, k * pool)
    yield "When the pool no longer grows, what comes in a day is what is burnt in a day:", law
    yield "The constant of the rate law from its half-life:", Eq(k, log(2) / half_life)
    (found,) = solve(law, pool)
    yield "So there waits", Eq(pool, found.subs(k, log(2) / half_life))
    return found.subs(k, Rational(repr(LN2)) / half_life) * Integer(1)
