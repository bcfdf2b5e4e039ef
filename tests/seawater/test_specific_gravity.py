"""Specific gravity: ratios of densities of other authors, and the scales that keepers confuse."""

from __future__ import annotations

import numpy as np
import pytest
import seawater
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError
from reefchem.core.quantity import quantity
from reefchem.seawater import (
    SCALES,
    change_of_scale,
    hydrometer_reading,
    hydrometer_salinity,
    likely_scales,
    salinity_from_specific_gravity,
    specific_gravity,
    swing_arm_uncertainty,
)

# S = 35, EOS-80, by an independent implementation (seawater 3.3.5), five decimals.
TABLE = {
    "60/60 °F": 1.02686,
    "20/20 °C": 1.02660,
    "25/25 °C": 1.02637,
    "25/20 °C": 1.02518,
    "25 °C/60 °F": 1.02435,
    "20/4 °C": 1.02479,
    "25/4 °C": 1.02337,
}


@pytest.mark.parametrize(("scale", "printed"), TABLE.items())
def test_every_scale_shows_ocean_water_as_the_table_does(scale, printed):
    sample, reference = SCALES[scale]
    shown = specific_gravity(35.0, sample, reference_temperature=reference)
    assert shown == pytest.approx(printed, abs=0.5e-5)


@given(
    salinity=st.floats(0.0, 42.0), temperature=st.floats(0.0, 40.0), reference=st.floats(0.0, 40.0)
)
def test_it_is_a_ratio_of_densities(salinity, temperature, reference):
    ratio = seawater.dens0(salinity, temperature) / seawater.smow(reference)
    shown = specific_gravity(salinity, temperature, reference_temperature=reference)
    assert shown == pytest.approx(ratio, abs=3e-9)


def test_one_reading_is_two_salinities():
    # 1.0264 at 25 °C: ocean water on one scale, far too salty on the other.
    good = salinity_from_specific_gravity(1.0264, 25.0, reference_temperature=25.0)
    bad = hydrometer_salinity(
        1.0264, 25.0, calibration_temperature=140 / 9, reference_temperature=140 / 9
    )
    assert good == pytest.approx(35.0, abs=0.05)
    assert bad == pytest.approx(37.4, abs=0.05)


@given(
    salinity=st.floats(0.1, 41.9), temperature=st.floats(0.0, 40.0), reference=st.floats(0.0, 40.0)
)
def test_salinity_comes_back(salinity, temperature, reference):
    shown = specific_gravity(salinity, temperature, reference_temperature=reference)
    back = salinity_from_specific_gravity(shown, temperature, reference_temperature=reference)
    assert back == pytest.approx(salinity, abs=1e-10)


@given(
    salinity=st.floats(0.1, 41.9),
    temperature=st.floats(0.0, 40.0),
    calibration=st.floats(15.0, 25.0),
)
def test_a_hydrometer_read_and_undone_gives_the_salinity(salinity, temperature, calibration):
    scale = {"calibration_temperature": calibration, "reference_temperature": calibration}
    reading = hydrometer_reading(salinity, temperature, **scale)
    assert hydrometer_salinity(reading, temperature, **scale) == pytest.approx(salinity, abs=1e-10)


def test_glass_that_does_not_grow_shows_the_specific_gravity():
    reading = hydrometer_reading(
        35.0, 30.0, calibration_temperature=20.0, reference_temperature=20.0, expansion=0.0
    )
    assert reading == specific_gravity(35.0, 30.0, reference_temperature=20.0)


def test_five_degrees_of_warm_glass_are_a_sixth_of_a_unit_of_salinity():
    scale = {"calibration_temperature": 20.0, "reference_temperature": 20.0}
    stiff = hydrometer_reading(35.0, 25.0, expansion=0.0, **scale)
    real = hydrometer_reading(35.0, 25.0, **scale)
    assert real - stiff == pytest.approx(1.25e-4 * stiff, rel=1e-9)


def test_scales_change_there_and_back():
    there = change_of_scale(1.0264, reference_temperature=25.0, new_reference_temperature=20.0)
    back = change_of_scale(there, reference_temperature=20.0, new_reference_temperature=25.0)
    assert back == pytest.approx(1.0264, abs=1e-15)
    direct = specific_gravity(35.0, 25.0, reference_temperature=20.0)
    first = specific_gravity(35.0, 25.0, reference_temperature=25.0)
    changed = change_of_scale(first, reference_temperature=25.0, new_reference_temperature=20.0)
    assert changed == pytest.approx(direct, abs=1e-15)


@pytest.mark.parametrize("scale", SCALES)
def test_a_standard_tells_the_scale(scale):
    sample, reference = SCALES[scale]
    reading = hydrometer_reading(
        35.0, 24.0, calibration_temperature=sample, reference_temperature=reference
    )
    name, difference = likely_scales(reading, salinity=35.0, temperature=24.0)[0]
    assert difference == pytest.approx(0.0, abs=1e-12)
    assert SCALES[name][1] == reference


def test_two_readings_and_a_standard_add_their_doubts():
    # By hand: 0.5² twice, 0.1² and 0.5² are 0.76.
    doubt = swing_arm_uncertainty(0.5, standard_uncertainty=0.1, further_uncertainty=0.5)
    assert doubt * doubt == pytest.approx(0.76, abs=1e-12)


def test_the_reference_temperature_is_never_guessed():
    with pytest.raises(TypeError, match="reference_temperature"):
        salinity_from_specific_gravity(1.0264, 25.0)


def test_fahrenheit_is_welcome():
    warm = specific_gravity(
        35.0, quantity(77.0, "degF"), reference_temperature=quantity(60.0, "degF")
    )
    assert warm.magnitude == pytest.approx(
        specific_gravity(35.0, 25.0, reference_temperature=140 / 9), abs=1e-14
    )


def test_an_impossible_reading_is_refused_by_name():
    with pytest.raises(DomainError, match="specific_gravity is -1; 0 or more is possible"):
        salinity_from_specific_gravity(-1.0, 25.0, reference_temperature=25.0)
    with pytest.raises(DomainError, match=r"reading is 26; a specific gravity of 0\.9 to 1\.2"):
        likely_scales(26.0, salinity=35.0, temperature=25.0)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"reading": 0.0}, r"likely_scales: reading is 0; a specific gravity of 0\.9 to 1\.2"),
        ({"reading": -1.0}, "likely_scales: reading is -1; "),
        ({"reading": float("nan")}, "likely_scales: reading is nan; "),
        ({"reading": float("inf")}, "likely_scales: reading is inf; "),
        ({"salinity": -1.0}, "salinity is -1; 0 or more"),
        ({"salinity": float("inf")}, "salinity is inf"),
        ({"temperature": -300.0}, "temperature is -300"),
        ({"temperature": float("inf")}, "temperature is inf"),
    ],
)
def test_a_standard_that_cannot_be_tells_no_scale(change, message):
    given = {"reading": 1.0264, "salinity": 35.0, "temperature": 25.0} | change
    with pytest.raises(DomainError, match=message):
        likely_scales(given.pop("reading"), **given)


def test_an_array_may_hold_one_impossible_reading():
    readings = np.array([1.0264, 0.9, 1.0250])
    salinities = salinity_from_specific_gravity(readings, 25.0, reference_temperature=25.0)
    assert np.isnan(salinities[1])
    assert np.isfinite(salinities[[0, 2]]).all()
