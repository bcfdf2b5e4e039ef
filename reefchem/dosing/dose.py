"""From a bottle to a tank: how many millilitres, how large a rise, over how many days."""

from __future__ import annotations

from reefchem.core.functions import Num, sqrt, where
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = [
    "alkalinity_step",
    "days_to_change",
    "days_to_change_alkalinity",
    "dose_volume",
    "potency_from_rise",
    "potency_of_solution",
    "potency_uncertainty",
    "rise_from_dose",
    "solute_rise",
]

DEFINITION = "definitions of concentration and equivalent"
RISE = arg("meq/L", r"\Delta A", typical=(0.0, 1.0), possible=EITHER_SIGN)
VOLUME = arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0))
DOSED = arg("L", "V", title="volume of the water dosed", typical=(5.0, 50.0))
DOSE = arg("mL", "v", title="volume of the dose", typical=(1.0, 200.0))
POTENCY = arg("meq/mL", "p", title="alkalinity in a millilitre of solution", typical=(0.1, 4.0))
START = arg("meq/L", "A_0", title="alkalinity now", typical=(1.8, 3.0))
TARGET = arg("meq/L", "A_t", title="alkalinity to reach", typical=(2.4, 4.0))


@relation(
    unit="mL",
    symbol="v",
    source="prohaska2022",
    at=DEFINITION,
    alkalinity_rise=RISE.titled("rise of alkalinity wanted"),
    volume=VOLUME,
    potency=POTENCY,
)
def dose_volume(alkalinity_rise: Num, volume: Num, potency: Num) -> Num:
    """Return how many millilitres of a solution raise the alkalinity of a tank.

    Parameters
    ----------
    alkalinity_rise
        Wanted.
    volume
        Of the tank's water.
    potency
        Of the solution.

    Examples
    --------
    >>> dose_volume(0.5, 100.0, 1.0)
    50.0
    """
    return alkalinity_rise * volume / potency


@relation(
    unit="meq/L",
    symbol=r"\Delta A",
    source="prohaska2022",
    at=DEFINITION,
    dose=DOSE,
    volume=VOLUME,
    potency=POTENCY,
)
def rise_from_dose(dose: Num, volume: Num, potency: Num) -> Num:
    """Return the rise of alkalinity that a dose makes.

    Parameters
    ----------
    dose
        Volume of the solution.
    volume
        Of the tank's water; that of the dose itself is left out.
    potency
        Of the solution.

    Examples
    --------
    >>> rise_from_dose(50.0, 100.0, 1.0)
    0.5
    """
    return dose * potency / volume


@relation(
    unit="meq/mL",
    symbol="p",
    source="prohaska2022",
    at=DEFINITION,
    alkalinity_rise=RISE.titled("rise of alkalinity measured"),
    volume=VOLUME.titled("volume of the water dosed"),
    dose=DOSE,
)
def potency_from_rise(alkalinity_rise: Num, volume: Num, dose: Num) -> Num:
    """Return the potency of an unknown bottle from the rise that a dose of it made.

    Parameters
    ----------
    alkalinity_rise
        Measured, in water that nothing calcifies in: a bucket of fresh seawater.
    volume
        Of that water.
    dose
        Volume of the solution that was put in.
    """
    return alkalinity_rise * volume / dose


@relation(
    unit="meq/mL",
    symbol="s_p",
    source="jcgm2008",
    at="eq. 10, law of propagation of uncertainty for independent readings",
    alkalinity_rise=arg(
        "meq/L", r"\Delta A", title="rise of alkalinity measured", typical=(0.3, 2.0)
    ),
    volume=DOSED,
    dose=DOSE,
    rise_error=arg("meq/L", "s_A", title="standard uncertainty of the rise", typical=(0.01, 0.1)),
    volume_error=arg(
        "L", "s_V", title="standard uncertainty of the volume of water", typical=(0.01, 0.5)
    ),
    dose_error=arg("mL", "s_v", title="standard uncertainty of the dose", typical=(0.05, 2.0)),
)
def potency_uncertainty(
    alkalinity_rise: Num,
    volume: Num,
    dose: Num,
    rise_error: Num,
    volume_error: Num,
    dose_error: Num,
) -> Num:
    """Return the standard uncertainty of a potency that was found by `potency_from_rise`.

    Parameters
    ----------
    alkalinity_rise, volume, dose
        As measured.
    rise_error
        Standard uncertainty of the rise: of two readings, the root of two times that of one.
    volume_error, dose_error
        Standard uncertainties of the two volumes.

    Examples
    --------
    >>> round(potency_uncertainty(1.0, 10.0, 10.0, 0.05, 0.0, 0.0), 12)
    0.05
    """
    p = alkalinity_rise * volume / dose
    from_rise = volume * rise_error / dose
    from_volume = alkalinity_rise * volume_error / dose
    from_dose = p * dose_error / dose
    return sqrt(from_rise * from_rise + from_volume * from_volume + from_dose * from_dose)


@relation(
    unit="meq/mL",
    symbol="p",
    source="prohaska2022",
    at=DEFINITION,
    strength=arg("g/L", r"\rho", title="powder in a litre of solution", typical=(10.0, 400.0)),
    molar_mass=arg("g/mol", "M", title="molar mass of the salt as weighed", typical=(40.0, 400.0)),
    equivalents=arg("1", "z", title="equivalents of alkalinity in a mole", typical=(1.0, 2.0)),
    purity=arg(
        "1", "w", title="salt in a gram of the powder", typical=(0.5, 1.0), possible=(0.0, 1.0)
    ),
)
def potency_of_solution(strength: Num, molar_mass: Num, equivalents: Num, purity: Num = 1.0) -> Num:
    """Return the potency of a solution from the mass of salt in a litre of it.

    Parameters
    ----------
    strength
        Mass of the powder in a litre of solution (not in a litre of water).
    molar_mass
        Of the salt as weighed.
    equivalents
        Of alkalinity in a mole.
    purity
        Mass of the salt in a gram of the powder.

    Examples
    --------
    >>> potency_of_solution(84.006, 84.006, 1.0)
    1.0
    """
    return strength / molar_mass * equivalents * purity


@relation(
    unit="mg/L",
    symbol=r"\Delta\rho",
    source="prohaska2022",
    at=DEFINITION,
    dose=DOSE,
    volume=VOLUME,
    strength=arg("mg/mL", r"\rho_s", title="ion in a millilitre of solution", typical=(0.1, 200.0)),
)
def solute_rise(dose: Num, volume: Num, strength: Num) -> Num:
    """Return the rise of anything that a solution holds.

    Parameters
    ----------
    dose
        Volume of the solution.
    volume
        Of the tank's water; that of the dose itself is left out.
    strength
        Mass of the ion in a millilitre of solution.
    """
    return dose * strength / volume


@relation(
    unit="day",
    symbol="n",
    source="prohaska2022",
    at="definition of a rate",
    start=START,
    target=TARGET,
    most=arg("meq/L/day", "r", title="largest change in a day", typical=(0.05, 0.5)),
)
def days_to_change_alkalinity(start: Num, target: Num, most: Num) -> Num:
    """Return over how many days to spread a change of alkalinity.

    A count with a fraction: the next whole number of days keeps within the bound.

    Parameters
    ----------
    start
        Alkalinity now.
    target
        To reach.
    most
        Largest change in a day, up or down.

    Examples
    --------
    >>> days_to_change_alkalinity(2.0, 3.0, 0.25)
    4.0
    """
    change = target - start
    size = where(change < 0, -change, change)
    return size / most


@relation(
    unit="day",
    symbol="n",
    source="prohaska2022",
    at="definition of a rate",
    start=arg("mg/L", "c_0", title="level now", typical=(0.0, 5.0)),
    target=arg("mg/L", "c_t", title="level to reach", typical=(2.0, 20.0)),
    most=arg("mg/L/day", "r", title="largest change in a day", typical=(0.1, 2.0)),
)
def days_to_change(start: Num, target: Num, most: Num) -> Num:
    """Return over how many days to spread a change of anything in mg/L.

    A count with a fraction: the next whole number of days keeps within the bound.

    Parameters
    ----------
    start
        Level now.
    target
        To reach.
    most
        Largest change in a day, up or down.

    Examples
    --------
    >>> days_to_change(0.0, 5.0, 1.0)
    5.0
    """
    change = target - start
    size = where(change < 0, -change, change)
    return size / most


@relation(
    unit="meq/L/day",
    symbol="s",
    source="prohaska2022",
    at="definition of a rate",
    start=START,
    target=TARGET,
    days=arg("day", "n", title="days on the way", typical=(1.0, 14.0)),
)
def alkalinity_step(start: Num, target: Num, days: Num) -> Num:
    """Return the change of alkalinity for each day of an even approach; negative when it falls.

    Parameters
    ----------
    start
        Alkalinity now.
    target
        To reach.
    days
        Over which it is spread.

    Examples
    --------
    >>> alkalinity_step(2.0, 3.0, 4.0)
    0.25
    """
    return (target - start) / days
