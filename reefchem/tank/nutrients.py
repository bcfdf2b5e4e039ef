"""Nitrate to a target, and what nitrogen does to the alkalinity.

A nitrate stock is potassium or sodium nitrate in water. The salt brings no alkalinity; the algae
and bacteria that take the nitrate up give one equivalent for each mole.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = [
    "nitrate_rise",
    "nitrogen_in_food",
    "phosphate_taken_with_nitrate",
    "potassium_with_nitrate",
]

EITHER_SIGN = (-float("inf"), float("inf"))


@relation(
    unit="mg/L",
    symbol=r"\Delta c",
    source="levenspiel1999",
    at="distance over the number of days",
    level=arg("mg/L", "c", typical=(0.0, 4.0)),
    target=arg("mg/L", "c_t", typical=(4.0, 10.0)),
    days=arg("1", "d", typical=(1.0, 10.0)),
)
def nitrate_rise(level: Num, target: Num, days: Num) -> Num:
    """Return the rise of nitrate on each of some days that lead to a target.

    Examples
    --------
    >>> nitrate_rise(1.0, 5.0, 4.0)
    1.0
    """
    return (target - level) / days


@relation(
    unit="mg/day",
    symbol=r"\dot m_{\mathrm{N}}",
    source="jones1941",
    at="conventional factor of 6.25 from nitrogen to protein",
    food=arg("g/day", r"\dot m", typical=(0.1, 20.0)),
    protein=arg("1", "w", typical=(0.05, 0.6), possible=(0.0, 1.0)),
)
def nitrogen_in_food(food: Num, protein: Num) -> Num:
    """Return the nitrogen that food brings in a day.

    Parameters
    ----------
    food
        As fed.
    protein
        Share of the food's mass, as its label says.

    Examples
    --------
    >>> nitrogen_in_food(1.0, 0.5)
    80.0
    """
    return food * protein / 6.25 * 1000


@relation(
    unit="mg/L",
    symbol=r"\Delta c_{\mathrm{PO_4}}",
    source="atkinson1983",
    at="abstract: C:N:P of benthic marine plants 550:30:1 by atoms, median",
    nitrate=arg("mg/L", r"\Delta c", typical=(0.1, 50.0)),
)
def phosphate_taken_with_nitrate(nitrate: Num) -> Num:
    """Return the phosphate that algae of a median make take up with some nitrate.

    Examples
    --------
    >>> round(phosphate_taken_with_nitrate(19.6), 2)
    1.0
    """
    return nitrate / molar_mass("NO3-") / 30 * molar_mass("PO4^3-")


@relation(
    unit="mg/L",
    symbol=r"\Delta c_{\mathrm{K}}",
    source="prohaska2022",
    at="abridged weights; one potassium for each nitrate of KNO3",
    nitrate_rise=arg("mg/L", r"\Delta c", typical=(0.1, 20.0)),
)
def potassium_with_nitrate(nitrate_rise: Num) -> Num:
    """Return the potassium that comes with nitrate from potassium nitrate.

    Examples
    --------
    >>> round(potassium_with_nitrate(10.0), 2)
    6.31
    """
    return nitrate_rise / molar_mass("NO3-") * molar_mass("K+")
