"""Conductivity against other authors over the whole range, and meters by hand."""

from __future__ import annotations

import gsw
import numpy as np
import pytest
import seawater
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.boundary import strict
from reefchem.core.errors import DomainError, NoRootError, RangeWarning, UnitError
from reefchem.core.quantity import quantity
from reefchem.seawater import (
    STANDARD_CONDUCTIVITY,
    cell_constant,
    compensated_conductivity,
    compensation_error,
    conductivity,
    conductivity_ratio,
    corrected_conductivity,
    fixed_factor_reading,
    linear_coefficient,
    linear_compensation_reading,
    salinity_from_conductivity,
    salinity_from_conductivity_ratio,
    salinity_from_fixed_factor,
    salinity_from_linear_compensation,
    seawater_temperature_coefficient,
)

SALINITY, TEMPERATURE = (
    a.ravel() for a in np.meshgrid(np.linspace(2, 42, 41), np.linspace(-2, 35, 38))
)
salinities, temperatures = st.floats(2.0, 42.0), st.floats(-2.0, 35.0)
coefficients = st.floats(0.015, 0.025)


def test_conductivity_is_that_of_another_implementation():
    # gsw 3.6: the same definition, turned around by another method.
    theirs = gsw.C_from_SP(SALINITY, TEMPERATURE, 0)
    assert conductivity(SALINITY, TEMPERATURE) == pytest.approx(theirs, rel=1e-13, abs=0)


def test_salinity_is_that_of_another_implementation():
    theirs = gsw.C_from_SP(SALINITY, TEMPERATURE, 0)
    back = gsw.SP_from_C(theirs, TEMPERATURE, 0)
    assert salinity_from_conductivity(theirs, TEMPERATURE) == pytest.approx(back, rel=0, abs=1e-13)


def test_salinity_from_the_ratio_is_that_of_an_older_implementation():
    # seawater 3.3.5 (a port of the CSIRO library), with its own anchor of the ratio.
    ratio = gsw.C_from_SP(SALINITY, TEMPERATURE, 0) / 42.914
    theirs = seawater.salt(ratio, TEMPERATURE, 0)
    ours = salinity_from_conductivity_ratio(ratio, TEMPERATURE)
    assert ours == pytest.approx(theirs, rel=0, abs=1e-12)


def test_the_numbers_of_the_definition_add_up_as_they_must():
    # Lewis (1980): the sum of a is 35, that of b is nothing, so that R = 1 is S = 35 at 15 °C.
    t90 = 15 / 1.00024
    assert salinity_from_conductivity_ratio(1.0, t90) == pytest.approx(35.0, abs=1e-6)
    assert conductivity(35.0, t90) == pytest.approx(STANDARD_CONDUCTIVITY, abs=1e-6)


@given(salinity=salinities, temperature=temperatures)
def test_salinity_comes_back(salinity, temperature):
    kappa = conductivity(salinity, temperature)
    assert salinity_from_conductivity(kappa, temperature) == pytest.approx(salinity, abs=1e-10)


@given(low=st.floats(2.0, 41.0), more=st.floats(0.01, 1.0), temperature=temperatures)
def test_saltier_water_conducts_better(low, more, temperature):
    assert conductivity(low + more, temperature) > conductivity(low, temperature)


@given(salinity=salinities, low=st.floats(0.0, 34.0), more=st.floats(0.01, 1.0))
def test_warmer_water_conducts_better(salinity, low, more):
    assert conductivity(salinity, low + more) > conductivity(salinity, low)


@given(
    kappa25=st.floats(5.0, 70.0),
    temperature=temperatures,
    coefficient=coefficients,
    reference=st.floats(20.0, 25.0),
)
def test_compensation_undoes_a_linear_law(kappa25, temperature, coefficient, reference):
    warm = kappa25 * (1 + coefficient * (temperature - reference))
    shown = compensated_conductivity(
        warm, temperature, coefficient=coefficient, reference_temperature=reference
    )
    assert shown == pytest.approx(kappa25, rel=1e-14)


def test_potassium_chloride_has_the_coefficient_of_its_table():
    # Jones & Bradshaw (1933), 0.1 demal at 18 and 25 °C, from memory; the quotient by hand.
    kcl = linear_coefficient(11.1667, reference_conductivity=12.8560, temperature=18.0)
    assert kcl == pytest.approx(0.01877, abs=0.5e-5)


@pytest.mark.parametrize("temperature", [18.0, 22.0, 28.0, 32.0])
def test_seawater_has_the_coefficient_that_another_implementation_gives(temperature):
    change = gsw.C_from_SP(35, temperature, 0) / gsw.C_from_SP(35, 25, 0) - 1
    ours = seawater_temperature_coefficient(35.0, temperature)
    assert ours == pytest.approx(change / (temperature - 25), rel=1e-11)


def test_no_one_coefficient_is_right_for_seawater():
    cold, warm = (seawater_temperature_coefficient(35.0, t) for t in (15.0, 33.0))
    assert warm - cold > 0.0008


@given(salinity=salinities, temperature=temperatures)
def test_the_right_coefficient_makes_a_meter_right(salinity, temperature):
    if abs(temperature - 25) < 0.01:
        temperature = 25.01
    right = seawater_temperature_coefficient(salinity, temperature)
    shown = linear_compensation_reading(salinity, temperature, coefficient=right)
    assert shown == pytest.approx(salinity, abs=1e-10)


@pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")
@given(salinity=salinities, temperature=temperatures, coefficient=coefficients)
def test_a_linear_compensation_can_be_undone(salinity, temperature, coefficient):
    shown = linear_compensation_reading(salinity, temperature, coefficient=coefficient)
    back = salinity_from_linear_compensation(shown, temperature, coefficient=coefficient)
    assert back == pytest.approx(salinity, abs=1e-10)


@given(salinity=salinities, temperature=st.floats(26.0, 35.0), coefficient=coefficients)
def test_the_error_is_what_two_coefficients_make_of_one_water(salinity, temperature, coefficient):
    water = seawater_temperature_coefficient(salinity, temperature)
    kappa = conductivity(salinity, temperature)
    shown = compensated_conductivity(kappa, temperature, coefficient=coefficient)
    share = shown / conductivity(salinity, 25.0) - 1
    error = compensation_error(temperature, coefficient=coefficient, water_coefficient=water)
    assert error == pytest.approx(share, abs=1e-12)


def test_a_compensation_as_for_kitchen_salt_is_wrong_by_a_fifth_of_a_unit_at_30():
    # By hand: gsw gives 58.357 mS/cm at S = 35 and 30 °C; over 1.105 that is 52.812 at 25 °C,
    # 0.259 below 53.071, and one unit of salinity is 1.35 there: -0.19.
    assert gsw.C_from_SP(35, 30, 0) == pytest.approx(58.357, abs=0.0005)
    shown = linear_compensation_reading(35.0, 30.0, coefficient=0.021)
    assert shown - 35.0 == pytest.approx(-0.19, abs=0.01)


@given(salinity=salinities, factor=st.floats(0.4, 0.8))
def test_a_factor_can_be_undone(salinity, factor):
    shown = fixed_factor_reading(salinity, factor=factor)
    assert salinity_from_fixed_factor(shown, factor=factor) == pytest.approx(salinity, abs=1e-10)


def test_a_factor_set_at_ocean_water_is_wrong_on_both_sides_of_it():
    # 46.2532 and 59.7339 mS/cm at 25 °C, by gsw; 35 / 53.0710 for each.
    factor = 35 / 53.07103
    low, high = (fixed_factor_reading(s, factor=factor) for s in (30.0, 40.0))
    by_gsw = gsw.C_from_SP([30, 40], 25, 0) * factor
    assert [low, high] == pytest.approx(by_gsw, abs=1e-9)
    assert low > 30.4
    assert high < 39.5


def test_a_cell_is_set_by_a_standard():
    constant = cell_constant(50.0, standard_conductivity=53.0)
    assert constant * 50.0 == 53.0
    assert constant == 1.06


def test_a_meter_that_reads_low_reads_low_everywhere_by_one_factor():
    assert corrected_conductivity(
        50.0, standard_reading=52.0, standard_conductivity=53.04
    ) == pytest.approx(51.0, abs=1e-13)


def test_siemens_per_metre_are_welcome():
    salinity = salinity_from_conductivity(quantity(5.307, "S/m"), quantity(77.0, "degF"))
    assert salinity.magnitude == pytest.approx(salinity_from_conductivity(53.07, 25.0), abs=1e-12)


def test_almost_fresh_water_has_no_conductivity_here():
    with (
        pytest.raises(NoRootError, match="no conductivity_ratio between 0 and 3"),
        pytest.warns(RangeWarning, match="salinity"),
    ):
        conductivity(0.0, 25.0)
    with pytest.warns(RangeWarning, match="salinity"):
        values = conductivity(np.array([0.0, 35.0]), 25.0)
    assert np.isnan(values[0])
    assert values[1] == conductivity(35.0, 25.0)


def test_a_salinity_outside_the_scale_is_said_aloud():
    with pytest.warns(RangeWarning, match=r"the salinity is 0\.0\d+; the source covers 2 to 42"):
        salinity_from_conductivity(0.1, 25.0)
    with pytest.warns(RangeWarning, match=r"the salinity is 5\d\.\d+; the source covers 2 to 42"):
        salinity_from_conductivity(np.array([53.0, 80.0]), 25.0)
    with strict(), pytest.raises(DomainError, match="the source covers 2 to 42"):
        salinity_from_conductivity(0.1, 25.0)


def test_hot_water_is_computed_with_a_warning_and_still_as_printed():
    # UNESCO 44, p. 11: R = 1.888091 at t68 = 40 and 10000 dbar is S = 40.000000. Equation 4 brings
    # the ratio to the surface. One unit of its own last digit is 2e-5 in the salinity.
    with pytest.warns(RangeWarning, match="temperature"):
        hot = salinity_from_conductivity_ratio(1.888091 / 1.0403994340, 40 / 1.00024)
    assert hot == pytest.approx(40.0, abs=1e-5)


def test_impossible_readings_are_refused_by_name():
    with pytest.raises(DomainError, match="conductivity is -1"):
        salinity_from_conductivity(-1.0, 25.0)
    with pytest.raises(DomainError, match="temperature"):
        conductivity_ratio(35.0, -300.0)
    with pytest.raises(DomainError, match="conductivity is inf"):
        salinity_from_conductivity(float("inf"), 25.0)
    with pytest.raises(UnitError, match="conductivity"):
        salinity_from_conductivity(quantity(53.0, "g/L"), quantity(25.0, "degC"))


def test_one_temperature_has_no_coefficient():
    with pytest.raises(DomainError, match="linear_coefficient"):
        linear_coefficient(53.0, reference_conductivity=53.0, temperature=25.0)


def test_nothing_known_is_nothing_said():
    assert np.isnan(salinity_from_conductivity(float("nan"), 25.0))
    assert np.isnan(conductivity(float("nan"), 25.0))
