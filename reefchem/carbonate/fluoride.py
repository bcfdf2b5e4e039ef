"""Dissociation of hydrogen fluoride in seawater."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, sqrt
from reefchem.core.record import arg, relation
from reefchem.seawater.composition import ionic_strength

__all__ = ["fluoride_kf_dickson1979", "fluoride_kf_perez1987"]


class PerezFraga1987(Fit):
    """Fitted numbers as printed."""

    a: float = 874.0
    b: float = -9.68
    c: float = 0.111


class DicksonRiley1979(Fit):
    """Fitted numbers as printed, and the share of salt per unit of salinity."""

    a: float = 1590.2
    b: float = -12.641
    c: float = 1.525
    salt: float = -0.001005


@relation(
    unit="mol/kg",
    symbol="K_F",
    source="perez1987",
    at="as given by Dickson et al. (2007), chapter 5",
    temperature=arg("degC", "t", valid=(9.0, 33.0)),
    salinity=arg("1", "S", valid=(10.0, 40.0)),
)
def fluoride_kf_perez1987(
    temperature: Num, salinity: Num, *, fit: PerezFraga1987 = PerezFraga1987()
) -> Num:
    """Return the dissociation constant of hydrogen fluoride, total scale, after Perez and Fraga.

    It is [H⁺][F⁻]/[HF].

    Notes
    -----
    The Handbook takes this fit as one on the total scale; some programs take it as one on the
    free scale. The choice moves a calculated pH by less than 0.00001; where other constants are
    brought to the total scale exactly, a step that contains it, by up to 0.0004.

    Examples
    --------
    >>> round(fluoride_kf_perez1987(25.0, 35.0) * 1e3, 4)
    2.2611
    """
    return exp(fit.a / kelvin(temperature) + fit.b + fit.c * sqrt(salinity))


@relation(
    unit="mol/kg",
    symbol="K_F",
    source="dickson1979",
    at="equation for ln β(HF), as given by Dickson and Goyet (DOE 1994), chapter 5",
    temperature=arg("degC", "t", typical=(0.0, 45.0)),
    salinity=arg("1", "S", typical=(5.0, 45.0)),
)
def fluoride_kf_dickson1979(
    temperature: Num, salinity: Num, *, fit: DicksonRiley1979 = DicksonRiley1979()
) -> Num:
    """Return the dissociation constant of hydrogen fluoride, free scale, after Dickson and Riley.

    Examples
    --------
    >>> round(fluoride_kf_dickson1979(25.0, 35.0) * 1e3, 4)
    2.3655
    """
    T = kelvin(temperature)
    ionic = ionic_strength(salinity)
    return (1.0 + fit.salt * salinity) * exp(fit.a / T + fit.b + fit.c * sqrt(ionic))
