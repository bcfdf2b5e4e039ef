"""What a report prints: every number once, with its unit, in text, HTML and JSON."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser

import pytest

from reefchem.dosing import (
    StockSolution,
    all_in_one,
    calcium_reactor,
    compare_methods,
    dose_effect,
    dose_plan,
    ionic_balance,
    limewater,
    two_part,
)
from reefchem.dosing.report import Line, Report

SODA = StockSolution({"NaHCO3": 80.0})
REACTOR = {
    "daily_uptake": 0.2,
    "volume": 200.0,
    "alkalinity": 2.8,
    "ph_total": 8.0,
    "effluent_alkalinity": 10.8,
    "effluent_ph_total": 6.4,
}
REPORTS = {
    "dose": dose_effect(SODA, 20.0, volume=100.0),
    "plan": dose_plan(SODA, "alkalinity", start=2.5, target=2.9, volume=100.0),
    "limewater": limewater(daily_uptake=0.4, evaporation=1.0, volume=100.0),
    "reactor": calcium_reactor(**REACTOR),
    "pair": two_part(),
    "all in one": all_in_one(),
    "balance": ionic_balance(two_part().left, daily_uptake=0.3, time=365.0),
    "methods": compare_methods(daily_uptake=0.3, volume=100.0, evaporation=1.0),
}

each = pytest.mark.parametrize("report", REPORTS.values(), ids=REPORTS.keys())


class Cells(HTMLParser):
    """Gathers the text of a page by the tag around it."""

    def __init__(self, page):
        super().__init__()
        self.found, self.tag = [], ""
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        self.tag = tag
        self.found.append((tag, dict(attrs), ""))

    def handle_data(self, data):
        tag, attributes, text = self.found[-1]
        self.found[-1] = (tag, attributes, text + data)

    def of(self, tag):
        return [text for found, _, text in self.found if found == tag]


@each
def test_text_has_the_title_each_line_and_each_caution(report):
    first, *rows = report.text().split("\n")
    assert first == report.title
    lines, cautions = report.lines(), report.cautions
    assert len(rows) == len(lines) + len(cautions)
    width = max(len(line.label) for line in lines)
    for row, line in zip(rows, lines, strict=False):
        assert row[:2] == "  "
        assert row[2 : 2 + width].rstrip() == line.label
        assert row[2 + width :].split() == [line.number(), *line.unit.split()]
    assert rows[len(lines) :] == [f"  ! {caution}" for caution in cautions]


@each
def test_html_says_the_same(report):
    cells = Cells(report.html())
    lines = report.lines()
    assert cells.of("caption") == [report.title]
    assert cells.of("th") == [line.label for line in lines]
    assert cells.of("td") == [f"{line.number()} {line.unit}" for line in lines]
    assert cells.of("li") == list(report.cautions)
    assert all(a == {"scope": "row"} for tag, a, _ in cells.found if tag == "th")
    lists = [a for tag, a, _ in cells.found if tag == "ul"]
    assert lists == ([{"class": "cautions"}] if report.cautions else [])
    assert {tag for tag, _, _ in cells.found} <= {"table", "caption", "tr", "th", "td", "ul", "li"}


@each
def test_json_says_the_same(report):
    data = json.loads(json.dumps(report.as_dict()))
    assert list(data) == ["title", "numbers", "cautions"]
    assert data["title"] == report.title
    assert data["cautions"] == list(report.cautions)
    told = [line for line in report.lines() if line.value == line.value]
    assert data["numbers"] == {n.label: {"value": n.value, "unit": n.unit} for n in told}


UNITS_IN_WORDS = {
    "L a day",
    "mL a minute",
    "meq/L a day",
    "mg/L a day",
    "g a day",
    "mmol/L a day",
    "days",
    "",
}
UNITS_IN_SIGNS = {"mL", "mg/L", "meq/L", "meq/mL", "mmol/L", "g", "%", "% of the uptake", "L"}


@each
def test_a_unit_is_a_known_one(report):
    assert {line.unit for line in report.lines()} <= UNITS_IN_WORDS | UNITS_IN_SIGNS


def test_limewater_has_its_units():
    units = {line.label: line.unit for line in REPORTS["limewater"].lines()}
    assert units == {
        "most alkalinity": "meq/L a day",
        "share of the uptake": "",
        "limewater to dose": "L a day",
        "lime in it": "g a day",
        "calcium from it": "mg/L a day",
    }


def test_a_pure_number_has_no_unit_and_the_rest_has_one():
    bare = {line.label for line in REPORTS["dose"].lines() if not line.unit}
    assert all("pH" in label or "saturation" in label or label == "salinity" for label in bare)
    assert len(bare) == 8


@each
def test_no_label_is_written_twice_and_none_is_empty(report):
    labels = [line.label for line in report.lines()]
    assert all(labels)
    assert len(set(labels)) == len(labels)
    assert all(re.fullmatch(r"[A-Za-z0-9µ/% ²³°·]*", line.unit) for line in report.lines())


def test_a_number_has_five_digits():
    assert Line("x", 1234567.0, "").number() == "1.2346e+06"
    assert Line("x", 0.123456, "").number() == "0.12346"


def test_a_report_without_cautions_has_no_list_of_them():
    class Plain(Report):
        cautions = ()
        title = "plain"

        def lines(self):
            return [Line("one", 1.0, "g"), Line("none", float("nan"), "")]

    plain = Plain()
    assert plain.text() == "plain\n  one   1 g\n  none  nan "
    assert "<ul" not in plain.html()
    assert plain.as_dict() == {
        "title": "plain",
        "numbers": {"one": {"value": 1.0, "unit": "g"}},
        "cautions": [],
    }


def test_a_report_says_itself_what_it_holds():
    with pytest.raises(NotImplementedError):
        _ = Report().title
    with pytest.raises(NotImplementedError):
        Report().lines()


def test_titles_and_labels_of_a_reactor():
    reactor = REPORTS["reactor"]
    assert reactor.title == "calcium reactor"
    assert [line.label for line in reactor.lines()][2:4] == [
        "carbon dioxide in each litre of effluent",
        "carbon dioxide",
    ]


def test_the_title_of_a_pair_counts_its_solutions():
    two, three = two_part(), two_part(third=("KCl", "MgCl2·6H2O", "Na2SO4"))
    assert two.third is None
    assert three.third is not None
    assert two.title.startswith("two bottles of ")
    assert three.title.startswith("three bottles of ")
