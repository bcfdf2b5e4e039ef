"""Files that somebody wrote: their size, their lines, and where they cannot be read."""

from __future__ import annotations

import numpy as np
import pytest

from reefchem.core.errors import DomainError, RangeWarning
from reefchem.core.table import EACH, contents, numbered_lines
from reefchem.core.term import Choice, Number, Symbol
from reefchem.core.toml import toml_data
from reefchem.core.vouch import vouched


def test_a_file_may_be_as_large_as_allowed_and_no_larger(tmp_path):
    path = tmp_path / "log.csv"
    path.write_bytes(b"x" * 100)
    assert contents(path, 100) == b"x" * 100
    with pytest.raises(DomainError, match=r"^log\.csv cannot be read: it has more than 99 bytes$"):
        contents(path, 99)


def test_a_file_that_is_not_there_is_named(tmp_path):
    with pytest.raises(DomainError, match=r"none\.csv' cannot be read: No such file"):
        contents(tmp_path / "none.csv", 10)


@pytest.mark.parametrize("raw", ["a\nb\r\nc", b"a\nb\r\nc", "\ufeffa\nb\nc".encode("utf-16")])
def test_lines_are_counted_from_one(raw):
    assert [(n, line.strip("\ufeff")) for n, line in numbered_lines(raw)] == [
        (1, "a"),
        (2, "b"),
        (3, "c"),
    ]


def test_progress_is_told_now_and_then_and_may_be_missing():
    raw = b"12345678\n" * (3 * EACH)
    told = []
    assert sum(1 for _ in numbered_lines(raw, told.append)) == 3 * EACH
    assert told == pytest.approx([1 / 3, 2 / 3, 1.0])
    assert sum(1 for _ in numbered_lines(raw)) == 3 * EACH
    assert list(numbered_lines(b"")) == []


@pytest.mark.parametrize(
    ("raw", "line", "said"),
    [
        (b"a = 1\nb = '\xff'\n", 2, "it has bytes that are no UTF-8 text"),
        (b"a = '\xff'", 1, "it has bytes that are no UTF-8 text"),
        (b"a = 1\nb =\n", 2, "Invalid value"),
        (b"a = " + b"[" * 5000, 0, "brackets stand too deep inside each other"),
        (b"a = " + b"9" * 5000, 0, "a number has thousands of digits"),
    ],
)
def test_a_toml_file_that_cannot_be_read_says_where(raw, line, said):
    faults = []
    _, data = toml_data(raw, "tank.toml", faults)
    assert data is None
    assert [(f.file, f.line, f.column, f.reason) for f in faults] == [("tank.toml", line, "", said)]


def test_a_toml_file_is_read_with_its_text():
    faults = []
    assert toml_data(b"\xef\xbb\xbfa = 1\r\n", "t", faults) == ("a = 1\n", {"a": 1})
    assert not faults


def test_the_parts_of_a_comparison_are_its_sides():
    x, one = Symbol("x", "x"), Number(1.0)
    made = x < one
    assert made.parts() == (x, one)
    chosen = Choice(made, x, one)
    assert chosen.parts() == (made, x, one)
    assert list(chosen.walk()) == [chosen, made, x, one, x, one]


@pytest.mark.parametrize(("low", "high"), [(2.0, 42.0), (-40.0, 40.0)])
@pytest.mark.parametrize("kind", [float, lambda v: np.array([v, v])])
def test_rounding_is_a_share_of_the_range(low, high, kind):
    width = high - low
    for bound, away in ((low, -width), (high, width)):
        vouched(kind(bound + 0.9e-9 * away), low, high, what="here: it")
        with pytest.warns(RangeWarning, match="here: it is"):
            vouched(kind(bound + 1.05e-9 * away), low, high, what="here: it")
