"""What a growing skeleton takes out of the water.

Ca²⁺ + 2 HCO₃⁻ → CaCO₃ + CO₂ + H₂O: for each mole of aragonite or calcite, one mole of calcium
and two equivalents of alkalinity.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = [
    "alkalinity_used",
    "calcium_carbonate_formed",
    "calcium_carbonate_grown",
    "calcium_used",
    "carbon_dioxide_released",
    "magnesium_in_skeleton",
    "strontium_in_skeleton",
]

USED = arg(
    "meq/L",
    "A",
    title="alkalinity that calcification has taken",
    typical=(0.0, 6.0),
    possible=EITHER_SIGN,
)
WEIGHTS = "abridged weights; two equivalents for each mole of CaCO3"

EQUIVALENTS = 2
"""Equivalents of alkalinity that go with a mole of calcium carbonate."""


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{Ca}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_used=USED,
)
def calcium_used(alkalinity_used: Num) -> Num:
    """Return the calcium that goes into calcium carbonate with some alkalinity.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that calcification has taken; negative when the skeleton dissolves.

    Examples
    --------
    >>> round(calcium_used(1.0), 3)
    20.039
    """
    amount = alkalinity_used / EQUIVALENTS
    return amount * molar_mass("Ca")


@relation(
    unit="meq/L",
    symbol="A",
    source="prohaska2022",
    at=WEIGHTS,
    calcium_used=arg("mg/L", r"\rho_\mathrm{Ca}", typical=(0.0, 100.0), possible=EITHER_SIGN),
)
def alkalinity_used(calcium_used: Num) -> Num:
    """Return the alkalinity that goes into calcium carbonate with some calcium.

    Parameters
    ----------
    calcium_used
        Calcium that calcification has taken.

    Examples
    --------
    >>> round(alkalinity_used(20.0), 5)
    0.99805
    """
    amount = calcium_used / molar_mass("Ca")
    return EQUIVALENTS * amount


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{CaCO_3}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_used=USED,
)
def calcium_carbonate_formed(alkalinity_used: Num) -> Num:
    """Return the calcium carbonate that forms from a litre with some alkalinity.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that calcification has taken.
    """
    amount = alkalinity_used / EQUIVALENTS
    return amount * molar_mass("CaCO3")


@relation(
    unit="g",
    symbol=r"m_\mathrm{CaCO_3}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_used=USED,
    volume=arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0)),
)
def calcium_carbonate_grown(alkalinity_used: Num, volume: Num) -> Num:
    """Return the mass of skeleton that a tank has grown, as calcium carbonate.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that calcification has taken from each litre.
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(calcium_carbonate_grown(1.0, 100.0), 4)
    5.0043
    """
    return calcium_carbonate_formed(alkalinity_used) * volume / 1000


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{CO_2}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_used=USED,
)
def carbon_dioxide_released(alkalinity_used: Num) -> Num:
    """Return the carbon dioxide that calcification sets free from hydrogencarbonate.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that calcification has taken.

    Notes
    -----
    In seawater the buffer takes most of it up again: what leaves for the air in the end depends
    on the pH and on the room. As a balance of whole molecules it is exact.
    """
    amount = alkalinity_used / EQUIVALENTS
    return amount * molar_mass("CO2")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{Mg}",
    source="prohaska2022",
    at="abridged weights; two equivalents for each mole of carbonate, whatever the metal",
    alkalinity_used=USED,
    magnesium_per_calcium=arg(
        "mmol/mol",
        r"r_\mathrm{Mg}",
        title="magnesium for calcium in the skeleton",
        typical=(1.0, 200.0),
    ),
)
def magnesium_in_skeleton(alkalinity_used: Num, magnesium_per_calcium: Num) -> Num:
    """Return the magnesium that goes into the skeleton with some alkalinity.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that calcification has taken.
    magnesium_per_calcium
        Of the skeleton. Coral aragonite has about 4 to 5, coralline algae 90 to 250 or more;
        both from memory, not verified.

    Examples
    --------
    >>> round(magnesium_in_skeleton(1.0, 4.5), 4)
    0.0544
    """
    ratio = magnesium_per_calcium / 1000
    carbonate = alkalinity_used / EQUIVALENTS
    return carbonate * ratio / (1 + ratio) * molar_mass("Mg")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{Sr}",
    source="prohaska2022",
    at="abridged weights; two equivalents for each mole of carbonate, whatever the metal",
    alkalinity_used=USED,
    strontium_per_calcium=arg(
        "mmol/mol",
        r"r_\mathrm{Sr}",
        title="strontium for calcium in the skeleton",
        typical=(1.0, 12.0),
    ),
)
def strontium_in_skeleton(alkalinity_used: Num, strontium_per_calcium: Num) -> Num:
    """Return the strontium that goes into the skeleton with some alkalinity.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that calcification has taken.
    strontium_per_calcium
        Of the skeleton. Coral aragonite has about 9; from memory, not verified.

    Examples
    --------
    >>> round(strontium_in_skeleton(1.0, 9.0), 3)
    0.391
    """
    ratio = strontium_per_calcium / 1000
    carbonate = alkalinity_used / EQUIVALENTS
    return carbonate * ratio / (1 + ratio) * molar_mass("Sr")
