"""What two-part dosing leaves in the water once the corals have taken their share.

CaCl₂ + 2 NaHCO₃ → CaCO₃ + 2 NaCl + CO₂ + H₂O, and with soda ash
CaCl₂ + Na₂CO₃ → CaCO₃ + 2 NaCl: one mole of sodium chloride for each equivalent of alkalinity.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import EITHER_SIGN, arg, relation
from reefchem.seawater.composition import ReferenceScale
from reefchem.seawater.density import seawater_density

__all__ = [
    "chloride_left",
    "salinity_gained",
    "sodium_chloride_left",
    "sodium_chloride_over_time",
    "sodium_left",
]

USED = arg(
    "meq/L", "A", title="alkalinity dosed and used", typical=(0.0, 6.0), possible=EITHER_SIGN
)
WEIGHTS = "abridged weights; one mole of NaCl for each equivalent, derived from the reactions"


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{NaCl}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_used=USED,
)
def sodium_chloride_left(alkalinity_used: Num) -> Num:
    """Return the sodium chloride that two-part dosing leaves behind.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that was dosed and that calcification has taken, with its calcium.

    Examples
    --------
    >>> round(sodium_chloride_left(0.356652), 2)
    20.84
    """
    return alkalinity_used * molar_mass("NaCl")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{Na}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_used=USED,
)
def sodium_left(alkalinity_used: Num) -> Num:
    """Return the sodium that two-part dosing leaves behind.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that was dosed and used.
    """
    return alkalinity_used * molar_mass("Na+")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{Cl}",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity_used=USED,
)
def chloride_left(alkalinity_used: Num) -> Num:
    """Return the chloride that two-part dosing leaves behind.

    Parameters
    ----------
    alkalinity_used
        Alkalinity that was used, and whose calcium was dosed as chloride.
    """
    return alkalinity_used * molar_mass("Cl-")


@relation(
    unit="g/L",
    symbol=r"\rho_\mathrm{NaCl}",
    source="prohaska2022",
    at=WEIGHTS,
    daily_uptake=arg("meq/L/day", "u", title="alkalinity used in a day", typical=(0.05, 1.0)),
    time=arg("day", "t", title="time since the start", typical=(1.0, 365.0)),
)
def sodium_chloride_over_time(daily_uptake: Num, time: Num) -> Num:
    """Return the sodium chloride that has gathered after some time without water changes.

    Parameters
    ----------
    daily_uptake
        Alkalinity that the tank uses in a day, all of it replaced by two-part dosing.
    time
        Since the start.

    Examples
    --------
    >>> round(sodium_chloride_over_time(0.356652, 365.0), 2)
    7.61
    """
    return sodium_chloride_left(daily_uptake * time) / 1000


@relation(
    unit="1",
    symbol=r"\Delta S",
    source="millero2008",
    at="abstract: 35.16504 g/kg at a practical salinity of 35",
    salt=arg(
        "g/L",
        r"\rho_s",
        title="salt gained by each litre",
        typical=(0.0, 5.0),
        possible=EITHER_SIGN,
    ),
    salinity=arg("1", "S", title="salinity of the water before", valid=(0.0, 42.0)),
    temperature=arg("degC", "t", title="temperature of the water before", valid=(-2.0, 40.0)),
)
def salinity_gained(
    salt: Num, salinity: Num, temperature: Num, *, fit: ReferenceScale = ReferenceScale()
) -> Num:
    """Return by how much a gain of dissolved salt raises the salinity.

    Parameters
    ----------
    salt
        Mass gained by each litre.
    salinity, temperature
        Of the water before; they say what a litre weighs.

    Notes
    -----
    Counted by mass, as if the salt were sea salt. A conductivity meter sees a gram of sodium
    chloride as slightly more than a gram of sea salt.

    Examples
    --------
    >>> round(salinity_gained(1.0, 35.0, 25.0), 3)
    0.973
    """
    w_s = 1000 * salt / seawater_density(salinity, temperature)
    return w_s * fit.practical / fit.salt
