"""The water in a tank: boxes, rocks, and a known dose."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem import seawater as sw
from reefchem.core.errors import DomainError
from reefchem.core.quantity import quantity

LENGTH = st.floats(5.0, 300.0)


@given(length=LENGTH, width=LENGTH, depth=LENGTH, factor=st.floats(0.5, 2.0))
def test_the_volume_goes_with_each_length(length, width, depth, factor):
    volume = sw.tank_volume(length, width, depth)
    assert sw.tank_volume(factor * length, width, depth) == pytest.approx(factor * volume)
    assert sw.tank_volume(depth, length, width) == pytest.approx(volume)


def test_inches_and_gallons_are_welcome():
    inches = [quantity(x, "inch") for x in (36.0, 18.0, 16.0)]
    volume = sw.tank_volume(*inches)
    # By hand: 10368 cubic inches; a US gallon is 231 of them.
    assert volume.to("gallon").magnitude == pytest.approx(10368 / 231, rel=1e-12)


def test_a_round_vessel_is_a_circle_times_its_depth():
    assert sw.cylinder_volume(20.0, 10.0) == pytest.approx(math.pi, rel=1e-15)


def test_the_uncertainty_is_what_random_errors_of_the_tape_do():
    random = np.random.default_rng(7)
    sides = [side + random.normal(0.0, 0.5, 200_000) for side in (100.0, 50.0, 45.0)]
    spread = float(np.std(sw.tank_volume(*sides)))
    assert sw.tank_volume_uncertainty(100.0, 50.0, 45.0, 0.5) == pytest.approx(spread, rel=0.01)


def test_the_uncertainty_of_a_rise_is_what_random_errors_of_readings_do():
    random = np.random.default_rng(8)
    added = 5000.0 * (1 + random.normal(0.0, 0.01, 200_000))
    before, after = (random.normal(x, 0.3, 200_000) for x in (5.0, 25.0))
    spread = float(np.std(sw.volume_from_rise(added, after - before)))
    found = sw.volume_from_rise_uncertainty(250.0, 0.01, 20.0, 0.3)
    assert found == pytest.approx(spread, rel=0.01)


@given(volume=st.floats(20.0, 2000.0), rise=st.floats(0.01, 100.0))
def test_the_dose_that_makes_the_rise_gives_back_the_volume(volume, rise):
    assert sw.volume_from_rise(volume * rise, rise) == pytest.approx(volume)
    assert sw.volume_from_alkalinity_rise(volume * rise, rise) == pytest.approx(volume)


def test_rock_takes_the_place_of_water():
    displaced = sw.rock_displacement(28.0, 2.8)
    assert displaced == pytest.approx(10.0)
    assert sw.water_volume(225.0, 40.0, displaced) == pytest.approx(255.0)


@pytest.mark.parametrize("rise", [0.0, -1.0, math.inf])
def test_a_rise_that_did_not_happen_is_refused(rise):
    with pytest.raises(DomainError, match="volume_from_rise: rise is "):
        sw.volume_from_rise(5000.0, rise)
