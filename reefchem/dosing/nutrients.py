"""Nitrate and phosphate to a target, and what comes with them.

Nitrates are oxidisers, and regulated precursors in some countries: keep them cool, dry and away
from anything that burns, and follow the local rules.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = [
    "phosphate_stock_volume",
    "potassium_dihydrogenphosphate_mass",
    "potassium_nitrate_mass",
    "potassium_nitrate_volume",
    "sodium_nitrate_mass",
    "sodium_nitrate_volume",
    "sodium_with_nitrate",
]

NITRATE = arg(
    "mg/L", r"\Delta\rho_\mathrm{NO_3}", title="rise of nitrate wanted", typical=(0.1, 10.0)
)
PHOSPHATE = arg(
    "mg/L", r"\Delta\rho_\mathrm{PO_4}", title="rise of phosphate wanted", typical=(0.005, 0.2)
)
VOLUME = arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0))
STRENGTH = arg("g/L", r"\rho_s", title="salt in a litre of the stock", typical=(1.0, 150.0))
WEIGHTS = "abridged weights of the salt's elements"


@relation(
    unit="g",
    symbol=r"m_\mathrm{KNO_3}",
    source="prohaska2022",
    at=WEIGHTS,
    nitrate_rise=NITRATE,
    volume=VOLUME,
)
def potassium_nitrate_mass(nitrate_rise: Num, volume: Num) -> Num:
    """Return the mass of potassium nitrate that raises the nitrate of a tank.

    Parameters
    ----------
    nitrate_rise
        Wanted, as NO3 (not as nitrogen).
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(potassium_nitrate_mass(5.0, 100.0), 4)
    0.8153
    """
    amount = nitrate_rise * volume / molar_mass("NO3-")
    return amount * molar_mass("KNO3") / 1000


@relation(
    unit="g",
    symbol=r"m_\mathrm{NaNO_3}",
    source="prohaska2022",
    at=WEIGHTS,
    nitrate_rise=NITRATE,
    volume=VOLUME,
)
def sodium_nitrate_mass(nitrate_rise: Num, volume: Num) -> Num:
    """Return the mass of sodium nitrate that raises the nitrate of a tank.

    Parameters
    ----------
    nitrate_rise
        Wanted, as NO3 (not as nitrogen).
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(sodium_nitrate_mass(5.0, 100.0), 4)
    0.6854
    """
    amount = nitrate_rise * volume / molar_mass("NO3-")
    return amount * molar_mass("NaNO3") / 1000


@relation(
    unit="mL",
    symbol="v",
    source="prohaska2022",
    at=WEIGHTS,
    nitrate_rise=NITRATE,
    volume=VOLUME,
    strength=STRENGTH,
)
def potassium_nitrate_volume(nitrate_rise: Num, volume: Num, strength: Num) -> Num:
    """Return the volume of a potassium nitrate stock that raises the nitrate of a tank.

    Parameters
    ----------
    nitrate_rise
        Wanted, as NO3.
    volume
        Of the tank's water.
    strength
        Mass of KNO3 in a litre of the stock.

    Examples
    --------
    >>> round(potassium_nitrate_volume(1.0, 100.0, 50.0), 3)
    3.261
    """
    return potassium_nitrate_mass(nitrate_rise, volume) / strength * 1000


@relation(
    unit="mL",
    symbol="v",
    source="prohaska2022",
    at=WEIGHTS,
    nitrate_rise=NITRATE,
    volume=VOLUME,
    strength=STRENGTH,
)
def sodium_nitrate_volume(nitrate_rise: Num, volume: Num, strength: Num) -> Num:
    """Return the volume of a sodium nitrate stock that raises the nitrate of a tank.

    Parameters
    ----------
    nitrate_rise
        Wanted, as NO3.
    volume
        Of the tank's water.
    strength
        Mass of NaNO3 in a litre of the stock.
    """
    return sodium_nitrate_mass(nitrate_rise, volume) / strength * 1000


@relation(
    unit="mg/L",
    symbol=r"\Delta\rho_\mathrm{Na}",
    source="prohaska2022",
    at=WEIGHTS,
    nitrate_rise=NITRATE.titled("rise of nitrate"),
)
def sodium_with_nitrate(nitrate_rise: Num) -> Num:
    """Return the sodium that comes with nitrate from sodium nitrate.

    Parameters
    ----------
    nitrate_rise
        As NO3.
    """
    return nitrate_rise / molar_mass("NO3-") * molar_mass("Na+")


@relation(
    unit="mg",
    symbol=r"m_\mathrm{KH_2PO_4}",
    source="prohaska2022",
    at=WEIGHTS,
    phosphate_rise=PHOSPHATE,
    volume=VOLUME,
)
def potassium_dihydrogenphosphate_mass(phosphate_rise: Num, volume: Num) -> Num:
    """Return the mass of potassium dihydrogenphosphate that raises the phosphate of a tank.

    Parameters
    ----------
    phosphate_rise
        Wanted, as PO4 (not as phosphorus).
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(potassium_dihydrogenphosphate_mass(0.05, 100.0), 3)
    7.165
    """
    amount = phosphate_rise * volume / molar_mass("PO4^3-")
    return amount * molar_mass("KH2PO4")


@relation(
    unit="mL",
    symbol="v",
    source="prohaska2022",
    at=WEIGHTS,
    phosphate_rise=PHOSPHATE,
    volume=VOLUME,
    strength=arg("g/L", r"\rho_s", title="salt in a litre of the stock", typical=(0.1, 20.0)),
)
def phosphate_stock_volume(phosphate_rise: Num, volume: Num, strength: Num) -> Num:
    """Return the volume of a KH2PO4 stock that raises the phosphate of a tank.

    Parameters
    ----------
    phosphate_rise
        Wanted, as PO4.
    volume
        Of the tank's water.
    strength
        Mass of KH2PO4 in a litre of the stock.
    """
    return potassium_dihydrogenphosphate_mass(phosphate_rise, volume) / strength
