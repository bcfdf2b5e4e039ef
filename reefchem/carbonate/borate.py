"""Dissociation of boric acid in seawater."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log, sqrt
from reefchem.core.record import arg, relation

__all__ = ["boric_kb_dickson1990"]


class Dickson1990(Fit):
    """Fitted numbers as printed."""

    a0: float = -8966.90
    a1: float = -2890.53
    a2: float = -77.942
    a3: float = 1.728
    a4: float = -0.0996
    b0: float = 148.0248
    b1: float = 137.1942
    b2: float = 1.62142
    c0: float = -24.4344
    c1: float = -25.085
    c2: float = -0.2474
    d: float = 0.053105


@relation(
    unit="mol/kg",
    symbol="K_B",
    source="dickson1990",
    at="eq. 23 (also Dickson et al. 2007, chapter 5)",
    temperature=arg("degC", "t", valid=(0.0, 45.0)),
    salinity=arg("1", "S", valid=(5.0, 45.0)),
)
def boric_kb_dickson1990(
    temperature: Num, salinity: Num, *, fit: Dickson1990 = Dickson1990()
) -> Num:
    """Return the dissociation constant of boric acid in seawater, total scale.

    It is [H⁺][B(OH)₄⁻]/[B(OH)₃].

    Examples
    --------
    >>> round(boric_kb_dickson1990(25.0, 35.0) * 1e9, 4)
    2.5266
    """
    T, r = kelvin(temperature), sqrt(salinity)
    return exp(
        (fit.a0 + fit.a1 * r + salinity * (fit.a2 + fit.a3 * r + salinity * fit.a4)) / T
        + fit.b0
        + fit.b1 * r
        + fit.b2 * salinity
        + (fit.c0 + fit.c1 * r + fit.c2 * salinity) * log(T)
        + fit.d * r * T
    )
