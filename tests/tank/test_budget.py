"""A budget keeps what it is given: nitrogen, phosphorus and alkalinity."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.quantity import quantity
from reefchem.tank import nutrient_budget

NITROGEN, NITRATE, PHOSPHATE = 14.007, 62.004, 94.970
"""g/mol, IUPAC 2021 abridged."""


@given(st.floats(0.1, 20.0), st.floats(0.05, 0.6), st.floats(20.0, 1000.0), st.floats(-1.0, 0.2))
def test_nitrogen_phosphorus_and_alkalinity_are_kept(food, protein, volume, change):
    found = nutrient_budget(food, protein, volume, change)
    fed = food * protein / 6.25 * 1000 / NITROGEN / volume
    taken, risen = found.nitrate_taken / NITRATE, change / NITRATE
    assert taken + risen == pytest.approx(fed, rel=1e-12)
    assert found.alkalinity == pytest.approx(-risen, rel=1e-9, abs=1e-12)
    if found.phosphate_taken is not None:
        assert found.phosphate_taken / PHOSPHATE * 30 == pytest.approx(taken, rel=1e-12)


def test_more_nitrate_than_food_explains_is_shown_as_such():
    found = nutrient_budget(0.1, 0.4, 200.0, 1.0)
    assert found.nitrate_taken < 0
    assert found.phosphate_taken is None


def test_units_in_give_units_out():
    found = nutrient_budget(
        quantity(0.5, "g/day"), 0.45, quantity(180.0, "L"), quantity(-0.3, "mg/L/day")
    )
    assert found.alkalinity.to("dKH/day").magnitude == pytest.approx(0.3 / NITRATE / 0.35665246)
