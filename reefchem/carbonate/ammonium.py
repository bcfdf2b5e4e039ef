"""Dissociation of ammonium in seawater, and the share that is ammonia."""

from __future__ import annotations

from reefchem.core.constants import LN10
from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, sqrt
from reefchem.core.record import arg, relation

__all__ = ["ammonia_share", "ammonium_k_clegg1995"]


class Clegg1995(Fit):
    """Fitted numbers of equation 18 as printed, and the share of salt per unit of salinity."""

    a0: float = 9.244605
    a1: float = -2729.33
    a2: float = 298.15
    b0: float = 0.04203362
    b1: float = -11.24742
    c0: float = -13.6416
    c1: float = 1.176949
    c2: float = -0.02860785
    c3: float = 545.4834
    d0: float = -0.1462507
    d1: float = 0.0090226468
    d2: float = -0.0001471361
    d3: float = 10.5425
    e0: float = 0.004669309
    e1: float = -0.0001691742
    e2: float = -0.5677934
    f0: float = -2.354039e-05
    f1: float = 0.009698623
    salt: float = -0.001005


TEMPERATURE = arg("degC", "t", valid=(-2.0, 40.0))
SALINITY = arg("1", "S", valid=(0.0, 40.0))


@relation(
    unit="mol/kg",
    symbol=r"K_{\mathrm{NH_4}}",
    source="clegg1995",
    at="eq. 18",
    temperature=TEMPERATURE,
    salinity=SALINITY,
)
def ammonium_k_clegg1995(temperature: Num, salinity: Num, *, fit: Clegg1995 = Clegg1995()) -> Num:
    """Return the dissociation constant of ammonium in seawater, total scale.

    It is [H⁺][NH₃]/[NH₄⁺], per kilogram of seawater.

    Examples
    --------
    >>> round(ammonium_k_clegg1995(25.0, 35.0) * 1e10, 4)
    5.6774
    """
    T, r = kelvin(temperature), sqrt(salinity)
    root = sqrt(T)
    pk = (
        fit.a0
        + fit.a1 * (1.0 / fit.a2 - 1.0 / T)
        + (fit.b0 + fit.b1 / T) * sqrt(r)
        + (fit.c0 + fit.c1 * root + fit.c2 * T + fit.c3 / T) * r
        + (fit.d0 + fit.d1 * root + fit.d2 * T + fit.d3 / T) * salinity * r
        + (fit.e0 + fit.e1 * root + fit.e2 / T) * salinity * salinity
        + (fit.f0 + fit.f1 / T) * salinity * salinity * r
    )
    return (1.0 + fit.salt * salinity) * exp(-LN10 * pk)


@relation(
    unit="1",
    symbol=r"\alpha_{\mathrm{NH_3}}",
    source="clegg1995",
    at="eq. 18, with the law of mass action",
    ph_total=arg("1", r"\mathrm{pH}_T", typical=(7.5, 8.6), possible=(0.0, 14.0)),
    temperature=TEMPERATURE,
    salinity=SALINITY,
)
def ammonia_share(ph_total: Num, temperature: Num, salinity: Num) -> Num:
    """Return the share of total ammonium that is ammonia, the toxic form.

    Examples
    --------
    >>> round(ammonia_share(8.1, 25.0, 35.0), 4)
    0.0667
    """
    hydrogen = exp(-LN10 * ph_total)
    k = ammonium_k_clegg1995(temperature, salinity)
    return k / (k + hydrogen)
