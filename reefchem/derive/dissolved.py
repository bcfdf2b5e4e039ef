"""Ions beside the alkalinity: one balance for all, and what one uptake foretells of another."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Rational, Symbol, diff, expand, simplify, solve, sqrt, summation, symbols

from reefchem.derive.derivation import derivation
from reefchem.derive.reactions import decimal, exact_mass
from reefchem.tank.consistency import calcium_with_alkalinity, magnesium_with_calcium
from reefchem.tank.dilution import dilution_factor
from reefchem.tank.dissolved import (
    dissolved_error_of_dosed,
    dissolved_uptake,
    error_of_dosed,
    potency_of_ion,
    readings_to_see_dissolved,
)
from reefchem.tank.reach import alkalinity_with_changes_alone, times_saturated

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["calcium_from_charges", "from_the_balance_of_an_ion"]


@derivation(dissolved_uptake, title="Uptake of an ion from two readings")
def from_the_balance_of_an_ion(first: Any, kept: Any, added: Any, second: Any, days: Any) -> Stages:
    """Write the balance of the ion and solve it for what is used."""
    used = Symbol("u", real=True)
    balance = Eq(second, kept * first + added - used * days)
    yield (
        (
            "What is left of the first water's ion, what was brought, and what was used, each "
            "counted by the water that is still there:"
        ),
        balance,
    )
    (solution,) = solve(balance, used)
    return expand(solution)


@derivation(potency_of_ion, title="An ion in a millilitre of stock")
def moles_of_salt_moles_of_ion(
    strength: Any, molar_mass: Any, moles: Any, ion_mass: Any, purity: Any
) -> Stages:
    """Go from the salt's mass to its moles, to the ion's, to the ion's mass."""
    amount = strength * purity / molar_mass
    yield "Moles of salt in a litre, which are millimoles in a millilitre:", amount
    yield "Millimoles of the ion, from the formula of the salt:", amount * moles
    return amount * moles * ion_mass


@derivation(readings_to_see_dissolved, title="Readings that show a change of an ion's uptake")
def slopes_of_a_level(change: Any, scatter: Any, days: Any, quantile: Any) -> Stages:
    """Compare the slopes of two stretches of evenly spaced readings."""
    count, index = Symbol("n", positive=True), Symbol("i", integer=True)
    squares = simplify(summation((index - (count - 1) / 2) ** 2, (index, 0, count - 1)))
    yield "Squared distances of n evenly spaced readings from their mean day, over d²:", squares
    exact = 2 * scatter**2 / (days**2 * squares)
    yield "Variance of the difference of two such slopes:", exact
    large = 24 * scatter**2 / (days**2 * count**3)
    yield "With many readings n² - 1 is nearly n²:", large
    yield "The change shows at a quantile of standard errors:", Eq(change**2, quantile**2 * large)
    return (24 * (quantile * scatter / (days * change)) ** 2) ** Rational(1, 3)


def propagated(dosed: Any, volume_error: Any, strength_error: Any) -> Stages:
    """Return the standard uncertainty of millilitres times potency over volume."""
    v, p, volume = symbols("v p V", positive=True)
    brought = v * p / volume
    yield (
        "Millilitres in a day times what each brings (the potency), among the litres of the tank:",
        brought,
    )
    slopes = [diff(brought, p), diff(brought, volume)]
    yield "How it moves with the potency and with the volume:", slopes
    squares = [(slopes[0] * p * strength_error) ** 2, (slopes[1] * volume * volume_error) ** 2]
    total = simplify(sum(squares) / brought**2)
    yield "Independent errors add as squares; over the square of what is brought:", total
    return dosed * sqrt(total)


@derivation(error_of_dosed, title="What volume and stock do to the uptake of alkalinity")
def shares_of_a_dose(dosed: Any, volume_error: Any, strength_error: Any) -> Stages:
    """Propagate the errors of a quotient."""
    return (yield from propagated(dosed, volume_error, strength_error))


@derivation(dissolved_error_of_dosed, title="What volume and stock do to the uptake of an ion")
def shares_of_a_dose_of_an_ion(dosed: Any, volume_error: Any, strength_error: Any) -> Stages:
    """Propagate the errors of a quotient."""
    return (yield from propagated(dosed, volume_error, strength_error))


@derivation(calcium_with_alkalinity, title="Calcium that goes with alkalinity")
def calcium_from_charges(uptake: Any, nitrate_taken: Any) -> Stages:
    """Count the equivalents that calcium carbonate takes and nitrate gives back."""
    n, M_Ca, M_N = symbols(r"n_\mathrm{Ca} M_\mathrm{Ca} M_\mathrm{NO_3}", positive=True)
    seen = Eq(uptake, 2 * n - nitrate_taken / M_N)
    yield (
        (
            "Each millimole of calcium carbonate takes two milliequivalents. Each millimole of "
            "nitrate that is taken up, or becomes nitrogen gas, gives one back:"
        ),
        seen,
    )
    (moles,) = solve(seen, n)
    yield "Solved for the millimoles of calcium:", Eq(n, expand(moles))
    yield "The molar masses, in g/mol:", [Eq(M_Ca, decimal("Ca")), Eq(M_N, decimal("NO3-"))]
    return (moles * M_Ca).subs({M_Ca: exact_mass("Ca"), M_N: exact_mass("NO3-")})


@derivation(magnesium_with_calcium, title="Magnesium that goes with calcium")
def metal_by_metal(calcium: Any, magnesium_per_calcium: Any) -> Stages:
    """Go from milligrams to millimoles and back."""
    M_Ca, M_Mg = symbols(r"M_\mathrm{Ca} M_\mathrm{Mg}", positive=True)
    moles = calcium / M_Ca
    yield "Millimoles of calcium:", moles
    magnesium = moles * magnesium_per_calcium / 1000
    yield "Millimoles of magnesium, the ratio being told in thousandths:", magnesium
    yield "The molar masses, in g/mol:", [Eq(M_Ca, decimal("Ca")), Eq(M_Mg, decimal("Mg"))]
    return (magnesium * M_Mg).subs({M_Ca: exact_mass("Ca"), M_Mg: exact_mass("Mg")})


@derivation(alkalinity_with_changes_alone, title="Where water changes alone let it settle")
def brought_as_much_as_used(fresh: Any, uptake: Any, days: Any, share: Any) -> Stages:
    """Ask that the level before a change is the same as before the next."""
    level = Symbol("A", real=True)
    settled = Eq(level, (1 - share) * level + share * fresh - uptake * days)
    yield "A change mixes in fresh seawater, and the corals take until the next:", settled
    (solution,) = solve(settled, level)
    return expand(solution)


@derivation(dilution_factor, title="A level at another salinity")
def salt_and_ion_alike(salinity: Any, reference: Any) -> Stages:
    """Let fresh water act on salt and ion alike."""
    volume, other, level = symbols("V V_0 c", positive=True)
    kept = Eq(salinity * volume, reference * other)
    yield "Fresh water comes and goes, the salt stays:", kept
    (litres,) = solve(kept, other)
    yield "so that at the other salinity the tank would hold", Eq(other, litres)
    moved = level * volume / litres
    yield "and the ion, which stays as the salt does, would stand at", moved
    return simplify(moved / level)


@derivation(times_saturated, title="Whether a stock can dissolve")
def more_than_water_takes(strength: Any, molar_mass: Any, molality: Any) -> Stages:
    """Compare the moles of a litre with those that a kilogram of water takes."""
    yield "Moles of salt for a litre:", strength / molar_mass
    yield (
        "A litre of stock holds at most a kilogram of water, which dissolves so many moles:",
        molality,
    )
    return strength / molar_mass / molality
