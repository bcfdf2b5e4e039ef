"""How far a method reaches that brings only so much."""

from __future__ import annotations

from reefchem.core.functions import Num
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = ["alkalinity_with_changes_alone", "times_saturated"]


@relation(
    unit="meq/L",
    symbol=r"A_\infty",
    source="levenspiel1999",
    at="material balance at steady state: a change brings what was used since the last; derived",
    fresh=arg("meq/L", "A_f", title="alkalinity of the fresh seawater", typical=(2.0, 4.0)),
    uptake=arg(
        "meq/L/day", "u", title="uptake of alkalinity", typical=(0.01, 0.3), possible=EITHER_SIGN
    ),
    days=arg("day", "d", title="days from change to change", typical=(1.0, 14.0)),
    share=arg(
        "1",
        "f",
        title="share of the water that is changed",
        typical=(0.1, 0.5),
        possible=(0.0, 1.0),
    ),
)
def alkalinity_with_changes_alone(fresh: Num, uptake: Num, days: Num, share: Num) -> Num:
    """Return the alkalinity before each water change of a tank that nothing else is dosed to.

    Where it settles if the corals went on to take as much. A result near zero or below says that
    water changes alone cannot carry these corals.

    Parameters
    ----------
    fresh
        Of the fresh seawater.
    uptake
        What the corals take.
    days
        From one change to the next.
    share
        Of the volume, at each change; more than nothing.

    Examples
    --------
    >>> alkalinity_with_changes_alone(3.0, 0.05, 4.0, 0.25)
    2.2
    """
    return fresh - uptake * days / share


@relation(
    unit="1",
    symbol="y",
    source="prohaska2022",
    at="definitions of concentration and molality; a litre of stock holds at most 1 kg of water",
    strength=arg("g/L", r"\rho_s", title="salt in a litre of stock", typical=(5.0, 400.0)),
    molar_mass=arg("g/mol", "M", title="molar mass of the salt", typical=(50.0, 250.0)),
    molality=arg("mol/kg", "b_s", title="what a kilogram of water dissolves", typical=(0.5, 10.0)),
)
def times_saturated(strength: Num, molar_mass: Num, molality: Num) -> Num:
    """Return how many times as much salt a stock is to hold as a kilogram of water dissolves.

    Above 1 some of it stays at the bottom for certain. Just below 1 it may, since a litre of a
    strong solution holds less than a kilogram of water.

    Parameters
    ----------
    strength
        Salt as weighed for each litre.
    molar_mass
        Of the salt as weighed.
    molality
        Of the saturated solution.

    Examples
    --------
    >>> times_saturated(168.012, 84.006, 1.0)
    2.0
    """
    return strength / molar_mass / molality
