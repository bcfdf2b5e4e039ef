"""Density of pure water and of seawater at one atmosphere."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, sqrt
from reefchem.core.record import arg, relation
from reefchem.core.roots import find_root

__all__ = [
    "pure_water_density",
    "pure_water_density_kell1975",
    "salinity_from_density",
    "seawater_density",
    "temperature_from_density",
]

IPTS68_PER_ITS90 = 1.00024
"""Degrees of the 1968 scale, in which the equations were fitted, in one of the 1990 scale."""


class Bigg1967(Fit):
    """Fitted numbers of UNESCO 44, equation 14, as printed."""

    a0: float = 999.842594
    a1: float = 6.793952e-2
    a2: float = -9.095290e-3
    a3: float = 1.001685e-4
    a4: float = -1.120083e-6
    a5: float = 6.536332e-9


class Kell1975(Fit):
    """Fitted numbers of equation 16 as printed."""

    a0: float = 999.83952
    a1: float = 16.945176
    a2: float = -7.9870401e-3
    a3: float = -46.170461e-6
    a4: float = 105.56302e-9
    a5: float = -280.54253e-12
    b1: float = 16.879850e-3


class MilleroPoisson1981(Fit):
    """Fitted numbers of equation 6 (UNESCO 44, equation 13), as printed."""

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

    Water free of air, of the isotopes of ocean water; the reference of specific gravity.

    Parameters
    ----------
    temperature
        Temperature of the water; any shape.
    fit
        Fitted numbers; change one to see how much the result leans on it.

    Returns
    -------
    Num
        Of the shape and kind of the argument.

    Notes
    -----
    The fit is Bigg's (1967) as the oceanographers adopted it. It was made in the temperature
    scale of 1968; the conversion is part of the relation. A misprint of the last coefficient,
    6.536336e-9, goes around in public code; it changes the density by less than 1e-6 kg/m³.

    Examples
    --------
    >>> round(pure_water_density(25.0), 4)
    997.0464
    """
    t68 = IPTS68_PER_ITS90 * temperature
    return fit.a0 + t68 * (fit.a1 + t68 * (fit.a2 + t68 * (fit.a3 + t68 * (fit.a4 + t68 * fit.a5))))


@relation(
    unit="kg/m**3",
    symbol=r"\rho_w",
    source="kell1975",
    at="eq. 16",
    temperature=arg("degC", "t", valid=(0.0, 150.0)),
)
def pure_water_density_kell1975(temperature: Num, *, fit: Kell1975 = Kell1975()) -> Num:
    """Return the density of pure water at one atmosphere by another fit.

    It rests on other measurements and sits 0.003 to 0.004 kg/m³ below `pure_water_density`, so it
    tells how sure that one is. For work with seawater keep to one of the two in any ratio.

    Parameters
    ----------
    temperature
        Temperature of the water; any shape.
    fit
        Fitted numbers.

    Returns
    -------
    Num
        Of the shape and kind of the argument.

    Examples
    --------
    >>> round(pure_water_density_kell1975(25.0), 4)
    997.0434
    """
    t68 = IPTS68_PER_ITS90 * temperature
    above = fit.a0 + t68 * (
        fit.a1 + t68 * (fit.a2 + t68 * (fit.a3 + t68 * (fit.a4 + t68 * fit.a5)))
    )
    return above / (1.0 + fit.b1 * t68)


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
    """Return the density of seawater at one atmosphere.

    The international equation of state of 1980 (EOS-80), which every later one agrees with to a
    few parts in a million.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    temperature
        Temperature of the water; broadcast against `salinity`.
    fit
        Fitted numbers; change one to see how much the result leans on it.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Notes
    -----
    The standard error of the fit is 3.6e-3 kg/m³ (from memory). TEOS-10, the standard of 2010,
    gives 0.003 kg/m³ less to 0.006 more between salinity 28 and 40 and 18 and 30 °C.

    Examples
    --------
    >>> round(seawater_density(35.0, 25.0), 3)
    1023.341
    """
    t68 = IPTS68_PER_ITS90 * temperature
    A = fit.a0 + t68 * (fit.a1 + t68 * (fit.a2 + t68 * (fit.a3 + t68 * fit.a4)))
    B = fit.b0 + t68 * (fit.b1 + t68 * fit.b2)
    return (
        pure_water_density(temperature)
        + A * salinity
        + B * salinity * sqrt(salinity)
        + fit.c0 * salinity * salinity
    )


@relation(
    unit="1",
    symbol="S",
    source="millero1981",
    at="eq. 6, solved for the salinity",
    density=arg("kg/m**3", r"\rho", typical=(1012.0, 1023.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
)
def salinity_from_density(density: Num, temperature: Num) -> Num:
    """Return the practical salinity of seawater of a density.

    Density grows with salinity at every temperature, so there is one answer or none.

    Parameters
    ----------
    density
        Density of the water; any shape.
    temperature
        Temperature of the water; broadcast against `density`.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Raises
    ------
    NoRootError
        When the water is lighter than pure water, or heavier than at salinity 50. In an array
        such an element is NaN.

    Examples
    --------
    >>> round(salinity_from_density(1023.341, 25.0), 3)
    35.0
    """
    return find_root(
        lambda salinity: seawater_density(salinity, temperature) - density,
        0.0,
        50.0,
        unknown="salinity",
        symbol="S",
        like=(density, temperature),
    )


@relation(
    unit="degC",
    symbol="t",
    source="millero1981",
    at="eq. 6, solved for the temperature",
    density=arg("kg/m**3", r"\rho", typical=(1018.0, 1026.0)),
    salinity=arg("1", "S", valid=(25.0, 42.0), possible=(25.0, float("inf"))),
)
def temperature_from_density(density: Num, salinity: Num) -> Num:
    """Return the temperature at which seawater of a salinity has a density.

    Parameters
    ----------
    density
        Density of the water; any shape.
    salinity
        Practical salinity, 25 or more; broadcast against `density`. Below that the densest water
        is warmer than the freezing point, and two temperatures may share one density.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Raises
    ------
    NoRootError
        When no temperature from 0 to 40 °C gives the density. In an array such an element is
        NaN.

    Examples
    --------
    >>> round(temperature_from_density(1023.341, 35.0), 2)
    25.0
    """
    return find_root(
        lambda temperature: seawater_density(salinity, temperature) - density,
        0.0,
        40.0,
        unknown="temperature",
        symbol="t",
        like=(density, salinity),
    )
