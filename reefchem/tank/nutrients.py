"""Nitrogen and phosphorus in a tank: food in, uptake by algae, nitrate to a target."""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = [
    "light_hours_that_hold",
    "nitrate_from_food",
    "nitrate_rise",
    "nitrate_uptake",
    "nitrogen_in_food",
    "phosphate_taken_with_nitrate",
    "potassium_with_nitrate",
]

MAKE = "abstract: C:N:P of benthic marine plants 550:30:1 by atoms, median"
CARBON = 550
NITROGEN = 30
"""Atoms of carbon and of nitrogen for each of phosphorus in plants of that make."""

FOOD = arg("g/day", r"\dot m", title="food in a day", typical=(0.1, 20.0))
PROTEIN = arg(
    "1", "w", title="share of protein in the food", typical=(0.05, 0.6), possible=(0.0, 1.0)
)
VOLUME = arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0))
BROUGHT = arg(
    "mg/L/day", "g", title="nitrate brought by food and doses in a day", typical=(0.2, 5.0)
)
CHANGE = arg(
    "mg/L/day",
    r"\dot c",
    title="change of nitrate in a day",
    typical=(-1.0, 0.2),
    possible=EITHER_SIGN,
)
HOURS = arg("hour", "h_0", title="hours of light in a day now", typical=(4.0, 16.0))


@relation(
    unit="mg/L",
    symbol=r"\Delta c",
    source="levenspiel1999",
    at="distance over the number of days",
    level=arg("mg/L", "c", title="nitrate now", typical=(0.0, 4.0)),
    target=arg("mg/L", "c_t", title="nitrate to reach", typical=(4.0, 10.0)),
    days=arg("1", "d", title="days on the way", typical=(1.0, 10.0)),
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
    food=FOOD,
    protein=PROTEIN,
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
    at=MAKE,
    nitrate=arg("mg/L", r"\Delta c", title="nitrate taken up", typical=(0.1, 50.0)),
)
def phosphate_taken_with_nitrate(nitrate: Num) -> Num:
    """Return the phosphate that algae of a median make take up with some nitrate.

    Examples
    --------
    >>> round(phosphate_taken_with_nitrate(19.6), 2)
    1.0
    """
    return nitrate / molar_mass("NO3-") / NITROGEN * molar_mass("PO4^3-")


@relation(
    unit="mg/L",
    symbol=r"\Delta c_{\mathrm{K}}",
    source="prohaska2022",
    at="abridged weights; one potassium for each nitrate of KNO3",
    nitrate_rise=arg("mg/L", r"\Delta c", title="rise of nitrate", typical=(0.1, 20.0)),
)
def potassium_with_nitrate(nitrate_rise: Num) -> Num:
    """Return the potassium that comes with nitrate from potassium nitrate.

    Examples
    --------
    >>> round(potassium_with_nitrate(10.0), 2)
    6.31
    """
    return nitrate_rise / molar_mass("NO3-") * molar_mass("K+")


@relation(
    unit="mg/L/day",
    symbol=r"g_{\mathrm{NO_3}}",
    source="prohaska2022",
    at="abridged weights; one nitrate for each nitrogen",
    nitrogen=arg(
        "mg/day",
        r"\dot m_{\mathrm{N}}",
        title="nitrogen that the food brings in a day",
        typical=(5.0, 500.0),
    ),
    volume=VOLUME,
)
def nitrate_from_food(nitrogen: Num, volume: Num) -> Num:
    """Return the nitrate that appears in a day when all nitrogen of the food becomes nitrate.

    An upper bound: what animals keep, algae take and bacteria turn to gas is missing.

    Parameters
    ----------
    nitrogen
        That the food brings, see `nitrogen_in_food`.
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(nitrate_from_food(180.0, 180.0), 4)
    4.4266
    """
    return nitrogen / volume * molar_mass("NO3-") / molar_mass("N")


@relation(
    unit="mg/L/day",
    symbol=r"u_{\mathrm{NO_3}}",
    source="levenspiel1999",
    at="material balance: in = out + used + kept; derived in the book",
    brought=BROUGHT,
    change=CHANGE,
)
def nitrate_uptake(brought: Num, change: Num) -> Num:
    """Return the nitrate that algae and bacteria take in a day.

    Parameters
    ----------
    brought
        By food and doses.
    change
        Seen in the readings, water changes taken off; negative when the nitrate falls.

    Examples
    --------
    >>> nitrate_uptake(1.0, -0.5)
    1.5
    """
    return brought - change


@relation(
    unit="hour",
    symbol="h",
    source="levenspiel1999",
    at="uptake taken as proportional to the hours of light, an assumption; derived in the book",
    hours=HOURS,
    brought=BROUGHT,
    uptake=arg("mg/L/day", "u", title="nitrate taken up in a day now", typical=(0.5, 5.0)),
)
def light_hours_that_hold(hours: Num, brought: Num, uptake: Num) -> Num:
    """Return the hours of light for the algae at which the nitrate holds still.

    Parameters
    ----------
    hours
        Of light in a day now.
    brought
        Nitrate that food and doses bring in a day.
    uptake
        Nitrate that the algae take in a day now.

    Notes
    -----
    That algae take up in proportion to their hours of light is an assumption; it fails when they
    are short of another nutrient, and when most of the uptake is by bacteria.

    Examples
    --------
    >>> light_hours_that_hold(9.0, 1.0, 1.5)
    6.0
    """
    return hours * brought / uptake
