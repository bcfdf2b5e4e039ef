"""A day in a tank: carbon, pH and oxygen between photosynthesis, respiration and the air.

Light makes carbon go and oxygen come, everything alive does the reverse day and night, and the
surface pulls both towards the air. Alkalinity stays: gas exchange does not touch it, and what
calcifies is taken to be dosed. The day that is given repeats itself: it starts where it ends.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from reefchem.carbonate.air import co2_exchange_time
from reefchem.carbonate.gas import co2_partial_pressure
from reefchem.carbonate.system import carbonate_system
from reefchem.core.errors import DomainError
from reefchem.core.functions import exp
from reefchem.core.record import arg, calculation
from reefchem.core.result import Result
from reefchem.seawater.oxygen import oxygen_saturation

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["DailySwing", "daily_swing"]

DAY = 24.0
_MOST_DAYS = 40
_SETTLED = 1e-7

_FLUX = (0.0, 60.0)


@dataclass(frozen=True)
class DailySwing(Result):
    """A day that repeats itself, from lights on to the next; arrays of one length.

    Attributes
    ----------
    hour
        Since the light came on.
    dic, ph_total, pco2, omega_aragonite
        Of the water.
    oxygen
        Dissolved oxygen.
    oxygen_saturation
        What the air would hold in the water.
    respired, fixed, invaded
        Carbon over the day: breathed out, taken up, and come in through the surface (negative
        when it went out). They balance.
    """

    hour: Any
    dic: Any
    ph_total: Any
    pco2: Any
    omega_aragonite: Any
    oxygen: Any
    oxygen_saturation: float
    respired: float
    fixed: float
    invaded: float
    UNITS: ClassVar[Mapping[str, str]] = {
        "hour": "hour",
        "dic": "umol/kg",
        "pco2": "uatm",
        "oxygen": "umol/kg",
        "oxygen_saturation": "umol/kg",
        "respired": "umol/kg",
        "fixed": "umol/kg",
        "invaded": "umol/kg",
    }

    @property
    def lowest_ph(self) -> float:
        """Lowest pH of the day."""
        return float(min(self.ph_total))

    @property
    def highest_ph(self) -> float:
        """Highest pH of the day."""
        return float(max(self.ph_total))


@calculation(
    source="zeebe2001",
    at="chapter 2, flux through the surface, with production and respiration",
    total_alkalinity=arg("umol/kg", r"A_T", typical=(2000.0, 4500.0)),
    salinity=arg("1", "S", typical=(30.0, 38.0)),
    temperature=arg("degC", "t", typical=(20.0, 30.0)),
    air=arg("ppm", r"x_{\mathrm{CO_2}}", typical=(380.0, 2000.0), possible=(0.0, 1e6)),
    respiration=arg("umol/kg/hour", "R", typical=_FLUX),
    photosynthesis=arg("umol/kg/hour", "P", typical=_FLUX),
    light_hours=arg("hour", r"t_\mathrm{L}", typical=(6.0, 14.0), possible=(0.0, DAY)),
    oxygen_time=arg(
        "hour", r"\tau_{\mathrm{O_2}}", typical=(0.5, 20.0), possible=(1e-3, float("inf"))
    ),
    quotient=arg("1", "q", typical=(0.9, 1.2), possible=(0.0, 10.0)),
)
def daily_swing(
    *,
    total_alkalinity: float,
    salinity: float,
    temperature: float,
    air: float,
    respiration: float,
    photosynthesis: float,
    light_hours: float,
    oxygen_time: float,
    quotient: float = 1.0,
    steps_per_hour: int = 6,
) -> DailySwing:
    """Return a day of carbon, pH and oxygen that repeats itself.

    Parameters
    ----------
    total_alkalinity, salinity, temperature
        Of the water; constant.
    air
        Carbon dioxide in dry air that the surface meets.
    respiration
        Carbon that everything alive breathes out in an hour, day and night.
    photosynthesis
        Carbon that is taken up in an hour of light, before respiration is taken off.
    light_hours
        Hours of light; the light is on or off.
    oxygen_time
        Time in which a gap of oxygen falls to 37 %; see `exchange_time_from_recovery`.
    quotient
        Moles of oxygen for each mole of carbon.
    steps_per_hour
        Of the fourth-order Runge-Kutta method; oxygen is exact.

    Raises
    ------
    DomainError
        When carbon runs out, or when photosynthesis and respiration are so far apart that the air
        cannot balance them.

    Examples
    --------
    >>> day = daily_swing(total_alkalinity=2788.0, salinity=35.0, temperature=25.0, air=700.0,
    ...                   respiration=8.0, photosynthesis=18.0, light_hours=10.0, oxygen_time=2.0)
    >>> round(day.lowest_ph, 2), round(day.highest_ph, 2)
    (7.82, 7.99)
    """
    if steps_per_hour < 1:
        msg = f"daily_swing: steps_per_hour is {steps_per_hour}; 1 or more is possible"
        raise DomainError(msg)
    import numpy as np  # noqa: PLC0415 - a day is an array

    water: dict[str, Any] = {
        "salinity": salinity,
        "temperature": temperature,
        "total_alkalinity": total_alkalinity,
    }
    pco2 = co2_partial_pressure(air, temperature, salinity)
    balanced = carbonate_system(**water, pco2=pco2)
    rate = 1 / co2_exchange_time(oxygen_time, temperature)
    light = _intervals(light_hours, steps_per_hour)

    def slope(dic: float, production: float) -> float:
        if dic <= 0.0:
            msg = (
                f"daily_swing: photosynthesis is {photosynthesis:g} umol/kg/hour; it uses up all "
                "dissolved carbon, which the air does not replace fast enough"
            )
            raise DomainError(msg)
        gap = balanced.co2 - carbonate_system(**water, dic=dic).co2
        return float(respiration - production + rate * gap)

    def day(dic: float) -> list[float]:
        path = [dic]
        for length, lit in light:
            production = photosynthesis if lit else 0.0
            a = slope(dic, production)
            b = slope(dic + length / 2 * a, production)
            c = slope(dic + length / 2 * b, production)
            d = slope(dic + length * c, production)
            dic = dic + length / 6 * (a + 2 * b + 2 * c + d)
            path.append(dic)
        return path

    path = _repeating(day, float(balanced.dic))
    dic = np.array(path)
    state = carbonate_system(**water, dic=dic)
    hour = np.concatenate([[0.0], np.cumsum([length for length, _ in light])])
    saturation = oxygen_saturation(salinity, temperature)
    respired, fixed = respiration * DAY, photosynthesis * light_hours
    return DailySwing(
        hour=hour,
        dic=dic,
        ph_total=state.ph_total,
        pco2=state.pco2,
        omega_aragonite=state.omega_aragonite,
        oxygen=_oxygen(
            hour,
            light_hours,
            saturation + quotient * oxygen_time * (photosynthesis - respiration),
            saturation - quotient * oxygen_time * respiration,
            oxygen_time,
        ),
        oxygen_saturation=saturation,
        respired=respired,
        fixed=fixed,
        invaded=fixed - respired + float(dic[-1] - dic[0]),
    )


def _intervals(light_hours: float, steps_per_hour: int) -> list[tuple[float, bool]]:
    """Return the steps of a day as lengths with the light on or off; a step ends at the change."""
    steps: list[tuple[float, bool]] = []
    for hours, lit in ((light_hours, True), (DAY - light_hours, False)):
        count = -int(-hours * steps_per_hour // 1)
        steps += [(hours / count, lit)] * count if count else []
    return steps


def _repeating(day: Callable[[float], list[float]], start: float) -> list[float]:
    """Return the path of the day that ends where it starts, by secants on the change in a day."""
    path = day(start)
    change = path[-1] - start
    known = (start, change)
    start = path[-1]
    for _ in range(_MOST_DAYS):
        path = day(start)
        change = path[-1] - start
        if abs(change) < _SETTLED:
            return path
        slope = (change - known[1]) / (start - known[0]) if start != known[0] else -1.0
        known = (start, change)
        step = -change / slope if slope < 0.0 else change
        start = max(start / 2, start + step)
    msg = (
        "daily_swing: no day repeats itself; photosynthesis and respiration are too far apart for "
        "the air to balance them"
    )
    raise DomainError(msg)


def _oxygen(hour: Any, light_hours: float, lit: float, dark: float, time: float) -> Any:
    """Return oxygen over a day that repeats itself: two exponentials that meet at both ends."""
    import numpy as np  # noqa: PLC0415 - a day is an array

    on, off = exp(-light_hours / time), exp(-(DAY - light_hours) / time)
    # dawn = dark + (dusk - dark) off and dusk = lit + (dawn - lit) on
    dawn = (dark * (1 - off) + lit * (1 - on) * off) / (1 - on * off)
    dusk = lit + (dawn - lit) * on
    return np.where(
        hour <= light_hours,
        lit + (dawn - lit) * np.exp(-hour / time),
        dark + (dusk - dark) * np.exp(-(hour - light_hours) / time),
    )
