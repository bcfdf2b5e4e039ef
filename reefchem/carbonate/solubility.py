"""Solubility products of aragonite and calcite in seawater."""

from __future__ import annotations

from reefchem.core.constants import LN10
from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log, sqrt
from reefchem.core.record import arg, relation

__all__ = ["aragonite_ksp_mucci1983", "calcite_ksp_mucci1983"]


class Mucci1983Aragonite(Fit):
    """Fitted numbers of the table for aragonite as printed."""

    a0: float = -171.945
    a1: float = -0.077993
    a2: float = 2903.293
    a3: float = 71.595
    b0: float = -0.068393
    b1: float = 0.0017276
    b2: float = 88.135
    c: float = -0.10018
    d: float = 0.0059415


class Mucci1983Calcite(Fit):
    """Fitted numbers of the table for calcite as printed."""

    a0: float = -171.9065
    a1: float = -0.077993
    a2: float = 2839.319
    a3: float = 71.595
    b0: float = -0.77712
    b1: float = 0.0028426
    b2: float = 178.34
    c: float = -0.07711
    d: float = 0.0041249


TEMPERATURE = arg("degC", "t", valid=(5.0, 40.0))
SALINITY = arg("1", "S", valid=(5.0, 44.0))


@relation(
    unit="mol**2/kg**2",
    symbol=r"K_{\mathrm{ar}}",
    source="mucci1983",
    at="equation for log K of aragonite, with its table of parameters",
    temperature=TEMPERATURE,
    salinity=SALINITY,
)
def aragonite_ksp_mucci1983(
    temperature: Num, salinity: Num, *, fit: Mucci1983Aragonite = Mucci1983Aragonite()
) -> Num:
    """Return the solubility product of aragonite in seawater.

    It is [Ca²⁺][CO₃²⁻] in water that neither dissolves nor grows aragonite.

    Notes
    -----
    Logarithms are base 10; a later review (Millero 2007, equations 36 and 37) prints "ln".

    Examples
    --------
    >>> round(aragonite_ksp_mucci1983(25.0, 35.0) * 1e7, 4)
    6.4818
    """
    T, r = kelvin(temperature), sqrt(salinity)
    return exp(
        LN10
        * (
            fit.a0
            + fit.a1 * T
            + fit.a2 / T
            + fit.a3 * log(T) / LN10
            + (fit.b0 + fit.b1 * T + fit.b2 / T) * r
            + salinity * (fit.c + fit.d * r)
        )
    )


@relation(
    unit="mol**2/kg**2",
    symbol=r"K_{\mathrm{ca}}",
    source="mucci1983",
    at="equation for log K of calcite, with its table of parameters",
    temperature=TEMPERATURE,
    salinity=SALINITY,
)
def calcite_ksp_mucci1983(
    temperature: Num, salinity: Num, *, fit: Mucci1983Calcite = Mucci1983Calcite()
) -> Num:
    """Return the solubility product of calcite in seawater.

    Examples
    --------
    >>> round(calcite_ksp_mucci1983(25.0, 35.0) * 1e7, 4)
    4.2724
    """
    T, r = kelvin(temperature), sqrt(salinity)
    return exp(
        LN10
        * (
            fit.a0
            + fit.a1 * T
            + fit.a2 / T
            + fit.a3 * log(T) / LN10
            + (fit.b0 + fit.b1 * T + fit.b2 / T) * r
            + salinity * (fit.c + fit.d * r)
        )
    )
