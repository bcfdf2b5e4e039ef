"""What refractometers show: the scale, the temperature, and how a standard sets them right.

A refractometer bends light and shows a number from a scale that was drawn for one liquid at one
temperature. What it shows in another is computed here.
"""

from __future__ import annotations

from reefchem.core.functions import Num
from reefchem.core.record import arg, relation
from reefchem.seawater.refraction import refractive_index, salinity_from_refractive_index

__all__ = [
    "SALT_INCREMENT",
    "nacl_scale_reading",
    "one_point_salinity",
    "salinity_from_nacl_scale",
    "salinity_from_uncompensated",
    "two_point_salinity",
    "uncompensated_reading",
]

READING = arg("1", "R", title="reading of the device", typical=(5.0, 40.0))
DROP = arg("degC", "t", title="temperature of the drop on the prism", valid=(0.0, 30.0))

SALT_INCREMENT = 1.746e-4
"""What a gram of sodium chloride in a kilogram of solution adds to the index at 20 °C.

From memory and not verified: a handbook value of 1.3391 at 35 g/kg, less 1.33299 for water, over
35. Half a unit of the last digit of the handbook value is 0.8 per cent, or 0.3 of a reading of 36.
"""


@relation(
    unit="1",
    symbol="R",
    source="millard1990",
    at="regions I and II at 589.3 nm, over the increment of another salt",
    salinity=arg("1", "S", valid=(0.0, 43.0)),
    increment=arg("1", "b", typical=(1.70e-4, 1.80e-4)),
    scale_temperature=arg("degC", "t_s", typical=(18.0, 22.0)),
)
def nacl_scale_reading(
    salinity: Num, *, increment: Num = SALT_INCREMENT, scale_temperature: Num = 20.0
) -> Num:
    """Return what seawater shows on a scale that was drawn for kitchen salt.

    The scale is taken to count grams of sodium chloride in a kilogram of solution, in equal steps
    from pure water. Its number is a pure one here, as every salinity is.

    Parameters
    ----------
    salinity
        Practical salinity of the water; any shape.
    increment
        What each unit of the scale adds to the index; see `SALT_INCREMENT` for how little is known
        of it here.
    scale_temperature
        For which the scale was drawn, and which the device compensates to.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Notes
    -----
    That many refractometers carry such a scale is common knowledge of the trade; no source was
    found that measured how many, or which. Hold a device into a seawater standard.

    Examples
    --------
    >>> round(nacl_scale_reading(35.0), 1)
    36.6
    """
    n = refractive_index(salinity, scale_temperature)
    n_w = refractive_index(0.0, scale_temperature)
    return (n - n_w) / increment


@relation(
    unit="1",
    symbol="S",
    source="millard1990",
    at="regions I and II at 589.3 nm, solved for the salinity, with the increment of another salt",
    reading=READING,
    increment=arg("1", "b", typical=(1.70e-4, 1.80e-4)),
    scale_temperature=arg("degC", "t_s", typical=(18.0, 22.0)),
)
def salinity_from_nacl_scale(
    reading: Num, *, increment: Num = SALT_INCREMENT, scale_temperature: Num = 20.0
) -> Num:
    """Return the salinity of seawater from a scale that was drawn for kitchen salt.

    Parameters
    ----------
    reading
        What the device shows, set to nothing in pure water; any shape.
    increment, scale_temperature
        As in `nacl_scale_reading`.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(salinity_from_nacl_scale(35.0), 1)
    33.4
    """
    n = refractive_index(0.0, scale_temperature) + increment * reading
    return salinity_from_refractive_index(n, scale_temperature)


@relation(
    unit="1",
    symbol="R",
    source="millard1990",
    at="regions I and II at 589.3 nm, at two temperatures",
    salinity=arg("1", "S", valid=(0.0, 43.0)),
    temperature=DROP,
    scale_temperature=arg("degC", "t_s", typical=(18.0, 25.0)),
)
def uncompensated_reading(salinity: Num, temperature: Num, *, scale_temperature: Num = 20.0) -> Num:
    """Return the salinity that a refractometer without compensation shows.

    Its scale is right for seawater at one temperature.

    Parameters
    ----------
    salinity
        Practical salinity of the water; any shape.
    temperature
        Of the drop on the prism, which is soon that of the prism; broadcast against `salinity`.
    scale_temperature
        For which the scale was drawn; 20 °C is usual (common practice, no source).

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(uncompensated_reading(35.0, 25.0), 1)
    32.0
    """
    return salinity_from_refractive_index(
        refractive_index(salinity, temperature), scale_temperature
    )


@relation(
    unit="1",
    symbol="S",
    source="millard1990",
    at="regions I and II at 589.3 nm, at two temperatures, solved for the salinity",
    reading=READING,
    temperature=DROP,
    scale_temperature=arg("degC", "t_s", typical=(18.0, 25.0)),
)
def salinity_from_uncompensated(
    reading: Num, temperature: Num, *, scale_temperature: Num = 20.0
) -> Num:
    """Return the salinity of water from a refractometer without compensation.

    Parameters
    ----------
    reading
        What the device shows; any shape.
    temperature
        Of the drop on the prism; broadcast against `reading`.
    scale_temperature
        For which the scale was drawn.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(salinity_from_uncompensated(32.0, 25.0), 1)
    35.0
    """
    return salinity_from_refractive_index(refractive_index(reading, scale_temperature), temperature)


@relation(
    unit="1",
    symbol="S",
    source="jcgm2008",
    at="3.2.3, correction for a systematic effect",
    reading=arg("1", "R", title="reading in the tank", typical=(25.0, 45.0)),
    standard_reading=arg("1", "R_s", title="reading in the standard", typical=(30.0, 40.0)),
    standard_salinity=arg("1", "S_s", title="salinity of the standard", typical=(33.0, 36.0)),
)
def one_point_salinity(reading: Num, *, standard_reading: Num, standard_salinity: Num) -> Num:
    """Return the salinity from a device that was held against one standard.

    The device is taken to be right in its differences and wrong by one offset: what the screw of a
    refractometer can turn away, and all that one standard tells of a swing arm.

    Parameters
    ----------
    reading
        What the device shows in the tank; any shape.
    standard_reading
        What it shows in the standard, on the same day and at the same temperature.
    standard_salinity
        Salinity of the standard.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Notes
    -----
    A plastic swing arm follows no published law of temperature or scale, bubbles lift it and salt
    stiffens it: it is trustworthy near the standard, on the same day and at the same temperature,
    to about one unit of salinity (common practice, no source).

    Examples
    --------
    >>> one_point_salinity(36.0, standard_reading=36.5, standard_salinity=35.0)
    34.5
    """
    return reading + (standard_salinity - standard_reading)


@relation(
    unit="1",
    symbol="S",
    source="jcgm2008",
    at="3.2.3, correction for a systematic effect, of offset and slope",
    reading=arg("1", "R", title="reading in the tank", typical=(20.0, 45.0)),
    low_reading=arg("1", "R_1", title="reading in the lower standard", typical=(0.0, 2.0)),
    high_reading=arg("1", "R_2", title="reading in the higher standard", typical=(33.0, 38.0)),
    low_salinity=arg("1", "S_1", title="salinity of the lower standard", typical=(0.0, 1.0)),
    high_salinity=arg("1", "S_2", title="salinity of the higher standard", typical=(33.0, 36.0)),
)
def two_point_salinity(
    reading: Num,
    *,
    low_reading: Num,
    high_reading: Num,
    low_salinity: Num,
    high_salinity: Num,
) -> Num:
    """Return the salinity from a refractometer that was held against two standards.

    The device is taken to be wrong by an offset and by a slope: the second is what a scale for
    another salt adds.

    Parameters
    ----------
    reading
        What the device shows in the tank; any shape.
    low_reading, high_reading
        What it shows in the two standards; they must differ.
    low_salinity, high_salinity
        Salinities of the two standards. Pure water is one of salinity 0.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(two_point_salinity(
    ...     33.0, low_reading=0.0, high_reading=36.5, low_salinity=0.0, high_salinity=35.0), 2)
    31.64
    """
    slope = (high_salinity - low_salinity) / (high_reading - low_reading)
    return low_salinity + slope * (reading - low_reading)
