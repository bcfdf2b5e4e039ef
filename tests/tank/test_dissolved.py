"""The uptake of ions: right on tanks whose truth is known, dilution and top-off allowed for."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from reefchem.core.errors import DomainError
from reefchem.tank import (
    alkalinity_with_changes_alone,
    bound_of_dissolved_uptake,
    calcium_with_alkalinity,
    dilution_factor,
    dissolved_error_of_dosed,
    dissolved_uptake,
    error_of_dosed,
    level_before_water_change,
    magnesium_with_calcium,
    potency_of_ion,
    readings_to_see,
    readings_to_see_dissolved,
    salinity_course,
    uptake,
)
from reefchem.tank.log import Entry, Log
from reefchem.tank.robust import noisier_than_stated
from reefchem.tank.uptake_fit import TAKEN

VOLUME = 150.0
START = datetime(2026, 1, 1, 12, tzinfo=UTC)


def at(line, day, *rest):
    return Entry(line, START + timedelta(days=day), *rest)


def read(line, day, quantity, value, digits=6):
    return at(line, day, "reading", quantity, value, "mg/L", f"{value:.{digits}f} mg/L")


def simulated(seed, count, *, slips=0.0, scatter=6.0, every=3, fresh=415.0):
    """Return the true uptake of calcium and the log of a tank that is stepped day by day."""
    draw = random.Random(seed)  # noqa: S311 - no secret is made
    rate = draw.uniform(0.5, 9.0)
    pump = rate * VOLUME * draw.uniform(0.7, 1.1) / 20.0
    entries = [at(1, -1, "dose", "chloride", pump, "mL/day", "")]
    calcium = 425.0
    for day in range(count * every):
        if day % every == 0:
            seen = calcium + draw.gauss(0.0, scatter)
            if draw.random() < slips:
                seen += draw.choice([-40.0, 40.0])
            entries.append(read(2 + day, day, "calcium", 5.0 * round(seen / 5.0), 0))
        if day % 7 == 3:
            entries.append(at(9000 + day, day, "water change", "", 0.1, "1", ""))
            calcium += 0.1 * (fresh - calcium)
        calcium += pump * 20.0 / VOLUME - rate
    return rate, Log("simulated", tuple(entries))


def estimate(log, quantity="calcium", **options):
    given = {"volume": VOLUME, "potencies": {"chloride": 20.0}, "fresh": 415.0}
    return uptake(log, quantity, **given | options)


def test_the_interval_of_calcium_holds_the_truth_in_95_of_100_tanks():
    """Six hundred seeded tanks, read to 5 mg/L, in half of them some slips."""
    hits = total = 0
    for count in (6, 10, 20):
        for slips in (0.0, 0.04):
            for seed in range(100):
                rate, log = simulated(50_000 + seed + 1000 * count, count, slips=slips)
                found = estimate(log, halves=False)
                hits += found.low <= rate <= found.high
                total += 1
    assert 0.93 <= hits / total <= 0.97


@pytest.mark.parametrize("quantity", TAKEN[1:])
def test_every_ion_is_balanced_alike(quantity):
    """By hand: 400, less 2 x 3, a fifth changed at 350, a dose of 10 mg/L, less 3 x 3."""
    after = (400.0 - 6.0) * 0.8 + 0.2 * 350.0
    entries = (
        read(1, 0, quantity, 400.0),
        read(2, 1, quantity, 397.0),
        at(3, 2, "water change", "", 30.0, "L", "30 L"),
        read(4, 3, quantity, after - 3.0),
        at(5, 3, "dose", "chloride", 75.0, "mL", "75 mL"),
        read(6, 5, quantity, after - 9.0 + 10.0),
    )
    found = estimate(Log("by hand", entries), quantity, fresh=350.0)
    assert found.of == quantity
    assert found.uptake == pytest.approx(3.0, rel=1e-6)
    assert found.dosed * found.days == pytest.approx(10.0)
    assert found.quantity("uptake").to("mg/L/day").magnitude == pytest.approx(3.0, rel=1e-6)
    balance = dissolved_uptake(found.first, found.kept, found.added, found.last, found.days)
    assert balance == pytest.approx(found.uptake, rel=1e-9)


def test_top_off_water_that_carries_calcium_counts():
    """Hard tap water: 1.5 L a day at 100 mg/L bring 1 mg/L a day to 150 L."""
    entries = [read(2 * d, d, "calcium", 420.0 - 4.0 * d) for d in range(8)]
    entries += [at(100 + d, d + 0.5, "top-off", "", 1.5, "L", "1.5 L") for d in range(8)]
    log = Log("hard", tuple(sorted(entries, key=lambda entry: entry.when)))
    assert estimate(log).uptake == pytest.approx(4.0, rel=1e-6)
    assert estimate(log, top_off=100.0).uptake == pytest.approx(5.0, rel=1e-6)


def evaporating(rise):
    """Return a tank that takes 3 mg/L a day while its salinity rises from 34."""
    entries = []
    for day in range(0, 22, 3):
        salinity = 34.0 + rise * day / 21
        level = (420.0 - 3.0 * day) * salinity / 34.0
        entries.append(read(2 * day, day, "calcium", level))
        entries.append(at(2 * day + 1, day, "reading", "salinity", salinity, "1", "1"))
    return Log("evaporating", tuple(entries))


def test_a_salinity_that_rises_is_no_negative_uptake():
    """At the last salinity the tank would have lost 3 mg/L a day times that over the first."""
    found = estimate(evaporating(2.0))
    assert found.salinities == pytest.approx((34.0, 36.0), abs=0.2)
    assert found.uptake == pytest.approx(3.0 * 36.0 / 34.0, rel=0.05)
    last = found.readings[-1]
    assert last.level == pytest.approx(last.entry.value, rel=0.005), "today's water is as read"


def test_a_salinity_that_only_wobbles_moves_nothing():
    log = evaporating(0.0)
    draw = random.Random(4)  # noqa: S311 - no secret is made
    rows = [
        replace(e, value=e.value + draw.uniform(-0.3, 0.3)) if e.quantity == "salinity" else e
        for e in log
    ]
    found = estimate(Log("wobbling", tuple(rows)))
    assert found.salinities is None
    assert found.uptake == pytest.approx(3.0, rel=1e-6)


def test_one_slip_of_the_refractometer_moves_nothing():
    rows = list(evaporating(0.0).entries)
    index = next(i for i, e in enumerate(rows) if e.quantity == "salinity" and e.line > 18)
    rows[index] = replace(rows[index], value=38.0)
    assert estimate(Log("slip", tuple(rows))).salinities is None


def test_a_course_of_salinity_is_a_line_between_readings():
    rows = [at(i, 10 * i, "reading", "salinity", 35.0 + i, "1", "") for i in range(2)]
    course = salinity_course(rows, START, START + timedelta(days=10))
    assert course is not None
    assert course.at(START + timedelta(days=5)) == pytest.approx(35.5)
    assert course.at(START - timedelta(days=5)) == 35.0
    assert course.at(START + timedelta(days=50)) == 36.0
    assert salinity_course(rows[:1], START, START + timedelta(days=10)) is None


def test_a_reading_counts_by_the_uncertainty_that_it_states():
    """Good readings lie on a line of 3 mg/L a day; bad ones, which say so, lie off it."""
    entries = []
    for day in range(12):
        bad = day % 3 == 2
        error = (8.0 if day > 5 else -8.0) if bad else 0.2 * (-1) ** day
        level = read(day, day, "calcium", 420.0 - 3.0 * day + error, 1)
        entries.append((level, replace(level, uncertainty=8.0 if bad else 0.3)))
    plain = estimate(Log("unstated", tuple(e for e, _ in entries)))
    weighted = estimate(Log("stated", tuple(e for _, e in entries)))
    assert abs(weighted.uptake - 3.0) < abs(plain.uptake - 3.0) / 3
    assert weighted.standard_error < plain.standard_error
    assert plain.stated is None
    assert plain.noisier is None
    assert weighted.stated == 0.3
    assert weighted.noisier is False


def test_readings_that_scatter_more_than_they_state_are_told_apart():
    """Chi-square with 80 degrees of freedom is below 106.63 in 39 of 40 cases (tables)."""
    assert noisier_than_stated(1.16, 1.0, 100)
    assert not noisier_than_stated(1.15, 1.0, 100)


def test_older_readings_count_when_so_many_are_asked_for():
    _, log = simulated(3, 20)
    assert len(estimate(log, days=9.0).readings) == 4
    assert len(estimate(log, days=9.0, at_least=7).readings) == 7
    with pytest.raises(DomainError, match="quantity is 'iodine'"):
        estimate(log, "iodine")


def test_calcium_and_alkalinity_stand_as_1_to_2():
    """2.0 meq/L are a millimole of CaCO3: 40.078 mg of calcium (IUPAC 2021, abridged)."""
    assert calcium_with_alkalinity(2.0, 0.0) == pytest.approx(40.078, abs=5e-4)
    assert calcium_with_alkalinity(1.0, 62.004) == pytest.approx(40.078, abs=1e-3)
    assert calcium_with_alkalinity(1.0, -62.004) == pytest.approx(0.0, abs=1e-3)


def test_magnesium_goes_by_moles():
    """40.078 mg of calcium with 40 mmol/mol: 0.04 x 24.305 mg."""
    assert magnesium_with_calcium(40.078, 40.0) == pytest.approx(0.9722, abs=5e-5)


def test_a_mole_of_salt_in_a_litre_is_a_millimole_of_ion_in_a_millilitre():
    assert potency_of_ion(110.978, 110.978, 1.0, 40.078, 1.0) == pytest.approx(40.078)
    assert potency_of_ion(100.0, 200.0, 2.0, 30.0, 0.9) == pytest.approx(27.0)


def test_shares_of_error_add_as_squares():
    assert error_of_dosed(0.5, 0.03, 0.04) == pytest.approx(0.025)
    assert dissolved_error_of_dosed(10.0, 0.05, 0.12) == pytest.approx(1.3)


def test_student_s_table_gives_the_bounds_of_an_ion():
    """Student's two-sided 95 % quantile for 10 degrees of freedom is printed as 2.228."""
    assert bound_of_dissolved_uptake(4.0, 0.5, 2.228) == pytest.approx(5.114)


def test_readings_to_see_do_not_know_their_unit():
    assert readings_to_see_dissolved(0.02, 0.04, 2.0, 2.8) == pytest.approx(
        readings_to_see(0.02, 0.04, 2.0, 2.8)
    )


def test_water_changes_alone_settle_as_any_balance_does():
    alone = alkalinity_with_changes_alone(2.7, 0.04, 7.0, 0.2)
    assert alone == pytest.approx(level_before_water_change(2.7, -0.04 * 7.0, 0.2))
    level = 2.7
    for _ in range(200):
        level = level * 0.8 + 2.7 * 0.2 - 0.04 * 7.0
    assert level == pytest.approx(alone)


def test_fresh_water_thins_salt_and_ion_alike():
    assert 420.0 * dilution_factor(36.0, 35.0) == pytest.approx(420.0 * 35.0 / 36.0)
