"""What a tank takes of an ion in a day: the balance of the alkalinity, for anything in mg/L.

Calcium, magnesium, potassium, nitrate, phosphate: doses and water changes bring them, the tank
takes them, and readings show what is left.
"""

from __future__ import annotations

from reefchem.core.functions import Num, exp, log, sqrt
from reefchem.core.record import EITHER_SIGN, arg, relation
from reefchem.tank.holding import BALANCE, DAYS_BETWEEN, KEPT, QUANTILE, SOURCE

__all__ = [
    "bound_of_dissolved_uptake",
    "dissolved_error_of_dosed",
    "dissolved_uptake",
    "error_of_dosed",
    "potency_of_ion",
    "readings_to_see_dissolved",
]

UPTAKE = arg(
    "mg/L/day", "u", title="uptake that fits best", typical=(0.1, 10.0), possible=EITHER_SIGN
)
VOLUME_ERROR = arg(
    "1", r"w_V", title="standard uncertainty of the volume, as a share", typical=(0.01, 0.2)
)
STRENGTH_ERROR = arg(
    "1", r"w_p", title="standard uncertainty of the stock, as a share", typical=(0.01, 0.2)
)
PRODUCT = "5.1.6, eq. 12: shares of a product and a quotient add as squares"


@relation(
    unit="mg/L/day",
    symbol="u",
    source=SOURCE,
    at=BALANCE,
    first=arg(
        "mg/L", "c_1", title="level at the start", typical=(380.0, 460.0), possible=EITHER_SIGN
    ),
    kept=KEPT,
    added=arg(
        "mg/L",
        "a",
        title="brought and still there",
        typical=(0.0, 200.0),
        possible=EITHER_SIGN,
    ),
    second=arg(
        "mg/L", "c_2", title="level at the end", typical=(380.0, 460.0), possible=EITHER_SIGN
    ),
    days=DAYS_BETWEEN,
)
def dissolved_uptake(first: Num, kept: Num, added: Num, second: Num, days: Num) -> Num:
    """Return what a litre of the tank loses of an ion in a day.

    Negative for what appears, as nitrate does when there is more food than the algae take.

    Parameters
    ----------
    first
        Level at the start.
    kept
        Share of the water of the start that is still there at the end; 1 without water changes.
    added
        What doses, fresh seawater and top-off brought, as far as it is still there at the end.
    second
        Level at the end.
    days
        Between the two, each day counted by the share of its water that is still there.

    Examples
    --------
    >>> dissolved_uptake(430.0, 1.0, 40.0, 420.0, 10.0)
    5.0
    """
    return (kept * first + added - second) / days


@relation(
    unit="mg/L/day",
    symbol=r"u_{\pm}",
    source="student1908",
    at="interval of an estimate: estimate plus a quantile times its standard error",
    estimate=UPTAKE,
    standard_error=arg("mg/L/day", "s", title="standard error of the uptake", typical=(0.01, 1.0)),
    quantile=QUANTILE,
)
def bound_of_dissolved_uptake(estimate: Num, standard_error: Num, quantile: Num) -> Num:
    """Return a bound of the interval of an ion's uptake.

    Parameters
    ----------
    estimate
        The value that fits best.
    standard_error
        Of the estimate.
    quantile
        Of Student's distribution; negative for the lower bound.
    """
    return estimate + quantile * standard_error


@relation(
    unit="mg/mL",
    symbol="p",
    source="prohaska2022",
    at="definitions of concentration and amount; abridged weights",
    strength=arg("g/L", r"\rho_s", title="salt in a litre of stock", typical=(5.0, 400.0)),
    molar_mass=arg("g/mol", "M", title="molar mass of the salt", typical=(50.0, 250.0)),
    moles=arg("1", r"\nu", title="moles of the ion in a mole of salt", typical=(1.0, 2.0)),
    ion_mass=arg("g/mol", r"M_\mathrm{i}", title="molar mass of the ion", typical=(20.0, 100.0)),
    purity=arg("1", "w", typical=(0.9, 1.0), possible=(0.0, 1.0)),
)
def potency_of_ion(strength: Num, molar_mass: Num, moles: Num, ion_mass: Num, purity: Num) -> Num:
    """Return the mass of an ion in each millilitre of a stock.

    Parameters
    ----------
    strength
        Salt as weighed.
    molar_mass
        Of the salt as weighed.
    moles
        Of the ion in a mole of the salt.
    ion_mass
        Of the ion, as analyses report it.
    purity
        Salt in a gram of what was weighed.

    Examples
    --------
    >>> round(potency_of_ion(147.014, 147.014, 1.0, 40.078, 1.0), 3)
    40.078
    """
    return strength * purity / molar_mass * moles * ion_mass


@relation(
    unit="1",
    symbol="n",
    source="student1908",
    at="standard error of a slope from n evenly spaced readings, for large n; derived in the book",
    change=arg(
        "mg/L/day", r"\Delta u", title="change of the uptake to be seen", typical=(0.2, 2.0)
    ),
    scatter=arg("mg/L", "s", title="scatter of a single reading", typical=(2.0, 15.0)),
    days=arg("day", "d", title="days from one reading to the next", typical=(1.0, 14.0)),
    quantile=arg("1", "q", typical=(1.6, 3.5)),
)
def readings_to_see_dissolved(change: Num, scatter: Num, days: Num, quantile: Num) -> Num:
    """Return how many readings before a change of an ion's uptake, and after it, show the change.

    A count with a fraction: the next whole number is the number of readings on each side. The
    same as `readings_to_see`, for mg/L.

    Parameters
    ----------
    change
        Of the uptake, that shall be seen.
    scatter
        Standard deviation of a single reading.
    days
        From one reading to the next.
    quantile
        2.8 to see it in 80 of 100 cases and be fooled in 5.

    Examples
    --------
    >>> round(readings_to_see_dissolved(0.5, 6.0, 7.0, 2.8), 2)
    8.21
    """
    ratio = quantile * scatter / (days * change)
    return exp(log(24 * ratio * ratio) / 3)


@relation(
    unit="meq/L/day",
    symbol=r"s_\mathrm{d}",
    source="jcgm2008",
    at=PRODUCT,
    dosed=arg(
        "meq/L/day", "b", title="alkalinity that doses brought in a day", typical=(0.02, 0.8)
    ),
    volume_error=VOLUME_ERROR,
    strength_error=STRENGTH_ERROR,
)
def error_of_dosed(dosed: Num, volume_error: Num, strength_error: Num) -> Num:
    """Return how far the volume and the stock may put the uptake of alkalinity wrong.

    What doses brought is their millilitres times the stock's potency, over the volume.

    Parameters
    ----------
    dosed
        What the doses brought, as reckoned.
    volume_error, strength_error
        Standard uncertainties as shares: 0.05 for 5 %.

    Examples
    --------
    >>> round(error_of_dosed(0.2, 0.03, 0.04), 12)
    0.01
    """
    return dosed * sqrt(volume_error * volume_error + strength_error * strength_error)


@relation(
    unit="mg/L/day",
    symbol=r"s_\mathrm{d}",
    source="jcgm2008",
    at=PRODUCT,
    dosed=arg("mg/L/day", "b", title="what doses brought in a day", typical=(0.2, 15.0)),
    volume_error=VOLUME_ERROR,
    strength_error=STRENGTH_ERROR,
)
def dissolved_error_of_dosed(dosed: Num, volume_error: Num, strength_error: Num) -> Num:
    """Return how far the volume and the stock may put the uptake of an ion wrong.

    Parameters
    ----------
    dosed
        What the doses brought, as reckoned.
    volume_error, strength_error
        Standard uncertainties as shares.

    Examples
    --------
    >>> round(dissolved_error_of_dosed(4.0, 0.03, 0.04), 12)
    0.2
    """
    return dosed * sqrt(volume_error * volume_error + strength_error * strength_error)
