"""How much of a salt makes a wanted rise, weighed on a scale."""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = [
    "calcium_chloride_for_carbonate",
    "calcium_chloride_for_hydrogencarbonate",
    "calcium_chloride_mass",
    "calcium_formate_mass",
    "salt_mass",
    "sodium_carbonate_mass",
    "sodium_hydrogencarbonate_mass",
]

RISE = arg(
    "meq/L",
    r"\Delta A",
    title="rise of alkalinity wanted",
    typical=(0.0, 1.0),
    possible=EITHER_SIGN,
)
CALCIUM = arg(
    "mg/L",
    r"\Delta\rho_\mathrm{Ca}",
    title="rise of calcium wanted",
    typical=(0.0, 40.0),
    possible=EITHER_SIGN,
)
VOLUME = arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0))
PURITY = arg(
    "1", "w", title="salt in a gram of the powder", typical=(0.5, 1.0), possible=(0.0, 1.0)
)
MASS = arg("g", "m", typical=(0.0, 500.0))
WEIGHTS = "abridged weights of the salt's elements"


@relation(
    unit="g",
    symbol="m",
    source="prohaska2022",
    at="definitions of molar mass and equivalent",
    alkalinity_rise=RISE,
    volume=VOLUME,
    molar_mass=arg("g/mol", "M", title="molar mass of the salt as weighed", typical=(40.0, 400.0)),
    equivalents=arg("1", "z", title="equivalents of alkalinity in a mole", typical=(1.0, 2.0)),
    purity=PURITY,
)
def salt_mass(
    alkalinity_rise: Num, volume: Num, molar_mass: Num, equivalents: Num, purity: Num = 1.0
) -> Num:
    """Return the mass of any salt that raises the alkalinity of a tank.

    Parameters
    ----------
    alkalinity_rise
        Wanted.
    volume
        Of the tank's water.
    molar_mass
        Of the salt as weighed, with its water.
    equivalents
        Of alkalinity in a mole of the salt.
    purity
        Mass of the salt in a gram of the powder; the rest is taken as inert.

    Examples
    --------
    >>> round(salt_mass(1.0, 100.0, 84.006, 1.0), 4)
    8.4006
    """
    amount = alkalinity_rise * volume / equivalents
    return amount * molar_mass / 1000 / purity


@relation(
    unit="g",
    symbol=r"m_\mathrm{NaHCO_3}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_rise=RISE,
    volume=VOLUME,
    purity=PURITY,
)
def sodium_hydrogencarbonate_mass(alkalinity_rise: Num, volume: Num, purity: Num = 1.0) -> Num:
    """Return the mass of baking soda (NaHCO3) that raises the alkalinity of a tank.

    Parameters
    ----------
    alkalinity_rise
        Wanted.
    volume
        Of the tank's water.
    purity
        Mass of NaHCO3 in a gram of the powder.

    Examples
    --------
    >>> round(sodium_hydrogencarbonate_mass(0.356652, 100.0), 3)
    2.996
    """
    return alkalinity_rise * volume * molar_mass("NaHCO3") / 1000 / purity


@relation(
    unit="g",
    symbol=r"m_\mathrm{Na_2CO_3}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_rise=RISE,
    volume=VOLUME,
    purity=PURITY,
)
def sodium_carbonate_mass(alkalinity_rise: Num, volume: Num, purity: Num = 1.0) -> Num:
    """Return the mass of soda ash (Na2CO3) that raises the alkalinity of a tank.

    Parameters
    ----------
    alkalinity_rise
        Wanted.
    volume
        Of the tank's water.
    purity
        Mass of Na2CO3 in a gram of the powder.

    Examples
    --------
    >>> round(sodium_carbonate_mass(0.356652, 100.0), 3)
    1.89
    """
    amount = alkalinity_rise * volume / 2
    return amount * molar_mass("Na2CO3") / 1000 / purity


@relation(
    unit="g",
    symbol=r"m_\mathrm{CaCl_2}",
    source="prohaska2022",
    at=WEIGHTS,
    calcium_rise=CALCIUM,
    volume=VOLUME,
    purity=PURITY,
)
def calcium_chloride_mass(calcium_rise: Num, volume: Num, purity: Num = 1.0) -> Num:
    """Return the mass of calcium chloride dihydrate that raises the calcium of a tank.

    Parameters
    ----------
    calcium_rise
        Wanted.
    volume
        Of the tank's water.
    purity
        Mass of CaCl2·2H2O in a gram of the powder.

    Examples
    --------
    >>> round(calcium_chloride_mass(20.0, 100.0), 3)
    7.336
    """
    amount = calcium_rise * volume / molar_mass("Ca")
    return amount * molar_mass("CaCl2·2H2O") / 1000 / purity


@relation(
    unit="g",
    symbol=r"m_\mathrm{Ca(HCOO)_2}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_rise=RISE,
    volume=VOLUME,
    purity=PURITY,
)
def calcium_formate_mass(alkalinity_rise: Num, volume: Num, purity: Num = 1.0) -> Num:
    """Return the mass of calcium formate that raises the alkalinity once it is oxidised.

    Parameters
    ----------
    alkalinity_rise
        Wanted, after the formate has become hydrogencarbonate.
    volume
        Of the tank's water.
    purity
        Mass of Ca(HCOO)2 in a gram of the powder.

    Examples
    --------
    >>> round(calcium_formate_mass(0.356652, 100.0), 3)
    2.32
    """
    amount = alkalinity_rise * volume / 2
    return amount * molar_mass("Ca(HCOO)2") / 1000 / purity


@relation(
    unit="g",
    symbol=r"m_\mathrm{CaCl_2}",
    source="prohaska2022",
    at="abridged weights; one mole of calcium for two equivalents",
    mass=MASS.titled("mass of sodium hydrogencarbonate"),
)
def calcium_chloride_for_hydrogencarbonate(mass: Num) -> Num:
    """Return the calcium chloride dihydrate whose calcium matches a mass of baking soda.

    Parameters
    ----------
    mass
        Of NaHCO3.

    Examples
    --------
    >>> round(calcium_chloride_for_hydrogencarbonate(84.006), 3)
    73.504
    """
    alkalinity = mass / molar_mass("NaHCO3")
    return alkalinity / 2 * molar_mass("CaCl2·2H2O")


@relation(
    unit="g",
    symbol=r"m_\mathrm{CaCl_2}",
    source="prohaska2022",
    at="abridged weights; one mole of calcium for two equivalents",
    mass=MASS.titled("mass of sodium carbonate"),
)
def calcium_chloride_for_carbonate(mass: Num) -> Num:
    """Return the calcium chloride dihydrate whose calcium matches a mass of soda ash.

    Parameters
    ----------
    mass
        Of Na2CO3.

    Examples
    --------
    >>> round(calcium_chloride_for_carbonate(105.988), 3)
    147.008
    """
    return mass / molar_mass("Na2CO3") * molar_mass("CaCl2·2H2O")
