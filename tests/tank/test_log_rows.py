"""Rows written in another way than the plain one, and what is said where one is wrong."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pandas as pd
import pytest

from reefchem.core.errors import DomainError
from reefchem.tank import log_rows
from reefchem.tank.log import LogError, log_from_frame, log_from_text
from reefchem.tank.quantities import AMOUNTS, READINGS, amount_from_text, difference_from_text

HEAD = "when,what,quantity,value,unit,method,note\n"


def faults(rows, **options):
    with pytest.raises(LogError) as caught:
        log_from_text(HEAD + rows, **options)
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("written", "what"),
    [
        ("topoff", "top-off"),
        ("Top  Off", "top-off"),
        ("water-change", "water change"),
        ("WATER_CHANGE", "water change"),
        ("water change", "water change"),
    ],
)
def test_a_kind_is_known_in_the_ways_it_is_written(written, what):
    row = f"2026-03-01,{written},,2,L,,\n2026-03-02,{written},,3,L,,\n"
    assert [(e.what, e.value) for e in log_from_text(HEAD + row)] == [(what, 2.0), (what, 3.0)]


def test_what_is_no_kind_is_told_the_kinds():
    (fault,) = faults("2026-03-01,feeding,,2,L,,\n")
    kinds = "reading, dose, water change, top-off, event"
    assert fault.endswith(f"line 2, column what: 'feeding' is none of {kinds}")


def test_an_event_has_a_note_and_nothing_to_count():
    reason = "an event has no value; write a reading or a dose"
    assert faults("2026-03-01,event,,2,,,fed\n")[0].endswith(f"column value: {reason}")
    assert faults("2026-03-01,event,,,L,,fed\n")[0].endswith(f"column value: {reason}")
    both = faults("2026-03-01,event,,2,L,,\n")
    assert [text.partition("column ")[2] for text in both] == [
        "note: an event needs a note",
        f"value: {reason}",
    ]


def test_an_event_is_a_line_without_a_number():
    (event,) = log_from_text(HEAD + "2026-03-01,event,heater,,,,out of order\n")
    assert event.value != event.value
    assert (event.quantity, event.unit, event.written) == ("heater", "", "")
    assert event.note == "out of order"
    assert event.uncertainty is None


def test_a_dose_is_a_volume_or_what_a_pump_gives():
    rows = "2026-03-01,dose,soda,0.02,L,,\n2026-03-02,dose,soda,12,mL per day,,\n"
    once, daily = log_from_text(HEAD + rows, stocks={"soda"})
    assert (once.value, once.unit, once.written) == (20.0, "mL", "0.02 L")
    assert (daily.value, daily.unit) == (12.0, "mL/day")
    once, _ = log_from_text(HEAD + rows)  # without a description any stock may be named
    assert once.quantity == "soda"


@pytest.mark.parametrize(
    ("stocks", "quantity", "known"),
    [
        ({"soda", "calcium"}, "mystery", "calcium, soda"),
        (set(), "mystery", "none"),
        (None, "", "none"),
    ],
)
def test_a_dose_of_no_stock_is_told_the_stocks(stocks, quantity, known):
    (fault,) = faults(f"2026-03-01,dose,{quantity},5,mL,,\n", stocks=stocks)
    assert fault.endswith(f"column quantity: {quantity!r} is no stock of the description ({known})")


def test_percent_is_for_a_water_change_alone():
    (change,) = log_from_text(HEAD + "2026-03-01,water change,,10,%,,\n")
    assert (change.value, change.unit) == (0.1, "1")
    (fault,) = faults("2026-03-01,top-off,,10,%,,\n")
    assert "column unit: the top-off is written in '%'; accepted are L, " in fault


def test_a_date_stands_for_noon_and_a_time_for_itself():
    rows = "2026-03-01,event,,,,,a\n2026-03-01 11:59,event,,,,,b\n2026-03-01 12:00:01,event,,,,,c\n"
    before, noon, after = log_from_text(HEAD + rows)
    assert [e.note for e in (before, noon, after)] == ["b", "a", "c"]
    assert noon.when == datetime(2026, 3, 1, 12, tzinfo=UTC)
    (there,) = log_from_text(HEAD + "2026-07-01,event,,,,,a\n", time_zone="Europe/Dublin")
    assert there.when == datetime(2026, 7, 1, 11, tzinfo=UTC)


def test_a_date_alone_goes_with_times_that_have_an_offset():
    times = ("2026-03-01", "2026-03-01 18:30+01:00", "2026-03-02 18:30Z")
    rows = "".join(f"{written},event,,,,,a\n" for written in times)
    assert [e.when.hour for e in log_from_text(HEAD + rows)] == [12, 17, 18]


def test_the_last_night_of_the_calendar_is_told_where_the_zone_needs_the_day_after():
    (fault,) = faults("9999-12-31 18:30,event,,,,,a\n", time_zone="Europe/Dublin")
    assert fault.endswith("column when: '9999-12-31 18:30' is no date or time of the calendar")


def test_a_day_when_the_clock_changes_has_its_other_hours():
    rows = (
        "2026-03-29 00:30,event,,,,,a\n2026-03-29 03:30,event,,,,,b\n"
        "2026-10-25 00:30,event,,,,,c\n2026-10-25 03:30,event,,,,,d\n"
    )
    log = log_from_text(HEAD + rows, time_zone="Europe/Dublin")
    assert [e.when.hour for e in log] == [0, 2, 23, 3]


def test_a_clock_that_is_changed_at_midnight_is_watched_too():
    """In Havana the clock is put forward at midnight, and in autumn put back to it."""
    never, twice = faults(
        "2026-03-08 00:30,event,,,,,a\n2026-11-01 00:30,event,,,,,b\n",
        time_zone="America/Havana",
    )
    assert "'2026-03-08 00:30' was never shown" in never
    assert "'2026-11-01 00:30' was shown twice" in twice


def test_a_repeated_row_is_told_its_first_line_and_another_note_is_none():
    row = "2026-03-01 18:30,reading,calcium,420,mg/L,kit,{}\n"
    assert len(log_from_text(HEAD + row.format("a") + row.format("b"))) == 2
    told = faults(row.format("a") * 3)
    reason = "it repeats line 2 word for word; a note can tell two apart"
    assert [text.partition(", line ")[2] for text in told] == [f"3: {reason}", f"4: {reason}"]


def test_amounts_are_remembered_up_to_a_number_and_read_the_same(monkeypatch):
    rows = "".join(f"2026-03-{day:02},reading,calcium,{400 + day},mg/L,,\n" for day in range(1, 9))
    expected = [e.value for e in log_from_text(HEAD + rows + rows.replace("-03-", "-04-"))]
    monkeypatch.setattr(log_rows, "MOST_KNOWN", 3)
    found = [e.value for e in log_from_text(HEAD + rows + rows.replace("-03-", "-04-"))]
    assert found == expected == [400.0 + day for day in range(1, 9)] * 2


def test_a_wrong_amount_is_wrong_each_time_it_is_written():
    told = faults("".join(f"2026-03-0{day},reading,calcium,42o,mg/L,,\n" for day in (1, 2, 3)))
    assert len(told) == 3


def test_cells_of_a_frame_are_texts_numbers_dates_and_times():
    frame = pd.DataFrame(
        {
            "when": [date(2026, 3, 1), datetime(2026, 3, 2, 18, 30), " 2026-03-03 "],  # noqa: DTZ001
            "what": "reading",
            "quantity": [" calcium ", "CALCIUM", "calcium"],
            "value": [420, 421.5, "422"],
            "unit": "mg/L",
        }
    )
    log = log_from_frame(frame)
    assert [(e.when.hour, e.value) for e in log] == [(12, 420.0), (18, 421.5), (12, 422.0)]


def test_a_cell_that_is_no_text_is_named_and_its_row_is_not_judged():
    frame = pd.DataFrame(
        {
            "when": ["2026-03-01", "yesterday\x00"],
            "what": "reading",
            "quantity": "calcium",
            "value": 420,
            "unit": ["mg/L\x07", "mg/L"],
        }
    )
    with pytest.raises(LogError) as caught:
        log_from_frame(frame)
    reason = "it has the control character "
    named = [(fault.line, fault.column) for fault in caught.value.faults]
    assert named == [(1, "unit"), (2, "when")]
    assert all(fault.reason.startswith(reason) for fault in caught.value.faults)
    assert str(caught.value.faults[0]).startswith("frame, line 1, column unit: ")


def test_a_specific_gravity_is_told_what_to_log():
    (fault,) = faults("2026-03-01,reading,gravity,1.026,,,\n")
    assert fault.endswith("; a specific gravity depends on two temperatures, so log the salinity")
    (fault,) = faults("2026-03-01,reading,iron,0.1,mg/L,,\n")
    assert "gravity" not in fault


def test_the_readings_of_a_quantity_are_those_and_no_doses():
    rows = (
        "2026-03-01,reading,calcium,420,mg/L,,\n2026-03-01,dose,calcium,5,mL,,\n"
        "2026-03-02,reading,nitrate,4,mg/L,,\n2026-03-03,reading,calcium,425,mg/L,,\n"
    )
    log = log_from_text(HEAD + rows)
    assert [e.value for e in log.readings("calcium")] == [420.0, 425.0]
    assert log.readings("magnesium") == ()


def test_offsets_beside_none_are_a_fault_of_the_column_of_times():
    with pytest.raises(LogError) as caught:
        log_from_text(HEAD + "2026-03-01 18:30,event,,,,,a\n2026-03-01 18:30Z,event,,,,,b\n")
    (fault,) = caught.value.faults
    assert (fault.line, fault.column) == (0, "when")
    assert fault.reason.endswith("give the tank a time_zone")


@pytest.mark.parametrize(
    ("text", "unit", "quantity", "said"),
    [
        ("1001", "mg/L", "calcium", "it is 1001 mg/L; 0 to 1000 mg/L is possible"),
        ("-1", "ug/L", "calcium", "it is -1 ug/L; 0 to 1e+06 ug/L is possible"),
        ("114", "°F", "temperature", "it is 114 °F; 32 to 113 °F is possible"),
        ("61", "", "salinity", "it is 61; 0 to 60 is possible"),
    ],
)
def test_what_is_impossible_is_told_in_the_unit_of_the_keeper(text, unit, quantity, said):
    with pytest.raises(DomainError) as caught:
        amount_from_text(text, unit, READINGS[quantity], "it")
    assert str(caught.value) == said


@pytest.mark.parametrize(
    ("unit", "hint"),
    [
        ("ppm", "; ppm is per litre on one kit and per kilogram on another: write which"),
        ("PPM", "; ppm is per litre on one kit and per kilogram on another: write which"),
        ("9", "; a decimal comma? put the number in quotes, or part the columns by semicolons"),
        ("mol", ""),
    ],
)
def test_another_unit_is_told_the_accepted_ones(unit, hint):
    with pytest.raises(DomainError) as caught:
        amount_from_text("7", unit, READINGS["calcium"], "it")
    assert str(caught.value) == f"it is written in {unit!r}; accepted are mg/L, ug/L, µg/L{hint}"


def test_no_unit_is_among_the_units_of_a_salinity():
    with pytest.raises(DomainError, match=r"^it is written in 'psu'; accepted are \(none\), 1$"):
        amount_from_text("35", "psu", READINGS["salinity"], "it")


def test_the_ends_of_what_is_possible_are_possible():
    for name, measure in (READINGS | AMOUNTS).items():
        unit = next(iter(measure.written))
        factor = amount_from_text("0.5", unit, measure, name) / 0.5
        for end in (measure.lowest, measure.highest):
            assert amount_from_text(repr(end / factor), unit, measure, name) == pytest.approx(end)


def test_a_difference_of_temperatures_has_no_zero():
    assert difference_from_text("9", "degF", READINGS["temperature"]) == pytest.approx(5.0)
    assert difference_from_text("9", "degC", READINGS["temperature"]) == 9.0


def test_rates_of_alkalinity_are_those_of_the_amounts():
    measure = AMOUNTS["alkalinity per day"]
    assert amount_from_text("2.8", "dKH per day", measure, "it") == pytest.approx(
        amount_from_text("2.8", "dKH", READINGS["alkalinity"], "it"), rel=1e-12
    )
