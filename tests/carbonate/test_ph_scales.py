"""The pH scales: round trips, order, and what is refused."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.carbonate import convert_ph
from reefchem.carbonate.ph_scales import PH_SCALES
from reefchem.core.errors import DomainError

WATER = {"salinity": st.floats(10.0, 40.0), "temperature": st.floats(9.0, 33.0)}


@pytest.mark.parametrize(("first", "second"), list(itertools.product(PH_SCALES, PH_SCALES)))
@given(ph=st.floats(7.0, 9.0), **WATER)
def test_a_conversion_and_its_inverse_return_the_start(first, second, ph, salinity, temperature):
    there = convert_ph(ph, salinity, temperature, from_scale=first, to_scale=second)
    back = convert_ph(there, salinity, temperature, from_scale=second, to_scale=first)
    assert back == pytest.approx(ph, abs=1e-13)


@given(ph=st.floats(7.0, 9.0), **WATER)
def test_what_counts_more_hydrogen_ion_gives_a_lower_ph(ph, salinity, temperature):
    free, total, seawater = (
        convert_ph(ph, salinity, temperature, from_scale="total", to_scale=scale)
        for scale in ("free", "total", "seawater")
    )
    assert free > total > seawater


@given(ph=st.floats(7.0, 9.0), **WATER)
def test_a_way_over_a_third_scale_is_the_direct_way(ph, salinity, temperature):
    direct = convert_ph(ph, salinity, temperature, from_scale="nbs", to_scale="free")
    middle = convert_ph(ph, salinity, temperature, from_scale="nbs", to_scale="seawater")
    over = convert_ph(middle, salinity, temperature, from_scale="seawater", to_scale="free")
    assert over == pytest.approx(direct, abs=1e-13)


def test_arrays_are_converted_element_by_element():
    ph = np.array([7.9, 8.1])
    many = convert_ph(ph, 35.0, 25.0, from_scale="nbs", to_scale="total")
    each = [convert_ph(float(p), 35.0, 25.0, from_scale="nbs", to_scale="total") for p in ph]
    assert many == pytest.approx(each, rel=1e-14)


@pytest.mark.parametrize("wrong", ["from_scale", "to_scale"])
def test_an_unknown_scale_is_refused_with_the_known_ones(wrong):
    scales = {"from_scale": "total", "to_scale": "total", wrong: "sea"}
    with pytest.raises(DomainError, match=f"{wrong} is 'sea'; it is one of total, seawater, free"):
        convert_ph(8.0, 35.0, 25.0, **scales)
