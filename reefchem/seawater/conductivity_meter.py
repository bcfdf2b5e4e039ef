"""What conductivity meters do with the temperature, with a factor, and with a standard.

A meter measures a conductance and a temperature. All else it shows has been computed, mostly by a
rule that was not made for seawater.
"""

from __future__ import annotations

from reefchem.core.functions import Num
from reefchem.core.record import arg, relation
from reefchem.seawater.conductivity import conductivity as conductivity_of
from reefchem.seawater.conductivity import salinity_from_conductivity

__all__ = [
    "cell_constant",
    "compensated_conductivity",
    "compensation_error",
    "corrected_conductivity",
    "fixed_factor_reading",
    "linear_coefficient",
    "linear_compensation_reading",
    "salinity_from_fixed_factor",
    "salinity_from_linear_compensation",
    "seawater_temperature_coefficient",
]

COEFFICIENT = arg(
    "1/kelvin", r"\alpha", title="coefficient that the meter uses", typical=(0.017, 0.022)
)
FACTOR = arg("g*cm/L/mS", "f", title="factor that the meter uses", typical=(0.5, 0.7))
REFERENCE = arg("degC", "t_r", title="temperature the meter computes back to", typical=(20.0, 25.0))


@relation(
    unit="mS/cm",
    symbol=r"\kappa_r",
    source="iso7888",
    at="linear temperature coefficient, from memory",
    conductivity=arg(
        "mS/cm",
        r"\kappa",
        title="conductivity at the temperature of the water",
        typical=(20.0, 60.0),
    ),
    temperature=arg("degC", "t", typical=(15.0, 35.0)),
    coefficient=arg("1/kelvin", r"\alpha", typical=(0.015, 0.025)),
    reference_temperature=REFERENCE,
)
def compensated_conductivity(
    conductivity: Num,
    temperature: Num,
    *,
    coefficient: Num,
    reference_temperature: Num = 25.0,
) -> Num:
    """Return the conductivity that a meter shows for the reference temperature.

    Parameters
    ----------
    conductivity
        At the temperature of the water; any shape.
    temperature
        Temperature of the water; broadcast against `conductivity`.
    coefficient
        Change for each degree as a share of the conductivity at the reference temperature. Meters
        come with 0.019 to 0.021 (common practice, no source), and most let it be changed.
    reference_temperature
        Temperature that the meter computes back to.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(compensated_conductivity(56.0, 28.0, coefficient=0.02), 2)
    52.83
    """
    return conductivity / (1 + coefficient * (temperature - reference_temperature))


@relation(
    unit="1/kelvin",
    symbol=r"\alpha",
    source="iso7888",
    at="linear temperature coefficient, from memory",
    conductivity=arg(
        "mS/cm",
        r"\kappa",
        title="conductivity at the temperature of the water",
        typical=(40.0, 48.0),
    ),
    reference_conductivity=arg(
        "mS/cm",
        r"\kappa_r",
        title="conductivity at the reference temperature",
        typical=(52.0, 56.0),
    ),
    temperature=arg("degC", "t", typical=(10.0, 18.0)),
    reference_temperature=arg("degC", "t_r", typical=(24.0, 26.0)),
)
def linear_coefficient(
    conductivity: Num,
    *,
    reference_conductivity: Num,
    temperature: Num,
    reference_temperature: Num = 25.0,
) -> Num:
    """Return the coefficient that is right between two temperatures of one solution.

    Parameters
    ----------
    conductivity
        At `temperature`; any shape.
    reference_conductivity
        Of the same solution at the reference temperature.
    temperature, reference_temperature
        They must differ.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(linear_coefficient(11.1667, reference_conductivity=12.8560, temperature=18.0), 4)
    0.0188
    """
    change = conductivity / reference_conductivity - 1
    return change / (temperature - reference_temperature)


@relation(
    unit="1/kelvin",
    symbol=r"\alpha_w",
    source="fofonoff1983",
    at="eq. 1 to 3, ratio of conductivities at two temperatures",
    salinity=arg("1", "S", valid=(2.0, 42.0)),
    temperature=arg("degC", "t", typical=(10.0, 18.0)),
    reference_temperature=arg("degC", "t_r", typical=(24.0, 26.0)),
)
def seawater_temperature_coefficient(
    salinity: Num, temperature: Num, *, reference_temperature: Num = 25.0
) -> Num:
    """Return the coefficient that is right for seawater between two temperatures.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    temperature, reference_temperature
        They must differ.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(seawater_temperature_coefficient(35.0, 28.0), 4)
    0.0198
    """
    return linear_coefficient(
        conductivity_of(salinity, temperature),
        reference_conductivity=conductivity_of(salinity, reference_temperature),
        temperature=temperature,
        reference_temperature=reference_temperature,
    )


@relation(
    unit="1",
    symbol=r"\epsilon",
    source="iso7888",
    at="linear temperature coefficient, from memory, with two coefficients",
    temperature=arg("degC", "t", typical=(27.0, 33.0)),
    coefficient=arg(
        "1/kelvin", r"\alpha", title="coefficient that the meter uses", typical=(0.021, 0.024)
    ),
    water_coefficient=arg(
        "1/kelvin", r"\alpha_w", title="coefficient that the water has", typical=(0.018, 0.0199)
    ),
    reference_temperature=REFERENCE,
)
def compensation_error(
    temperature: Num,
    *,
    coefficient: Num,
    water_coefficient: Num,
    reference_temperature: Num = 25.0,
) -> Num:
    """Return by what share a compensated conductivity is wrong.

    Parameters
    ----------
    temperature
        Temperature of the water; any shape.
    coefficient
        That the meter uses.
    water_coefficient
        That the water has between the two temperatures.
    reference_temperature
        Temperature that the meter computes back to.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments; 0.01 is one per cent too much.

    Examples
    --------
    >>> round(compensation_error(28.0, coefficient=0.0191, water_coefficient=0.0198), 4)
    0.002
    """
    dt = temperature - reference_temperature
    return (water_coefficient - coefficient) * dt / (1 + coefficient * dt)


@relation(
    unit="1",
    symbol="S_m",
    source="fofonoff1983",
    at="eq. 1 to 3, after a linear compensation to 25 °C",
    salinity=arg("1", "S", valid=(2.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 35.0)),
    coefficient=COEFFICIENT,
)
def linear_compensation_reading(salinity: Num, temperature: Num, *, coefficient: Num) -> Num:
    """Return the salinity that a meter shows which compensates by one coefficient.

    The meter computes the conductivity back to 25 °C and takes the salinity for that temperature.

    Parameters
    ----------
    salinity
        Practical salinity of the water; any shape.
    temperature
        Temperature of the water; broadcast against `salinity`.
    coefficient
        That the meter uses.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(linear_compensation_reading(35.0, 28.0, coefficient=0.0191), 2)
    35.08
    """
    kappa = conductivity_of(salinity, temperature)
    shown = compensated_conductivity(kappa, temperature, coefficient=coefficient)
    return salinity_from_conductivity(shown, 25.0)


@relation(
    unit="1",
    symbol="S",
    source="fofonoff1983",
    at="eq. 1 to 3, with a linear compensation to 25 °C undone",
    reading=arg("1", "S_m", title="salinity that the meter shows", typical=(10.0, 38.0)),
    temperature=arg("degC", "t", valid=(-2.0, 35.0)),
    coefficient=COEFFICIENT,
)
def salinity_from_linear_compensation(reading: Num, temperature: Num, *, coefficient: Num) -> Num:
    """Return the salinity of water from a meter that compensates by one coefficient.

    Parameters
    ----------
    reading
        Salinity that the meter shows; any shape.
    temperature
        Temperature of the water; broadcast against `reading`.
    coefficient
        That the meter uses.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(salinity_from_linear_compensation(35.08, 28.0, coefficient=0.0191), 2)
    35.0
    """
    kappa = conductivity_of(reading, 25.0) * (1 + coefficient * (temperature - 25))
    return salinity_from_conductivity(kappa, temperature)


@relation(
    unit="g/L",
    symbol="R",
    source="fofonoff1983",
    at="eq. 1 to 3, at 25 °C, times a factor",
    salinity=arg("1", "S", valid=(2.0, 42.0)),
    factor=FACTOR,
)
def fixed_factor_reading(salinity: Num, *, factor: Num) -> Num:
    """Return what a meter shows that multiplies the conductivity at 25 °C by a factor.

    Parameters
    ----------
    salinity
        Practical salinity of the water; any shape.
    factor
        Grams of "dissolved solids" in a litre that the meter counts for each mS/cm: 0.5 to 0.7
        (common practice, no source).

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Notes
    -----
    The temperature is taken to be compensated rightly; what is left is the error of the factor.

    Examples
    --------
    >>> round(fixed_factor_reading(35.0, factor=0.5), 1)
    26.5
    """
    return factor * conductivity_of(salinity, 25.0)


@relation(
    unit="1",
    symbol="S",
    source="fofonoff1983",
    at="eq. 1 to 3, at 25 °C, with a factor taken away",
    reading=arg("g/L", "R", title="reading of the meter", typical=(10.0, 30.0)),
    factor=FACTOR,
)
def salinity_from_fixed_factor(reading: Num, *, factor: Num) -> Num:
    """Return the salinity of water from a meter that multiplies by a factor.

    Parameters
    ----------
    reading
        What the meter shows; any shape.
    factor
        That the meter uses; its manual, or a standard, tells.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> round(salinity_from_fixed_factor(26.54, factor=0.5), 1)
    35.0
    """
    return salinity_from_conductivity(reading / factor, 25.0)


@relation(
    unit="1/cm",
    symbol="K",
    source="iso7888",
    at="definition of the cell constant, from memory",
    conductance=arg("mS", "G", title="conductance measured in the standard", typical=(1.0, 60.0)),
    standard_conductivity=arg(
        "mS/cm", r"\kappa_s", title="conductivity of the standard", typical=(1.0, 60.0)
    ),
)
def cell_constant(conductance: Num, *, standard_conductivity: Num) -> Num:
    """Return the constant of a measuring cell from a standard.

    Parameters
    ----------
    conductance
        That the bare instrument measures in the standard; any shape.
    standard_conductivity
        Of the standard at the temperature it has during the measurement.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> cell_constant(50.0, standard_conductivity=53.0)
    1.06
    """
    return standard_conductivity / conductance


@relation(
    unit="mS/cm",
    symbol=r"\kappa",
    source="iso7888",
    at="definition of the cell constant, from memory",
    reading=arg("mS/cm", "R", title="reading of the meter", typical=(20.0, 60.0)),
    standard_reading=arg("mS/cm", "R_s", title="reading in the standard", typical=(45.0, 60.0)),
    standard_conductivity=arg(
        "mS/cm", r"\kappa_s", title="conductivity of the standard", typical=(45.0, 60.0)
    ),
)
def corrected_conductivity(
    reading: Num, *, standard_reading: Num, standard_conductivity: Num
) -> Num:
    """Return the conductivity from a meter that was held against a standard.

    A cell is wrong by a factor, since its constant is: fouled, scratched or put in wrongly.

    Parameters
    ----------
    reading
        What the meter shows in the tank; any shape.
    standard_reading
        What it shows in the standard, compensated in the same way.
    standard_conductivity
        What it should show there.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> corrected_conductivity(50.0, standard_reading=52.0, standard_conductivity=53.04)
    51.0
    """
    return reading * (standard_conductivity / standard_reading)
