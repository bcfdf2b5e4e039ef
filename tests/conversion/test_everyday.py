"""Hardness, spoons, gallons and degrees Fahrenheit."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem import conversion as c
from reefchem.conversion.spoons import METRIC_TEASPOON, US_TEASPOON
from reefchem.core.quantity import quantity
from reefchem.seawater import seawater_density


@given(calcium=st.floats(0.0, 600.0), magnesium=st.floats(0.0, 1600.0))
def test_magnesium_is_what_calcium_leaves_of_the_hardness(calcium, magnesium):
    hardness = c.total_hardness(calcium, magnesium)
    assert c.magnesium_from_hardness(hardness, calcium) == pytest.approx(magnesium, abs=1e-10)


@given(hardness=st.floats(0.01, 100.0))
def test_degrees_of_hardness_go_there_and_back(hardness):
    degrees = c.general_hardness_degrees(hardness)
    assert c.hardness_from_degrees(degrees) == pytest.approx(hardness, rel=1e-14)
    two_charges = c.alkalinity_from_german_degrees(degrees)
    assert two_charges == pytest.approx(2 * hardness, rel=1e-14)


def test_readings_that_contradict_each_other_show_it():
    assert c.magnesium_from_hardness(10.0, 500.0) < 0


def test_a_us_teaspoon_is_what_pint_says():
    assert pint.UnitRegistry().Quantity(1, "teaspoon").to("mL").magnitude == pytest.approx(
        US_TEASPOON, rel=1e-12
    )
    assert METRIC_TEASPOON == 5.0


def test_spoons_add_up_in_mass_and_in_uncertainty():
    spoon = (US_TEASPOON, 1.1)
    doubt = (0.3, 0.2)
    assert c.spoon_mass(3.0, *spoon) == pytest.approx(3 * c.spoon_mass(1.0, *spoon))
    one, three = (c.spoon_mass_uncertainty(n, *spoon, *doubt) for n in (1.0, 3.0))
    assert three == pytest.approx(3 * one)
    by_hand = 1.1 * US_TEASPOON * ((0.3 / US_TEASPOON) ** 2 + (0.2 / 1.1) ** 2) ** 0.5
    assert one == pytest.approx(by_hand)


@given(volume=st.floats(0.0, 1e5))
def test_gallons_go_there_and_back(volume):
    assert c.litres_from_us_gallons(c.us_gallons(volume)) == pytest.approx(volume, rel=1e-14)
    back = c.litres_from_imperial_gallons(c.imperial_gallons(volume))
    assert back == pytest.approx(volume, rel=1e-14)
    units = pint.UnitRegistry()
    gallons = units.Quantity(volume, "litre").to("gallon").magnitude
    assert c.us_gallons(volume) == pytest.approx(gallons, rel=1e-12)


@given(temperature=st.floats(-100.0, 100.0))
def test_fahrenheit_goes_there_and_back(temperature):
    fahrenheit = c.fahrenheit_from_celsius(temperature)
    assert c.celsius_from_fahrenheit(fahrenheit) == pytest.approx(temperature, abs=1e-12)
    said = quantity(fahrenheit, "degF").to("degC").magnitude
    assert said == pytest.approx(temperature, abs=1e-10)


def test_a_temperature_in_fahrenheit_is_welcome_everywhere():
    warm = seawater_density(35.0, quantity(77.0, "degF"))
    assert warm.magnitude == pytest.approx(seawater_density(35.0, 25.0), rel=1e-12)
