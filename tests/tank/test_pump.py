"""Pumps and top-off of late, against sums that are done by hand."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from reefchem.tank.log import Entry, Log
from reefchem.tank.planning.pump import dosed_of_late, running_pump, top_off_in_a_day

START = datetime(2026, 1, 1, 12, tzinfo=UTC)
POTENCIES = {"soda": 2.0}


def day(number):
    return START + timedelta(days=number)


def pump(when, rate, stock="soda"):
    return Entry(1, day(when), "dose", stock, rate, "mL/day", f"{rate} mL/day")


def dose(when, volume, stock="soda"):
    return Entry(2, day(when), "dose", stock, volume, "mL", f"{volume} mL")


def top_off(when, litres):
    return Entry(3, day(when), "top-off", "", litres, "L", f"{litres} L")


def of_late(*entries, first=-100, end=20):
    return dosed_of_late(Log("log", entries), POTENCIES, day(first), day(end))


def test_the_pump_that_runs_is_the_one_that_was_set_last():
    rows = (pump(0, 10.0), pump(3, 12.0), dose(4, 5.0), pump(5, 9.0, "chloride"))
    assert running_pump(Log("log", rows), "soda") == rows[1]
    assert running_pump(Log("log", rows), "nitre") is None
    assert running_pump(Log("log", rows[2:3]), "soda") is None


@pytest.mark.parametrize(("rate", "runs"), [(0.0, False), (0.5, True)])
def test_a_pump_set_to_nothing_does_not_run(rate, runs):
    rows = (pump(0, 10.0), pump(3, rate))
    assert (running_pump(Log("log", rows), "soda") is not None) == runs


def test_of_late_is_the_last_fortnight_or_what_there_is_of_it():
    assert of_late() == (0.0, 14.0)
    assert of_late(first=15) == (0.0, 5.0)


def test_a_pump_brings_its_rate_times_the_days_that_it_ran():
    """From day 6 to day 20 at 10 mL of 2 meq: 280 meq; at 10, then from day 11 at 6: 208."""
    assert of_late(pump(-3, 10.0))[0] == pytest.approx(280.0)
    assert of_late(pump(-3, 10.0), pump(11, 6.0))[0] == pytest.approx(208.0)
    assert of_late(pump(-3, 50.0), pump(2, 10.0), pump(13, 0.0))[0] == pytest.approx(140.0)
    assert of_late(pump(9, 10.0))[0] == pytest.approx(220.0)


def test_a_dose_counts_from_the_first_moment_of_the_time_and_not_at_the_last():
    """What happens at the moment of the last reading happens after it."""
    assert of_late(dose(6, 5.0), dose(12, 3.0)) == (pytest.approx(16.0), 14.0)
    assert of_late(dose(5.9, 5.0), dose(12, 3.0))[0] == pytest.approx(6.0)
    assert of_late(dose(12, 3.0), dose(20, 5.0))[0] == pytest.approx(6.0)
    assert of_late(dose(20, 5.0), dose(12, 3.0), pump(20, 10.0))[0] == pytest.approx(6.0)


def test_doses_of_other_stocks_and_other_rows_do_not_count():
    rows = (
        dose(8, 40.0, "chloride"),
        top_off(9, 2.0),
        Entry(4, day(10), "water change", "soda", 0.1, "1", "10 %"),
        dose(11, 3.0),
    )
    assert of_late(*rows)[0] == pytest.approx(6.0)


def test_stocks_add_up():
    rows = (pump(-3, 10.0), dose(8, 5.0, "ash"))
    total, days = dosed_of_late(
        Log("log", rows), {"soda": 2.0, "ash": 4.0, "lime": 1.0}, day(-100), day(20)
    )
    assert total == pytest.approx(300.0)
    assert days == 14.0


def test_top_off_fills_what_evaporated_since_the_row_before():
    """Three litres and one in four days: a litre a day; the first row only marks the start."""
    rows = (top_off(0, 9.0), top_off(3, 3.0), top_off(4, 1.0))
    assert top_off_in_a_day(Log("log", rows)) == pytest.approx(1.0)
    assert top_off_in_a_day(Log("log", (dose(1, 50.0), *rows))) == pytest.approx(1.0)


def test_top_off_counts_for_six_weeks():
    """The row of day 0 is 42 days before the last, the one before it is older."""
    rows = (top_off(-1, 9.0), top_off(0, 5.0), top_off(21, 20.0), top_off(42, 22.0))
    assert top_off_in_a_day(Log("log", rows)) == pytest.approx(1.0)


def test_two_rows_of_top_off_or_all_of_one_moment_tell_no_rate():
    assert top_off_in_a_day(Log("log", ())) is None
    assert top_off_in_a_day(Log("log", (top_off(0, 1.0), top_off(4, 1.0)))) is None
    assert top_off_in_a_day(Log("log", (top_off(2, 1.0),) * 3)) is None


def test_two_rows_of_one_moment_count_both():
    """A litre and three in the two days after the first row."""
    rows = (top_off(2, 5.0), top_off(2, 1.0), top_off(4, 3.0))
    assert top_off_in_a_day(Log("log", rows)) == pytest.approx(2.0)
