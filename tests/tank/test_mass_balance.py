"""The balance of a log, carried by hand through doses, pumps, changes and top-off."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from reefchem.core.errors import DomainError
from reefchem.tank.log import Entry, Log
from reefchem.tank.mass_balance import Inputs, balances, days_between

START = datetime(2026, 1, 1, 12, tzinfo=UTC)
INPUTS = Inputs(volume=100.0, potencies={"soda": 1.0, "ash": 2.0}, fresh=3.0, top_off=0.5)


def row(day, what, quantity, value, unit):
    return Entry(7, START + timedelta(days=day), what, quantity, value, unit, f"{value} {unit}")


def balanced(moments, *rows, middle=1000.0):
    return balances(Log("log.csv", rows), START, moments, middle, INPUTS)


def test_days_have_their_fraction():
    assert days_between(START + timedelta(hours=30), START) == 1.25


def test_two_pumps_and_what_was_set_before_the_start_bring_their_rates():
    """10 mL of 1 and 5 mL of 2 meq into 100 L are 0.2 meq/L a day; from day 3 half of it."""
    (found,) = balanced(
        [7.0],
        row(-2, "dose", "soda", 99.0, "mL/day"),
        row(-1, "dose", "soda", 10.0, "mL/day"),
        row(-1, "dose", "ash", 5.0, "mL/day"),
        row(-1, "dose", "soda", 500.0, "mL"),
        row(3, "dose", "ash", 0.0, "mL/day"),
    )
    assert found.dosed == pytest.approx(3 * 0.2 + 4 * 0.1)
    assert found.poured == 0.0
    assert (found.kept, found.days) == (1.0, 7.0)


def test_a_stock_that_brings_none_of_it_adds_nothing():
    (found,) = balanced([2.0], row(1, "dose", "chloride", 50.0, "mL"))
    assert found.added == 0.0


def test_what_happens_at_the_moment_of_a_reading_happens_after_it():
    before, after = balanced([1.0, 1.5], row(1, "dose", "soda", 50.0, "mL"))
    assert before.dosed == 0.0
    assert after.dosed == 0.5
    (found,) = balanced([1.0], row(0, "dose", "soda", 50.0, "mL"))
    assert found.dosed == 0.5


def test_a_change_takes_of_all_that_was_there_and_brings_fresh_seawater():
    """Dosed 0.5, poured 1 L of 0.5 in 100 L; then a fifth gives way to water at 3."""
    (found,) = balanced(
        [5.0],
        row(1, "dose", "soda", 50.0, "mL"),
        row(1, "top-off", "", 1.0, "L"),
        row(2, "water change", "", 20.0, "L"),
        row(2, "event", "", float("nan"), ""),
    )
    assert found.kept == pytest.approx(0.8)
    assert found.dosed == pytest.approx(0.4)
    assert found.poured == pytest.approx(0.005 * 0.8 + 0.2 * 3.0)
    assert found.added == pytest.approx(found.dosed + found.poured)
    assert found.days == pytest.approx(2 * 0.8 + 3)


def test_a_change_in_percent_is_that_share():
    (litres,) = balanced([3.0], row(1, "water change", "", 25.0, "L"))
    (share,) = balanced([3.0], row(1, "water change", "", 0.25, "1"))
    assert litres == share


def test_late_are_the_days_after_the_middle_as_far_as_their_water_is_there():
    """From day 4 on: two days of which a change leaves nine tenths, then four more."""
    early, late = balanced([3.0, 10.0], row(6, "water change", "", 0.1, "1"), middle=4.0)
    assert early.late == 0.0
    assert late.late == pytest.approx(2 * 0.9 + 4)
    assert late.days == pytest.approx(6 * 0.9 + 4)


def test_all_of_the_water_can_be_changed_and_no_more():
    (found,) = balanced([3.0], row(1, "water change", "", 100.0, "L"))
    assert found.kept == 0.0
    assert found.added == pytest.approx(3.0)
    with pytest.raises(DomainError, match=r"log\.csv, line 7: 100\.5 L is more than the tank has"):
        balanced([3.0], row(1, "water change", "", 100.5, "L"))
