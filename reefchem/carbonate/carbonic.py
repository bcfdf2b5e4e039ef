"""Dissociation of carbonic acid in seawater: six published pairs of K1 and K2.

K1 = [H⁺][HCO₃⁻]/[CO₂] and K2 = [H⁺][CO₃²⁻]/[HCO₃⁻], where CO₂ stands for the dissolved gas
together with true carbonic acid. Each pair is given on the pH scale of its source, which the
first line of its docstring names; `constants` brings all to the total scale.
"""

from __future__ import annotations

from reefchem.core.constants import LN10
from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log, sqrt
from reefchem.core.record import arg, relation

__all__ = [
    "carbonic_k1_dickson1987",
    "carbonic_k1_lueker2000",
    "carbonic_k1_millero2010",
    "carbonic_k1_roy1993",
    "carbonic_k1_sulpis2020",
    "carbonic_k1_waters2014",
    "carbonic_k2_dickson1987",
    "carbonic_k2_lueker2000",
    "carbonic_k2_millero2010",
    "carbonic_k2_roy1993",
    "carbonic_k2_sulpis2020",
    "carbonic_k2_waters2014",
]


class Lueker2000K1(Fit):
    """Fitted numbers of equation 16 as printed."""

    a: float = 3633.86
    b: float = -61.2172
    c: float = 9.67770
    d: float = -0.011555
    e: float = 0.0001152


class Lueker2000K2(Fit):
    """Fitted numbers of equation 17 as printed."""

    a: float = 471.78
    b: float = 25.9290
    c: float = -3.16967
    d: float = -0.01781
    e: float = 0.0001122


class Sulpis2020K1(Fit):
    """Fitted numbers of table 1; the salinity terms are those of Lueker and others."""

    a: float = 8510.63
    b: float = -172.4493
    c: float = 26.32996
    d: float = -0.011555
    e: float = 0.0001152


class Sulpis2020K2(Fit):
    """Fitted numbers of table 1; the salinity terms are those of Lueker and others."""

    a: float = 4226.23
    b: float = -59.4636
    c: float = 9.60817
    d: float = -0.01781
    e: float = 0.0001122


class Dickson1987K1(Fit):
    """Fitted numbers of table 4 for the data of Mehrbach and others."""

    a: float = 3670.7
    b: float = -62.008
    c: float = 9.7944
    d: float = -0.0118
    e: float = 0.000116


class Dickson1987K2(Fit):
    """Fitted numbers of table 4 for the data of Mehrbach and others."""

    a: float = 1394.7
    b: float = 4.777
    d: float = -0.0184
    e: float = 0.000118


class Roy1993K1(Fit):
    """Fitted numbers of equation 29 as printed, per kilogram of water."""

    a0: float = 2.83655
    a1: float = -2307.1266
    a2: float = -1.5529413
    b0: float = -0.20760841
    b1: float = -4.0484
    c: float = 0.08468345
    d: float = -0.00654208
    salt: float = -0.001005


class Roy1993K2(Fit):
    """Fitted numbers of equation 30 as printed, per kilogram of water."""

    a0: float = -9.226508
    a1: float = -3351.6106
    a2: float = -0.2005743
    b0: float = -0.106901773
    b1: float = -23.9722
    c: float = 0.1130822
    d: float = -0.00846934
    salt: float = -0.001005


class Millero2010K1(Fit):
    """Fitted numbers of table 2, with those of pure water."""

    a0: float = -126.34048
    a1: float = 6320.813
    a2: float = 19.568224
    b0: float = 13.4038
    b1: float = 0.03206
    b2: float = -5.242e-5
    c0: float = -530.659
    c1: float = -5.8210
    d: float = -2.0664


class Millero2010K2(Fit):
    """Fitted numbers of table 3, with those of pure water."""

    a0: float = -90.18333
    a1: float = 5143.692
    a2: float = 14.613358
    b0: float = 21.3728
    b1: float = 0.1218
    b2: float = -3.688e-4
    c0: float = -788.289
    c1: float = -19.189
    d: float = -3.374


class Waters2014K1(Fit):
    """Fitted numbers of the corrigendum, total scale, with those of pure water."""

    a0: float = -126.34048
    a1: float = 6320.813
    a2: float = 19.568224
    b0: float = 13.568513
    b1: float = 0.031645
    b2: float = -5.3834e-5
    c0: float = -539.2304
    c1: float = -5.635
    d: float = -2.0901396


class Waters2014K2(Fit):
    """Fitted numbers of the corrigendum, total scale, with those of pure water."""

    a0: float = -90.18333
    a1: float = 5143.692
    a2: float = 14.613358
    b0: float = 21.389248
    b1: float = 0.12452358
    b2: float = -3.7447e-4
    c0: float = -787.3736
    c1: float = -19.84233
    d: float = -3.3773006


LUEKER_TEMPERATURE = arg("degC", "t", valid=(2.0, 35.0))
LUEKER_SALINITY = arg("1", "S", valid=(19.0, 43.0))
SULPIS_TEMPERATURE = arg("degC", "t", valid=(-1.67, 31.8))
SULPIS_SALINITY = arg("1", "S", valid=(30.73, 37.57))
DICKSON_TEMPERATURE = arg("degC", "t", valid=(2.0, 35.0))
DICKSON_SALINITY = arg("1", "S", valid=(20.0, 40.0))
ROY_TEMPERATURE = arg("degC", "t", valid=(0.0, 45.0))
ROY_SALINITY = arg("1", "S", valid=(5.0, 45.0))
MILLERO_TEMPERATURE = arg("degC", "t", valid=(0.0, 50.0))
MILLERO_SALINITY = arg("1", "S", valid=(1.0, 50.0))


@relation(
    unit="mol/kg",
    symbol="K_1",
    source="lueker2000",
    at="eq. 16",
    temperature=LUEKER_TEMPERATURE,
    salinity=LUEKER_SALINITY,
)
def carbonic_k1_lueker2000(
    temperature: Num, salinity: Num, *, fit: Lueker2000K1 = Lueker2000K1()
) -> Num:
    """Return the first dissociation constant of carbonic acid, total scale, after Lueker et al.

    Notes
    -----
    Mehrbach's measurements of 1973, brought to the total scale and fitted anew. The r.m.s.
    deviation of the fit is 0.0055 in pK1. The Handbook of 2007 recommends it; it is the default.

    Examples
    --------
    >>> round(carbonic_k1_lueker2000(25.0, 35.0) * 1e6, 4)
    1.4218
    """
    T = kelvin(temperature)
    pk_1 = fit.a / T + fit.b + fit.c * log(T) + salinity * (fit.d + salinity * fit.e)
    return exp(-LN10 * pk_1)


@relation(
    unit="mol/kg",
    symbol="K_2",
    source="lueker2000",
    at="eq. 17",
    temperature=LUEKER_TEMPERATURE,
    salinity=LUEKER_SALINITY,
)
def carbonic_k2_lueker2000(
    temperature: Num, salinity: Num, *, fit: Lueker2000K2 = Lueker2000K2()
) -> Num:
    """Return the second dissociation constant of carbonic acid, total scale, after Lueker et al.

    Notes
    -----
    The r.m.s. deviation of the fit is 0.0100 in pK2.

    Examples
    --------
    >>> round(carbonic_k2_lueker2000(25.0, 35.0) * 1e9, 4)
    1.0816
    """
    T = kelvin(temperature)
    pk_2 = fit.a / T + fit.b + fit.c * log(T) + salinity * (fit.d + salinity * fit.e)
    return exp(-LN10 * pk_2)


@relation(
    unit="mol/kg",
    symbol="K_1",
    source="sulpis2020",
    at="table 1",
    temperature=SULPIS_TEMPERATURE,
    salinity=SULPIS_SALINITY,
)
def carbonic_k1_sulpis2020(
    temperature: Num, salinity: Num, *, fit: Sulpis2020K1 = Sulpis2020K1()
) -> Num:
    """Return the first dissociation constant of carbonic acid, total scale, after Sulpis et al.

    Notes
    -----
    From measurements at sea in which the system was overdetermined; for cold water mainly.
    """
    T = kelvin(temperature)
    pk_1 = fit.a / T + fit.b + fit.c * log(T) + salinity * (fit.d + salinity * fit.e)
    return exp(-LN10 * pk_1)


@relation(
    unit="mol/kg",
    symbol="K_2",
    source="sulpis2020",
    at="table 1",
    temperature=SULPIS_TEMPERATURE,
    salinity=SULPIS_SALINITY,
)
def carbonic_k2_sulpis2020(
    temperature: Num, salinity: Num, *, fit: Sulpis2020K2 = Sulpis2020K2()
) -> Num:
    """Return the second dissociation constant of carbonic acid, total scale, after Sulpis et al."""
    T = kelvin(temperature)
    pk_2 = fit.a / T + fit.b + fit.c * log(T) + salinity * (fit.d + salinity * fit.e)
    return exp(-LN10 * pk_2)


@relation(
    unit="mol/kg",
    symbol="K_1",
    source="dickson1987",
    at="table 4, data of Mehrbach et al. (1973)",
    temperature=DICKSON_TEMPERATURE,
    salinity=DICKSON_SALINITY,
)
def carbonic_k1_dickson1987(
    temperature: Num, salinity: Num, *, fit: Dickson1987K1 = Dickson1987K1()
) -> Num:
    """Return the first dissociation constant of carbonic acid, seawater scale, after Dickson.

    Notes
    -----
    Twice the standard deviation of the fit is 0.011 in pK1. The same measurements as those of
    `carbonic_k1_lueker2000`, brought to the seawater scale.
    """
    T = kelvin(temperature)
    pk_1 = fit.a / T + fit.b + fit.c * log(T) + salinity * (fit.d + salinity * fit.e)
    return exp(-LN10 * pk_1)


@relation(
    unit="mol/kg",
    symbol="K_2",
    source="dickson1987",
    at="table 4, data of Mehrbach et al. (1973)",
    temperature=DICKSON_TEMPERATURE,
    salinity=DICKSON_SALINITY,
)
def carbonic_k2_dickson1987(
    temperature: Num, salinity: Num, *, fit: Dickson1987K2 = Dickson1987K2()
) -> Num:
    """Return the second dissociation constant of carbonic acid, seawater scale, after Dickson.

    Notes
    -----
    Twice the standard deviation of the fit is 0.020 in pK2.
    """
    T = kelvin(temperature)
    pk_2 = fit.a / T + fit.b + salinity * (fit.d + salinity * fit.e)
    return exp(-LN10 * pk_2)


@relation(
    unit="mol/kg",
    symbol="K_1",
    source="roy1993",
    at="eq. 29, p. 254",
    temperature=ROY_TEMPERATURE,
    salinity=ROY_SALINITY,
)
def carbonic_k1_roy1993(temperature: Num, salinity: Num, *, fit: Roy1993K1 = Roy1993K1()) -> Num:
    """Return the first dissociation constant of carbonic acid, total scale, after Roy et al.

    Notes
    -----
    Measured in artificial seawater. Misprint in the abstract: the last term carries the power
    1.5 of the salinity. The equation is per kilogram of water, hence the last factor.
    """
    T, r = kelvin(temperature), sqrt(salinity)
    water = 1.0 + fit.salt * salinity
    return water * exp(
        fit.a0
        + fit.a1 / T
        + fit.a2 * log(T)
        + (fit.b0 + fit.b1 / T) * r
        + fit.c * salinity
        + fit.d * salinity * r
    )


@relation(
    unit="mol/kg",
    symbol="K_2",
    source="roy1993",
    at="eq. 30, p. 254",
    temperature=ROY_TEMPERATURE,
    salinity=ROY_SALINITY,
)
def carbonic_k2_roy1993(temperature: Num, salinity: Num, *, fit: Roy1993K2 = Roy1993K2()) -> Num:
    """Return the second dissociation constant of carbonic acid, total scale, after Roy et al."""
    T, r = kelvin(temperature), sqrt(salinity)
    water = 1.0 + fit.salt * salinity
    return water * exp(
        fit.a0
        + fit.a1 / T
        + fit.a2 * log(T)
        + (fit.b0 + fit.b1 / T) * r
        + fit.c * salinity
        + fit.d * salinity * r
    )


@relation(
    unit="mol/kg",
    symbol="K_1",
    source="millero2010",
    at="p. 141 and table 2",
    temperature=MILLERO_TEMPERATURE,
    salinity=MILLERO_SALINITY,
)
def carbonic_k1_millero2010(
    temperature: Num, salinity: Num, *, fit: Millero2010K1 = Millero2010K1()
) -> Num:
    """Return the first dissociation constant of carbonic acid, seawater scale, after Millero.

    Notes
    -----
    For brackish as well as for salty water.
    """
    T, r = kelvin(temperature), sqrt(salinity)
    pk_0 = fit.a0 + fit.a1 / T + fit.a2 * log(T)
    pk_1 = (
        pk_0
        + fit.b0 * r
        + salinity * (fit.b1 + salinity * fit.b2)
        + (fit.c0 * r + fit.c1 * salinity) / T
        + fit.d * r * log(T)
    )
    return exp(-LN10 * pk_1)


@relation(
    unit="mol/kg",
    symbol="K_2",
    source="millero2010",
    at="p. 141 and table 3",
    temperature=MILLERO_TEMPERATURE,
    salinity=MILLERO_SALINITY,
)
def carbonic_k2_millero2010(
    temperature: Num, salinity: Num, *, fit: Millero2010K2 = Millero2010K2()
) -> Num:
    """Return the second dissociation constant of carbonic acid, seawater scale, after Millero."""
    T, r = kelvin(temperature), sqrt(salinity)
    pk_0 = fit.a0 + fit.a1 / T + fit.a2 * log(T)
    pk_2 = (
        pk_0
        + fit.b0 * r
        + salinity * (fit.b1 + salinity * fit.b2)
        + (fit.c0 * r + fit.c1 * salinity) / T
        + fit.d * r * log(T)
    )
    return exp(-LN10 * pk_2)


@relation(
    unit="mol/kg",
    symbol="K_1",
    source="waters2014",
    at="corrigendum, coefficients for the total scale",
    temperature=MILLERO_TEMPERATURE,
    salinity=MILLERO_SALINITY,
)
def carbonic_k1_waters2014(
    temperature: Num, salinity: Num, *, fit: Waters2014K1 = Waters2014K1()
) -> Num:
    """Return the first dissociation constant of carbonic acid, total scale, after Waters et al."""
    T, r = kelvin(temperature), sqrt(salinity)
    pk_0 = fit.a0 + fit.a1 / T + fit.a2 * log(T)
    pk_1 = (
        pk_0
        + fit.b0 * r
        + salinity * (fit.b1 + salinity * fit.b2)
        + (fit.c0 * r + fit.c1 * salinity) / T
        + fit.d * r * log(T)
    )
    return exp(-LN10 * pk_1)


@relation(
    unit="mol/kg",
    symbol="K_2",
    source="waters2014",
    at="corrigendum, coefficients for the total scale",
    temperature=MILLERO_TEMPERATURE,
    salinity=MILLERO_SALINITY,
)
def carbonic_k2_waters2014(
    temperature: Num, salinity: Num, *, fit: Waters2014K2 = Waters2014K2()
) -> Num:
    """Return the second dissociation constant of carbonic acid, total scale, after Waters et al."""
    T, r = kelvin(temperature), sqrt(salinity)
    pk_0 = fit.a0 + fit.a1 / T + fit.a2 * log(T)
    pk_2 = (
        pk_0
        + fit.b0 * r
        + salinity * (fit.b1 + salinity * fit.b2)
        + (fit.c0 * r + fit.c1 * salinity) / T
        + fit.d * r * log(T)
    )
    return exp(-LN10 * pk_2)
