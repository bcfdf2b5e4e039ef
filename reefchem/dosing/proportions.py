"""Sea salt from the bottles: what is left so that it has the proportions of seawater."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = ["charge_gap", "sea_salt_left", "seawater_left"]

USED = arg("meq/L", "A", title="alkalinity that calcification has taken", typical=(0.0, 2.0))


class ReferenceSeawater(Fit):
    """Sodium, alkalinity (mmol/kg) and salt (g/kg) of reference seawater at salinity 35."""

    n_sodium: float = 468.9674
    a_sea: float = 2.3044
    m_salt: float = 35.16504


@relation(
    unit="meq/kg",
    symbol=r"\Delta z",
    source="millero2008",
    at="charges of the reference composition, which add up to zero",
    calcium=arg("mmol/kg", r"[\mathrm{Ca}]", title="calcium of seawater", typical=(8.0, 13.0)),
    alkalinity=arg("meq/kg", "A", title="alkalinity of seawater", typical=(1.8, 4.5)),
)
def charge_gap(calcium: Num, alkalinity: Num) -> Num:
    """Return the charge that is missing when calcium and alkalinity are taken out of seawater.

    What is left has more negative than positive charge, so sodium, chloride, magnesium, potassium
    and sulfate alone cannot stand in the proportions of seawater.

    Parameters
    ----------
    calcium, alkalinity
        Of seawater.

    Examples
    --------
    >>> round(charge_gap(10.2821, 2.3044), 2)
    18.26
    """
    return 2 * calcium - alkalinity


@relation(
    unit="kg/L",
    symbol="s",
    source="millero2008",
    at="reference composition at salinity 35; derived in the book",
    alkalinity_used=USED,
)
def seawater_left(alkalinity_used: Num, *, fit: ReferenceSeawater = ReferenceSeawater()) -> Num:
    """Return the seawater whose salts a balanced set of three solutions leaves behind.

    Two-part dosing with sodium salts, and a third solution with magnesium, potassium and sulfate:
    the sodium decides how much sea salt the rest must be made into.

    Parameters
    ----------
    alkalinity_used
        By calcification.

    Examples
    --------
    >>> round(seawater_left(1.0), 6)
    0.002143
    """
    return alkalinity_used / (fit.n_sodium - fit.a_sea)


@relation(
    unit="g/L",
    symbol=r"\rho_s",
    source="millero2008",
    at="reference composition at salinity 35; derived in the book",
    alkalinity_used=USED,
)
def sea_salt_left(alkalinity_used: Num, *, fit: ReferenceSeawater = ReferenceSeawater()) -> Num:
    """Return the mass of sea salt that a balanced set of three solutions leaves behind.

    Parameters
    ----------
    alkalinity_used
        By calcification.

    Examples
    --------
    >>> round(sea_salt_left(1.0), 5)
    0.07535
    """
    return seawater_left(alkalinity_used) * fit.m_salt
