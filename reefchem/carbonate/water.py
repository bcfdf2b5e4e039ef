"""The ion product of water in seawater."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log, sqrt
from reefchem.core.record import arg, relation

__all__ = ["KW_SEAWATER_SCALE", "Millero1995", "water_kw_millero1995"]


class Millero1995(Fit):
    """Fitted numbers as printed in the Handbook, with 0.015 taken off for the total scale."""

    a: float = 148.9652
    b: float = -13847.26
    c: float = -23.6521
    d0: float = 118.67
    d1: float = -5.977
    d2: float = 1.0495
    e: float = -0.01615


KW_SEAWATER_SCALE = Millero1995(a=148.9802)
"""The fit as Millero gave it, on the seawater scale."""


@relation(
    unit="mol**2/kg**2",
    symbol="K_W",
    source="millero1995",
    at="eq. 63, as given for the total scale by Dickson et al. (2007), chapter 5",
    temperature=arg("degC", "t", typical=(0.0, 45.0)),
    salinity=arg("1", "S", typical=(5.0, 45.0)),
)
def water_kw_millero1995(
    temperature: Num, salinity: Num, *, fit: Millero1995 = Millero1995()
) -> Num:
    """Return the ion product of water in seawater, total scale.

    It is [H⁺][OH⁻].

    Notes
    -----
    Millero's fit is on the seawater scale. The Handbook takes 0.015 off its logarithm, which is
    about right for the total scale (the exact step at S 35 and 25 °C is 0.030 with its own
    constants); `fit=KW_SEAWATER_SCALE` is the original. The 1.6 µmol/kg of hydroxide
    at pH 8 that Millero (2007) prints is a misprint for about 6 (see the errata).

    Examples
    --------
    >>> round(water_kw_millero1995(25.0, 35.0) * 1e14, 4)
    6.0639
    """
    T, r = kelvin(temperature), sqrt(salinity)
    return exp(
        fit.a
        + fit.b / T
        + fit.c * log(T)
        + (fit.d0 / T + fit.d1 + fit.d2 * log(T)) * r
        + fit.e * salinity
    )
