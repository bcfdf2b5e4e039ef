"""The three dissociation constants of phosphoric acid in seawater."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log, sqrt
from reefchem.core.record import arg, relation

__all__ = [
    "K1P_SEAWATER_SCALE",
    "K2P_SEAWATER_SCALE",
    "K3P_SEAWATER_SCALE",
    "YaoMillero1995K1P",
    "YaoMillero1995K2P",
    "YaoMillero1995K3P",
    "phosphate_k1p_yao1995",
    "phosphate_k2p_yao1995",
    "phosphate_k3p_yao1995",
]


class YaoMillero1995K1P(Fit):
    """Fitted numbers as printed in the Handbook, with 0.015 taken off for the total scale."""

    a: float = -4576.752
    b: float = 115.525
    c: float = -18.453
    d0: float = -106.736
    d1: float = 0.69171
    e0: float = -0.65643
    e1: float = -0.01844


class YaoMillero1995K2P(Fit):
    """Fitted numbers as printed in the Handbook, with 0.015 taken off for the total scale."""

    a: float = -8814.715
    b: float = 172.0883
    c: float = -27.927
    d0: float = -160.340
    d1: float = 1.3566
    e0: float = 0.37335
    e1: float = -0.05778


class YaoMillero1995K3P(Fit):
    """Fitted numbers as printed in the Handbook, with 0.015 taken off for the total scale."""

    a: float = -3070.75
    b: float = -18.141
    d0: float = 17.27039
    d1: float = 2.81197
    e0: float = -44.99486
    e1: float = -0.09984


K1P_SEAWATER_SCALE = YaoMillero1995K1P(b=115.54)
"""The fit as first given, on the seawater scale."""

K2P_SEAWATER_SCALE = YaoMillero1995K2P(b=172.1033)
"""The fit as first given, on the seawater scale."""

K3P_SEAWATER_SCALE = YaoMillero1995K3P(b=-18.126)
"""The fit as first given, on the seawater scale."""

TEMPERATURE = arg("degC", "t", typical=(0.0, 45.0))
SALINITY = arg("1", "S", typical=(5.0, 45.0))
HANDBOOK = "as given for the total scale by Dickson et al. (2007), chapter 5"


@relation(
    unit="mol/kg",
    symbol="K_{1P}",
    source="yao1995",
    at=HANDBOOK,
    temperature=TEMPERATURE,
    salinity=SALINITY,
)
def phosphate_k1p_yao1995(
    temperature: Num, salinity: Num, *, fit: YaoMillero1995K1P = YaoMillero1995K1P()
) -> Num:
    """Return the first dissociation constant of phosphoric acid in seawater, total scale.

    It is [H⁺][H₂PO₄⁻]/[H₃PO₄]; the standard error of its logarithm is 0.09.
    """
    T, r = kelvin(temperature), sqrt(salinity)
    return exp(
        fit.a / T
        + fit.b
        + fit.c * log(T)
        + (fit.d0 / T + fit.d1) * r
        + (fit.e0 / T + fit.e1) * salinity
    )


@relation(
    unit="mol/kg",
    symbol="K_{2P}",
    source="yao1995",
    at=HANDBOOK,
    temperature=TEMPERATURE,
    salinity=SALINITY,
)
def phosphate_k2p_yao1995(
    temperature: Num, salinity: Num, *, fit: YaoMillero1995K2P = YaoMillero1995K2P()
) -> Num:
    """Return the second dissociation constant of phosphoric acid in seawater, total scale.

    It is [H⁺][HPO₄²⁻]/[H₂PO₄⁻]; the standard error of its logarithm is 0.03.
    """
    T, r = kelvin(temperature), sqrt(salinity)
    return exp(
        fit.a / T
        + fit.b
        + fit.c * log(T)
        + (fit.d0 / T + fit.d1) * r
        + (fit.e0 / T + fit.e1) * salinity
    )


@relation(
    unit="mol/kg",
    symbol="K_{3P}",
    source="yao1995",
    at=HANDBOOK,
    temperature=TEMPERATURE,
    salinity=SALINITY,
)
def phosphate_k3p_yao1995(
    temperature: Num, salinity: Num, *, fit: YaoMillero1995K3P = YaoMillero1995K3P()
) -> Num:
    """Return the third dissociation constant of phosphoric acid in seawater, total scale.

    It is [H⁺][PO₄³⁻]/[HPO₄²⁻]; the standard error of its logarithm is 0.20.
    """
    T, r = kelvin(temperature), sqrt(salinity)
    return exp(fit.a / T + fit.b + (fit.d0 / T + fit.d1) * r + (fit.e0 / T + fit.e1) * salinity)
