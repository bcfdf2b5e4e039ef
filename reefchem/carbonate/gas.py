"""Carbon dioxide between water and air: solubility, fugacity, and the vapour beside it."""

from __future__ import annotations

from reefchem.core.constants import GAS_CONSTANT, STANDARD_ATMOSPHERE
from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log
from reefchem.core.record import arg, relation
from reefchem.seawater.room_air import vapour_pressure_weiss1980

__all__ = [
    "co2_fugacity_factor_weiss1974",
    "co2_partial_pressure",
    "co2_solubility_weiss1974",
]

CM3_PER_M3 = 1e6


class Weiss1974(Fit):
    """Fitted numbers as printed in table I."""

    a1: float = -60.2409
    a2: float = 93.4517
    a3: float = 23.3585
    b1: float = 0.023517
    b2: float = -0.023656
    b3: float = 0.0047036


class Weiss1974Virial(Fit):
    """Numbers of the virial coefficients as printed, in cm³/mol and kelvins."""

    b0: float = -1636.75
    b1: float = 12.0408
    b2: float = -3.27957e-2
    b3: float = 3.16528e-5
    d0: float = 57.7
    d1: float = -0.118


@relation(
    unit="mol/kg/atm",
    symbol="K_0",
    source="weiss1974",
    at="eq. 12, table I",
    temperature=arg("degC", "t", valid=(-1.0, 40.0)),
    salinity=arg("1", "S", valid=(0.0, 40.0)),
)
def co2_solubility_weiss1974(
    temperature: Num, salinity: Num, *, fit: Weiss1974 = Weiss1974()
) -> Num:
    """Return the solubility of carbon dioxide in seawater.

    The amount dissolved in a kilogram of seawater for each atmosphere of fugacity above it.

    Notes
    -----
    Equation 12 prints the temperature in kelvins over 100, here `x`.

    Examples
    --------
    >>> round(co2_solubility_weiss1974(25.0, 35.0), 5)
    0.02839
    """
    x = kelvin(temperature) / 100.0
    return exp(
        fit.a1 + fit.a2 / x + fit.a3 * log(x) + salinity * (fit.b1 + x * (fit.b2 + x * fit.b3))
    )


@relation(
    unit="1",
    symbol=r"\varphi",
    source="weiss1974",
    at="eqs 6, 9 and 11",
    temperature=arg("degC", "t", typical=(-1.0, 40.0)),
)
def co2_fugacity_factor_weiss1974(
    temperature: Num, *, fit: Weiss1974Virial = Weiss1974Virial()
) -> Num:
    """Return the fugacity of carbon dioxide in air over its partial pressure, at one atmosphere.

    Examples
    --------
    >>> round(co2_fugacity_factor_weiss1974(25.0), 5)
    0.99681
    """
    T = kelvin(temperature)
    B = fit.b0 + T * (fit.b1 + T * (fit.b2 + T * fit.b3))
    delta = fit.d0 + fit.d1 * T
    return exp((B + 2.0 * delta) * STANDARD_ATMOSPHERE / (CM3_PER_M3 * GAS_CONSTANT * T))


@relation(
    unit="uatm",
    symbol=r"p_{\mathrm{CO_2}}",
    source="dickson2007",
    at="chapter 5, partial pressure from the mole fraction in dry air",
    mole_fraction=arg(
        "ppm",
        r"x_{\mathrm{CO_2}}",
        title="CO₂ in dry air",
        typical=(300.0, 2500.0),
        possible=(0.0, 1e6),
    ),
    temperature=arg("degC", "t", valid=(0.0, 40.0)),
    salinity=arg("1", "S", valid=(0.0, 40.0)),
)
def co2_partial_pressure(mole_fraction: Num, temperature: Num, salinity: Num) -> Num:
    """Return the partial pressure of carbon dioxide above water, from its share of dry air.

    A meter on the wall reads the share of dry air; at the water's surface, air is saturated with
    vapour, which takes some of the room. The whole is at one atmosphere.

    Examples
    --------
    >>> round(co2_partial_pressure(420.0, 25.0, 35.0), 1)
    407.1
    """
    return mole_fraction * (1.0 - vapour_pressure_weiss1980(salinity, temperature))
