"""Refraction: two equations against each other, against a second typing, and against a table."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError, RangeWarning, UnitError
from reefchem.core.quantity import quantity
from reefchem.seawater import (
    nacl_scale_reading,
    one_point_salinity,
    refractive_index,
    refractive_index_quan1995,
    salinity_from_nacl_scale,
    salinity_from_refractive_index,
    salinity_from_refractive_index_quan1995,
    salinity_from_uncompensated,
    two_point_salinity,
    uncompensated_reading,
)

SALINITY, TEMPERATURE, WAVELENGTH = (
    a.ravel()
    for a in np.meshgrid(np.linspace(0, 35, 36), np.linspace(0, 30, 31), np.linspace(500, 700, 21))
)
salinities, temperatures = st.floats(0.0, 42.0), st.floats(0.0, 30.0)
wavelengths = st.floats(500.0, 700.0)


def typed_again_millard(salinity, temperature, wavelength):
    """Return the equation typed a second time from a transcription, term by term."""
    s, t, m = salinity, temperature, wavelength / 1e3
    terms = [
        (1.3280657, 0, 0, 0),
        (-4.5536802e-3, 0, 2, 0),
        (2.5471707e-3, 0, -2, 0),
        (7.501966e-6, 0, -4, 0),
        (2.802632e-6, 0, -6, 0),
        (-5.2883907e-6, 1, 0, 0),
        (-3.0738272e-6, 2, 0, 0),
        (3.0124687e-8, 3, 0, 0),
        (-2.0883178e-10, 4, 0, 0),
        (1.0508621e-5, 1, 1, 0),
        (2.1282248e-7, 2, 1, 0),
        (-1.705881e-9, 3, 1, 0),
        (1.9029121e-4, 0, 0, 1),
        (2.4239607e-6, 0, -2, 1),
        (-7.3960297e-7, 1, 0, 1),
        (8.9818478e-9, 2, 0, 1),
        (1.2078804e-10, 3, 0, 1),
        (-3.589495e-7, 1, 1, 1),
    ]
    return sum(c * t**i * m**j * s**k for c, i, j, k in terms)


def typed_again_quan(salinity, temperature, wavelength):
    """Return the equation typed a second time from a transcription, in its printed form."""
    s, t, m = salinity, temperature, wavelength
    salt = (1.779e-4 - 1.05e-6 * t + 1.6e-8 * t**2) * s
    colour = (15.868 + 0.01155 * s - 0.00423 * t) / m - 4382 / m**2 + 1.1455e6 / m**3
    return 1.31405 + salt - 2.02e-6 * t**2 + colour


def test_both_equations_are_those_typed_a_second_time():
    point = SALINITY, TEMPERATURE, WAVELENGTH
    ours = refractive_index(SALINITY, TEMPERATURE, wavelength=WAVELENGTH)
    assert ours == pytest.approx(typed_again_millard(*point), rel=0, abs=1e-14)
    ours = refractive_index_quan1995(SALINITY, TEMPERATURE, wavelength=WAVELENGTH)
    assert ours == pytest.approx(typed_again_quan(*point), rel=0, abs=1e-14)


def test_the_light_of_sodium_is_meant_when_nothing_is_said():
    # The mean of the two yellow lines of sodium, 589.0 and 589.6 nm.
    for relation in (refractive_index, refractive_index_quan1995):
        assert relation(35.0, 20.0) == relation(35.0, 20.0, wavelength=589.3)


def test_two_equations_agree_within_what_the_second_one_scatters():
    # Quan & Fry around the measured table: 2.0e-5 (root of the mean square), 5.8e-5 at most.
    theirs = refractive_index_quan1995(SALINITY, TEMPERATURE, wavelength=WAVELENGTH)
    difference = theirs - refractive_index(SALINITY, TEMPERATURE, wavelength=WAVELENGTH)
    assert np.sqrt(np.mean(difference**2)) < 2.0e-5
    assert np.all(np.abs(difference) < 5.8e-5)


def test_warm_water_bends_light_as_another_formulation_says():
    # IAPWS R9-97 with IAPWS-95 density (iapws 1.5.5), divided by the index of air: 1.33194 at
    # 30 °C. The misprinted coefficient of public transcriptions would be off by 2.4e-5.
    assert refractive_index(0.0, 30.0) == pytest.approx(1.33194, abs=1e-5)
    misprint = refractive_index(0.0, 30.0) + 0.9 * 1.705881e-9 * 30**3 * 0.5893
    assert misprint - 1.33194 > 2e-5


@pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")
@given(salinity=salinities, temperature=temperatures, wavelength=wavelengths)
def test_salinity_comes_back(salinity, temperature, wavelength):
    there = refractive_index(salinity, temperature, wavelength=wavelength)
    back = salinity_from_refractive_index(there, temperature, wavelength=wavelength)
    assert back == pytest.approx(salinity, abs=1e-10)
    there = refractive_index_quan1995(salinity, temperature, wavelength=wavelength)
    back = salinity_from_refractive_index_quan1995(there, temperature, wavelength=wavelength)
    assert back == pytest.approx(salinity, abs=1e-10)


@given(low=salinities, more=st.floats(0.01, 1.0), temperature=temperatures, wavelength=wavelengths)
def test_salt_bends_light_more(low, more, temperature, wavelength):
    salty = refractive_index(low + more, temperature, wavelength=wavelength)
    assert salty > refractive_index(low, temperature, wavelength=wavelength)


@given(salinity=salinities, temperature=temperatures, blue=st.floats(500.0, 690.0))
def test_blue_light_is_bent_more(salinity, temperature, blue):
    there = refractive_index(salinity, temperature, wavelength=blue)
    assert there > refractive_index(salinity, temperature, wavelength=blue + 10)


def test_a_degree_without_compensation_is_half_a_unit_of_salinity_and_more():
    # By hand from a second typing: 1.338836 at 25 °C and 1.338721 at 26 °C, over 1.83e-4.
    per_degree = uncompensated_reading(35.0, 25.0) - uncompensated_reading(35.0, 26.0)
    assert per_degree == pytest.approx((1.338836 - 1.338721) / 1.83e-4, abs=0.01)


@pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")
@given(salinity=salinities, temperature=temperatures, scale=st.floats(15.0, 25.0))
def test_a_missing_compensation_can_be_undone(salinity, temperature, scale):
    shown = uncompensated_reading(salinity, temperature, scale_temperature=scale)
    if 0 <= shown <= 43:
        back = salinity_from_uncompensated(shown, temperature, scale_temperature=scale)
        assert back == pytest.approx(salinity, abs=1e-10)


def test_a_device_at_the_temperature_of_its_scale_is_right():
    assert uncompensated_reading(35.0, 20.0) == pytest.approx(35.0, abs=1e-10)


def test_seawater_reads_high_on_a_scale_for_kitchen_salt():
    # From a second typing; the increment is that of 1.3391, from memory, to four figures.
    increment = (1.3391 - 1.33299) / 35
    assert increment == pytest.approx(1.746e-4, abs=0.5e-7)
    index = typed_again_millard(np.array([35.0, 0.0]), 20.0, 589.3)
    assert nacl_scale_reading(35.0) == pytest.approx((index[0] - index[1]) / 1.746e-4, abs=1e-9)


@given(salinity=salinities, increment=st.floats(1.7e-4, 1.8e-4))
def test_a_scale_for_kitchen_salt_can_be_undone(salinity, increment):
    shown = nacl_scale_reading(salinity, increment=increment)
    back = salinity_from_nacl_scale(shown, increment=increment)
    assert back == pytest.approx(salinity, abs=1e-10)


def test_one_standard_removes_an_offset_and_leaves_the_slope():
    assert one_point_salinity(36.0, standard_reading=36.5, standard_salinity=35.0) == 34.5
    standard = {"standard_reading": nacl_scale_reading(35.0), "standard_salinity": 35.0}
    assert one_point_salinity(nacl_scale_reading(35.0), **standard) == 35.0
    assert one_point_salinity(nacl_scale_reading(30.0), **standard) == pytest.approx(
        29.76, abs=0.01
    )


@given(salinity=salinities, offset=st.floats(0.0, 3.0), slope=st.floats(0.9, 1.1))
def test_two_standards_remove_an_offset_and_a_slope(salinity, offset, slope):
    salinity_of = two_point_salinity(
        offset + slope * salinity,
        low_reading=offset,
        high_reading=offset + slope * 35,
        low_salinity=0.0,
        high_salinity=35.0,
    )
    assert salinity_of == pytest.approx(salinity, abs=1e-11)


def test_two_equal_readings_tell_nothing():
    with pytest.raises(DomainError, match="two_point_salinity"):
        two_point_salinity(
            33.0, low_reading=35.0, high_reading=35.0, low_salinity=0.0, high_salinity=35.0
        )


def test_a_reading_below_pure_water_is_given_as_it_comes_and_said_aloud():
    with pytest.warns(RangeWarning, match="the salinity is -1.0"):
        shown = salinity_from_refractive_index(1.3328, 20.0)
    assert shown == pytest.approx((1.3328 - 1.332988) / 1.828e-4, abs=0.01)


def test_units_of_length_are_welcome():
    there = refractive_index(35.0, quantity(68.0, "degF"), wavelength=quantity(0.5893, "um"))
    assert there.magnitude == pytest.approx(refractive_index(35.0, 20.0), abs=1e-14)


def test_what_the_source_does_not_cover_is_said():
    with pytest.warns(RangeWarning, match="temperature is 32"):
        refractive_index(35.0, 32.0)
    with pytest.warns(RangeWarning, match="wavelength is 400"):
        refractive_index(35.0, 20.0, wavelength=400.0)
    with pytest.warns(RangeWarning, match="salinity is 38"):
        refractive_index_quan1995(38.0, 20.0)
    with pytest.warns(RangeWarning, match=r"the salinity is 38\.\d+; the source covers 0 to 35"):
        salinity_from_refractive_index_quan1995(1.34, 20.0)


def test_the_impossible_is_refused_by_name():
    with pytest.raises(DomainError, match="salinity is -1; 0 or more is possible"):
        refractive_index(-1.0, 20.0)
    with pytest.raises(DomainError, match="refractive_index is inf"):
        salinity_from_refractive_index(float("inf"), 20.0)
    with pytest.raises(DomainError, match="refractive_index"):
        salinity_from_refractive_index(0.5, 20.0)
    with pytest.raises(UnitError, match="salinity is a pure number"):
        refractive_index(quantity(35.0, "g/kg"), quantity(20.0, "degC"))
    with pytest.raises(UnitError, match="wavelength"):
        refractive_index(35.0, quantity(20.0, "degC"), wavelength=quantity(589.3, "s"))


def test_an_array_may_hold_one_that_is_not_known():
    values = refractive_index(np.array([35.0, np.nan]), 20.0)
    assert np.isnan(values[1])
    assert values[0] == refractive_index(35.0, 20.0)
