"""A figure of a plan: worked out once, followed back, and shown as a keeper reads it."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from reefchem.tank import (
    alkalinity_taken,
    alkalinity_uptake,
    daily_dose,
    days_to_correct_salinity,
)
from reefchem.tank.entry import Entry
from reefchem.tank.planning.confidence import listed
from reefchem.tank.planning.figures import Given, Ledger
from reefchem.tank.planning.text import bare, days_text, say, shown
from reefchem.tank.uptake_fit import FittedReading

DKH = 0.35665246


def taken(ledger, name="taken"):
    return ledger.work_out(
        name,
        "what is taken in a week",
        alkalinity_taken,
        uptake=Given(0.2, "the fit"),
        days=Given(7.0, "a week"),
    )


def test_a_figure_knows_its_relation_its_inputs_and_its_unit():
    ledger = Ledger("meq/L")
    figure = taken(ledger)
    assert figure.value == pytest.approx(1.4)
    assert (figure.relation, figure.unit, figure.digits) == ("alkalinity_taken", "meq/L", 3)
    assert figure.inputs["days"] == Given(7.0, "a week")
    assert figure.recomputed() == figure.value
    assert ledger.figures == {"taken": figure}


def test_an_input_that_is_a_figure_names_it():
    ledger = Ledger("meq/L")
    first = taken(ledger)
    uptake = ledger.work_out(
        "uptake",
        "what is taken in a day",
        alkalinity_uptake,
        first=first,
        kept=Given(1.0, ""),
        added=Given(0.0, ""),
        second=Given(0.0, ""),
        days=Given(7.0, ""),
    )
    assert uptake.inputs["first"] == Given(first.value, "what is taken in a week", "taken")


def test_two_figures_of_one_name_are_refused():
    ledger = Ledger("meq/L")
    taken(ledger)
    with pytest.raises(ValueError, match="two figures are called taken"):
        taken(ledger)


def test_a_figure_in_another_unit_is_no_input():
    ledger = Ledger("meq/L")
    with pytest.raises(
        ValueError, match=r"daily_dose: need is in meq/L/day, the figure taken in meq/L$"
    ):
        ledger.work_out(
            "dose",
            "dose",
            daily_dose,
            need=taken(ledger),
            volume=Given(100.0, ""),
            potency=Given(1.0, ""),
        )


@pytest.mark.parametrize(
    ("keeper", "unit", "value", "text", "relation"),
    [
        ("dKH", "meq/L", 2.0, "dKH", "german_degrees"),
        ("dKH", "meq/L/day", 2.0, "dKH a day", "german_degrees"),
        ("mg/L CaCO3", "meq/L", 100.087, "mg/L CaCO₃", "alkalinity_as_calcium_carbonate"),
        ("mg/L CaCO3", "meq/L/day", 100.087, "mg/L CaCO₃ a day", "alkalinity_as_calcium_carbonate"),
        ("meq/L", "meq/L", 2.0, "meq/L", ""),
        ("meq/L", "meq/L/day", 2.0, "meq/L a day", ""),
        ("dKH", "mg/L/day", 2.0, "mg/L a day", ""),
        ("dKH", "meq/mL", 2.0, "meq/mL", ""),
        ("dKH", "1", 2.0, "", ""),
        ("dKH", "day", 2.0, "days", ""),
    ],
)
def test_alkalinity_is_shown_in_the_keeper_s_unit_and_all_else_as_it_is(
    keeper, unit, value, text, relation
):
    """2 meq/L are 100.087 mg/L CaCO3; a dKH is 0.35665 meq/L."""
    found = Ledger(keeper).show(2.0, unit)
    assert (found.unit, found.relation) == (text, relation)
    expected = 2.0 / DKH if text.startswith("dKH") else value
    assert found.value == pytest.approx(expected, rel=1e-5)


def days(value, digits=3):
    ledger = Ledger("dKH")
    return ledger.work_out(
        "days",
        "days",
        days_to_correct_salinity,
        digits=digits,
        salinity=Given(35.0 + value, ""),
        target=Given(35.0, ""),
        most=Given(1.0, ""),
    )


def test_one_day_is_a_day_and_any_other_number_are_days():
    assert shown(days(1.0, 1)) == "1\u00a0day"
    assert shown(days(1.0)) == "1.00\u00a0days"
    assert shown(days(2.0, 1)) == "2\u00a0days"
    assert (days_text(1), days_text(7.0), days_text(3.5)) == ("day", "7 days", "3.5 days")


def test_a_negative_number_has_the_sign_for_minus():
    ledger = Ledger("meq/L")
    figure = ledger.work_out(
        "taken", "", alkalinity_taken, uptake=Given(-0.2, ""), days=Given(7.0, "")
    )
    assert shown(figure) == "\u22121.40\u00a0meq/L"
    assert shown(bare(figure)) == "\u22121.40"


def test_a_line_is_its_words_with_the_numbers_between_them():
    figure = taken(Ledger("meq/L"))
    line = say("In a week ", bare(figure), " or ", figure, ".")
    assert line.text() == "In a week 1.40 or 1.40\u00a0meq/L."
    assert [piece.id for piece in line.figures] == ["taken", "taken"]


def test_readings_are_listed_by_date_value_and_line():
    readings = [
        FittedReading(
            Entry(
                line,
                datetime(2026, 3, day, tzinfo=UTC),
                "reading",
                "alkalinity",
                2.8,
                "meq/L",
                "7.9 dKH",
            ),
            *(float(day), 2.8, 2.8, 1.0),
            outlier=True,
        )
        for line, day in ((4, 1), (9, 12))
    ]
    assert listed(readings) == "1 March 2026, 7.9 dKH (line 4); 12 March 2026, 7.9 dKH (line 9)"
