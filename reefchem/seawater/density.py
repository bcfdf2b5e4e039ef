"""Density of pure water and of seawater at one atmosphere, and what it tells.

Two standards stand beside each other: the equation of state of 1980 (EOS-80), which tables and
instruments of the trade rest on, and that of 2010 (TEOS-10), the best there is. Each has its own
pure water; a ratio of densities keeps to one of the two.
"""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, sqrt
from reefchem.core.record import arg, describe, relation
from reefchem.core.roots import find_root, newton

__all__ = [
    "pure_water_density",
    "pure_water_density_kell1975",
    "pure_water_density_teos10",
    "salinity_from_density",
    "seawater_density",
    "seawater_density_teos10",
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


EOS80 = MilleroPoisson1981()


class Feistel2003(Fit):
    """Fitted numbers of liquid water, those of the specific volume at one atmosphere.

    They are g01 to g71 of the release: of temperature over 40 °C, in 1e-8 m³/kg.
    """

    g01: float = 0.100015695367145e6
    g11: float = -0.270983805184062e3
    g21: float = 0.14550364540468e4
    g31: float = -0.67250778314507e3
    g41: float = 0.397968445406972e3
    g51: float = -0.194618310617595e3
    g61: float = 0.635113936641785e2
    g71: float = -0.963108119393062e1


class Feistel2008(Fit):
    """Fitted numbers of sea salt, those of the specific volume at one atmosphere.

    They are g201 to g241 of the release: the first digit is the power of the root of salinity over
    40, the second that of temperature over 40 °C, in 1e-8 m³/kg.
    """

    g201: float = -0.331049154044839e4
    g301: float = 0.199459603073901e3
    g401: float = -0.547919133532887e2
    g501: float = 0.360284195611086e2
    g211: float = 0.729116529735046e3
    g311: float = -0.175292041186547e3
    g411: float = -0.226683558512829e2
    g221: float = -0.860764303783977e3
    g321: float = 0.383058066002476e3
    g231: float = 0.694244814133268e3
    g331: float = -0.460319931801257e3
    g241: float = -0.297728741987187e3
    g341: float = 0.234565187611355e3


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


_eos80_water = describe(pure_water_density).kernel


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
    symbol=r"\rho_w",
    source="iapws2009",
    at="eq. 1 and table 1, derivative by pressure at one atmosphere",
    temperature=arg("degC", "t", valid=(-2.65, 40.0)),
)
def pure_water_density_teos10(temperature: Num, *, fit: Feistel2003 = Feistel2003()) -> Num:
    """Return the density of pure water at one atmosphere by the standard of 2010.

    It agrees with IAPWS-95, the best description of water there is, to 2e-5 kg/m³.

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

    Notes
    -----
    Only the terms that are left at one atmosphere are here. The digits were read in public
    transcriptions and reproduce another author's program to 1e-9 kg/m³.

    Examples
    --------
    >>> round(pure_water_density_teos10(25.0), 4)
    997.0476
    """
    return 1e8 / _volume_of_water(temperature / 40, fit)


@relation(
    unit="kg/m**3",
    symbol=r"\rho",
    source="millero1981",
    at="eq. 6",
    salinity=arg("1", "S", valid=(0.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
)
def seawater_density(salinity: Num, temperature: Num, *, fit: MilleroPoisson1981 = EOS80) -> Num:
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
    A, B = _salt_terms(t68, fit)
    return (
        pure_water_density(temperature)
        + A * salinity
        + B * salinity * sqrt(salinity)
        + fit.c0 * salinity * salinity
    )


def _salt_terms(t68: Num, fit: MilleroPoisson1981) -> tuple[Num, Num]:
    """Return what stands before salinity and before its power 1.5."""
    return (
        fit.a0 + t68 * (fit.a1 + t68 * (fit.a2 + t68 * (fit.a3 + t68 * fit.a4))),
        fit.b0 + t68 * (fit.b1 + t68 * fit.b2),
    )


@relation(
    unit="kg/m**3",
    symbol=r"\rho",
    source="iapws2008",
    at="eq. 4 and table 2, derivative by pressure at one atmosphere",
    salinity=arg("1", "S", valid=(0.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
)
def seawater_density_teos10(
    salinity: Num,
    temperature: Num,
    *,
    water: Feistel2003 = Feistel2003(),
    salt: Feistel2008 = Feistel2008(),
) -> Num:
    """Return the density of seawater at one atmosphere by the standard of 2010.

    Parameters
    ----------
    salinity
        Practical salinity; any shape. The standard speaks of absolute salinity; here it is taken
        as that of reference seawater, 35.16504/35 g/kg for each unit.
    temperature
        Temperature of the water; broadcast against `salinity`.
    water, salt
        Fitted numbers.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Notes
    -----
    The standard divides absolute salinity by 40 times 35.16504/35 g/kg, so practical salinity is
    divided by 40 here. Water that was made from a salt mixture has no absolute salinity of its
    own on record; a difference of 0.1 g/kg from reference seawater would be 0.08 kg/m³.

    Examples
    --------
    >>> round(seawater_density_teos10(35.0, 25.0), 3)
    1023.344
    """
    x = sqrt(salinity / 40)
    y = temperature / 40
    by_salt = salt.g201 + y * (salt.g211 + y * (salt.g221 + y * (salt.g231 + y * salt.g241)))
    by_root = salt.g301 + y * (salt.g311 + y * (salt.g321 + y * (salt.g331 + y * salt.g341)))
    by_square = salt.g401 + y * salt.g411 + x * salt.g501
    volume = _volume_of_water(y, water) + x * x * (by_salt + x * (by_root + x * by_square))
    return 1e8 / volume


def _volume_of_water(y: Num, fit: Feistel2003) -> Num:
    """Return the specific volume of pure water in 1e-8 m³/kg; `y` is temperature over 40 °C."""
    more = fit.g41 + y * (fit.g51 + y * (fit.g61 + y * fit.g71))
    return fit.g01 + y * (fit.g11 + y * (fit.g21 + y * (fit.g31 + y * more)))


@relation(
    unit="1",
    symbol="S",
    source="millero1981",
    at="eq. 6, solved for the salinity",
    density=arg("kg/m**3", r"\rho", title="density of the water", typical=(1012.0, 1023.0)),
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

    def quick() -> Num:
        """Hold what depends on temperature alone; `derive.density` proves the slope."""
        A, B = _salt_terms(IPTS68_PER_ITS90 * temperature, EOS80)
        C = EOS80.c0
        B_slope, C_slope = 1.5 * B, 2 * C
        excess = density - _eos80_water(temperature)

        def correction(S: Num) -> Num:
            r = sqrt(S)
            return (S * (A + B * r + C * S) - excess) / (A + B_slope * r + C_slope * S)

        return newton(correction, excess / (A + 6 * B + 36 * C), 0.0, 42.0)

    return find_root(
        lambda salinity: seawater_density(salinity, temperature) - density,
        0.0,
        50.0,
        unknown="salinity",
        symbol="S",
        like=(density, temperature),
        quick=quick,
    )


@relation(
    unit="degC",
    symbol="t",
    source="millero1981",
    at="eq. 6, solved for the temperature",
    density=arg("kg/m**3", r"\rho", title="density of the water", typical=(1018.0, 1026.0)),
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
