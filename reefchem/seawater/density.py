"""Density of pure water and of seawater at one atmosphere."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, sqrt
from reefchem.core.record import arg, relation
from reefchem.core.roots import find_root

__all__ = ["pure_water_density", "salinity_from_density", "seawater_density"]

IPTS68_PER_ITS90 = 1.00024
"""Degrees of the 1968 scale, in which the equations were fitted, in one of the 1990 scale."""


class Bigg1967(Fit):
    """Fitted numbers of equation 14 as printed."""

    a0: float = 999.842594
    a1: float = 6.793952e-2
    a2: float = -9.095290e-3
    a3: float = 1.001685e-4
    a4: float = -1.120083e-6
    a5: float = 6.536332e-9


class MilleroPoisson1981(Fit):
    """Fitted numbers of equation 13 as printed."""

    a0: float = 8.24493e-1
    a1: float = -4.0899e-3
    a2: float = 7.6438e-5
    a3: float = -8.2467e-7
    a4: float = 5.3875e-9
    b0: float = -5.72466e-3
    b1: float = 1.0227e-4
    b2: float = -1.6546e-6
    c0: float = 4.8314e-4


@relation(
    unit="kg/m**3",
    symbol=r"\rho_w",
    source="fofonoff1983",
    at="eq. 14",
    temperature=arg("degC", "t", valid=(0.0, 40.0)),
)
def pure_water_density(temperature: Num, *, fit: Bigg1967 = Bigg1967()) -> Num:
    """Return the density of pure water at one atmosphere.

    Examples
    --------
    >>> round(pure_water_density(25.0), 4)
    997.0464
    """
    t68 = IPTS68_PER_ITS90 * temperature
    return (
        fit.a0 + t68 * (fit.a1 + t68 * (fit.a2 + t68 * (fit.a3 + t68 * (fit.a4 + t68 * fit.a5))))
    )


@relation(
    unit="kg/m**3",
    symbol=r"\rho",
    source="millero1981",
    at="eq. 6",
    salinity=arg("1", "S", valid=(0.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
)
def seawater_density(
    salinity: Num, temperature: Num, *, fit: MilleroPoisson1981 = MilleroPoisson1981()
) -> Num:
    """Return the density of seawater at one atmosphere."""
    t68 = IPTS68_PER_ITS90 * temperature
    a = fit.a0 + t68 * (fit.a1 + t68 * (fit.a2 + t68 * (fit.a3 + t68 * fit.a4)))
    b = fit.b0 + t68 * (fit.b1 + t68 * fit.b2)
    return (
        pure_water_density(temperature)
        + a * salinity
        + b * salinity * sqrt(salinity)
        + fit.c0 * salinity * salinity
    )


@relation(
    unit="1",
    symbol="S",
    source="millero1981",
    at="eq. 6, solved for the salinity",
    density=arg("kg/m**3", r"\rho", typical=(997.0, 1030.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
)
def salinity_from_density(density: Num, temperature: Num) -> Num:
    """Return the practical salinity of seawater of a density."""
    return find_root(
        lambda salinity: seawater_density(salinity, temperature) - density,
        0.0,
        45.0,
        unknown="salinity",
        symbol="S",
        like=(density, temperature),
    )
