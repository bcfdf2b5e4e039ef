"""Limewater and the calcium reactor: alkalinity without a salt behind it."""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation
from reefchem.dosing.solubility import LIMEWATER, limewater_alkalinity, limewater_concentration

__all__ = ["lime_mass", "limewater_limit", "reactor_carbon_dioxide", "reactor_drip"]

ALKALINITY = arg("meq/L", "A", title="alkalinity of the tank", typical=(2.0, 4.5))


@relation(
    unit="meq/L/day",
    symbol="a",
    source="bates1956",
    at="abstract: about 0.0203 M at 25 °C; the top-off is saturated limewater",
    evaporation=arg("L/day", "e", title="evaporation in a day", typical=(0.2, 10.0)),
    volume=arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0)),
    temperature=LIMEWATER,
)
def limewater_limit(evaporation: Num, volume: Num, temperature: Num) -> Num:
    """Return the most alkalinity that limewater can bring in a day: evaporation sets it.

    Parameters
    ----------
    evaporation
        Water that the tank loses in a day; all of it is replaced by limewater.
    volume
        Of the tank's water.
    temperature
        At which the limewater stood over lime.

    Examples
    --------
    >>> round(limewater_limit(2.0, 100.0, 25.0), 12)
    0.812
    """
    return evaporation * limewater_alkalinity(temperature) / volume


@relation(
    unit="g",
    symbol=r"m_\mathrm{Ca(OH)_2}",
    source="bates1956",
    at="abstract: about 0.0203 M at 25 °C",
    volume=arg("L", "V_l", title="volume of the limewater", typical=(1.0, 50.0)),
    temperature=LIMEWATER,
)
def lime_mass(volume: Num, temperature: Num) -> Num:
    """Return the mass of lime that dissolves in a volume of water; more settles.

    Parameters
    ----------
    volume
        Of the limewater.
    temperature
        At which it stands.

    Examples
    --------
    >>> round(lime_mass(1.0, 25.0), 2)
    1.5
    """
    return volume * limewater_concentration(temperature) * molar_mass("Ca(OH)2")


@relation(
    unit="L/day",
    symbol="q",
    source="levenspiel1999",
    at="material balance of a reactor in a loop; derived in the book",
    daily_uptake=arg("meq/L/day", "u", title="alkalinity used in a day", typical=(0.05, 1.0)),
    volume=arg("L", "V", title="volume of the tank's water", typical=(50.0, 1000.0)),
    effluent_alkalinity=arg(
        "meq/L", "A_e", title="alkalinity of the effluent", typical=(7.0, 16.0)
    ),
    alkalinity=ALKALINITY,
)
def reactor_drip(daily_uptake: Num, volume: Num, effluent_alkalinity: Num, alkalinity: Num) -> Num:
    """Return the flow through a calcium reactor that replaces what a tank uses.

    Parameters
    ----------
    daily_uptake
        Alkalinity that the tank uses in a day.
    volume
        Of the tank's water.
    effluent_alkalinity
        Of what drips out of the reactor; measured.
    alkalinity
        Of the tank, which flows into the reactor.

    Examples
    --------
    >>> reactor_drip(0.2, 100.0, 12.0, 2.0)
    2.0
    """
    return daily_uptake * volume / (effluent_alkalinity - alkalinity)


@relation(
    unit="mmol/L",
    symbol=r"n_\mathrm{CO_2}",
    source="wolfgladrow2007",
    at="balances of carbon and alkalinity: each CaCO3 brings one carbon and two equivalents",
    effluent_dic=arg(
        "mmol/L", "C_e", title="inorganic carbon of the effluent", typical=(8.0, 25.0)
    ),
    dic=arg("mmol/L", "C", title="inorganic carbon of the tank", typical=(1.8, 4.0)),
    effluent_alkalinity=arg(
        "meq/L", "A_e", title="alkalinity of the effluent", typical=(7.0, 12.0)
    ),
    alkalinity=ALKALINITY,
)
def reactor_carbon_dioxide(
    effluent_dic: Num, dic: Num, effluent_alkalinity: Num, alkalinity: Num
) -> Num:
    """Return the carbon dioxide that a litre of effluent has taken from the gas bottle.

    Parameters
    ----------
    effluent_dic, effluent_alkalinity
        Of the effluent.
    dic, alkalinity
        Of the tank.

    Examples
    --------
    >>> reactor_carbon_dioxide(14.0, 2.0, 12.0, 2.0)
    7.0
    """
    dissolved = (effluent_alkalinity - alkalinity) / 2
    return effluent_dic - dic - dissolved
