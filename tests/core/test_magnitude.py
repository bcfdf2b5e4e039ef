"""What a quantity measures in a recorded unit: known conversions, and what is refused."""

from __future__ import annotations

import numpy as np
import pint
import pytest

from reefchem.core.errors import UnitError
from reefchem.core.quantity import conversion, magnitude, quantity, with_unit

# Definitions: NIST SP 811, appendix B.
KNOWN = [
    (1.0, "inch", "cm", 2.54),
    (68.0, "degF", "degC", 20.0),
    (293.15, "kelvin", "degC", 20.0),
    (9.0, "delta_degF", "delta_degC", 5.0),
    (1.5, "day", "hour", 36.0),
    (3.0, "g", "g", 3.0),
]


@pytest.mark.parametrize(("value", "unit", "recorded", "expected"), KNOWN)
def test_a_known_conversion_is_made(value, unit, recorded, expected):
    assert magnitude(quantity(value, unit), recorded, "here: there") == pytest.approx(expected)
    many = magnitude(quantity(np.array([value, value]), unit), recorded, "here: there")
    assert many == pytest.approx([expected, expected])


def test_a_quantity_in_the_recorded_unit_is_not_touched():
    assert conversion(quantity(3.0, "g"), "g", "here: there") == (1.0, 0.0)
    numbers = np.array([1.0, 2.0])
    assert magnitude(quantity(numbers, "g"), "g", "here: there") is numbers


@pytest.mark.parametrize("unit", ["g", "kelvin", "1"])
def test_another_dimension_is_refused_with_its_place(unit):
    with pytest.raises(UnitError, match=r"^here: there"):
        magnitude(quantity(1.0, "cm"), unit, "here: there")


def test_a_difference_of_temperature_is_no_temperature():
    with pytest.raises(UnitError, match=r"^here: there"):
        magnitude(quantity(5.0, "delta_degC"), "degC", "here: there")


def test_a_result_has_the_unit_and_the_registry_of_what_came_in():
    foreign = pint.UnitRegistry()
    result = with_unit(2.0, "kg/m**3", foreign.Quantity(1.0, "degC"))
    assert isinstance(result, foreign.Quantity)
    assert result == foreign.Quantity(2.0, "kg/m**3")
    assert with_unit(2.0, "1", foreign.Quantity(1.0, "g")) == foreign.Quantity(2.0, "")
    assert with_unit(2.0, "dKH", foreign.Quantity(1.0, "g")).to("mmol/L").magnitude == (
        pytest.approx(2.0 * 10.0 * 2 / 56.077, rel=1e-9)  # a degree is 10 mg/L of CaO
    )
