"""Oxygen that seawater holds when it is in balance with the air."""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.constants import STANDARD_ATMOSPHERE
from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, log
from reefchem.core.record import arg, relation
from reefchem.seawater.density import IPTS68_PER_ITS90, seawater_density
from reefchem.seawater.room_air import vapour_pressure_weiss1980

__all__ = [
    "oxygen_mass_saturation",
    "oxygen_percent",
    "oxygen_saturation",
    "oxygen_saturation_at_pressure",
    "oxygen_volume_saturation",
]

O2 = molar_mass("O2")
SALINITY = arg("1", "S", valid=(0.0, 42.0))
TEMPERATURE = arg("degC", "t", valid=(-2.0, 40.0))
PRESSURE = arg(
    "hPa", "p", title="pressure of the air", typical=(600.0, 1050.0), possible=(100.0, 2000.0)
)
HECTOPASCALS_PER_ATMOSPHERE = STANDARD_ATMOSPHERE / 100


class GarciaGordon1992(Fit):
    """Fitted numbers of table 1 for micromoles in a kilogram, after Benson and Krause."""

    a0: float = 5.80871
    a1: float = 3.20291
    a2: float = 4.17887
    a3: float = 5.10006
    a4: float = -9.86643e-2
    a5: float = 3.80369
    b0: float = -7.01577e-3
    b1: float = -7.70028e-3
    b2: float = -1.13864e-2
    b3: float = -9.51519e-3
    c0: float = -2.75915e-7


class GarciaGordon1992Volume(Fit):
    """Fitted numbers of table 1 for millilitres of gas in a litre, after Benson and Krause.

    The last is the volume of a mole of oxygen gas at 0 °C and one atmosphere, in millilitres.
    """

    a0: float = 2.00907
    a1: float = 3.22014
    a2: float = 4.05010
    a3: float = 4.94457
    a4: float = -0.256847
    a5: float = 3.88767
    b0: float = -6.24523e-3
    b1: float = -7.37614e-3
    b2: float = -1.03410e-2
    b3: float = -8.17083e-3
    c0: float = -4.88682e-7
    molar_volume: float = 22391.6


@relation(
    unit="umol/kg",
    symbol=r"C_{\mathrm{O_2}}",
    source="garcia1992",
    at="eq. 8, table 1, µmol/kg after Benson and Krause",
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def oxygen_saturation(
    salinity: Num, temperature: Num, *, fit: GarciaGordon1992 = GarciaGordon1992()
) -> Num:
    """Return the oxygen in seawater that is in balance with moist air at one atmosphere.

    Parameters
    ----------
    salinity, temperature
        Of the water; any shape.

    Notes
    -----
    Equation 8 is printed with one term too many, A3 Ts²; it is left out here, and then the check
    value of the paper comes out. The fit is in temperatures of 1968.

    Examples
    --------
    >>> round(oxygen_saturation(35.0, 25.0), 1)
    206.8
    """
    t68 = IPTS68_PER_ITS90 * temperature
    t_s = log((298.15 - t68) / (273.15 + t68))
    a = fit.a0 + t_s * (fit.a1 + t_s * (fit.a2 + t_s * (fit.a3 + t_s * (fit.a4 + t_s * fit.a5))))
    b = fit.b0 + t_s * (fit.b1 + t_s * (fit.b2 + t_s * fit.b3))
    return exp(a + salinity * b + fit.c0 * salinity * salinity)


@relation(
    unit="mol/m**3",
    symbol=r"C_{\mathrm{O_2}}",
    source="garcia1992",
    at="eq. 8, table 1, ml/l after Benson and Krause",
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def oxygen_volume_saturation(
    salinity: Num, temperature: Num, *, fit: GarciaGordon1992Volume = GarciaGordon1992Volume()
) -> Num:
    """Return the oxygen in a volume of seawater that is in balance with moist air.

    A second fit of the same paper to the same measurements, made in a litre instead of a
    kilogram: it checks `oxygen_saturation` times the density.

    Examples
    --------
    >>> round(oxygen_volume_saturation(35.0, 25.0), 4)
    0.2116
    """
    t68 = IPTS68_PER_ITS90 * temperature
    t_s = log((298.15 - t68) / (273.15 + t68))
    a = fit.a0 + t_s * (fit.a1 + t_s * (fit.a2 + t_s * (fit.a3 + t_s * (fit.a4 + t_s * fit.a5))))
    b = fit.b0 + t_s * (fit.b1 + t_s * (fit.b2 + t_s * fit.b3))
    millilitres = exp(a + salinity * b + fit.c0 * salinity * salinity)
    return 1000 * millilitres / fit.molar_volume


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{O_2}}",
    source="garcia1992",
    at="eq. 8, times density and molar mass",
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def oxygen_mass_saturation(salinity: Num, temperature: Num) -> Num:
    """Return the oxygen in seawater in balance with air at one atmosphere, as probes show it.

    Examples
    --------
    >>> round(oxygen_mass_saturation(35.0, 25.0), 2)
    6.77
    """
    rho_l = seawater_density(salinity, temperature) / 1000
    return oxygen_saturation(salinity, temperature) * rho_l * O2 / 1000


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{O_2}}",
    source="benson1984",
    at="eq. 24, with the small non-ideality of oxygen left out",
    salinity=arg("1", "S", valid=(0.0, 40.0)),
    temperature=arg("degC", "t", valid=(0.0, 40.0)),
    pressure=PRESSURE,
)
def oxygen_saturation_at_pressure(salinity: Num, temperature: Num, pressure: Num) -> Num:
    """Return the oxygen in seawater in balance with air at the pressure of the room.

    Parameters
    ----------
    salinity, temperature
        Of the water; any shape.
    pressure
        Of the air in the room: read a barometer that is not set to sea level, or take
        `pressure_at_altitude`.

    Notes
    -----
    Dry air is what the vapour leaves of the pressure. What is left out changes the result by less
    than 0.04 % at half an atmosphere.

    Examples
    --------
    >>> round(oxygen_saturation_at_pressure(35.0, 25.0, 845.6), 2)
    5.61
    """
    vapour = vapour_pressure_weiss1980(salinity, temperature)
    dry = pressure / HECTOPASCALS_PER_ATMOSPHERE - vapour
    return oxygen_mass_saturation(salinity, temperature) * dry / (1 - vapour)


@relation(
    unit="percent",
    symbol="s",
    source="benson1984",
    at="eq. 24, with the small non-ideality of oxygen left out",
    oxygen=arg("mg/L", r"\rho_{\mathrm{O_2}}", title="dissolved oxygen", typical=(0.5, 12.0)),
    salinity=arg("1", "S", valid=(0.0, 40.0)),
    temperature=arg("degC", "t", valid=(0.0, 40.0)),
    pressure=PRESSURE,
)
def oxygen_percent(oxygen: Num, salinity: Num, temperature: Num, pressure: Num) -> Num:
    """Return a reading of oxygen in per cent of what the water would hold in balance with air.

    Examples
    --------
    >>> round(oxygen_percent(6.0, 35.0, 25.0, 1013.25), 1)
    88.6
    """
    return 100 * oxygen / oxygen_saturation_at_pressure(salinity, temperature, pressure)
