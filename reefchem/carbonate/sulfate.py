"""Dissociation of the hydrogen sulfate ion in seawater."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log, sqrt
from reefchem.core.record import arg, relation
from reefchem.seawater.composition import ionic_strength

__all__ = ["bisulfate_ks_dickson1990"]


class Dickson1990b(Fit):
    """Fitted numbers as printed, and the share of salt per unit of salinity."""

    a: float = -4276.1
    b: float = 141.328
    c: float = -23.093
    d0: float = -13856.0
    d1: float = 324.57
    d2: float = -47.986
    e0: float = 35474.0
    e1: float = -771.54
    e2: float = 114.723
    f: float = -2698.0
    g: float = 1776.0
    salt: float = -0.001005


@relation(
    unit="mol/kg",
    symbol="K_S",
    source="dickson1990b",
    at="eqs 22 and 23, p. 123",
    temperature=arg("degC", "t", valid=(0.0, 45.0)),
    salinity=arg("1", "S", valid=(5.0, 45.0)),
)
def bisulfate_ks_dickson1990(
    temperature: Num, salinity: Num, *, fit: Dickson1990b = Dickson1990b()
) -> Num:
    """Return the dissociation constant of hydrogen sulfate in seawater, free scale.

    It is [H⁺][SO₄²⁻]/[HSO₄⁻] and the step between the free and the total scale.

    Notes
    -----
    Per kilogram of seawater; the paper's fit is per kilogram of water, hence the last factor.
    A coefficient on p. 121 is misprinted; the equation on p. 123 is right.

    Examples
    --------
    >>> round(bisulfate_ks_dickson1990(25.0, 35.0), 5)
    0.1003
    """
    T = kelvin(temperature)
    ionic = ionic_strength(salinity)
    root = sqrt(ionic)
    return (1.0 + fit.salt * salinity) * exp(
        fit.a / T
        + fit.b
        + fit.c * log(T)
        + (fit.d0 / T + fit.d1 + fit.d2 * log(T)) * root
        + (fit.e0 / T + fit.e1 + fit.e2 * log(T)) * ionic
        + fit.f / T * ionic * root
        + fit.g / T * ionic * ionic
    )
