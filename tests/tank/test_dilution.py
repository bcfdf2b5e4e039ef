"""The course of the salinity, worked out by hand."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from reefchem.tank import salinity_course
from reefchem.tank.log import Entry

START = datetime(2026, 1, 1, 12, tzinfo=UTC)


def day(number):
    return START + timedelta(days=number)


def course(values, begin=0, end=100, **options):
    """Return the course of readings by the day on which they were made."""
    rows = [Entry(1, day(d), "reading", "salinity", s, "1", "") for d, s in values.items()]
    return salinity_course(rows, day(begin), day(end), **options)


def test_three_readings_stand_as_they_were_read():
    assert course({0: 35.0, 10: 39.0, 20: 36.0}).salinities == (35.0, 39.0, 36.0)


def test_of_four_each_is_the_median_of_three_and_the_ends_follow_the_line():
    """Medians of (30, 36, 33) and (36, 33, 40) are 33 and 36.

    Tukey (1977): at an end the median of the reading, its neighbour, and where the line through
    the next two would meet it: (30, 33, 3 · 33 - 2 · 36 = 27) and (40, 36, 3 · 36 - 2 · 33 = 42).
    """
    assert course({0: 30.0, 1: 36.0, 2: 33.0, 3: 40.0}).salinities == (30.0, 33.0, 36.0, 40.0)


def test_an_end_that_stands_off_is_brought_to_its_neighbours():
    """Medians inside are 35, 35, 35; both ends are the median of (40, 35, 35) and (20, 35, 35)."""
    found = course({0: 40.0, 1: 35.0, 2: 35.0, 3: 35.0, 4: 20.0})
    assert found.salinities == (35.0,) * 5
    assert not found.changed


def test_an_end_is_cut_where_the_line_meets_it():
    """Inside 34, 34.5, 35; first (30, 34, 33) gives 33, last (40, 35, 36) gives 36."""
    found = course({0: 30.0, 1: 34.0, 2: 34.5, 3: 35.0, 4: 40.0})
    assert found.salinities == (33.0, 34.0, 34.5, 35.0, 36.0)


def test_between_readings_the_salinity_lies_on_a_line():
    found = course({0: 34.0, 4: 36.0, 6: 33.0})
    assert found.at(day(-5)) == 34.0
    assert found.at(day(0)) == 34.0
    assert found.at(day(1)) == pytest.approx(34.5)
    assert found.at(day(4)) == 36.0
    assert found.at(day(5)) == pytest.approx(34.5)
    assert found.at(day(6)) == 33.0
    assert found.at(day(60)) == 33.0


def test_readings_of_the_time_count_and_the_last_before_it():
    found = course({0: 31.0, 5: 32.0, 10: 33.0, 20: 34.0, 21: 35.0}, begin=10, end=20)
    assert found.moments == (day(5), day(10), day(20))
    assert found.salinities == (32.0, 33.0, 34.0)


def test_one_reading_makes_no_course():
    assert course({5: 35.0}) is None
    assert course({0: 35.0, 30: 36.0}, begin=10, end=20) is None
    assert course({0: 35.0, 15: 36.0}, begin=10, end=20).salinities == (35.0, 36.0)


def test_a_salinity_has_changed_when_it_passes_twice_the_error_of_a_difference():
    """Each reading good to 0.25: 2 · 1.41421 · 0.25 = 0.70711."""
    assert not course({0: 35.0, 10: 35.707}).changed
    assert course({0: 35.0, 10: 35.708}).changed
    assert course({0: 35.708, 10: 35.0}).changed
    assert course({0: 35.0, 10: 35.4}, uncertainty=0.1).changed
