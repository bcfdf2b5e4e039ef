"""Nitrate to a target, and what nitrogen does to the alkalinity.

A nitrate stock is potassium or sodium nitrate in water. The salt brings no alkalinity; the algae
and bacteria that take the nitrate up give one equivalent for each mole.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = [
    "alkalinity_from_nitrate_uptake",
    "nitrate_dose",
    "nitrate_in_stock",
    "nitrogen_in_food",
    "phosphate_taken_with_nitrate",
    "potassium_with_nitrate",
]

EITHER_SIGN = (-float("inf"), float("inf"))


@relation(
    unit="mg/mL",
    symbol=r"p_{\mathrm{NO_3}}",
    source="prohaska2022",
    at="molar masses from the abridged atomic weights",
    strength=arg("g/L", "s", typical=(1.0, 100.0)),
    molar_mass_of_salt=arg("g/mol", "M", typical=(84.0, 240.0)),
    nitrate_ions=arg("1", "z", typical=(1.0, 2.0)),
)
def nitrate_in_stock(strength: Num, molar_mass_of_salt: Num, nitrate_ions: Num) -> Num:
    """Return the nitrate in each millilitre of a stock.

    Parameters
    ----------
    strength
        Mass of the salt, as weighed, in a litre of the stock.
    molar_mass_of_salt
        With its water of crystallisation.
    nitrate_ions
        In one formula unit of the salt: 1 in KNO3 and NaNO3.

    Examples
    --------
    >>> round(nitrate_in_stock(16.31, 101.102, 1.0), 2)
    10.0
    """
    return strength / molar_mass_of_salt * nitrate_ions * molar_mass("NO3-")


@relation(
    unit="mL",
    symbol="v",
    source="levenspiel1999",
    at="material balance: in = out + used + kept; derived in the book",
    rise=arg("mg/L", r"\Delta c", typical=(0.1, 10.0)),
    volume=arg("L", "V", typical=(20.0, 1000.0)),
    potency=arg("mg/mL", "p", typical=(1.0, 60.0)),
)
def nitrate_dose(rise: Num, volume: Num, potency: Num) -> Num:
    """Return the volume of a stock that raises the nitrate of a tank.

    Parameters
    ----------
    rise
        Of the nitrate, as the ion.
    volume
        Of the tank's water.
    potency
        Nitrate in each millilitre of the stock.

    Examples
    --------
    >>> nitrate_dose(1.0, 200.0, 10.0)
    20.0
    """
    return rise * volume / potency


@relation(
    unit="mg/L",
    symbol=r"\Delta c_{\mathrm{K}}",
    source="prohaska2022",
    at="molar masses from the abridged atomic weights; one potassium for each nitrate of KNO3",
    nitrate=arg("mg/L", r"\Delta c", typical=(0.1, 20.0)),
)
def potassium_with_nitrate(nitrate: Num) -> Num:
    """Return the potassium that comes with nitrate from potassium nitrate.

    Examples
    --------
    >>> round(potassium_with_nitrate(10.0), 2)
    6.31
    """
    return nitrate / molar_mass("NO3-") * molar_mass("K")


@relation(
    unit="meq/L",
    symbol=r"\Delta A",
    source="wolfgladrow2007",
    at="p. 297, rules for nutrients: +1 for each mole of nitrate taken up or denitrified",
    nitrate=arg("mg/L", r"\Delta c", typical=(0.1, 50.0), possible=EITHER_SIGN),
)
def alkalinity_from_nitrate_uptake(nitrate: Num) -> Num:
    """Return the rise of alkalinity when nitrate is taken up or denitrified.

    Negative input stands for nitrate that is formed from organic nitrogen.

    Examples
    --------
    >>> round(alkalinity_from_nitrate_uptake(50.0), 4)
    0.8064
    """
    return nitrate / molar_mass("NO3-")


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
