"""Evaporation and salinity: what is lost, what to add, how much salt a vat takes.

Salt does not evaporate, so its mass is kept while that of the water falls. Practical salinity is
a mass of salt in a mass of seawater, told by a fixed factor; densities turn litres to kilograms.
"""

from __future__ import annotations

from reefchem.core.functions import Num, where
from reefchem.core.record import arg, relation
from reefchem.seawater.density import pure_water_density, seawater_density

__all__ = [
    "correct_salinity",
    "days_to_correct_salinity",
    "evaporation_drift",
    "mixed_salinity",
    "mixed_temperature",
    "salinity_of_new_water",
    "salt_for",
    "salt_to_raise",
    "temperature_of_new_water",
    "top_off_needed",
]

SOURCE = "levenspiel1999"
SALINITY = arg("1", "S", typical=(33.0, 37.0))
TARGET = arg("1", "S_t", title="salinity to reach", typical=(33.0, 37.0))
TEMPERATURE = arg("degC", "t", valid=(-2.0, 40.0))
VOLUME = arg("L", "V", typical=(20.0, 1000.0))
ADDED = arg("L", "V_a", title="volume of water added", typical=(1.0, 100.0))
SHARE = arg("1", "f", title="share of the change", typical=(0.1, 0.5), possible=(0.0, 1.0))
DRY_SHARE = arg("1", "w", typical=(0.8, 1.0), possible=(0.0, 1.0))

REFERENCE_SALT = 35.16504
"""Grams of sea salt in a kilogram of seawater of practical salinity 35."""


@relation(
    unit="1",
    symbol="S(d)",
    source=SOURCE,
    at="material balance: salt stays, water leaves; derived in the book",
    salinity=SALINITY.titled("salinity at the start"),
    temperature=TEMPERATURE.titled("temperature at the start"),
    volume=VOLUME.titled("volume of the tank's water before"),
    evaporation=arg("L/day", "e", title="evaporation in a day", typical=(0.2, 2.0)),
    days=arg("day", "d", title="days without top-off", typical=(0.0, 7.0)),
)
def evaporation_drift(
    salinity: Num, temperature: Num, volume: Num, evaporation: Num, days: Num
) -> Num:
    """Return the salinity of a tank whose top-off has failed for some days.

    Parameters
    ----------
    salinity, temperature
        At the start.
    volume
        Of the tank's water at the start.
    evaporation
        Volume of fresh water that evaporates in a day.
    days
        Without top-off.

    Examples
    --------
    >>> round(evaporation_drift(35.0, 25.0, 100.0, 1.0, 5.0), 2)
    36.79
    """
    seawater = seawater_density(salinity, temperature) * volume
    lost = pure_water_density(temperature) * evaporation * days
    return salinity * seawater / (seawater - lost)


@relation(
    unit="L",
    symbol="V_w",
    source=SOURCE,
    at="material balance: salt stays, water comes; derived in the book",
    salinity=arg("1", "S", title="salinity of the tank", typical=(35.0, 38.0)),
    target=arg("1", "S_t", title="salinity to reach", typical=(33.0, 35.0)),
    temperature=TEMPERATURE,
    volume=VOLUME.titled("volume of the tank's water before"),
)
def top_off_needed(salinity: Num, target: Num, temperature: Num, volume: Num) -> Num:
    """Return the fresh water that brings a salinity down when there is room to add it.

    Negative when the target is higher: as much must evaporate.

    Parameters
    ----------
    salinity
        Of the tank.
    target
        To reach.
    temperature
        Of the water.
    volume
        Of the tank's water before.
    """
    seawater = seawater_density(salinity, temperature) * volume
    return seawater * (salinity / target - 1) / pure_water_density(temperature)


@relation(
    unit="L",
    symbol="V_x",
    source=SOURCE,
    at="material balance of one exchange, by volume; derived in the book",
    salinity=arg("1", "S", title="salinity of the tank", typical=(36.0, 38.0)),
    target=TARGET,
    replacement=arg("1", "S_r", title="salinity of the water that goes in", typical=(0.0, 30.0)),
    volume=VOLUME.titled("volume of the tank's water"),
)
def correct_salinity(salinity: Num, target: Num, replacement: Num, volume: Num) -> Num:
    """Return the volume to take out and to replace so that a salinity comes to a target.

    Parameters
    ----------
    salinity
        Of the tank.
    target
        To reach.
    replacement
        Salinity of the water that goes in: 0 for fresh water, more than the target to raise it.
    volume
        Of the tank's water.

    Notes
    -----
    Salinities are mixed by volume here. Mixing them by mass changes the answer by less than 3 %
    of itself, even with fresh water.

    Examples
    --------
    >>> round(correct_salinity(36.4, 35.0, 0.0, 180.0), 3)
    6.923
    """
    return volume * (salinity - target) / (salinity - replacement)


@relation(
    unit="day",
    symbol="d",
    source=SOURCE,
    at="distance over rate",
    salinity=SALINITY.titled("salinity of the tank"),
    target=TARGET,
    most=arg("1/day", "r", title="largest change in a day", typical=(0.2, 1.0)),
)
def days_to_correct_salinity(salinity: Num, target: Num, most: Num) -> Num:
    """Return over how many days to spread a change of salinity.

    A count with a fraction: the next whole number of days keeps within the bound.

    Parameters
    ----------
    salinity
        Of the tank.
    target
        To reach.
    most
        Largest change in a day, up or down.

    Examples
    --------
    >>> days_to_correct_salinity(36.5, 35.0, 0.5)
    3.0
    """
    change = target - salinity
    size = where(change < 0, -change, change)
    return size / most


@relation(
    unit="g",
    symbol="m",
    source="millero2008",
    at="abstract: 35.16504 g/kg at a practical salinity of 35",
    volume=arg("L", "V", title="volume of the mixed seawater", typical=(5.0, 1000.0)),
    salinity=SALINITY.titled("salinity of the mixed seawater"),
    temperature=TEMPERATURE.titled("temperature of the mixed seawater"),
    dry_share=DRY_SHARE.titled("dry salt in a gram of what is weighed"),
)
def salt_for(volume: Num, salinity: Num, temperature: Num, dry_share: Num = 1.0) -> Num:
    """Return the mass of sea salt for a vat of seawater.

    Parameters
    ----------
    volume
        Of the mixed seawater, not of the fresh water that was put in.
    salinity, temperature
        Of the mixed seawater.
    dry_share
        Dry sea salt in a gram of what is weighed. A salt mix holds water of crystallisation;
        find the share by mixing a litre and measuring its salinity.

    Examples
    --------
    >>> round(salt_for(18.0, 35.0, 25.0), 1)
    647.7
    """
    seawater = seawater_density(salinity, temperature) * volume / 1000
    return seawater * REFERENCE_SALT * salinity / 35 / dry_share


@relation(
    unit="g",
    symbol="m_a",
    source=SOURCE,
    at="material balance of the salt that is added to a mass of seawater; derived in the book",
    volume=arg("L", "V", title="volume of the water", typical=(20.0, 500.0)),
    salinity=arg("1", "S", title="salinity now", typical=(30.0, 34.0)),
    target=arg("1", "S_t", title="salinity to reach", typical=(34.0, 37.0)),
    temperature=TEMPERATURE,
    dry_share=DRY_SHARE.titled("share of dry salt in the mix"),
)
def salt_to_raise(
    volume: Num, salinity: Num, target: Num, temperature: Num, dry_share: Num = 1.0
) -> Num:
    """Return the mass of sea salt that raises the salinity of a tank or vat.

    Dissolve it in some of the water apart, and bring it in over days; see
    `days_to_correct_salinity`. Negative when the target is lower: salt does not come out again.

    Parameters
    ----------
    volume
        Of the water before.
    salinity, target
        Of the water before, and to reach.
    temperature
        Of the water before.
    dry_share
        Dry sea salt in a gram of what is weighed, as for `salt_for`.

    Examples
    --------
    >>> round(salt_to_raise(180.0, 33.4, 35.0, 25.0), 1)
    306.5
    """
    m = seawater_density(salinity, temperature) * volume
    lacking = REFERENCE_SALT * (target - salinity) * m / 35000
    return lacking / (dry_share - REFERENCE_SALT * target / 35000)


@relation(
    unit="1",
    symbol="S_n",
    source=SOURCE,
    at="material balance of one change, by volume, solved for the new water; derived in the book",
    salinity=SALINITY.titled("salinity of the tank"),
    target=TARGET,
    share=SHARE,
)
def salinity_of_new_water(salinity: Num, target: Num, share: Num) -> Num:
    """Return the salinity of new water with which one water change brings a tank to a target.

    Below zero when even fresh water would not do it: then the change is too small.

    Parameters
    ----------
    salinity
        Of the tank before.
    target
        To reach.
    share
        Of the volume that is changed.

    Examples
    --------
    >>> round(salinity_of_new_water(34.6, 35.0, 0.1), 6)
    38.6
    """
    return salinity + (target - salinity) / share


@relation(
    unit="degC",
    symbol="t_n",
    source=SOURCE,
    at="energy balance of one change, solved for the new water; derived in the book",
    temperature=arg("degC", "t", title="temperature of the tank", typical=(20.0, 30.0)),
    coldest=arg("degC", "t_c", title="temperature that the tank may come to", typical=(19.0, 29.0)),
    share=SHARE,
)
def temperature_of_new_water(temperature: Num, coldest: Num, share: Num) -> Num:
    """Return how cold new water may be so that a change does not bring a tank below a temperature.

    Parameters
    ----------
    temperature
        Of the tank.
    coldest
        That the tank may come to. With a warmer one than now this is the warmest new water.
    share
        Of the volume that is changed.

    Examples
    --------
    >>> temperature_of_new_water(25.0, 24.5, 0.1)
    20.0
    """
    return temperature + (coldest - temperature) / share


@relation(
    unit="1",
    symbol="S_m",
    source=SOURCE,
    at="material balance of salt, by volume; derived in the book",
    volume=VOLUME.titled("volume of the first water"),
    salinity=SALINITY.titled("salinity of the first water"),
    added=ADDED,
    added_salinity=arg("1", "S_a", title="salinity of the water added", typical=(30.0, 40.0)),
)
def mixed_salinity(volume: Num, salinity: Num, added: Num, added_salinity: Num) -> Num:
    """Return the salinity of two waters that are poured together, by volume.

    Examples
    --------
    >>> mixed_salinity(90.0, 35.0, 10.0, 33.0)
    34.8
    """
    return (volume * salinity + added * added_salinity) / (volume + added)


@relation(
    unit="degC",
    symbol="t_m",
    source=SOURCE,
    at="energy balance with equal heat capacities by volume; derived in the book",
    volume=VOLUME.titled("volume of the first water"),
    temperature=arg("degC", "t", title="temperature of the first water", typical=(20.0, 30.0)),
    added=ADDED,
    added_temperature=arg(
        "degC", "t_a", title="temperature of the water added", typical=(10.0, 30.0)
    ),
)
def mixed_temperature(volume: Num, temperature: Num, added: Num, added_temperature: Num) -> Num:
    """Return the temperature of two seawaters that are poured together.

    Examples
    --------
    >>> mixed_temperature(90.0, 25.0, 10.0, 18.0)
    24.3
    """
    return (volume * temperature + added * added_temperature) / (volume + added)
