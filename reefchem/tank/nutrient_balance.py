"""Where nitrate goes in time: light, bacteria and water changes against what food brings.

Water changes count here as a steady flow that carries out as much as they do.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num, log
from reefchem.core.record import EITHER_SIGN, arg, relation
from reefchem.tank.nutrients import CARBON, FOOD, HOURS, MAKE, NITROGEN, VOLUME

__all__ = [
    "carbon_taken_with_nitrate",
    "days_to_nitrate",
    "nitrate_settled",
    "nitrate_taken_by_bacteria",
    "phosphate_from_food",
    "uptake_at_hours",
    "water_change_rate",
]

FRESH = arg("mg/L", "c_f", title="nitrate of the fresh seawater", typical=(0.0, 0.5))
RATE = arg("1/day", r"\lambda", title="rate of the water changes", typical=(0.01, 0.03))
GAIN = arg(
    "mg/L/day",
    "g",
    title="nitrate gained in a day, water changes left out",
    typical=(0.4, 1.5),
    possible=EITHER_SIGN,
)


@relation(
    unit="1/day",
    symbol=r"\lambda",
    source="levenspiel1999",
    at="mixed flow vessel with the same old water left; derived in the book",
    share=arg("1", "f", title="share of each change", typical=(0.05, 0.5), possible=(0.0, 1.0)),
    days=arg("day", "d", title="days from one change to the next", typical=(1.0, 30.0)),
)
def water_change_rate(share: Num, days: Num) -> Num:
    """Return the rate at which water changes replace the water of a tank.

    Parameters
    ----------
    share
        Of the volume, at each change.
    days
        From one water change to the next.

    Examples
    --------
    >>> round(water_change_rate(0.1, 7.0), 6)
    0.015052
    """
    return -log(1 - share) / days


@relation(
    unit="mg/L",
    symbol=r"c_\infty",
    source="levenspiel1999",
    at="mixed flow vessel with accumulation at steady state; derived in the book",
    fresh=FRESH,
    gain=GAIN,
    rate=RATE,
)
def nitrate_settled(fresh: Num, gain: Num, rate: Num) -> Num:
    """Return the nitrate at which a steady gain and the water changes meet.

    Below zero when more is taken than there is: then it runs out on the way.

    Parameters
    ----------
    fresh
        In the fresh seawater.
    gain
        By food and doses, less what is taken.
    rate
        See `water_change_rate`.

    Examples
    --------
    >>> nitrate_settled(0.0, 0.5, 0.02)
    25.0
    """
    return fresh + gain / rate


@relation(
    unit="day",
    symbol="t",
    source="levenspiel1999",
    at="mixed flow vessel with accumulation, solved for the time; derived in the book",
    level=arg("mg/L", "c_0", title="nitrate now", typical=(0.0, 2.0)),
    target=arg("mg/L", "c_t", title="nitrate to reach", typical=(4.0, 10.0)),
    fresh=FRESH,
    gain=GAIN,
    rate=RATE,
)
def days_to_nitrate(level: Num, target: Num, fresh: Num, gain: Num, rate: Num) -> Num:
    """Return the time in which nitrate comes to a target, with food, uptake and water changes.

    The target lies between the level now and the one where the tank settles; any other is never
    reached, and is refused.

    Parameters
    ----------
    level
        Now.
    target
        To reach.
    fresh
        In the fresh seawater.
    gain
        By food and doses, less what is taken.
    rate
        See `water_change_rate`.

    Examples
    --------
    >>> round(days_to_nitrate(0.0, 5.0, 0.0, 0.2, 0.02), 2)
    34.66
    """
    c_s = nitrate_settled(fresh, gain, rate)
    return log((c_s - level) / (c_s - target)) / rate


@relation(
    unit="mg/L/day",
    symbol="u(h)",
    source="levenspiel1999",
    at="uptake taken as a power of the hours of light, an assumption",
    uptake=arg("mg/L/day", "u", title="nitrate taken up in a day now", typical=(0.2, 5.0)),
    hours=HOURS,
    new_hours=arg("hour", "h", title="hours of light in a day then", typical=(1.0, 16.0)),
    response=arg("1", "r", title="how the uptake follows the light", typical=(0.5, 1.5)),
)
def uptake_at_hours(uptake: Num, hours: Num, new_hours: Num, response: Num = 1.0) -> Num:
    """Return the nitrate that algae would take with other hours of light.

    Parameters
    ----------
    uptake
        Now.
    hours
        Of light in a day now; more than none.
    new_hours
        Of light in a day then.
    response
        1 when the uptake is in proportion to the hours; less when the algae have light to spare.

    Examples
    --------
    >>> round(uptake_at_hours(1.2, 9.0, 6.0), 12)
    0.8
    """
    return uptake * (new_hours / hours) ** response


@relation(
    unit="mg/L/day",
    symbol=r"g_{\mathrm{PO_4}}",
    source="prohaska2022",
    at="abridged weights; one phosphate for each phosphorus",
    food=FOOD,
    phosphorus=arg(
        "1",
        "w_P",
        title="share of phosphorus in the food",
        typical=(0.005, 0.02),
        possible=(0.0, 1.0),
    ),
    volume=VOLUME,
)
def phosphate_from_food(food: Num, phosphorus: Num, volume: Num) -> Num:
    """Return the phosphate that appears in a day when all phosphorus of the food is set free.

    Parameters
    ----------
    food
        As fed.
    phosphorus
        Share of the food's mass, as its label says; about one per cent in many (common practice,
        no source).
    volume
        Of the tank's water.

    Examples
    --------
    >>> round(phosphate_from_food(0.5, 0.01, 180.0), 4)
    0.0852
    """
    element = food * phosphorus * 1000 / volume
    return element * molar_mass("PO4^3-") / molar_mass("P")


@relation(
    unit="mg/L",
    symbol=r"\Delta c_{\mathrm{C}}",
    source="atkinson1983",
    at=MAKE,
    nitrate=arg("mg/L", r"\Delta c", title="nitrate that is taken up", typical=(0.1, 50.0)),
)
def carbon_taken_with_nitrate(nitrate: Num) -> Num:
    """Return the carbon that algae of a median make build in with some nitrate.

    Examples
    --------
    >>> round(carbon_taken_with_nitrate(1.0), 3)
    3.551
    """
    return nitrate / molar_mass("NO3-") * CARBON / NITROGEN * molar_mass("C")


@relation(
    unit="mg/L",
    symbol=r"\Delta c_{\mathrm{b}}",
    source="prohaska2022",
    at="abridged weights; what is built, over the carbon for each nitrogen in it",
    carbon=arg("mg/L", r"\Delta\rho_{\mathrm{C}}", title="carbon dosed", typical=(0.05, 5.0)),
    built=arg(
        "1", "y", title="share that becomes bacteria", typical=(0.1, 0.6), possible=(0.0, 1.0)
    ),
    carbon_per_nitrogen=arg(
        "1", r"r_{\mathrm{C:N}}", title="atoms of carbon for each nitrogen", typical=(4.0, 10.0)
    ),
)
def nitrate_taken_by_bacteria(carbon: Num, built: Num, carbon_per_nitrogen: Num) -> Num:
    """Return the nitrate that bacteria build in when organic carbon is dosed.

    Parameters
    ----------
    carbon
        Dosed, as carbon.
    built
        Share that is not burnt but becomes bacteria; nobody knows it for a given tank.
    carbon_per_nitrogen
        Of the bacteria, by atoms.

    Examples
    --------
    >>> round(nitrate_taken_by_bacteria(0.5, 0.3, 6.625), 4)
    0.1169
    """
    return carbon / molar_mass("C") * built / carbon_per_nitrogen * molar_mass("NO3-")
