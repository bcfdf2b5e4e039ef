"""Temperatures in degrees Fahrenheit. A temperature may also be given as a quantity in degF."""

from __future__ import annotations

from reefchem.core.functions import Num
from reefchem.core.record import INFINITY, arg, relation

__all__ = ["celsius_from_fahrenheit", "fahrenheit_from_celsius"]

ABSOLUTE_ZERO = -459.67


@relation(
    unit="degC",
    symbol="t",
    source="nist2008",
    at="appendix B.8, degree Fahrenheit: exact",
    fahrenheit=arg(
        "degF",
        "t_F",
        title="temperature",
        typical=(32.0, 104.0),
        possible=(ABSOLUTE_ZERO, INFINITY),
    ),
)
def celsius_from_fahrenheit(fahrenheit: Num) -> Num:
    """Return a temperature in degrees Fahrenheit in degrees Celsius.

    Examples
    --------
    >>> celsius_from_fahrenheit(77.0)
    25.0
    """
    return (fahrenheit - 32) / 1.8


@relation(
    unit="degF",
    symbol="t_F",
    source="nist2008",
    at="appendix B.8, degree Fahrenheit: exact",
    temperature=arg("degC", "t", typical=(0.0, 40.0)),
)
def fahrenheit_from_celsius(temperature: Num) -> Num:
    """Return a temperature in degrees Celsius in degrees Fahrenheit."""
    return 1.8 * temperature + 32
