"""A table is read row by row, and a line that is none is named."""

from __future__ import annotations

import pytest

from reefchem.core import table
from reefchem.core.errors import DomainError
from reefchem.core.fault import Fault, FaultyFileError
from reefchem.core.table import LONGEST_LINE, contents, numbered_lines, table_rows, unreadable


def read(text, **options):
    faults = []
    lines = numbered_lines(text)
    rows = list(
        table_rows(lines, "t.csv", ("id", "value", "note"), ("id", "value"), faults, **options)
    )
    return rows, [str(fault) for fault in faults]


def test_cells_come_in_the_order_of_the_columns():
    rows, faults = read("value;id\n1;a\n\n# a remark; with one\n 2 ; b \n")
    assert rows == [(2, ("a", "1", "")), (5, ("b", "2", ""))]
    assert not faults


def test_remarks_that_a_spreadsheet_quotes_and_empty_cells_at_the_end_are_passed_over():
    rows, faults = read('"# a remark, with a comma",,\nid,value,,\na,1,,,\n')
    assert rows == [(3, ("a", "1", ""))]
    assert not faults


def test_columns_of_other_names_are_passed_over_where_they_are_allowed():
    assert read("id,colour,value\na,red,1\n", others=True) == ([(2, ("a", "1", ""))], [])
    assert "unknown: 'colour'" in read("id,colour,value\na,red,1\n")[1][0]


@pytest.mark.parametrize("others", [False, True])
def test_a_column_that_stands_there_twice_is_refused(others):
    rows, (fault,) = read("id,value,id\na,1,b\n", others=others)
    assert not rows
    assert fault.endswith("one stands there twice; no row is read")


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        ('a,"1', "a quotation mark is not closed"),
        ('a,"1"2', "a quotation mark is not closed on this line, or stands inside a cell"),
        ("a,1,x,y", "4 cells for 2 columns (a decimal comma? put the number in quotes)"),
        ("a,\x1b[2J", r"it has the control character '\x1b'"),
        ("a,\ufffd", "it has bytes that are no UTF-8 text"),
        ("a," + "1" * 5000, "5002 characters; at most 4000 are read"),
    ],
)
def test_a_line_that_is_no_row_is_named_and_the_next_is_read(line, reason):
    rows, (fault,) = read(f"id,value\n{line}\nb,2\n")
    assert rows == [(3, ("b", "2", ""))]
    assert fault.startswith(f"t.csv, line 2: {reason}")


NAMES = "the first line names the columns id, value, note"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "the file is empty; " + NAMES),
        ("\n# a remark\n", "the file is empty; " + NAMES),
        ("id\na\n", NAMES + "; missing: value; no row is read"),
        ("id,value," + "x" * 40, NAMES + f"; unknown: {'x' * 30!r}; no row is read"),
        ("id,value,b,c", NAMES + "; unknown: 'b', 'c'; no row is read"),
    ],
)
def test_a_file_without_its_columns_is_told_which_they_are(text, reason):
    assert read(text) == ([], [f"t.csv, line 1: {reason}"])


def test_names_of_columns_may_be_quoted_and_large():
    assert read('"ID","Value"\na,1\n') == ([(2, ("a", "1", ""))], [])


def test_a_cell_too_many_is_no_decimal_comma_where_semicolons_part_the_cells():
    assert read("id;value\na;1;x\n") == ([], ["t.csv, line 2: 3 cells for 2 columns"])


def test_a_file_has_a_number_of_rows(monkeypatch):
    monkeypatch.setattr(table, "MOST_ROWS", 2)
    assert read("id,value\na,1\n\nb,2\n")[1] == []
    rows, faults = read("id,value\na,1\nb,\x00\nc,3\nd,4\n")
    assert rows == [(2, ("a", "1", ""))]
    assert faults[1:] == ["t.csv, line 4: more than 2 rows; nothing is read from here on"]


def test_a_line_may_be_as_long_as_allowed():
    assert unreadable("x" * LONGEST_LINE) == ""
    assert unreadable("x" * (LONGEST_LINE + 1)) == "4001 characters; at most 4000 are read"


@pytest.mark.parametrize(
    "raw", ["\ufeffid", b"\xef\xbb\xbfid", "\ufeffid".encode("utf-16-le"), "id".encode("utf-16")]
)
def test_the_mark_at_the_start_of_a_file_is_none_of_its_text(raw):
    assert list(numbered_lines(raw)) == [(1, "id")]


def test_lines_end_as_on_any_system_and_nowhere_else():
    text = "id,value\r\na,1\rb,2\nc,\u20283\x85\n"
    assert [line for line, _ in read(text)[0]] == [2, 3, 4]


def test_a_file_that_cannot_be_opened_is_a_plain_error(tmp_path):
    for name in ("nowhere", "x\x00y", "n" * 300):
        with pytest.raises(DomainError, match="cannot be read: "):
            contents(tmp_path / name, 10)


def test_faults_come_in_the_order_of_the_file_and_a_long_list_is_cut():
    error = FaultyFileError("t.csv", [Fault("t.csv", 50 - n, "value", "no") for n in range(50)])
    lines = str(error).splitlines()
    assert lines[0] == "t.csv cannot be used as it is; 50 places to mend:"
    assert lines[1] == "t.csv, line 1, column value: no"
    assert lines[-1] == "... and 10 more"
    assert len(error.faults) == 50
