"""A log is read whole: good rows kept, every bad row named, nothing dropped."""

from __future__ import annotations

from datetime import UTC, datetime

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError
from reefchem.tank.log import LogError, log_from_frame, log_from_text, read_log

HEAD = "when,what,quantity,value,unit,method,note\n"


def faults(rows, **options):
    with pytest.raises(LogError) as caught:
        log_from_text(HEAD + rows, **options)
    return [str(fault) for fault in caught.value.faults]


def test_units_of_a_reading_end_in_the_same_number():
    log = log_from_text(
        HEAD
        + "2026-03-01 18:30,reading,alkalinity,8,dKH,,\n"
        + "2026-03-02 18:30,reading,alkalinity,2.853219680082743,meq/L,,\n"
        + "2026-03-03 18:30,reading,nitrate,2,mg/L N,,\n"
        + "2026-03-04 18:30,reading,temperature,77,degF,,\n"
    )
    first, second, nitrate, temperature = log
    assert first.value == pytest.approx(second.value, rel=1e-12)
    assert nitrate.value == pytest.approx(2 * 62.004 / 14.007, rel=1e-12)
    assert temperature.value == pytest.approx(25.0)
    assert first.written == "8 dKH"


def test_a_decimal_comma_is_understood_where_it_is_clear():
    log = log_from_text("when;what;quantity;value;unit\n2026-03-01;reading;nitrate;7,4;mg/L\n")
    assert log.entries[0].value == 7.4


def test_a_comma_that_may_be_one_of_thousands_is_refused():
    (fault,) = faults('2026-03-01,reading,calcium,"1,250",mg/L,,\n')
    assert "line 2, column value: '1,250' may be 1250 or 1.250" in fault


def test_a_decimal_comma_that_splits_the_row_is_explained():
    (fault,) = faults("2026-03-01,reading,alkalinity,7,9,dKH,,,\n")
    assert "a decimal comma?" in fault


def test_all_bad_rows_are_named_at_once_and_the_good_ones_are_kept():
    rows = (
        "2026-03-01 18:30,reading,alkalinity,7.9,dKH,,\n"
        "01.03.2026,reading,alkalinity,7.9,dKH,,\n"
        "2026-03-02 18:30,reading,alkalinity,79,dKH,,\n"
        "2026-03-03 18:30,reading,calcium,420,ppm,,\n"
        "2026-03-04 18:30,reading,specific gravity,1.026,,,\n"
        "2026-03-05 18:30,dose,mystery,5,mL,,\n"
        "2026-03-06 18:30,reding,alkalinity,7.9,dKH,,\n"
        "2026-02-30 18:30,reading,alkalinity,7.9,dKH,,\n"
        "2026-03-07 18:30,event,,,,,\n"
        '2026-03-08 18:30,reading,alkalinity,"7.9,dKH,,\n'
        "2026-03-09 18:30,reading,alkalinity,,dKH,,\n"
    )
    with pytest.raises(LogError) as caught:
        log_from_text(HEAD + rows, stocks={"soda"})
    named = caught.value.faults
    assert [fault.line for fault in named] == list(range(3, 13))
    assert [fault.column for fault in named] == [
        "when", "value", "unit", "quantity", "quantity", "what", "when", "note", "", "value",
    ]  # fmt: skip
    assert [entry.line for entry in caught.value.log] == [2]
    assert "ppm is per litre on one kit" in str(caught.value)


def test_a_row_that_repeats_another_is_refused():
    row = "2026-03-01 18:30,reading,alkalinity,7.9,dKH,,\n"
    (fault,) = faults(row + row)
    assert fault.startswith("log, line 3: it repeats line 2 word for word")


def test_two_readings_of_one_moment_are_both_kept():
    log = log_from_text(
        HEAD
        + "2026-03-01 18:30,reading,alkalinity,7.9,dKH,,\n"
        + "2026-03-01 18:30,reading,alkalinity,8.1,dKH,,\n"
    )
    assert len(log) == 2


def test_a_clock_put_forward_makes_a_shorter_day():
    log = log_from_text(
        HEAD
        + "2026-03-28 18:30,reading,alkalinity,7.9,dKH,,\n"
        + "2026-03-29 18:30,reading,alkalinity,7.9,dKH,,\n",
        time_zone="Europe/Dublin",
    )
    first, second = log
    assert (second.when - first.when).total_seconds() == 23 * 3600


def test_a_time_that_the_clock_showed_twice_or_never_is_refused():
    never, twice = faults(
        "2026-03-29 01:30,reading,alkalinity,7.9,dKH,,\n"
        "2026-10-25 01:30,reading,alkalinity,7.9,dKH,,\n",
        time_zone="Europe/Dublin",
    )
    assert "was never shown" in never
    assert "was shown twice" in twice


def test_an_offset_says_which_of_the_two_it_was():
    log = log_from_text(
        HEAD + "2026-10-25 01:30+01:00,reading,alkalinity,7.9,dKH,,\n", time_zone="Europe/Dublin"
    )
    assert log.entries[0].when == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)


def test_times_with_and_without_an_offset_need_a_time_zone():
    (fault,) = faults(
        "2026-03-01 18:30,reading,alkalinity,7.9,dKH,,\n"
        "2026-03-02 18:30Z,reading,alkalinity,7.9,dKH,,\n"
    )
    assert "give the tank a time_zone" in fault


def test_an_unknown_time_zone_is_named():
    with pytest.raises(DomainError, match=r"Europe/Nowhere.*not known"):
        log_from_text(HEAD, time_zone="Europe/Nowhere")


def test_rows_out_of_order_are_put_in_order():
    log = log_from_text(
        HEAD + "2026-03-02,reading,nitrate,2,mg/L,,\n" + "2026-03-01,reading,nitrate,1,mg/L,,\n"
    )
    assert [entry.line for entry in log] == [3, 2]


def test_the_header_says_what_is_missing_and_unknown():
    with pytest.raises(LogError, match=r"missing: quantity, unit; unknown: 'wert'"):
        log_from_text("when,what,value,wert\n")


def test_an_empty_file_is_no_log():
    with pytest.raises(LogError, match="the file is empty"):
        log_from_text("# only a remark\n\n")


def test_a_share_of_the_water_is_given_in_percent():
    log = log_from_text(HEAD + "2026-03-01,water change,,10,%,,\n2026-03-08,water change,,20,L,,\n")
    assert [(entry.value, entry.unit) for entry in log] == [(0.1, "1"), (20.0, "L")]


def test_a_data_frame_is_read_like_the_file():
    frame = pd.DataFrame(
        {
            "when": [pd.Timestamp("2026-03-01 18:30"), "2026-03-02"],
            "what": ["reading", "event"],
            "quantity": ["alkalinity", None],
            "value": [7.9, float("nan")],
            "unit": ["dKH", None],
            "note": [None, "a snail died"],
        }
    )
    log = log_from_frame(frame)
    assert [entry.what for entry in log] == ["reading", "event"]
    assert log.entries[0].written == "7.9 dKH"


def test_a_data_frame_without_the_columns_is_refused():
    with pytest.raises(DomainError, match=r"missing columns \['quantity', 'unit'\]"):
        log_from_frame(pd.DataFrame({"when": [], "what": [], "value": []}))


def test_a_file_that_is_not_there_is_a_plain_error(tmp_path):
    with pytest.raises(DomainError, match="cannot be read"):
        read_log(tmp_path / "nowhere.csv")


def test_bytes_that_are_no_text_are_named_and_cost_one_row(tmp_path):
    path = tmp_path / "log.csv"
    good = b"2026-03-01,reading,nitrate,1,mg/L,,\n"
    path.write_bytes(b"\xef\xbb\xbf" + HEAD.encode() + b"2026-03-02,event,,,,,caf\xe9\n" + good)
    with pytest.raises(LogError, match="no UTF-8 text") as caught:
        read_log(path)
    assert [entry.line for entry in caught.value.log] == [3]


GOOD = "2026-03-{day:02d} 18:30,reading,alkalinity,{value:.1f},dKH,,"
LINE = st.one_of(
    st.text(max_size=60),
    st.text(alphabet='0123456789-:,.;"# \tadegilnrtkDKHmL/%', max_size=60),
    st.builds(lambda d, v: GOOD.format(day=d, value=v), st.integers(1, 28), st.floats(0, 28)),
)


@given(st.lists(LINE, max_size=12))
def test_whatever_stands_in_a_log_no_row_is_lost(lines):
    lines = [part for line in lines for part in line.splitlines()]
    text = HEAD + "\n".join(lines) + "\n"
    try:
        log, named = log_from_text(text), set()
    except LogError as error:
        log, named = error.log, {fault.line for fault in error.faults}
    kept = {entry.line for entry in log}
    written = {
        number
        for number, line in enumerate(text.splitlines(), 1)
        if number > 1 and line.strip() and not line.lstrip().startswith("#")
    }
    assert kept | named == written
    assert not kept & named


@given(st.binary(max_size=400))
def test_whatever_bytes_a_file_has_the_answer_is_a_log_or_a_log_error(tmp_path_factory, raw):
    path = tmp_path_factory.mktemp("fuzz") / "log.csv"
    path.write_bytes(raw)
    with pytest.raises(LogError):
        read_log(path)


@given(cut=st.integers(0, 2000), noise=st.binary(max_size=8))
def test_a_damaged_file_is_a_log_or_a_log_error(tmp_path_factory, cut, noise):
    whole = HEAD + "".join(GOOD.format(day=d, value=7 + d / 20) + "\n" for d in range(1, 29))
    raw = whole.encode()
    path = tmp_path_factory.mktemp("fuzz") / "log.csv"
    path.write_bytes(raw[:cut] + noise + raw[cut + 3 :])
    try:
        assert len(read_log(path)) <= 28
    except LogError as error:
        assert error.faults  # noqa: PT017 - either outcome is right
