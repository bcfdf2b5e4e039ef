"""Two hundred tanks whose truth is known: their plans are followed, and no bound is passed."""

from __future__ import annotations

import math
import random
from datetime import UTC, datetime, timedelta
from functools import cache
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

from reefchem.tank.description import read_description
from reefchem.tank.log import Entry, Log
from reefchem.tank.plan import dosing_plan

TANKS = 200
DKH = 0.35665246
RISE = 75 / 84.006 / 180 / DKH
"""Rise of the alkalinity from a millilitre of soda, dKH."""

FRESH, TARGET, LIMIT, SINGLE = 7.4, 7.5, 0.5, 0.3
START = datetime(2026, 1, 5, 18, tzinfo=UTC)
TANK = """
[tank]
name = "One of many"
volume = "180 L"
[water_change]
alkalinity = "7.4 dKH"
[[stock]]
name = "soda"
salt = "NaHCO3"
strength = "75 g/L"
[log]
file = "log.csv"
"""


def simulated(seed):
    """Return true uptake and alkalinity at the end, dKH, the log, and more chance."""
    draw = random.Random(seed)  # noqa: S311 - no secret is made
    uptake, alkalinity = draw.uniform(0.1, 1.6), draw.uniform(6.0, 9.0)
    if seed % 4 == 0:
        alkalinity = TARGET
    pump = max(0.0, uptake + draw.uniform(-0.08, 0.08) * (seed % 4 > 0)) / RISE
    entries = [Entry(1, START - timedelta(hours=1), "dose", "soda", pump, "mL/day", "as set")]
    last = 2 * (draw.choice([6, 8, 11, 15]) - 1)
    for day in range(last + 1):
        when = START + timedelta(days=day)
        if day % 2 == 0:
            seen = round(10 * (alkalinity + draw.gauss(0.0, 0.1))) / 10
            reading = ("reading", "alkalinity", seen * DKH, "meq/L", f"{seen:.1f} dKH")
            entries.append(Entry(2 + day, when, *reading))
        if day == last:
            break
        if day % 7 == 6:
            change = ("water change", "", 0.1, "1", "10 %")
            entries.append(Entry(900 + day, when + timedelta(minutes=1), *change))
            alkalinity += 0.1 * (FRESH - alkalinity)
        alkalinity += pump * RISE - uptake
    return uptake, alkalinity, Log("simulated", tuple(entries)), draw


@cache
def followed():
    """Return for each tank what happened when its plan was followed for a week and more."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "tank.toml"
        path.write_text(TANK, encoding="utf-8")
        description = read_description(path)
    stories = []
    for seed in range(TANKS):
        uptake, alkalinity, log, draw = simulated(seed)
        figures = dosing_plan(log, description).figures
        value = {name: figure.value / DKH for name, figure in figures.items()}
        way = figures["days_on_the_way"].value if "days_on_the_way" in figures else 0.0
        held = value.get("held", max(0.0, value["need"]))
        days = math.ceil(way - 1e-9)
        brought = [value.get("need_on_the_way", 0.0)] * days + [held] * 14
        course = [alkalinity]
        for bring in brought:
            course.append(course[-1] + bring - uptake)
        split = math.ceil(figures["doses"].value) if "doses" in figures else 1
        stories.append({
            "steps": [abs(b - a) for a, b in pairwise(course)],
            "dose": brought[0] / split,
            "week": course[7],
            "read": round(10 * (course[7] + draw.gauss(0.0, 0.1))) / 10,
            "foreseen": (value["reading_low"], value["reading_high"]),
            "left alone": "held" in figures,
            "uptake": (value["uptake_low"], uptake, value["uptake_high"]),
        })  # fmt: skip
    return stories


def test_no_tank_is_driven_past_the_largest_change_in_a_day():
    assert max(max(story["steps"]) for story in followed()) <= LIMIT


def test_no_single_dose_raises_a_tank_too_far():
    assert max(story["dose"] for story in followed()) <= SINGLE * (1 + 1e-9)


def test_the_planned_doses_bring_the_tank_where_the_plan_foresees_it():
    inside = sum(s["foreseen"][0] <= s["week"] <= s["foreseen"][1] for s in followed())
    assert inside >= 0.97 * TANKS


def test_a_plan_that_is_right_is_seldom_proved_wrong():
    """At most 5 of 100 readings a week later; the bound allows for chance and rounding."""
    outside = sum(not s["foreseen"][0] <= s["read"] <= s["foreseen"][1] for s in followed())
    assert 0 < outside <= 0.05 * TANKS


def test_the_interval_of_the_plan_holds_the_true_uptake():
    hits = sum(s["uptake"][0] <= s["uptake"][1] <= s["uptake"][2] for s in followed())
    assert 0.93 <= hits / TANKS <= 0.97


def test_tanks_that_stand_at_their_target_are_mostly_left_alone():
    """Every fourth tank is at its target with the right dose: noise must not steer it."""
    at_target = [s["left alone"] for s in followed()[::4]]
    assert sum(at_target) >= 0.8 * len(at_target)
