"""Dissociation of silicic acid in seawater."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log, sqrt
from reefchem.core.record import arg, relation
from reefchem.seawater.composition import ionic_strength

__all__ = ["KSI_SEAWATER_SCALE", "YaoMillero1995KSi", "silicate_ksi_yao1995"]


class YaoMillero1995KSi(Fit):
    """Fitted numbers as printed in the Handbook, with 0.015 taken off for the total scale."""

    a: float = -8904.2
    b: float = 117.385
    c: float = -19.334
    d0: float = -458.79
    d1: float = 3.5913
    e0: float = 188.74
    e1: float = -1.5998
    f0: float = -12.1652
    f1: float = 0.07871
    salt: float = -0.001005


KSI_SEAWATER_SCALE = YaoMillero1995KSi(b=117.4)
"""The fit as first given, on the seawater scale."""


@relation(
    unit="mol/kg",
    symbol=r"K_{\mathrm{Si}}",
    source="yao1995",
    at="as given for the total scale by Dickson et al. (2007), chapter 5",
    temperature=arg("degC", "t", typical=(0.0, 45.0)),
    salinity=arg("1", "S", typical=(5.0, 45.0)),
)
def silicate_ksi_yao1995(
    temperature: Num, salinity: Num, *, fit: YaoMillero1995KSi = YaoMillero1995KSi()
) -> Num:
    """Return the dissociation constant of silicic acid in seawater, total scale.

    It is [H⁺][SiO(OH)₃⁻]/[Si(OH)₄]; the standard error of its logarithm is 0.02.
    """
    T = kelvin(temperature)
    ionic = ionic_strength(salinity)
    return (1.0 + fit.salt * salinity) * exp(
        fit.a / T
        + fit.b
        + fit.c * log(T)
        + (fit.d0 / T + fit.d1) * sqrt(ionic)
        + (fit.e0 / T + fit.e1) * ionic
        + (fit.f0 / T + fit.f1) * ionic * ionic
    )
