"""A budget keeps what it is given: nitrogen, phosphorus and alkalinity."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.quantity import quantity
from reefchem.tank import nutrient_budget

NITROGEN, NITRATE, PHOSPHATE, PHOSPHORUS, CARBON = 14.007, 62.004, 94.970, 30.974, 12.011
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


@given(
    st.tuples(st.floats(0.1, 20.0), st.floats(0.05, 0.6), st.floats(20.0, 1000.0)),
    st.floats(-1.0, 0.2),
    st.floats(0.001, 0.02),
    st.floats(0.0, 0.5),
    st.floats(0.0, 1.0),
    st.floats(0.0, 1.0),
)
def test_every_atom_and_equivalent_is_accounted_for(fed, change, phosphorus, kept, dosed, gas):
    """In by food and salt; out as gas, into algae, into animals; the rest is what the water shows.

    The alkalinity is that of the charges: nitrate counts minus one, whatever it came from, and a
    salt brings a cation with it that counts as much.
    """
    food, protein, volume = fed
    found = nutrient_budget(food, protein, volume, change, phosphorus, kept, dosed, gas)
    fed_n = food * protein / 6.25 * 1000 / NITROGEN / volume
    came = fed_n * (1 - kept) + dosed / NITRATE
    went = found.nitrate_taken / NITRATE + gas / NITRATE + change / NITRATE
    assert went == pytest.approx(came, rel=1e-12, abs=1e-12)
    fed_p = food * phosphorus * 1000 / PHOSPHORUS / volume
    assert found.phosphate_brought / PHOSPHATE == pytest.approx(fed_p * (1 - kept), rel=1e-12)
    cation = dosed / NITRATE
    assert found.alkalinity == pytest.approx(cation - change / NITRATE, rel=1e-12, abs=1e-12)
    if found.phosphate_taken is not None:
        left = found.phosphate_taken + found.phosphate_change
        assert left == pytest.approx(found.phosphate_brought, rel=1e-12, abs=1e-12)
        carbon, nitrogen = found.carbon_taken / CARBON, found.nitrate_taken / NITRATE
        assert carbon * 30 == pytest.approx(nitrogen * 550, rel=1e-12)
        assert found.phosphate_taken / PHOSPHATE * 550 == pytest.approx(carbon, rel=1e-12)


def test_more_nitrate_than_food_explains_is_shown_as_such():
    found = nutrient_budget(0.1, 0.4, 200.0, 1.0)
    assert found.nitrate_taken < 0
    assert found.phosphate_taken is None
    assert found.carbon_taken is None
    assert found.phosphate_change is None


def test_however_little_is_taken_phosphate_and_carbon_go_with_it():
    """0.1 g of 40 % protein into 200 L brings 0.142 mg/L; 0.95 of it stays in the water."""
    found = nutrient_budget(0.1, 0.4, 200.0, 0.135)
    assert 0 < found.nitrate_taken < 0.01
    assert found.phosphate_taken / PHOSPHATE * 30 == pytest.approx(found.nitrate_taken / NITRATE)
    assert found.carbon_taken / CARBON * 30 == pytest.approx(found.nitrate_taken / NITRATE * 550)


def test_units_in_give_units_out():
    found = nutrient_budget(
        quantity(0.5, "g/day"), 0.45, quantity(180.0, "L"), quantity(-0.3, "mg/L/day")
    )
    assert found.alkalinity.to("dKH/day").magnitude == pytest.approx(0.3 / NITRATE / 0.35665246)
