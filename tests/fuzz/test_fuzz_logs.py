"""Whatever a log holds, each of its rows is an entry or a fault, and good ones are entries."""

from __future__ import annotations

import re

import pandas as pd
import pytest
from fuzz.damage import LOG, damaged, rows_of
from hypothesis import given
from hypothesis import strategies as st

from reefchem.tank.log import COLUMNS, LogError, log_from_frame, read_log

GOOD = (
    "2026-01-{day:02d} {hour:02d}:{minute:02d}{s}reading{s}alkalinity{s}7.9{s}dKH{s}kit{s}",
    "2026-01-{day:02d} {hour:02d}:{minute:02d}{s}dose{s}soda{s}12{s}mL{s}{s}",
    "2026-01-{day:02d} {hour:02d}:{minute:02d}{s}water change{s}{s}10{s}%{s}{s}weekly",
    '2026-01-{day:02d} {hour:02d}:{minute:02d}{s}event{s}{s}{s}{s}{s}"a ""quoted"" snail"',
)
ZONES = st.sampled_from([None, "Europe/Dublin", "America/St_Johns", "Pacific/Apia"])


@st.composite
def logs(draw):
    """Return the bytes of a log and the lines of its good rows."""
    separator = draw(st.sampled_from(",;\t"))
    lines, good = [separator.join(COLUMNS)], set()
    bad = st.one_of(
        st.text(max_size=60),
        st.text(alphabet='0123456789-:,.;"# \tadegilnrtkDKHmL/%', max_size=60),
        st.sampled_from(["", "#", "\x00", '"', "x" * 5000, separator * 9, "2026-01-01"]),
    )
    for _ in range(draw(st.integers(0, 12))):
        number = len(good)
        if draw(st.booleans()):
            row = draw(st.sampled_from(GOOD))
            day, hour, minute = 1 + number, draw(st.integers(0, 23)), draw(st.integers(0, 59))
            lines.append(row.format(day=day, hour=hour, minute=minute, s=separator))
            good.add(len(lines))
        else:
            lines += re.split(r"\r\n|\r|\n", draw(bad))
    end = draw(st.sampled_from(["\n", "\r\n", "\r"]))
    text = end.join(lines) + draw(st.sampled_from(["", end]))
    return draw(encoded(text)), good


def encoded(text):
    """Return bytes of a text as various programs save it."""
    clean = text.encode("utf-8", errors="replace").decode("utf-8")
    return st.sampled_from(
        [clean.encode("utf-8"), clean.encode("utf-8-sig"), clean.encode("utf-16")]
    )


def outcome(path, raw, **options):
    """Return the entries and the faults of a log."""
    path.write_bytes(raw)
    try:
        return read_log(path, **options).entries, ()
    except LogError as error:
        return error.log.entries, error.faults


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("fuzz")


@given(log=logs(), zone=ZONES)
def test_every_row_is_an_entry_or_a_fault_and_every_good_one_an_entry(folder, log, zone):
    raw, good = log
    entries, faults = outcome(folder / "log.csv", raw, time_zone=zone, stocks={"soda"})
    kept, named = [entry.line for entry in entries], {f.line for f in faults if f.line}
    assert len(kept) == len(set(kept))
    assert set(kept) | named == rows_of(raw)
    assert not set(kept) & named
    assert good <= set(kept)


@given(data=st.data(), zone=ZONES)
def test_a_damaged_log_loses_no_row_in_silence(folder, data, zone):
    raw = data.draw(damaged(b"".join(LOG.splitlines(keepends=True)[:60])))
    entries, faults = outcome(folder / "log.csv", raw, time_zone=zone)
    told = {entry.line for entry in entries} | {fault.line for fault in faults}
    no_row_read = any("no row is read" in fault.reason for fault in faults)
    assert no_row_read or rows_of(raw) <= told


@given(
    raw=st.one_of(
        st.binary(max_size=300), st.text(max_size=300).map(lambda t: t.encode("utf-8", "replace"))
    )
)
def test_any_bytes_are_a_log_or_a_list_of_faults(folder, raw):
    entries, faults = outcome(folder / "log.csv", raw)
    assert not entries
    assert faults


TOML = b"""
[[row]]
when = 2026-03-01 18:30:00
what = "reading"
quantity = "alkalinity"
value = 7.9
unit = "dKH"
[[row]]
when = 2026-03-02
what = "event"
note = "a snail died"
"""


@given(data=st.data())
def test_a_damaged_toml_log_is_two_rows_or_a_list_of_faults(folder, data):
    raw = data.draw(damaged(TOML))
    entries, faults = outcome(folder / "log.toml", raw)
    assert faults or len(entries) == len(re.findall(rb"(?m)^\s*\[\[\s*row\s*\]\]", raw))


CELL = st.one_of(
    st.none(),
    st.text(max_size=20),
    st.floats(),
    st.integers(),
    st.booleans(),
    st.datetimes(),
    st.just(pd.NaT),
    st.just(pd.NA),
    st.sampled_from(["reading", "alkalinity", "dKH", 7.9, pd.Timestamp("2026-01-01", tz="UTC")]),
)


@given(rows=st.lists(st.tuples(*[CELL] * len(COLUMNS)), max_size=5))
def test_a_frame_of_anything_loses_no_row(rows):
    frame = pd.DataFrame(rows, columns=list(COLUMNS), dtype=object)
    try:
        entries, faults = log_from_frame(frame).entries, ()
    except LogError as error:
        entries, faults = error.log.entries, error.faults
    told = {entry.line for entry in entries} | {fault.line for fault in faults if fault.line}
    assert told == set(range(1, len(rows) + 1))
