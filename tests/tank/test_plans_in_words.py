"""Nine invented tanks and their plans, word for word as their keepers read them.

The truth behind each log is known, and numbers that follow from it by hand are compared. What the
keeper reads stands in ``tests/tank/plans``: in ``plan.txt`` the sentences and every number with
its name, in ``origins.txt`` from where each number took what it was worked out from. The words were
read through one by one; the digits among them are this code's own (regression). Write it anew with
``python tests/tank/test_plans_in_words.py``, and read what has changed.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from reefchem.tank.plan import plan_from_file
from reefchem.tank.planning.text import shown

PLANS = Path(__file__).parent / "plans"
TANKS = sorted(folder.name for folder in PLANS.iterdir() if folder.is_dir())
DKH = 0.35665246
SALT = 58.440
"""NaCl, g/mol."""


@cache
def plan_for(tank):
    return plan_from_file(PLANS / tank / "tank.toml")


def in_words(plan):
    """Return the sentences of a plan, and every number of it with its name."""
    text = []
    for section in plan.sections:
        text += ["", section.title, *(f"- {line.text()}" for line in section.lines)]
    text += ["", "Numbers"]
    text += [f"- {figure.label}: {shown(figure)}" for figure in plan.figures.values()]
    return "\n".join(text[1:]).replace("\u00a0", " ") + "\n"


def origins():
    """Return from where each number of these plans took what it was worked out from."""
    found = {
        f"{figure.id} by {figure.relation}, {name}: "
        + (given.origin + (f" [{given.figure}]" if given.figure else ""))
        for tank in TANKS
        for figure in plan_for(tank).figures.values()
        for name, given in figure.inputs.items()
    }
    counted = {re.sub(r"[0-9.]+ (?=readings|degrees)", "n ", line) for line in found}
    return "\n".join(sorted(counted)) + "\n"


@pytest.mark.parametrize("tank", TANKS)
def test_a_plan_reads_as_it_was_approved(tank):
    assert in_words(plan_for(tank)) == (PLANS / tank / "plan.txt").read_text(encoding="utf-8")


def test_every_number_names_its_origins_as_they_were_approved():
    assert origins() == (PLANS / "origins.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("tank", "number", "by_hand", "within"),
    [
        # 0.2 meq/L a day; a change of a tenth at 2.5 of 2.8 every ten days takes 0.003 more.
        ("below", "uptake", 0.2, 0.002),
        ("below", "need", 0.203, 0.002),
        ("below", "dose", 20.3, 0.2),
        ("below", "dose_calcium", 20.3, 0.2),
        # Six milliequivalents a month: 3 mmol of CaCO3 in each of 100 L, and 6 mmol of NaCl.
        ("below", "skeleton", 3 * 100.087 / 10, 0.3),
        ("below", "salt_month", 6 * SALT, 3.5),
        ("below", "salt_settled", 2 * SALT / 0.1, 12.0),
        # 1.4, 5 to reach: four days of 0.9; 0.9 · 39.098 / 62.004; 90 mg of 101.102 / 62.004.
        ("below", "nitrate_rise", 0.9, 1e-9),
        ("below", "nitrate_beside", 0.5675, 5e-5),
        ("below", "nitrate_dose", 7.258, 5e-4),
        # 0.2 meq/L and 0.15 mg/L of nitrate: (0.2 + 0.15 / 62.004) / 2 · 40.078.
        ("below", "calcium_expected", 4.056, 0.04),
        # 0.6 dKH a day; 44 mL of 75 g/L into 180 L are 0.612, at half a milliequivalent in 84.006.
        ("held", "uptake", 0.6 * DKH, 0.005),
        ("held", "held", 44 * 75 / 84.006 / 180, 1e-6),
        # 0.95 to the n-th of 12.5 is 5: n = ln 0.4 / ln 0.95.
        ("held", "nitrate_after_change", 11.875, 1e-9),
        ("held", "nitrate_changes", 17.864, 5e-4),
        ("held", "changes_alone", (7.5 - 0.6 / 0.05) * DKH, 0.1),
        # It falls by what the corals take: 0.3 dKH a day.
        ("falling", "need", 0.3 * DKH, 0.003),
        ("falling", "salt_year", 365 * 0.3 * DKH * SALT / 1000, 0.06),
        # 1.6 dKH a day, and each change at 11 dKH brings a quarter of 3.5: 0.125 a day.
        ("fast", "need", (1.6 - 0.125) * DKH, 0.005),
        ("fast", "after_change", (7.5 + 0.25 * 3.5) * DKH, 1e-6),
        ("fast", "nitrate_beside", 0.95 * 22.990 / 62.004, 5e-5),
        # A mole of formate gives an equivalent and takes half a mole of oxygen.
        ("one_bottle", "oxygen", 0.42 * 30 * DKH / 2 * 31.998, 4.0),
        ("one_bottle", "calcium_stock", 0.0, 0.0),
        # 0.03 dKH a day over seven days and a tenth is 2.1 dKH below what is poured in.
        ("few_corals", "changes_alone", (9 - 2.1) * DKH, 0.15),
        ("rich_water", "changes_alone", (11 - 2.1) * DKH, 0.15),
        ("rich_water", "need", (0.03 - 0.05) * DKH, 0.002),
        # 0.2 dKH a day, and a tenth of half a dKH a week. One dose may raise it by 0.3.
        ("small_dose", "need", (0.2 + 0.1 * 0.5 / 7) * DKH, 0.004),
        ("small_dose", "doses", (0.2 + 0.1 * 0.5 / 7) / 0.3, 0.04),
        ("nothing_taken", "uptake", -0.02 * DKH, 0.003),
    ],
)
def test_a_number_of_a_plan_follows_by_hand_from_the_truth(tank, number, by_hand, within):
    assert plan_for(tank).figures[number].value == pytest.approx(by_hand, abs=within)


def test_the_salt_of_two_parts_gathers_month_by_month_as_the_corals_take():
    """Six milliequivalents a month leave 6 mmol of NaCl; changes leave nine tenths, each time."""
    left = plan_for("below").drift
    month = plan_for("below").figures["salt_month"].value
    assert left.months == tuple(range(13))
    assert left.without == pytest.approx([month * index for index in range(13)])
    level, course = 0.0, [0.0]
    for _ in range(12):
        for _ in range(3):
            level = (level + month / 3) * 0.9
        course.append(level)
    assert left.with_changes == pytest.approx(course)
    assert left.all_in_one == (0.0,) * 13


def test_without_water_changes_the_salt_stays():
    left = plan_for("falling").drift
    assert left.with_changes == left.without
    assert left.without[1] == pytest.approx(plan_for("falling").figures["salt_month"].value)


def test_where_nothing_is_taken_no_salt_is_left():
    assert plan_for("nothing_taken").drift.without == (0.0,) * 13


def main():
    """Write what the plans say."""
    (PLANS / "origins.txt").write_text(origins(), encoding="utf-8")
    for tank in TANKS:
        (PLANS / tank / "plan.txt").write_text(in_words(plan_for(tank)), encoding="utf-8")


if __name__ == "__main__":
    main()
