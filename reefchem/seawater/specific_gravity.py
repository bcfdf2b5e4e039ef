"""Specific gravity and hydrometers: two temperatures in every number.

A specific gravity is the density of the sample at its own temperature over the density of pure
water at a reference temperature. The reference is printed on the instrument, if anywhere, and is
never guessed here.
"""

from __future__ import annotations

from reefchem.core.errors import DomainError
from reefchem.core.functions import Num, sqrt
from reefchem.core.record import arg, relation
from reefchem.seawater.density import (
    pure_water_density,
    salinity_from_density,
    seawater_density,
)

__all__ = [
    "GLASS_EXPANSION",
    "SCALES",
    "change_of_scale",
    "hydrometer_reading",
    "hydrometer_salinity",
    "likely_scales",
    "salinity_from_specific_gravity",
    "specific_gravity",
    "swing_arm_uncertainty",
]

REFERENCE = arg("degC", "t_r", title="temperature of the reference water", valid=(0.0, 40.0))
EXPANSION = arg("1/kelvin", r"\gamma", title="cubic expansion of the glass", typical=(20e-6, 30e-6))

GLASS_EXPANSION = 25e-6
"""Conventional cubic expansion of hydrometer glass per °C (ISO 1768:1975)."""

SCALES: dict[str, tuple[float, float]] = {
    "60/60 °F": (140.0 / 9.0, 140.0 / 9.0),
    "20/20 °C": (20.0, 20.0),
    "25/25 °C": (25.0, 25.0),
    "25/20 °C": (25.0, 20.0),
    "25 °C/60 °F": (25.0, 140.0 / 9.0),
    "20/4 °C": (20.0, 4.0),
    "25/4 °C": (25.0, 4.0),
}
"""Temperature of the sample and of the reference water for the scales in use; 60 °F is 140/9 °C."""


@relation(
    unit="1",
    symbol="d",
    source="millero1981",
    at="ratio of eq. 6 to pure water",
    salinity=arg("1", "S", valid=(0.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
    reference_temperature=REFERENCE,
)
def specific_gravity(salinity: Num, temperature: Num, *, reference_temperature: Num) -> Num:
    """Return the specific gravity of seawater.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    temperature
        Temperature of the sample; broadcast against `salinity`.
    reference_temperature
        Temperature of the pure water that the sample is compared with.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(specific_gravity(35.0, 25.0, reference_temperature=25.0), 4)
    1.0264
    """
    return seawater_density(salinity, temperature) / pure_water_density(reference_temperature)


@relation(
    unit="1",
    symbol="S",
    source="millero1981",
    at="ratio of eq. 6 to pure water, solved for the salinity",
    specific_gravity=arg("1", "d", typical=(1.015, 1.026)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
    reference_temperature=REFERENCE,
)
def salinity_from_specific_gravity(
    specific_gravity: Num, temperature: Num, *, reference_temperature: Num
) -> Num:
    """Return the practical salinity of seawater of a specific gravity.

    Parameters
    ----------
    specific_gravity
        Density of the sample over density of the reference water; any shape.
    temperature
        Temperature of the sample; broadcast against `specific_gravity`.
    reference_temperature
        Temperature of the reference water. There is no default: the same reading means another
        salinity on another scale.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Raises
    ------
    NoRootError
        When no salinity from 0 to 50 gives the reading. In an array such an element is NaN.

    Examples
    --------
    >>> round(salinity_from_specific_gravity(1.0264, 25.0, reference_temperature=25.0), 1)
    35.0
    """
    rho = specific_gravity * pure_water_density(reference_temperature)
    return salinity_from_density(rho, temperature)


@relation(
    unit="1",
    symbol="R",
    source="iso1768",
    at="conventional coefficient, with the definition of the scale",
    salinity=arg("1", "S", valid=(0.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
    calibration_temperature=arg("degC", "t_c", typical=(15.0, 25.0)),
    reference_temperature=REFERENCE,
    expansion=EXPANSION,
)
def hydrometer_reading(
    salinity: Num,
    temperature: Num,
    *,
    calibration_temperature: Num,
    reference_temperature: Num,
    expansion: Num = GLASS_EXPANSION,
) -> Num:
    """Return what a glass hydrometer shows in seawater.

    The glass grows as it warms and then floats a little higher than its scale was made for.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    temperature
        Temperature of the water and of the glass; broadcast against `salinity`.
    calibration_temperature
        Temperature at which the scale is true.
    reference_temperature
        Temperature of the reference water of the scale.
    expansion
        Cubic expansion of the glass. Plastic differs, and is not covered.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Notes
    -----
    Surface tension and the buoyancy of the air are neglected. Five degrees off the calibration
    temperature are 1.25e-4 in the reading, 0.16 in the salinity.

    Examples
    --------
    >>> round(hydrometer_reading(
    ...     35.0, 25.0, calibration_temperature=20.0, reference_temperature=20.0), 4)
    1.0253
    """
    growth = 1.0 + expansion * (temperature - calibration_temperature)
    return (
        seawater_density(salinity, temperature) * growth / pure_water_density(reference_temperature)
    )


@relation(
    unit="1",
    symbol="S",
    source="iso1768",
    at="conventional coefficient, with the definition of the scale, solved for the salinity",
    reading=arg("1", "R", title="reading of the scale", typical=(1.016, 1.025)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
    calibration_temperature=arg("degC", "t_c", typical=(15.0, 25.0)),
    reference_temperature=REFERENCE,
    expansion=EXPANSION,
)
def hydrometer_salinity(
    reading: Num,
    temperature: Num,
    *,
    calibration_temperature: Num,
    reference_temperature: Num,
    expansion: Num = GLASS_EXPANSION,
) -> Num:
    """Return the practical salinity from the reading of a glass hydrometer.

    Parameters
    ----------
    reading
        What the scale shows; any shape.
    temperature
        Temperature of the water and of the glass; broadcast against `reading`.
    calibration_temperature, reference_temperature
        The two temperatures of the scale.
    expansion
        Cubic expansion of the glass.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Raises
    ------
    NoRootError
        When no salinity from 0 to 50 gives the reading. In an array such an element is NaN.

    Examples
    --------
    >>> round(hydrometer_salinity(
    ...     1.0253, 25.0, calibration_temperature=20.0, reference_temperature=20.0), 1)
    35.0
    """
    growth = 1.0 + expansion * (temperature - calibration_temperature)
    rho = reading * pure_water_density(reference_temperature) / growth
    return salinity_from_density(rho, temperature)


@relation(
    unit="1",
    symbol="d'",
    source="fofonoff1983",
    at="eq. 14, ratio of pure water at two temperatures",
    specific_gravity=arg("1", "d", title="reading on the first scale", typical=(1.0, 1.03)),
    reference_temperature=REFERENCE.titled("reference temperature of the first scale"),
    new_reference_temperature=arg(
        "degC", "t_r'", title="reference temperature of the second scale", valid=(0.0, 40.0)
    ),
)
def change_of_scale(
    specific_gravity: Num, *, reference_temperature: Num, new_reference_temperature: Num
) -> Num:
    """Return a specific gravity on a scale with another reference temperature.

    The sample stays at its own temperature; only the water that it is compared with changes.

    Parameters
    ----------
    specific_gravity
        On the first scale; any shape.
    reference_temperature, new_reference_temperature
        Of the first and of the second scale.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(change_of_scale(
    ...     1.0264, reference_temperature=25.0, new_reference_temperature=20.0), 4)
    1.0252
    """
    return (
        specific_gravity
        * pure_water_density(reference_temperature)
        / pure_water_density(new_reference_temperature)
    )


@relation(
    unit="1",
    symbol="u_S",
    source="jcgm2008",
    at="5.1.2, eq. 10, for a sum and a difference",
    repeatability=arg("1", "s", title="scatter of single readings", typical=(0.1, 1.5)),
    standard_uncertainty=arg("1", "u_s", title="uncertainty of the standard", typical=(0.0, 0.5)),
    further_uncertainty=arg(
        "1", "u_f", title="uncertainty that one standard cannot show", typical=(0.0, 1.0)
    ),
)
def swing_arm_uncertainty(
    repeatability: Num, *, standard_uncertainty: Num, further_uncertainty: Num = 0.0
) -> Num:
    """Return the standard uncertainty of a salinity from a swing-arm device.

    Parameters
    ----------
    repeatability
        Standard deviation of single readings of the same water, the device emptied and filled
        each time. It counts twice: once in the tank, once in the standard.
    standard_uncertainty
        Of the salinity of the standard.
    further_uncertainty
        For what one standard cannot show: another temperature, another salinity, months of salt
        on the pivot.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(swing_arm_uncertainty(0.5, standard_uncertainty=0.1), 2)
    0.71
    """
    s, u_s, u_f = repeatability, standard_uncertainty, further_uncertainty
    return sqrt(2 * s * s + u_s * u_s + u_f * u_f)


def likely_scales(
    reading: float, *, salinity: float, temperature: float
) -> list[tuple[str, float]]:
    """Return the scales that a device may have, likeliest first, from its reading in a standard.

    Parameters
    ----------
    reading
        Specific gravity that the device shows in a standard.
    salinity, temperature
        Of the standard.

    Returns
    -------
    list of (str, float)
        Name of the scale, and reading minus what a true device on that scale would show.

    Notes
    -----
    Two scales whose readings differ by less than the device can be trusted cannot be told apart
    this way; look at the size of the differences, not at the order alone. The expansion of the
    glass is taken into account from the first temperature of each scale.

    Examples
    --------
    >>> name, difference = likely_scales(1.0264, salinity=35.0, temperature=25.0)[0]
    >>> name, round(difference, 4)
    ('25/25 °C', 0.0)
    """
    if not 0.9 < reading < 1.2:
        msg = f"likely_scales: reading is {reading:g}; a specific gravity of 0.9 to 1.2 is possible"
        raise DomainError(msg)
    differences = [
        (
            name,
            reading
            - hydrometer_reading(
                salinity,
                temperature,
                calibration_temperature=sample,
                reference_temperature=reference,
            ),
        )
        for name, (sample, reference) in SCALES.items()
    ]
    return sorted(differences, key=lambda pair: abs(pair[1]))
