"""The uptake from a log: right on tanks whose truth is known, and honest about its error."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from itertools import product

import pytest

from reefchem.core.errors import DomainError
from reefchem.tank import alkalinity_at_end, alkalinity_uptake, readings_to_see
from reefchem.tank.log import Entry, Log
from reefchem.tank.uptake_fit import uptake

VOLUME = 150.0
FRESH = 2.5
DKH = 0.35665246
START = datetime(2026, 1, 1, 12, tzinfo=UTC)


def reading(line, day, alkalinity, rounded=0.1):
    shown = round(alkalinity / DKH / rounded) * rounded
    when = START + timedelta(days=day)
    return Entry(line, when, "reading", "alkalinity", shown * DKH, "meq/L", f"{shown:.1f} dKH")


def simulated(seed, count, *, slips=0.0, scatter=0.08, every=2, later=0.0):
    """Return the true uptake and the log of a tank that is stepped through day by day."""
    draw = random.Random(seed)  # noqa: S311 - no secret is made
    rate = draw.uniform(0.02, 0.6)
    pump = rate * VOLUME * draw.uniform(0.7, 1.1)
    before = START - timedelta(days=1)
    entries = [Entry(1, before, "dose", "soda", pump, "mL/day", "")]
    alkalinity = 2.8
    for day in range(count * every):
        when = START + timedelta(days=day)
        if day % every == 0:
            seen = alkalinity + draw.gauss(0.0, scatter)
            if draw.random() < slips:
                seen += draw.choice([-0.6, 0.6])
            entries.append(reading(2 + day, day, seen))
        if day % 7 == 3:
            entries.append(Entry(9000 + day, when, "water change", "", 0.1, "1", ""))
            alkalinity += 0.1 * (FRESH - alkalinity)
        changed = later if day >= count * every / 2 else 0.0
        alkalinity += pump / VOLUME - rate - changed
    return rate, Log("simulated", tuple(entries))


def estimate(log, **options):
    given = {"volume": VOLUME, "potencies": {"soda": 1.0}, "fresh": FRESH}
    return uptake(log, **given | options)


def test_the_interval_holds_the_truth_in_95_of_100_tanks():
    """Six hundred seeded tanks; 93 to 97 of 100 is what so many can tell from 95."""
    cases = list(product((6, 10, 20), (0.0, 0.04), range(100)))
    hits = 0
    for count, slips, seed in cases:
        rate, log = simulated(10_000 + seed + 1000 * count, count, slips=slips)
        found = estimate(log, halves=False)
        hits += found.low <= rate <= found.high
    assert 0.93 <= hits / len(cases) <= 0.97


def test_exact_readings_give_the_exact_uptake():
    entries = [Entry(1, START, "dose", "soda", 30.0, "mL/day", "")]
    for day in range(10):
        alkalinity = 3.0 + (30.0 / VOLUME - 0.25) * day
        when = START + timedelta(days=day)
        entries.append(
            Entry(
                2 + day,
                when,
                "reading",
                "alkalinity",
                alkalinity,
                "meq/L",
                f"{alkalinity:.9f} meq/L",
            )
        )
    assert estimate(Log("exact", tuple(entries))).uptake == pytest.approx(0.25, rel=1e-8)


def test_single_doses_water_changes_and_the_pump_are_all_counted():
    """The same five days by hand: 3.0, minus 0.5, a 20 % change at 2.5, plus 0.3, minus 0.5."""

    def at(line, day, *rest):
        return Entry(line, START + timedelta(days=day), *rest)

    after = (3.0 - 2 * 0.25) * 0.8 + 0.2 * 2.5
    entries = (
        at(1, 0, "reading", "alkalinity", 3.0, "meq/L", "3.0000000 meq/L"),
        at(2, 1, "reading", "alkalinity", 2.75, "meq/L", "2.7500000 meq/L"),
        at(3, 2, "water change", "", 30.0, "L", "30 L"),
        at(4, 3, "reading", "alkalinity", after - 0.25, "meq/L", "2.2500000 meq/L"),
        at(5, 3, "dose", "soda", 45.0, "mL", "45 mL"),
        at(6, 5, "reading", "alkalinity", after - 0.75 + 0.3, "meq/L", "2.0500000 meq/L"),
    )
    found = estimate(Log("by hand", entries))
    assert found.uptake == pytest.approx(0.25, rel=1e-6)
    assert found.kept == pytest.approx(0.8)
    assert found.added == pytest.approx(0.2 * 2.5 + 0.3)
    assert found.days == pytest.approx(2 * 0.8 + 3)


def test_the_estimate_is_the_balance_of_its_own_parts():
    _, log = simulated(7, 12)
    found = estimate(log)
    balance = alkalinity_uptake(found.first, found.kept, found.added, found.last, found.days)
    assert balance == pytest.approx(found.uptake, rel=1e-9)
    end = alkalinity_at_end(found.first, found.kept, found.added, found.uptake, found.days)
    assert end == pytest.approx(found.last, rel=1e-12)


def test_a_slip_is_shown_kept_and_counts_for_less():
    rate, log = simulated(3, 15)
    rows = list(log.entries)
    spoilt = log.readings("alkalinity")[7]
    rows[rows.index(spoilt)] = reading(spoilt.line, (spoilt.when - START).days, spoilt.value - 0.9)
    found = estimate(Log("slip", tuple(rows)))
    (shown,) = found.outliers
    assert shown.entry.line == spoilt.line
    assert shown.weight < 0.3
    assert shown.residual == pytest.approx(-0.9, abs=0.2)
    assert len(found.readings) == 15
    assert found.low <= rate <= found.high


def test_a_changed_uptake_is_seen_and_a_steady_one_is_not():
    seen = sum(bool(estimate(simulated(s, 20, later=0.05)[1]).changed) for s in range(40))
    alarms = sum(bool(estimate(simulated(s, 20)[1]).changed) for s in range(200, 360))
    assert seen == 40
    assert alarms <= 16, "about 5 in 100 are to be expected"


def test_as_many_readings_as_planned_show_a_change_most_of_the_time():
    """Forty readings, two days apart: the change for which 20 on each side are needed."""
    scatter, count = 0.08, 20
    change = scatter * 2.8 / 2.0 * (24 / count**3) ** 0.5
    assert readings_to_see(change, scatter, 2.0, 2.8) == pytest.approx(count)
    logs = (simulated(s, 2 * count, later=change, scatter=scatter)[1] for s in range(150))
    seen = sum(bool(estimate(log).changed) for log in logs)
    assert 0.7 <= seen / 150 <= 1.0


def test_only_the_last_days_count_when_asked():
    _, log = simulated(5, 20)
    assert len(estimate(log, days=20.0).readings) == 11


def test_rounding_alone_keeps_the_interval_open():
    entries = tuple(reading(2 + d, d, (8.0 - 0.1 * d) * DKH) for d in range(6))
    found = estimate(Log("round", entries), potencies={})
    assert found.scatter == pytest.approx(0.1 * DKH / 12**0.5, rel=1e-6)
    assert found.high - found.low > 0.005


def test_too_few_readings_are_refused_with_their_number():
    _, log = simulated(1, 3)
    with pytest.raises(DomainError, match="3 readings of alkalinity; the uptake needs at least 4"):
        estimate(log)


def test_readings_of_one_moment_show_no_uptake():
    entries = tuple(reading(line, 0, 2.8 + line / 100) for line in range(5))
    with pytest.raises(DomainError, match="all of one moment"):
        estimate(Log("moment", entries))


def test_a_change_of_more_water_than_there_is_is_refused():
    _, log = simulated(1, 6)
    rows = (
        *log.entries,
        Entry(99, START + timedelta(days=2, hours=1), "water change", "", 200.0, "L", "200 L"),
    )
    with pytest.raises(DomainError, match="line 99: 200 L is more than the tank has"):
        estimate(Log("flood", tuple(sorted(rows, key=lambda e: e.when))))


def line(values, written="{:.6f} meq/L", days=None):
    """Return readings of the alkalinity, one a day or on some days."""
    entries = [
        Entry(
            index + 1,
            START + timedelta(days=day),
            "reading",
            "alkalinity",
            value,
            "meq/L",
            written.format(value),
        )
        for index, (day, value) in enumerate(zip(days or range(len(values)), values, strict=True))
    ]
    return Log("line.csv", tuple(entries))


@pytest.mark.parametrize(
    ("written", "step"),
    [
        ("{:.1f} dKH", 0.1 * DKH),
        ("3,10 meq/L", 0.01),
        ("3 meq/L", 1.0),
        ("31e-1 meq/L", 0.1),
        ("3.10E1 mg/L CaCO3", 0.1 * 0.0199828),
        ("0.31e+1 meq/L", 0.1),
    ],
)
def test_a_reading_is_as_good_as_its_last_written_digit(written, step):
    """Readings on a line scatter by nothing but their rounding: a step over the root of 12."""
    found = estimate(line([3.0, 2.9, 2.8, 2.7, 2.6], written), potencies={})
    assert found.scatter == pytest.approx(step / 12**0.5, rel=1e-4)


def test_the_coarsest_digit_decides():
    rows = line([3.0, 2.9, 2.8, 2.7]).entries + line([2.6], "2.6 meq/L", [4]).entries
    assert estimate(Log("mixed", rows)).scatter == pytest.approx(0.1 / 12**0.5)


def test_errors_of_level_and_uptake_are_those_of_a_line():
    """Five days: the slope's variance is 1/10 of a reading's, that of the end 1/5 + 4/10.

    They are correlated by 0.2 / sqrt(0.1 · 0.6), which is negative for what is taken.
    """
    found = estimate(line([3.0, 2.9, 2.8, 2.7, 2.6]))
    assert found.last_error / found.standard_error == pytest.approx(6**0.5)
    assert found.correlation == pytest.approx(-0.2 / 0.06**0.5)
    assert found.standard_error == pytest.approx(found.scatter / 10**0.5)
    assert found.high - found.uptake == pytest.approx(found.quantile * found.standard_error)
    assert found.uptake - found.low == pytest.approx(found.quantile * found.standard_error)
    assert found.freedom == pytest.approx(0.85 * 3)
    assert found.apart == 1.0
    assert [reading.days for reading in found.readings] == [0.0, 1.0, 2.0, 3.0, 4.0]
    assert found.first == pytest.approx(3.0)
    assert found.last == pytest.approx(2.6)


@pytest.mark.parametrize("fall", [0.1, 0.07, 0.033, 0.21, 0.3])
def test_where_no_old_water_is_left_the_level_errs_by_the_uptake_alone(fall):
    """All of it was changed on day 3: since then the level is fresh seawater less uptake."""
    values = [3.0 - fall * day for day in range(4)] + [FRESH - fall * day for day in range(1, 5)]
    log = line(values)
    change = Entry(99, START + timedelta(days=3), "water change", "", 1.0, "1", "100 %")
    found = estimate(Log("changed", (*log.entries[:4], change, *log.entries[4:])))
    assert found.kept == 0.0
    assert found.uptake == pytest.approx(fall)
    assert -1.0 <= found.correlation == pytest.approx(-1.0)
    assert found.last_error == pytest.approx(4.0 * found.standard_error)


def test_a_wider_confidence_gives_a_wider_interval():
    log = simulated(4, 12)[1]
    narrow, wide = estimate(log, confidence=0.5), estimate(log, confidence=0.99)
    assert wide.low < narrow.low < narrow.uptake < narrow.high < wide.high


def test_a_change_of_the_uptake_is_found_in_its_size():
    """0.1 a day for five days, then 0.25: the later half takes 0.15 more."""
    values = [3.0 - 0.1 * day - 0.15 * max(0, day - 5) for day in range(11)]
    found = estimate(line(values))
    assert found.change == pytest.approx(0.15, rel=1e-3)
    assert 0 < found.change_error < 1e-5
    assert found.changed
    steady = estimate(line([3.0 - 0.1 * day for day in range(11)]))
    assert steady.change == pytest.approx(0.0, abs=1e-6)
    assert steady.changed is False


def test_eight_readings_are_needed_to_compare_two_halves():
    assert estimate(line([3.0 - 0.1 * day for day in range(8)])).changed is False
    few = estimate(line([3.0 - 0.1 * day for day in range(7)]))
    assert (few.change, few.change_error, few.changed) == (None, None, None)
    unasked = estimate(line([3.0 - 0.1 * day for day in range(9)]), halves=False)
    assert (unasked.change, unasked.change_error, unasked.changed) == (None, None, None)


def test_four_readings_are_enough_and_their_time_is_named_when_there_are_fewer():
    assert estimate(line([3.0, 2.9, 2.8, 2.7])).uptake == pytest.approx(0.1)
    with pytest.raises(DomainError, match=r"^line\.csv: 3 readings of alkalinity in the last 2 d"):
        estimate(line([3.0, 2.9, 2.8, 2.7, 2.6]), days=2.0)
    with pytest.raises(DomainError, match=r"line\.csv: 0 readings of calcium; "):
        estimate(line([3.0]), quantity="calcium")
    with pytest.raises(DomainError, match="0 readings of calcium in the last 9 days"):
        estimate(line([3.0]), quantity="calcium", days=9.0)
