"""A log is read whole: good rows kept, every bad row named, nothing dropped."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pandas as pd
import pytest
from conftest import ROOT
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core import table
from reefchem.core.errors import DomainError
from reefchem.tank.log import LogError, log_from_frame, log_from_text, read_log
from reefchem.tank.plan import plan_from_file

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


def test_a_row_that_differs_in_its_uncertainty_alone_is_no_repetition():
    head = HEAD.replace("\n", ",uncertainty\n")
    row = "2026-03-01 18:30,reading,alkalinity,7.9,dKH,,,"
    assert len(log_from_text(f"{head}{row}0.1\n{row}0.2\n")) == 2


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


ZONES = ["Europe/Dublin", "America/Havana", "America/St_Johns", "Australia/Lord_Howe", "Asia/Tokyo"]


@given(
    wall=st.datetimes(datetime(1990, 1, 1), datetime(2037, 1, 1)),  # noqa: DTZ001 - a wall clock
    near=st.sampled_from([None, datetime(2026, 3, 29, 1), datetime(2026, 10, 25, 1)]),  # noqa: DTZ001
    zone=st.sampled_from(ZONES),
)
def test_a_time_of_the_wall_clock_is_the_moment_that_the_zone_says(wall, near, zone):
    wall = (near or wall).replace(minute=wall.minute, second=0, microsecond=0)
    moments = {
        moment
        for fold in (0, 1)
        if (moment := wall.replace(tzinfo=ZoneInfo(zone), fold=fold).astimezone(UTC))
        .astimezone(ZoneInfo(zone))
        .replace(tzinfo=None)
        == wall
    }
    row = f"{wall:%Y-%m-%d %H:%M},reading,nitrate,1,mg/L,,\n"
    if len(moments) == 1:
        assert {e.when for e in log_from_text(HEAD + row, time_zone=zone)} == moments
    else:
        (fault,) = faults(row, time_zone=zone)
        assert ("never shown" if not moments else "shown twice") in fault


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
    assert [entry.method for entry in log] == ["", ""]
    assert [entry.uncertainty for entry in log] == [None, None]


def test_what_is_missing_in_a_frame_is_an_empty_cell():
    frame = pd.DataFrame({name: ["x"] for name in HEAD.strip().split(",")}).convert_dtypes()
    frame["when"], frame["what"], frame["unit"] = "2026-03-01", "event", pd.NA
    frame["value"], frame["quantity"] = pd.NaT, None
    assert len(log_from_frame(frame)) == 1


def test_a_frame_with_a_column_twice_is_refused():
    frame = pd.DataFrame([["2026-03-01"] * 8], columns=[*HEAD.strip().split(","), "note"])
    with pytest.raises(DomainError, match="one stands there twice"):
        log_from_frame(frame)


def test_a_data_frame_without_the_columns_is_refused():
    with pytest.raises(DomainError, match=r"missing columns \['quantity', 'unit'\]"):
        log_from_frame(pd.DataFrame({"when": [], "what": [], "value": []}))


def test_a_path_may_be_text(tmp_path):
    (tmp_path / "log.csv").write_text("when,what,quantity,value,unit\n", encoding="utf-8")
    assert len(read_log(str(tmp_path / "log.csv"))) == 0
    assert plan_from_file(str(ROOT / "demo" / "tank.toml")).figures["uptake"].value > 0


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


NITRATE = "2026-03-01,reading,nitrate,1,mg/L,,\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_files_of_other_programs_are_read(tmp_path, encoding, separator, end):
    text = (HEAD + NITRATE + '2026-03-02,event,,,,,"a note, ""quoted"""\n').replace("\n", end)
    text = text.replace(",", separator)
    mark = "\ufeff" if encoding.endswith("e") else ""
    path = tmp_path / "log.csv"
    path.write_bytes((mark + text).encode(encoding))
    nitrate, event = read_log(path)
    assert nitrate.value == 1.0
    assert event.note == f'a note{separator} "quoted"'


def test_utf_16_without_its_mark_is_named(tmp_path):
    path = tmp_path / "log.csv"
    path.write_bytes((HEAD + NITRATE).encode("utf-16-le"))
    with pytest.raises(LogError, match=r"control character '\\x00'; save .* no row is read"):
        read_log(path)


def test_a_quotation_mark_left_open_costs_its_own_line_only():
    text = HEAD + '2026-03-02,event,,,,,"first\nsecond"\n' + NITRATE
    with pytest.raises(LogError, match="line 2: a quotation mark is not closed") as caught:
        log_from_text(text)
    assert {fault.line for fault in caught.value.faults} == {2, 3}
    assert [entry.line for entry in caught.value.log] == [4]


@pytest.mark.parametrize("unit", ["mg/L", "µg/L", "μg/L"])
def test_both_signs_for_micro_are_one(unit):
    assert (
        log_from_text(HEAD + f"2026-03-01,reading,nitrate,1,{unit},,\n").entries[0].unit == "mg/L"
    )


def test_rows_beyond_the_limit_are_told(monkeypatch):
    monkeypatch.setattr(table, "MOST_ROWS", 2)
    rows = [NITRATE.replace("03-01", f"03-{day:02d}") for day in range(1, 5)]
    with pytest.raises(LogError, match="line 4: more than 2 rows; nothing is read from here") as e:
        log_from_text(HEAD + "".join(rows))
    assert len(e.value.log) == 2


def test_a_file_beyond_the_limit_is_refused(tmp_path, monkeypatch):
    monkeypatch.setattr("reefchem.tank.log.MOST_BYTES", 10)
    (tmp_path / "log.csv").write_text(HEAD, encoding="utf-8")
    with pytest.raises(DomainError, match=r"log\.csv cannot be read: it has more than 10 bytes"):
        read_log(tmp_path / "log.csv")


def test_a_long_log_says_how_far_it_is(tmp_path, monkeypatch):
    monkeypatch.setattr(table, "EACH", 10)
    rows = [NITRATE.replace("03-01", f"03-01 00:{minute:02d}") for minute in range(60)]
    (tmp_path / "log.csv").write_text(HEAD + "".join(rows), encoding="utf-8")
    told = []
    assert len(read_log(tmp_path / "log.csv", progress=told.append)) == 60
    assert told == sorted(told)
    assert 0.1 < told[0] < told[-1] <= 1.0


TOML = """
[[row]]
when = 2026-03-01 18:30:00
what = "reading"
quantity = "alkalinity"
value = 7.9
unit = "dKH"

[[row]]
when = "2026-03-02"
what = "event"
note = "a snail died"
"""


def toml(tmp_path, text):
    (tmp_path / "log.toml").write_text(text, encoding="utf-8")
    return read_log(tmp_path / "log.toml")


def test_a_toml_log_says_what_the_table_says(tmp_path):
    table_of_two = (
        HEAD
        + "2026-03-01 18:30,reading,alkalinity,7.9,dKH,,\n"
        + "2026-03-02,event,,,,,a snail died\n"
    )
    for one, other in zip(toml(tmp_path, TOML), log_from_text(table_of_two), strict=True):
        assert (one.when, one.what, one.quantity, one.unit, one.written, one.note) == (
            other.when, other.what, other.quantity, other.unit, other.written, other.note,
        )  # fmt: skip
    assert [entry.line for entry in toml(tmp_path, TOML)] == [2, 9]


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("7.9", "79", "log.toml, line 2, row.value: alkalinity is 79 dKH"),
        ("7.9", "true", "log.toml, line 2, row.value: a text, a number or a date is expected"),
        (
            "7.9",
            "0x" + "f" * 5000,
            "log.toml, line 2, row.value: '(thousands of digits)' is not a number",
        ),
        ("unit", "united", "log.toml, line 2: unknown key 'united'"),
        ("[[row]]", "[[rows]]", "log.toml: unknown key 'rows'; each row is written as [[row]]"),
        ("7.9", "7.9.1", "log.toml, line 6: Expected newline"),
        ("7.9", "[" * 5000, "log.toml: brackets stand too deep inside each other"),
        ("7.9", "9" * 5000, "log.toml: a number has thousands of digits"),
        (TOML, "", "log.toml: there is no row"),
        (TOML, "row = [{when = 1}]", "log.toml: each row is written as [[row]] on a line of its"),
        (TOML, "row = 1", "log.toml: each row is written as [[row]] on a line of its own"),
    ],
)
def test_a_fault_in_toml_has_line_and_key(tmp_path, old, new, fault):
    with pytest.raises(LogError) as caught:
        toml(tmp_path, TOML.replace(old, new))
    assert str(caught.value.faults[0]).startswith(fault)


def test_bytes_that_are_no_text_are_named_in_toml_too(tmp_path):
    (tmp_path / "log.toml").write_bytes(b"\n# caf\xe9\n")
    with pytest.raises(LogError, match=r"log\.toml, line 2: it has bytes that are no UTF-8 text"):
        read_log(tmp_path / "log.toml")


GOOD = "2026-03-{day:02d} 18:30,reading,alkalinity,{value:.1f},dKH,,"
LINE = st.one_of(
    st.text(max_size=60),
    st.text(alphabet='0123456789-:,.;"# \tadegilnrtkDKHmL/%', max_size=60),
    st.builds(lambda d, v: GOOD.format(day=d, value=v), st.integers(1, 28), st.floats(0, 28)),
)


@given(st.lists(LINE, max_size=12))
def test_whatever_stands_in_a_log_no_row_is_lost(lines):
    lines = [part for line in lines for part in re.split(r"\r\n|\r|\n", line)]
    text = HEAD + "\n".join(lines) + "\n"
    try:
        log, named = log_from_text(text), set()
    except LogError as error:
        log, named = error.log, {fault.line for fault in error.faults}
    kept = {entry.line for entry in log}
    written = {
        number
        for number, line in enumerate(text.split("\n"), 1)
        if number > 1 and line.strip() and not line.lstrip().startswith(("#", '"#'))
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


STATING = "when,what,quantity,value,unit,uncertainty\n"


def test_a_reading_may_state_its_uncertainty_in_its_own_unit():
    """0.1 dKH are 0.0356652 meq/L; 0.9 °F of a difference are 0.5 °C."""
    text = (
        STATING
        + "2026-03-01,reading,alkalinity,7.5,dKH,0.1\n"
        + "2026-03-01,reading,temperature,77,°F,0.9\n"
        + "2026-03-02,reading,alkalinity,7.5,dKH,\n"
    )
    kit, probe, none = log_from_text(text)
    assert kit.uncertainty == pytest.approx(0.0356652, rel=1e-5)
    assert probe.uncertainty == pytest.approx(0.5, rel=1e-9)
    assert none.uncertainty is None


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        ("reading,calcium,420,mg/L,good", "'good' is not a number"),
        ("reading,calcium,420,mg/L,0", "'0' is not more than zero; leave it empty"),
        ("water change,,18,L,1", "a water change states none; only a reading does"),
    ],
)
def test_an_uncertainty_that_cannot_be_is_refused(row, reason):
    with pytest.raises(LogError, match="line 2, column uncertainty: " + reason):
        log_from_text(STATING + f"2026-03-01,{row}\n")
