"""A relation drawn through its published points, and drawings that are light."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest
from conftest import PUBLISHED
from matplotlib.figure import Figure

from reefchem.core.record import describe
from reefchem.examples.published import published
from reefchem.textbook.comparison import series_of
from reefchem.textbook.figure import svg_of

WEISS = describe("co2_solubility_weiss1974")


@pytest.fixture
def printed():
    return [v for v in published("weiss1974", PUBLISHED) if v.relation == WEISS.name]


def test_points_that_differ_in_one_input_form_a_series(printed):
    series = series_of(printed, "temperature", WEISS)
    assert sum(len(one.values) for one in series) <= len(printed)
    for one in series:
        assert len({value.inputs["salinity"] for value in one.values}) == 1
        assert one.places == sorted(set(one.places))
        assert f"= {one.values[0].inputs['salinity']:g}" in one.label


def test_differences_are_shares_of_what_is_allowed(printed):
    (first, *_) = series_of(printed, "temperature", WEISS)
    for value, share in zip(first.values, first.shares, strict=True):
        off = WEISS.function(**value.inputs) - float(value.printed)
        assert share == pytest.approx(off / value.tolerance, abs=1e-9)


def test_the_curve_passes_where_the_relation_does(printed):
    (first, *_) = series_of(printed, "temperature", WEISS)
    places, curve = first.curve(10.0, 30.0)
    assert (places[0], places[-1]) == (10.0, 30.0)
    salinity = first.values[0].inputs["salinity"]
    assert curve[60] == WEISS.function(temperature=20.0, salinity=salinity)


def test_one_point_alone_is_no_series(printed):
    assert series_of(printed[:1], "temperature", WEISS) == []


def test_a_drawing_carries_no_font_no_idle_name_and_no_long_number():
    figure = Figure(figsize=(3, 2))
    axes = figure.subplots()
    axes.plot([0, 1 / 3, 2], [1, 2 / 3, 5], "o-", label="line")
    axes.legend()
    made = svg_of(figure, "tests:drawing")
    ET.fromstring(made.replace("xlink:", ""))  # noqa: S314 - our own text
    assert "font-family" not in made
    assert not re.search(r'\bd="[^"]*\d\.\d{3}', made)
    used = set(re.findall(r'(?:href="#|url\(#)([^")]+)', made))
    assert used
    assert set(re.findall(r'\bid="([^"]*)"', made)) == used
    assert all(name.startswith("tests-drawing-") for name in used)
