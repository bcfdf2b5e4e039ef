"""The air above a tank: its pressure at an altitude, and the water vapour in it at the surface."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log
from reefchem.core.record import arg, relation

__all__ = ["pressure_at_altitude", "vapour_pressure_weiss1980"]


class StandardAtmosphere(Fit):
    """Constants of the standard atmosphere below 11 km, as printed."""

    pressure: float = 1013.25
    temperature: float = 288.15
    lapse: float = 0.0065
    gravity: float = 9.80665
    molar_mass: float = 0.0289644
    gas_constant: float = 8.31432


class WeissPrice1980(Fit):
    """Fitted numbers of equation 10 as printed."""

    a0: float = 24.4543
    a1: float = -67.4509
    a2: float = -4.8489
    a3: float = -0.000544


@relation(
    unit="hPa",
    symbol="p",
    source="iso1975",
    at="eq. 12 and table 1, gradient layer below 11 km",
    altitude=arg("m", "h", valid=(-2000.0, 11000.0), possible=(-5000.0, 44000.0)),
)
def pressure_at_altitude(altitude: Num, *, fit: StandardAtmosphere = StandardAtmosphere()) -> Num:
    """Return the pressure of the standard atmosphere at an altitude.

    Weather moves the true pressure by up to 3 % either way. A barometer that is set to sea level,
    as weather reports are, does not show the pressure of the room.

    Examples
    --------
    >>> round(pressure_at_altitude(1500.0), 1)
    845.6
    """
    ratio = 1 - fit.lapse * altitude / fit.temperature
    exponent = fit.gravity * fit.molar_mass / (fit.gas_constant * fit.lapse)
    return fit.pressure * exp(exponent * log(ratio))


@relation(
    unit="atm",
    symbol=r"p_{\mathrm{H_2O}}",
    source="weiss1980",
    at="eq. 10",
    salinity=arg("1", "S", valid=(0.0, 40.0)),
    temperature=arg("degC", "t", valid=(0.0, 40.0)),
)
def vapour_pressure_weiss1980(
    salinity: Num, temperature: Num, *, fit: WeissPrice1980 = WeissPrice1980()
) -> Num:
    """Return the pressure of water vapour in air that is saturated over seawater.

    Examples
    --------
    >>> round(vapour_pressure_weiss1980(35.0, 25.0), 6)
    0.030655
    """
    x = kelvin(temperature) / 100
    return exp(fit.a0 + fit.a1 / x + fit.a2 * log(x) + fit.a3 * salinity)
