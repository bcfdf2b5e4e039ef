"""What is really in a bottle: definitions, by hand and against the bottle itself."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError
from reefchem.dosing import (
    StockSolution,
    share_of_salt,
    solute_rise,
    solution_volume,
    strength_from_mass_share,
    strength_from_rise,
)


def test_ten_per_cent_of_sodium_chloride_is_what_a_handbook_tabulates():
    """10 % NaCl, 20 °C: density 1.0707 kg/L and 1.832 mol/L; handbook values, from memory."""
    assert strength_from_mass_share(0.10, 1.0707) / 58.440 == pytest.approx(1.832, abs=5e-4)


def test_a_kilogram_of_water_with_salt_is_more_than_a_litre():
    """The same solution by what went in: 100 g of salt and 900 g of water, 107.07 g in a litre."""
    litres = solution_volume(100.0, 900.0, 1.0707) / 1000
    assert 100.0 / litres == pytest.approx(strength_from_mass_share(0.10, 1.0707))


@given(assay=st.floats(0.5, 1.0), moisture=st.floats(0.0, 0.5))
def test_a_moist_powder_makes_a_bottle_as_weak_as_its_share_of_salt(assay, moisture):
    share = share_of_salt(assay, moisture)
    wet = StockSolution({"NaHCO3": 80.0}, {"NaHCO3": share})
    assert wet.alkalinity == pytest.approx(80.0 / 84.006 * assay * (1 - moisture), rel=1e-12)


@given(rise=st.floats(0.1, 100.0), volume=st.floats(1.0, 100.0), dose=st.floats(0.1, 500.0))
def test_a_bottle_known_by_its_rise_makes_that_rise(rise, volume, dose):
    strength = strength_from_rise(rise, volume, dose)
    assert solute_rise(dose, volume, strength) == pytest.approx(rise, rel=1e-12)


@pytest.mark.parametrize(("assay", "moisture"), [(1.1, 0.0), (0.9, 1.5), (-0.1, 0.0)])
def test_shares_beyond_the_whole_are_refused(assay, moisture):
    with pytest.raises(DomainError, match="share_of_salt"):
        share_of_salt(assay, moisture)
