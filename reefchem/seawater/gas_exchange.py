"""How fast gases go between a tank and the air.

The speed is a transfer velocity: the depth of water that the surface would exchange in an hour.
Laws for the ocean give it from the wind. They do not describe an aquarium, whose surface is moved
by pumps and bubbles, so it is an input here: measured in the tank, or guessed within a factor of
two. What does carry over from the ocean is the ratio between gases, by their Schmidt numbers.
"""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, log
from reefchem.core.record import POSITIVE, arg, relation

__all__ = [
    "exchange_time",
    "exchange_time_from_recovery",
    "oxygen_after",
    "oxygen_under_respiration",
    "schmidt_carbon_dioxide",
    "schmidt_oxygen",
    "transfer_velocity_from_time",
    "transfer_velocity_of_another_gas",
]

TEMPERATURE = arg("degC", "t", valid=(-2.0, 40.0))
VOLUME = arg(
    "L", "V", title="volume of the tank's water", typical=(20.0, 1000.0), possible=POSITIVE
)
SURFACE = arg("m**2", "A", typical=(0.05, 2.0), possible=POSITIVE)
START = arg("mg/L", r"\rho_0", title="oxygen at the start", typical=(5.0, 8.0))
SATURATION = arg("mg/L", r"\rho_s", title="oxygen at saturation", typical=(5.0, 8.0))
TIME_CONSTANT = arg("hour", r"\tau", typical=(0.2, 50.0), possible=POSITIVE)


class SchmidtCarbonDioxide(Fit):
    """Fitted numbers of table 1 for carbon dioxide in seawater of salinity 35, as printed."""

    a: float = 2116.8
    b: float = -136.25
    c: float = 4.7353
    d: float = -0.092307
    e: float = 0.0007555


class SchmidtOxygen(Fit):
    """Fitted numbers of table 1 for oxygen in seawater of salinity 35, as printed."""

    a: float = 1920.4
    b: float = -135.6
    c: float = 5.2122
    d: float = -0.10939
    e: float = 0.00093777


@relation(
    unit="1",
    symbol=r"\mathrm{Sc}_{\mathrm{CO_2}}",
    source="wanninkhof2014",
    at="table 1, seawater",
    temperature=TEMPERATURE,
)
def schmidt_carbon_dioxide(
    temperature: Num, *, fit: SchmidtCarbonDioxide = SchmidtCarbonDioxide()
) -> Num:
    """Return the Schmidt number of carbon dioxide in seawater: viscosity over diffusion.

    Examples
    --------
    >>> round(schmidt_carbon_dioxide(20.0))
    668
    """
    t = temperature
    return fit.a + t * (fit.b + t * (fit.c + t * (fit.d + t * fit.e)))


@relation(
    unit="1",
    symbol=r"\mathrm{Sc}_{\mathrm{O_2}}",
    source="wanninkhof2014",
    at="table 1, seawater",
    temperature=TEMPERATURE,
)
def schmidt_oxygen(temperature: Num, *, fit: SchmidtOxygen = SchmidtOxygen()) -> Num:
    """Return the Schmidt number of oxygen in seawater: viscosity over diffusion.

    Examples
    --------
    >>> round(schmidt_oxygen(20.0))
    568
    """
    t = temperature
    return fit.a + t * (fit.b + t * (fit.c + t * (fit.d + t * fit.e)))


@relation(
    unit="cm/hour",
    symbol="k_2",
    source="wanninkhof2014",
    at="eq. 4 and text: the transfer velocity goes with a power of the Schmidt number",
    velocity=arg(
        "cm/hour", "k_1", title="transfer velocity of the gas measured", typical=(0.5, 60.0)
    ),
    schmidt=arg(
        "1",
        r"\mathrm{Sc}_1",
        title="Schmidt number of the gas measured",
        typical=(300.0, 2000.0),
        possible=POSITIVE,
    ),
    other_schmidt=arg(
        "1",
        r"\mathrm{Sc}_2",
        title="Schmidt number of the other gas",
        typical=(300.0, 2000.0),
        possible=POSITIVE,
    ),
    exponent=arg("1", "n", title="exponent, set by the surface", typical=(0.5, 0.67)),
)
def transfer_velocity_of_another_gas(
    velocity: Num, schmidt: Num, other_schmidt: Num, exponent: Num
) -> Num:
    """Return the transfer velocity of a gas from that of another over the same surface.

    Parameters
    ----------
    velocity, schmidt
        Of the gas that was measured.
    other_schmidt
        Of the other gas.
    exponent
        1/2 where the surface is broken by waves and bubbles, 2/3 where it is smooth.

    Examples
    --------
    >>> round(transfer_velocity_of_another_gas(5.0, 568.0, 668.0, 0.5), 2)
    4.61
    """
    ratio = schmidt / other_schmidt
    return velocity * exp(exponent * log(ratio))


@relation(
    unit="hour",
    symbol=r"\tau",
    source="wanninkhof2014",
    at="eq. 1, with the balance of a well-mixed volume",
    volume=VOLUME,
    surface=SURFACE,
    velocity=arg(
        "cm/hour", "k", title="transfer velocity of the gas", typical=(0.5, 60.0), possible=POSITIVE
    ),
)
def exchange_time(volume: Num, surface: Num, velocity: Num) -> Num:
    """Return the time in which a gap to the balance with air falls to 37 % (1/e).

    Parameters
    ----------
    volume
        Water that is mixed.
    surface
        Area through which it breathes, sump and overflow included.
    velocity
        Transfer velocity of the gas.

    Examples
    --------
    >>> round(exchange_time(200.0, 0.4, 5.0), 1)
    10.0
    """
    depth = volume / 10 / surface
    return depth / velocity


@relation(
    unit="cm/hour",
    symbol="k",
    source="wanninkhof2014",
    at="eq. 1, with the balance of a well-mixed volume",
    volume=VOLUME,
    surface=SURFACE,
    time_constant=TIME_CONSTANT,
)
def transfer_velocity_from_time(volume: Num, surface: Num, time_constant: Num) -> Num:
    """Return the transfer velocity of a tank whose exchange time was measured."""
    depth = volume / 10 / surface
    return depth / time_constant


@relation(
    unit="mg/L",
    symbol=r"\rho_t",
    source="wanninkhof2014",
    at="eq. 1, with the balance of a well-mixed volume",
    start=START,
    saturation=SATURATION,
    duration=arg("hour", "t", title="time since the start", typical=(0.0, 48.0)),
    time_constant=TIME_CONSTANT,
)
def oxygen_after(start: Num, saturation: Num, duration: Num, time_constant: Num) -> Num:
    """Return the oxygen after a time in which only the air acts on it.

    Examples
    --------
    >>> round(oxygen_after(5.0, 6.8, 10.0, 10.0), 2)
    6.14
    """
    return saturation + (start - saturation) * exp(-duration / time_constant)


@relation(
    unit="hour",
    symbol=r"\tau",
    source="wanninkhof2014",
    at="eq. 1, with the balance of a well-mixed volume, solved for the time",
    start=arg("mg/L", r"\rho_0", title="oxygen at the start", typical=(3.0, 5.0)),
    end=arg("mg/L", r"\rho_t", title="oxygen at the end", typical=(5.2, 6.0)),
    saturation=arg("mg/L", r"\rho_s", title="oxygen at saturation", typical=(6.5, 8.0)),
    duration=arg("hour", "t", title="time since the start", typical=(0.5, 10.0), possible=POSITIVE),
)
def exchange_time_from_recovery(start: Num, end: Num, saturation: Num, duration: Num) -> Num:
    """Return the exchange time from two readings of oxygen on its way back to saturation.

    Measured in the tank's own water without animals that breathe (or at least without the fish),
    after it was driven from balance. Readings on both sides of the saturation are refused. A
    negative time says that the gap has grown: something other than the air was at work.

    Examples
    --------
    >>> round(exchange_time_from_recovery(5.0, 6.14, 6.8, 10.0), 1)
    10.0
    """
    left = (saturation - end) / (saturation - start)
    return -duration / log(left)


@relation(
    unit="mg/L",
    symbol=r"\rho_\infty",
    source="wanninkhof2014",
    at="eq. 1, with the balance of a well-mixed volume, at rest",
    saturation=SATURATION,
    respiration=arg("mg/L/hour", "R", title="oxygen that the tank breathes", typical=(0.0, 0.08)),
    time_constant=TIME_CONSTANT,
)
def oxygen_under_respiration(saturation: Num, respiration: Num, time_constant: Num) -> Num:
    """Return the oxygen at which what the air brings makes up for what the tank breathes.

    A negative result says that the tank would run out of oxygen.

    Examples
    --------
    >>> oxygen_under_respiration(6.8, 0.2, 4.0)
    6.0
    """
    return saturation - respiration * time_constant
