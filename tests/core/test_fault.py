"""A fault says where it is and what is wrong, and a file says how many there are."""

from __future__ import annotations

import pytest

from reefchem.core.errors import DomainError
from reefchem.core.fault import SHOWN, Fault, FaultyFileError
from reefchem.core.written_number import number_from_text


@pytest.mark.parametrize(
    ("line", "column", "said"),
    [
        (3, "value", "log.csv, line 3, column value: no"),
        (3, "row[2].value", "log.csv, line 3, row[2].value: no"),
        (0, "when", "log.csv, column when: no"),
        (3, "", "log.csv, line 3: no"),
        (0, "", "log.csv: no"),
    ],
)
def test_a_fault_names_what_it_knows(line, column, said):
    assert str(Fault("log.csv", line, column, "no")) == said


def test_one_place_is_told_in_the_singular():
    assert str(FaultyFileError("a.csv", [Fault("a.csv", 2, "", "no")])) == (
        "a.csv cannot be used as it is; 1 place to mend:\na.csv, line 2: no"
    )


@pytest.mark.parametrize("more", [0, 1])
def test_many_places_are_told_in_the_order_of_lines_up_to_a_number(more):
    faults = [Fault("a.csv", line, "", "no") for line in range(SHOWN + more, 0, -1)]
    error = FaultyFileError("a.csv", faults)
    assert [fault.line for fault in error.faults] == list(range(1, SHOWN + more + 1))
    head, *lines = str(error).splitlines()
    assert head == f"a.csv cannot be used as it is; {SHOWN + more} places to mend:"
    assert len(lines) == SHOWN + more
    assert (lines[-1] == "... and 1 more") == bool(more)


@pytest.mark.parametrize("text", ["1e999", "-1e999", "inf", "nan", "four", ""])
def test_what_is_no_finite_number_is_refused(text):
    with pytest.raises(DomainError):
        number_from_text(text)


@pytest.mark.parametrize(("text", "number"), [("7.5", 7.5), ("-2", -2.0), ("1e3", 1000.0)])
def test_a_plain_number_is_read(text, number):
    assert number_from_text(text) == number
