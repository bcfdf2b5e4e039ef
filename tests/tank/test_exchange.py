"""Water changes against a vessel that is emptied and refilled step by step."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.tank import (
    after_continuous_exchange,
    after_partly_mixed_exchange,
    after_water_changes,
    after_water_changes_with_gain,
    alkalinity_after_water_changes,
    level_before_water_change,
    share_left,
    share_to_change,
    volume_to_change,
    water_changes_needed,
)

LEVEL = st.floats(20.0, 60.0)
FRESH = st.floats(0.0, 4.0)
SHARE = st.floats(0.02, 0.6)
COUNT = st.integers(1, 40)


def emptied_and_refilled(amount, fresh, share, count, gain=0.0):
    """Carry the dissolved mass of a hundred litres by hand."""
    litres, mass = 100.0, 100.0 * amount
    for _ in range(count):
        mass += gain * litres
        mass -= mass * share
        mass += fresh * share * litres
    return mass / litres


@given(LEVEL, FRESH, SHARE, COUNT)
def test_a_series_is_what_emptying_and_refilling_gives(level, fresh, share, count):
    by_hand = emptied_and_refilled(level, fresh, share, count)
    assert after_water_changes(level, fresh, share, float(count)) == pytest.approx(
        by_hand, rel=1e-12
    )
    alkalinity = alkalinity_after_water_changes(level, fresh, share, float(count))
    assert alkalinity == pytest.approx(by_hand, rel=1e-12)


@given(LEVEL, FRESH, SHARE, COUNT, st.floats(-0.2, 10.0))
def test_a_series_with_gain_is_what_emptying_and_refilling_gives(level, fresh, share, count, gain):
    by_hand = emptied_and_refilled(level, fresh, share, count, gain)
    found = after_water_changes_with_gain(level, fresh, gain, share, float(count))
    assert found == pytest.approx(by_hand, rel=1e-11, abs=1e-11)


@given(FRESH, SHARE, st.floats(0.0, 10.0))
def test_the_settled_level_is_the_end_of_a_long_series(fresh, share, gain):
    settled = level_before_water_change(fresh, gain, share)
    long = after_water_changes_with_gain(0.0, fresh, gain, share, 3000.0)
    assert long + gain == pytest.approx(settled, rel=1e-9)


@given(LEVEL, FRESH, SHARE, COUNT)
def test_the_count_is_the_inverse_of_the_series(level, fresh, share, count):
    target = after_water_changes(level, fresh, share, float(count))
    if target - fresh > 1e-6:
        needed = water_changes_needed(level, target, fresh, share)
        assert needed == pytest.approx(count, rel=1e-6)


@given(LEVEL, FRESH, SHARE)
def test_the_share_is_the_inverse_of_one_change(level, fresh, share):
    target = after_water_changes(level, fresh, share, 1.0)
    assert share_to_change(level, target, fresh) == pytest.approx(share, rel=1e-9)


@given(LEVEL, FRESH, st.floats(0.1, 2.0))
def test_many_small_changes_come_near_a_continuous_exchange(level, fresh, turnover):
    small = after_water_changes(level, fresh, turnover / 1e6, 1e6)
    flow = after_continuous_exchange(level, fresh, turnover * 200.0, 200.0)
    assert small == pytest.approx(flow, rel=1e-5)


@given(LEVEL, FRESH, st.floats(0.1, 2.0), st.floats(0.1, 1.0))
def test_small_exchanges_of_which_some_flows_past_come_near_a_partly_mixed_one(
    level, fresh, turnover, mixed
):
    steps = 20_000
    by_hand, each = level, turnover * mixed / steps
    for _ in range(steps):
        by_hand += each * (fresh - by_hand)
    found = after_partly_mixed_exchange(level, fresh, turnover * 200.0, 200.0, mixed)
    assert found == pytest.approx(by_hand, rel=3e-4)


@given(LEVEL, FRESH, st.floats(0.1, 2.0))
def test_where_all_of_it_mixes_nothing_flows_past(level, fresh, turnover):
    flow = (level, fresh, turnover * 200.0, 200.0)
    assert after_partly_mixed_exchange(*flow, 1.0) == after_continuous_exchange(*flow)
    assert after_partly_mixed_exchange(*flow, 0.0) == pytest.approx(level, rel=1e-15)


def test_ten_changes_of_ten_percent_leave_a_third_and_not_nothing():
    """0.9 to the tenth is 0.3486784401, by hand."""
    assert share_left(0.1, 10.0) == pytest.approx(0.3486784401, rel=1e-12)


def test_half_of_the_water_four_times_is_a_sixteenth():
    assert after_water_changes(16.0, 0.0, 0.5, 4.0) == 1.0
    assert water_changes_needed(16.0, 1.0, 0.0, 0.5) == pytest.approx(4.0, rel=1e-12)


def test_a_change_of_everything_leaves_the_fresh_water():
    assert after_water_changes(30.0, 2.0, 1.0, 1.0) == 2.0


def test_a_share_is_of_the_volume():
    assert volume_to_change(0.1, 180.0) == pytest.approx(18.0)


@pytest.mark.parametrize("share", [-0.1, 1.2])
def test_a_share_outside_nothing_and_all_is_refused(share):
    with pytest.raises(ValueError, match=r"share is .* 0 to 1 is possible"):
        share_left(share, 2.0)
