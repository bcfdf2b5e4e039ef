"""The tables of what the two files may hold, as the command line and the book show them."""

from __future__ import annotations

import pytest

from reefchem.tank.description import FIELDS
from reefchem.tank.entry import COLUMNS, KINDS
from reefchem.tank.fields import FILE_TABLES, file_table
from reefchem.tank.quantities import READINGS


@pytest.mark.parametrize("name", FILE_TABLES)
def test_each_row_has_as_many_cells_as_headings_and_begins_with_a_name_of_its_own(name):
    _, headings = FILE_TABLES[name]
    rows = file_table(name)
    assert {len(row) for row in rows} == {len(headings)}
    assert len({row[0] for row in rows}) == len(rows)
    assert all(isinstance(cell, str) for row in rows for cell in row)


def test_no_row_is_missing_and_none_is_invented():
    assert [row[0] for row in file_table("columns")] == list(COLUMNS)
    assert [row[0] for row in file_table("kinds")] == list(KINDS)
    assert [row[0] for row in file_table("readings")] == list(READINGS)
    assert len(file_table("description")) == sum(map(len, FIELDS.values()))


def test_words_and_counts_have_no_unit():
    units = {row[0]: row[2] for row in file_table("description")}
    for table, fields in FIELDS.items():
        for key, field in fields.items():
            text = units[f"[[{table}]] {key}" if table == "stock" else f"[{table}] {key}"]
            assert text == (field.measure.units() if field.measure else "")


def test_a_stock_is_a_table_among_several_and_the_others_are_one_each():
    written = {row[0].split()[0] for row in file_table("description")}
    assert written == {f"[[{table}]]" if table == "stock" else f"[{table}]" for table in FIELDS}


def test_the_columns_that_must_be_there_are_the_first_five():
    asked = {key: there for key, _, there in file_table("columns")}
    assert [key for key, there in asked.items() if there == "yes"] == list(COLUMNS)[:5]
    assert set(asked.values()) == {"yes", "no"}


def test_each_kind_has_the_units_in_which_it_is_written():
    units = {kind: text for kind, _, text in file_table("kinds")}
    assert units["reading"] == units["event"] == ""
    assert units["dose"] == "mL, ml, L, l, mL/day, mL per day"
    assert units["water change"] == "L, l, mL, ml, US gal, %"
    assert units["top-off"] == "L, l, mL, ml, US gal"


def test_a_reading_has_the_span_that_is_possible():
    spans = {name: span for name, _, span in file_table("readings")}
    assert spans["temperature"].endswith(" °C")
    assert all("to" in span.split() for span in spans.values())
    bare = [name for name, span in spans.items() if len(span.split()) == 3]
    assert bare == [name for name, measure in READINGS.items() if measure.unit == "1"]


def test_what_is_left_out_is_told():
    told = {row[0]: row[3] for row in file_table("description")}
    for table, fields in FIELDS.items():
        for key, field in fields.items():
            text = told[f"[[{table}]] {key}" if table == "stock" else f"[{table}] {key}"]
            if field.default is None:
                assert text == "must be given"
            elif field.default == "":
                assert text == "nothing"
            else:
                assert text.startswith(field.default)
                assert text.endswith("(common practice, no source)") == field.practice
