"""Ammonium, silicate and organic carbon to a rise, by the scale.

Ammonium is partly ammonia at the pH of a tank, which is toxic; carbon takes oxygen while bacteria
burn it. Small steps, measured between.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = [
    "acetic_acid_mass",
    "ammonium_chloride_mass",
    "ethanol_mass",
    "oxygen_for_carbon_from_ethanol",
    "sodium_metasilicate_mass",
]

VOLUME = arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0))
CARBON = arg(
    "mg/L", r"\Delta\rho_\mathrm{C}", title="rise of dissolved carbon wanted", typical=(0.05, 5.0)
)
WEIGHTS = "abridged weights of the substance's elements"


@relation(
    unit="mg",
    symbol=r"m_\mathrm{NH_4Cl}",
    source="prohaska2022",
    at=WEIGHTS,
    ammonium_rise=arg(
        "mg/L", r"\Delta\rho_\mathrm{NH_4}", title="rise of ammonium wanted", typical=(0.005, 0.2)
    ),
    volume=VOLUME,
)
def ammonium_chloride_mass(ammonium_rise: Num, volume: Num) -> Num:
    """Return the mass of ammonium chloride that raises the total ammonia of a tank.

    Parameters
    ----------
    ammonium_rise
        Wanted, as NH4, whatever part of it becomes ammonia at the pH of the tank.
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(ammonium_chloride_mass(0.05, 100.0), 3)
    14.826
    """
    amount = ammonium_rise * volume / molar_mass("NH4+")
    return amount * molar_mass("NH4Cl")


@relation(
    unit="mg",
    symbol=r"m_\mathrm{Na_2SiO_3\,5H_2O}",
    source="prohaska2022",
    at=WEIGHTS,
    silicon_rise=arg(
        "mg/L", r"\Delta\rho_\mathrm{Si}", title="rise of silicon wanted", typical=(0.01, 1.0)
    ),
    volume=VOLUME,
)
def sodium_metasilicate_mass(silicon_rise: Num, volume: Num) -> Num:
    """Return the mass of sodium metasilicate pentahydrate that raises the silicon of a tank.

    Parameters
    ----------
    silicon_rise
        Wanted, as Si (a reading as SiO2 is 2.14 times as much).
    volume
        Of the tank's water.

    Notes
    -----
    A mole of it brings two equivalents of alkalinity, and a stock of it is a caustic.

    Examples
    --------
    >>> round(sodium_metasilicate_mass(0.1, 100.0), 2)
    75.53
    """
    amount = silicon_rise * volume / molar_mass("Si")
    return amount * molar_mass("Na2SiO3·5H2O")


@relation(
    unit="g",
    symbol=r"m_\mathrm{EtOH}",
    source="prohaska2022",
    at=WEIGHTS,
    carbon_rise=CARBON,
    volume=VOLUME,
)
def ethanol_mass(carbon_rise: Num, volume: Num) -> Num:
    """Return the mass of pure ethanol that brings some organic carbon.

    Parameters
    ----------
    carbon_rise
        Wanted, as carbon.
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(ethanol_mass(1.0, 100.0), 4)
    0.1918
    """
    amount = carbon_rise * volume / (2 * molar_mass("C"))
    return amount * molar_mass("C2H5OH") / 1000


@relation(
    unit="g",
    symbol=r"m_\mathrm{AcOH}",
    source="prohaska2022",
    at=WEIGHTS,
    carbon_rise=CARBON,
    volume=VOLUME,
)
def acetic_acid_mass(carbon_rise: Num, volume: Num) -> Num:
    """Return the mass of pure acetic acid that brings some organic carbon.

    Parameters
    ----------
    carbon_rise
        Wanted, as carbon.
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(acetic_acid_mass(1.0, 100.0), 2)
    0.25
    """
    amount = carbon_rise * volume / (2 * molar_mass("C"))
    return amount * molar_mass("CH3COOH") / 1000


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{O_2}",
    source="prohaska2022",
    at="abridged weights; C2H5OH + 3 O2 → 2 CO2 + 3 H2O, derived in the book",
    carbon_rise=CARBON.titled("carbon dosed as ethanol"),
)
def oxygen_for_carbon_from_ethanol(carbon_rise: Num) -> Num:
    """Return the oxygen that burns the carbon of a dose of ethanol: four times its mass.

    Parameters
    ----------
    carbon_rise
        As carbon.

    Examples
    --------
    >>> round(oxygen_for_carbon_from_ethanol(1.0), 3)
    3.996
    """
    amount = carbon_rise / molar_mass("C")
    return amount / 2 * 3 * molar_mass("O2")
