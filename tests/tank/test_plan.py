"""A plan: numbers follow from relations, no bound is passed, hazards have their caution."""

from __future__ import annotations

import random
from datetime import datetime, timedelta

import pytest

from reefchem.core.errors import DomainError
from reefchem.dosing import compare_methods
from reefchem.tank.plan import plan_from_file
from reefchem.tank.planning.cautions import ALWAYS

DKH = 0.35665246
START = datetime(2026, 1, 5, 18, 0)  # noqa: DTZ001 - the clock on the wall
TANK = """
[tank]
name = "A tank"
volume = "{volume} L"
{more}
[water_change]
alkalinity = "{fresh} dKH"
nitrate = "0 mg/L"
{stocks}
[log]
file = "log.csv"
"""
STOCK = '[[stock]]\nname = "{name}"\nsalt = "{salt}"\nstrength = "{strength} g/L"\n'
SODA = STOCK.format(name="soda", salt="NaHCO3", strength=75)
CALCIUM = STOCK.format(name="chloride", salt="CaCl2·2H2O", strength=65)
FORMATE = STOCK.format(name="formate", salt="Ca(HCOO)2", strength=80)
SALTPETRE = STOCK.format(name="saltpetre", salt="KNO3", strength=20)


def planned(folder, *, level=7.5, uptake=0.6, pump=40.0, stocks=SODA + CALCIUM, nitrate=None,
            volume=180.0, fresh=7.0, more="", seed=1, scatter=0.05, rows=(), tail=""):  # fmt: skip
    """Write the log of a tank that ends near a level, and plan for it."""
    draw = random.Random(seed)  # noqa: S311 - no secret is made
    stock = "formate" if "soda" not in stocks else "soda"
    potency = (75 / 84.006) if stock == "soda" else (80 / 130.112 * 2)
    gain = pump * potency / volume / DKH - uptake
    pumped = f"{START:%Y-%m-%d 12:00},dose,{stock},{pump},mL/day"
    rows = ["when,what,quantity,value,unit", pumped, *rows]
    days = range(0, 22, 2)
    for day in days:
        value = level - gain * (days[-1] - day) + draw.gauss(0, scatter)
        when = START + timedelta(days=day)
        rows.append(f"{when:%Y-%m-%d %H:%M},reading,alkalinity,{value:.2f},dKH")
    for index, value in enumerate(nitrate or []):
        when = START + timedelta(days=index)
        rows.append(f"{when:%Y-%m-%d %H:%M},reading,nitrate,{value},mg/L")
    (folder / "log.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    path = folder / "tank.toml"
    text = TANK.format(volume=volume, fresh=fresh, stocks=stocks, more=more) + tail
    path.write_text(text, encoding="utf-8")
    return plan_from_file(path)


def text_of(plan, section):
    (found,) = [s for s in plan.sections if s.id == section]
    return " ".join(line.text() for line in found.lines).replace("\u00a0", " ")


def test_every_number_is_what_its_relation_gives(tmp_path):
    plan = planned(tmp_path, stocks=SODA + CALCIUM + SALTPETRE, nitrate=[1, 1, 2])
    assert len(plan.figures) > 25
    for figure in plan.figures.values():
        assert figure.recomputed() == figure.value
        assert all(given.origin for given in figure.inputs.values())
        for given in figure.inputs.values():
            derived = given.origin.startswith(("the next whole", "a tenth of", "a quarter of"))
            if given.figure and not derived:
                assert plan.figures[given.figure].value == given.value


def test_a_number_that_came_from_another_can_be_followed_back_to_files(tmp_path):
    plan = planned(tmp_path, level=6.5)

    def origins(name):
        for given in plan.figures[name].inputs.values():
            if given.figure:
                yield from origins(given.figure)
            else:
                yield given.origin

    found = " | ".join(origins("dose_on_the_way"))
    assert "tank.toml, tank.volume" in found
    assert "readings of log.csv" in found
    assert "common practice, no source" in found


@pytest.mark.parametrize("level", [4.0, 6.0, 7.0, 8.4, 9.5, 12.0])
@pytest.mark.parametrize("uptake", [0.1, 0.6, 1.6])
def test_the_plan_drives_the_tank_to_its_target_within_the_bound(tmp_path, level, uptake):
    """The tank is stepped through with the true uptake and the planned doses."""
    plan = planned(tmp_path, level=level, uptake=uptake, pump=uptake * 72, scatter=0.01)
    volume, potency = 180.0, 75 / 84.006
    figures = plan.figures
    alkalinity = figures["level"].value
    hold = figures["dose"].value
    if "days_on_the_way" in figures:
        exact = figures["days_on_the_way"].value
        way = figures["dose_on_the_way"].value if "dose_on_the_way" in figures else 0.0
        for _ in range(int(-(-(exact - 1e-9) // 1))):
            before = alkalinity
            alkalinity += way * potency / volume - uptake * DKH
            assert abs(alkalinity - before) <= 0.5 * DKH * 1.05 + 0.004
    assert way >= 0 if "days_on_the_way" in figures else True
    target = 7.5 * DKH
    assert alkalinity == pytest.approx(target, abs=0.5 * DKH if level > 7.5 else 0.06)
    for day in range(70):
        if day % 7 == 0:
            alkalinity += 0.1 * (7.0 * DKH - alkalinity)
        before = alkalinity
        alkalinity += hold * potency / volume - uptake * DKH
        assert abs(alkalinity - before) <= 0.5 * DKH
    assert alkalinity == pytest.approx(target, abs=0.3 * DKH)


def test_a_level_near_the_target_is_only_held(tmp_path):
    plan = planned(tmp_path, level=7.5)
    assert "days_on_the_way" not in plan.figures
    assert "as near the target as the readings can tell" in text_of(plan, "today")


def test_a_level_above_the_target_stops_the_dose(tmp_path):
    plan = planned(tmp_path, level=9.0, uptake=0.3, pump=20.0)
    assert "dose no soda: the alkalinity, 8.98 dKH, is above" in text_of(plan, "today")
    assert "dose_on_the_way" not in plan.figures


def test_a_fast_tank_above_the_target_still_gets_some(tmp_path):
    plan = planned(tmp_path, level=9.5, uptake=1.6, pump=100.0)
    assert "dose only" in text_of(plan, "today")
    assert plan.figures["dose_on_the_way"].value > 0


@pytest.mark.parametrize(("single", "told"), [("1 meq/L", False), ("0.99 meq/L", True)])
def test_a_change_that_moves_the_alkalinity_more_than_a_dose_may_is_told(tmp_path, single, told):
    """Half of the water at 5 meq/L moves a tank at 3 meq/L by 1 meq/L."""
    tail = f'[targets]\nalkalinity = "3 meq/L"\n[limits]\nsingle_dose = "{single}"\n'
    planned(tmp_path, fresh=7.0, tail=tail)
    path = tmp_path / "tank.toml"
    text = path.read_text("utf-8").replace('"7.0 dKH"', '"5 meq/L"')
    path.write_text(text.replace('nitrate = "0 mg/L"', 'share = "50 %"'), encoding="utf-8")
    plan = plan_from_file(path)
    assert plan.figures["after_change"].value == 4.0
    assert ("more than a single dose may do" in text_of(plan, "today")) == told


def test_rich_salt_can_make_dosing_needless(tmp_path):
    plan = planned(tmp_path, uptake=0.02, pump=1.4, fresh=12.0, scatter=0.005)
    assert "Dose no soda: the water changes alone bring what is used" in text_of(plan, "today")


def test_a_tank_that_takes_nothing_still_gets_a_plan(tmp_path):
    plan = planned(tmp_path, uptake=-0.05, pump=0.0, scatter=0.005)
    assert plan.figures["uptake"].value < 0
    assert "show no uptake" in text_of(plan, "behind")


def test_calcium_goes_with_alkalinity_in_equivalents(tmp_path):
    figures = planned(tmp_path).figures
    soda = figures["dose"].value * 75 / 84.006
    calcium = figures["dose_calcium"].value * 65 / 147.008 * 2
    assert calcium == pytest.approx(soda, rel=1e-9)


def test_calcium_formate_leaves_nothing_but_needs_oxygen(tmp_path):
    plan = planned(tmp_path, stocks=FORMATE, pump=30.0)
    assert "nothing stays behind" in text_of(plan, "behind")
    assert "oxygen" in plan.figures
    assert "salt_month" not in plan.figures
    assert "dose_calcium" not in plan.figures


def test_low_nitrate_is_raised_no_faster_than_the_limit(tmp_path):
    figures = planned(tmp_path, stocks=SODA + CALCIUM + SALTPETRE, nitrate=[0, 1.5, 1.5]).figures
    assert 0 < figures["nitrate_rise"].value <= 1.0
    mass = figures["nitrate_dose"].value / 1000 * 20
    assert mass / 101.102 * 62.004 * 1000 / 180 == pytest.approx(figures["nitrate_rise"].value)


def test_high_nitrate_is_lowered_by_water_changes(tmp_path):
    plan = planned(tmp_path, nitrate=[30, 30, 30])
    assert plan.figures["nitrate_after_change"].value == pytest.approx(27.0)
    assert "nitrate_dose" not in plan.figures


@pytest.mark.parametrize(
    ("read", "says"),
    [
        ([3.75], "Nitrate is near its target: dose none"),
        ([6.25], "Nitrate is near its target: dose none"),
        ([3.7], "For the next 2 days, dose"),
        ([4.7, 3.7, 3.7, 3.7], "For the next 2 days, dose"),
        ([1, 4.5, 0, 4.6], "Nitrate is near its target: dose none"),
        ([1], "For the next 4 days, dose"),
        ([6.3], "Nitrate is above its target: dose none."),
    ],
)
def test_nitrate_is_near_its_target_within_a_quarter_of_it(tmp_path, read, says):
    """Of a target of 5 mg/L; the last three readings count, by their median."""
    plan = planned(tmp_path, stocks=SODA + SALTPETRE, nitrate=read)
    assert says in text_of(plan, "today")


def test_a_small_rise_of_nitrate_still_takes_a_day(tmp_path):
    limits = '[limits]\nnitrate = "10 mg/L per day"\n'
    plan = planned(tmp_path, stocks=SODA + SALTPETRE, nitrate=[2], more=limits)
    assert "For the next day, dose" in text_of(plan, "today")
    assert plan.figures["nitrate_rise"].value == pytest.approx(3.0)


@pytest.mark.parametrize(
    ("changes", "can"),
    [
        ('share = "10 %"', True),
        ('share = "100 %"', False),
        ('share = "0 %"', False),
        ('nitrate = "4.9 mg/L"', True),
        ('nitrate = "5 mg/L"', False),
    ],
)
def test_only_fresh_seawater_below_the_target_brings_nitrate_down_to_it(tmp_path, changes, can):
    planned(tmp_path, nitrate=[30])
    path = tmp_path / "tank.toml"
    text = path.read_text("utf-8").replace('nitrate = "0 mg/L"', changes)
    path.write_text(text, encoding="utf-8")
    plan = plan_from_file(path)
    assert ("nitrate_changes" in plan.figures) == can
    assert ("cannot bring it to the target" in text_of(plan, "today")) != can


def test_an_ion_that_was_mostly_zero_shows_no_uptake(tmp_path):
    """Half of the readings or more below what the kit can see tell nothing."""
    text = text_of(planned(tmp_path, nitrate=[0, 0, 1, 2]), "others")
    assert "Too little to tell an uptake: the readings of nitrate" in text
    text = text_of(planned(tmp_path, nitrate=[0, 0, 0.5, 1, 2]), "others")
    assert "Nitrate, 5 readings since" in text


def test_a_doubtful_uptake_leaves_a_fifth_of_the_largest_change(tmp_path):
    limit = '[limits]\nalkalinity = "0.05 dKH per day"\n'
    plan = planned(tmp_path, level=6.0, scatter=1.0, more=limit)
    doubt = plan.figures["uptake"].value - plan.figures["uptake_low"].value
    assert doubt > 0.05 * DKH
    most = plan.figures["days_on_the_way"].inputs["most"]
    assert most.value == pytest.approx(0.01 * DKH)
    assert most.origin == "tank.toml, limits.alkalinity, a fifth of it for sure"


def test_a_known_uptake_takes_its_doubt_from_the_largest_change(tmp_path):
    plan = planned(tmp_path, level=6.0)
    doubt = plan.figures["uptake"].value - plan.figures["uptake_low"].value
    most = plan.figures["days_on_the_way"].inputs["most"]
    assert most.value == pytest.approx(0.5 * DKH - doubt)


def test_without_a_reading_of_nitrate_none_is_dosed(tmp_path):
    plan = planned(tmp_path, stocks=SODA + SALTPETRE)
    assert "measure it before dosing any" in text_of(plan, "today")


def test_what_was_taken_from_common_practice_is_said(tmp_path):
    why = text_of(planned(tmp_path), "why")
    assert "Common practice, no source" in why
    for value in ("7.5 dKH", "5 mg/L", "10 %", "7 days", "0.5 dKH per day", "0.3 dKH"):
        assert value in why


def test_a_given_value_is_not_called_common_practice(tmp_path):
    plan = planned(tmp_path, more='[targets]\nalkalinity = "8 dKH"\n')
    assert "alkalinity to hold" not in text_of(plan, "why")


@pytest.mark.parametrize("stocks", [SODA + CALCIUM + SALTPETRE, FORMATE])
def test_every_hazard_of_every_stock_has_its_caution(tmp_path, stocks):
    plan = planned(tmp_path, stocks=stocks, pump=30.0)
    said = "\n".join(plan.cautions)
    for stock in plan.description.stocks:
        for hazard in stock.salt.hazards:
            assert hazard.code in said
        assert all(caution[1:] in said for caution in stock.salt.cautions())
    assert set(ALWAYS) <= set(plan.cautions)


def test_the_keeper_s_unit_is_the_plan_s_unit(tmp_path):
    plan = planned(tmp_path, more='alkalinity_unit = "mg/L CaCO3"')
    shown = plan.figures["level"].shown
    assert shown.unit == "mg/L CaCO₃"
    assert shown.value == pytest.approx(plan.figures["level"].value * 50.043, rel=1e-5)


def test_a_tank_without_a_stock_for_alkalinity_is_told_so(tmp_path):
    with pytest.raises(DomainError, match="no \\[\\[stock\\]\\] brings alkalinity"):
        planned(tmp_path, stocks=CALCIUM + SODA.replace("NaHCO3", "KCl"))


def test_a_salinity_that_no_source_covers_is_used_and_said(tmp_path):
    plan = planned(tmp_path, more="salinity = 50")
    assert "the source covers 0 to 42" in text_of(plan, "sure")
    assert plan.figures["salinity_year"].inputs["salinity"].value == 50.0


def readings(quantity, first, fall, *, every=3, unit="mg/L", days=21, scatter=2.0, seed=8):
    """Return rows of a level that falls by so much a day."""
    draw = random.Random(seed)  # noqa: S311 - no secret is made
    return [
        f"{START + timedelta(days=day):%Y-%m-%d 18:10},reading,{quantity},"
        f"{first - fall * day + draw.gauss(0, scatter):.1f},{unit}"
        for day in range(0, days, every)
    ]


def top_off(litres):
    return [f"{START + timedelta(days=d):%Y-%m-%d 09:00},top-off,,{litres},L" for d in range(20)]


def test_a_pump_within_the_dead_band_is_left_alone(tmp_path):
    """0.6 dKH a day, and what a weekly change takes, are 43.2 mL of soda in 180 L."""
    right = (0.6 + 0.1 * 0.5 / 7) * DKH * 180.0 / (75 / 84.006)
    plan = planned(tmp_path, pump=right)
    assert "Leave the pump of soda at" in text_of(plan, "today")
    low, high = (plan.figures[f"dose_{side}"].value for side in ("low", "high"))
    assert low <= right <= high
    assert plan.figures["held"].value == pytest.approx(right * (75 / 84.006) / 180.0)


def test_a_pump_outside_the_dead_band_is_set_anew(tmp_path):
    plan = planned(tmp_path, pump=30.0)
    assert "Leave the pump" not in text_of(plan, "today")
    assert plan.figures["dose_low"].value > 30.0


def test_calcium_that_falls_as_alkalinity_does_agrees(tmp_path):
    """0.6 dKH a day are 0.214 meq/L, so 4.29 mg/L of calcium (40.078 / 2 each)."""
    rows = readings("calcium", 430, 0.6 * DKH / 2 * 40.078)
    plan = planned(tmp_path, rows=rows)
    assert plan.figures["calcium_expected"].value == pytest.approx(4.288, abs=0.08)
    assert abs(plan.figures["calcium_apart"].value) < 2
    assert "they agree" in text_of(plan, "others")


def test_calcium_that_was_read_for_longer_is_held_against_the_alkalinity_of_that_time(tmp_path):
    """Of calcium the last six readings count, those of 25 days, though 8 days are asked for."""
    rows = readings("calcium", 430, 4.3, every=5)
    early = [
        f"{START + timedelta(days=day):%Y-%m-%d 18:20},{row.partition(',')[2]}"
        for day, row in zip((-15, -10, -5), readings("calcium", 500, 4.3, every=5), strict=False)
    ]
    alkalinity = [
        f"{START - timedelta(days=day):%Y-%m-%d 18:00},reading,alkalinity,{7.7 + 0.4 * day:.2f},dKH"
        for day in range(2, 16, 2)
    ]
    rows = [*early, *alkalinity, *rows]
    short = planned(tmp_path, rows=rows, tail='days = "8 days"\n').figures
    long = planned(tmp_path, rows=rows, tail='days = "25 days"\n').figures
    assert short["uptake_beside_calcium"].value == pytest.approx(long["uptake"].value, rel=1e-9)
    assert short["uptake"].value != pytest.approx(long["uptake"].value, rel=1e-4)


@pytest.mark.parametrize(("fall", "says"), [(8.0, "stock is weaker"), (0.5, "nitrate gathers")])
def test_calcium_that_does_not_agree_is_explained(tmp_path, fall, says):
    text = text_of(planned(tmp_path, rows=readings("calcium", 430, fall)), "others")
    assert "they do not agree" in text
    assert says in text


def test_the_consistency_of_calcium_leaves_out_what_errs_in_both(tmp_path):
    """With one bottle for both, only the tests' own noise is left."""
    rows = readings("calcium", 430, 4.3)
    one = planned(tmp_path, rows=rows, stocks=FORMATE, pump=30.0).figures
    assert one["calcium_stock"].value == 0.0
    assert one["calcium_expected_stock"].value == 0.0


def test_magnesium_faster_than_any_skeleton_takes_it_is_told(tmp_path):
    rows = readings("calcium", 430, 4.3) + readings("magnesium", 1300, 12.0, seed=9)
    plan = planned(tmp_path, rows=rows)
    assert "no skeleton takes so much" in text_of(plan, "others")
    assert plan.figures["magnesium_coralline_algae"].value == pytest.approx(
        plan.figures["uptake_calcium"].value / 40.078 * 0.25 * 24.305, rel=1e-6
    )


def test_an_ion_that_was_hardly_read_is_said(tmp_path):
    text = text_of(planned(tmp_path, rows=readings("potassium", 400, 1, every=10)), "others")
    assert "Too little to tell an uptake: the readings of potassium" in text


def test_limewater_is_bound_by_evaporation_and_solubility(tmp_path):
    """1 L a day at 40.6 meq/L into 180 L is 0.632 dKH a day (Bates and others, 1956)."""
    plan = planned(tmp_path, rows=top_off(1.0), uptake=0.8, pump=72 * 0.8)
    assert plan.figures["limewater"].shown.value == pytest.approx(0.632, abs=1e-3)
    assert "cannot hold this tank alone" in text_of(plan, "methods")
    plan = planned(tmp_path, rows=top_off(1.0), uptake=0.4, pump=72 * 0.4)
    assert "can hold this tank by itself" in text_of(plan, "methods")


@pytest.mark.parametrize("uptake", [0.4, 0.55, 0.7, 1.2])
def test_limewater_carries_what_the_comparison_of_methods_says(tmp_path, uptake):
    plan = planned(tmp_path, rows=top_off(1.0), uptake=uptake, pump=72 * uptake)
    taken = plan.figures["uptake"].value
    methods = compare_methods(daily_uptake=taken, volume=180.0, evaporation=1.0).methods
    (lime,) = [method for method in methods if method.name == "limewater"]
    assert lime.carries == pytest.approx(min(1.0, plan.figures["limewater"].value / taken))
    assert ("by itself" in text_of(plan, "methods")) == (lime.carries == 1.0)


def test_without_top_off_the_reach_of_limewater_is_not_told(tmp_path):
    plan = planned(tmp_path)
    assert "The log has no top-off" in text_of(plan, "methods")
    assert "limewater" not in plan.figures


def test_magnesium_drifts_as_the_comparison_of_methods_says(tmp_path):
    plan = planned(tmp_path)
    taken = plan.figures["uptake"].value
    first = compare_methods(daily_uptake=taken, volume=180.0, evaporation=1.0).methods[0]
    figure = plan.figures["magnesium_year"]
    assert figure.value / figure.inputs["level"].value - 1 == pytest.approx(first.magnesium)


def test_magnesium_does_not_drift_where_all_of_the_water_is_changed(tmp_path):
    plan = planned(tmp_path)
    assert "magnesium goes from 1314 mg/L, as in the sea, to" in text_of(plan, "methods")
    path = tmp_path / "tank.toml"
    text = path.read_text("utf-8").replace('nitrate = "0 mg/L"', 'share = "100 %"')
    path.write_text(text, encoding="utf-8")
    assert "magnesium" not in text_of(plan_from_file(path), "methods")


def test_water_changes_alone_hold_only_what_they_bring(tmp_path):
    plan = planned(
        tmp_path,
        uptake=0.02,
        pump=1.4,
        fresh=9.0,
        scatter=0.005,
        more='[targets]\nalkalinity = "7.7 dKH"\n',
    )
    assert "can hold it: it would settle at" in text_of(plan, "methods")
    text = text_of(planned(tmp_path), "methods")
    assert "cannot hold it: they bring so little" in text
    few = planned(tmp_path, uptake=0.08, pump=0.08 * 72, scatter=0.005)
    assert 0 < few.figures["changes_alone"].value < 1
    assert "cannot hold it: it would settle at" in text_of(few, "methods")


def test_a_stock_that_cannot_dissolve_is_said_first(tmp_path):
    """A kilogram of water takes 96 g of the salt at 20 °C (handbook, mass percent)."""
    plan = planned(tmp_path, stocks=SODA.replace("75", "150") + CALCIUM)
    (today,) = [s for s in plan.sections if s.id == "today"]
    assert today.lines[0].text().startswith("First make soda anew, weaker")
    assert plan.figures["saturated_1"].value == pytest.approx(150 / 96, rel=0.02)
    assert "saturated_1" not in planned(tmp_path).figures


def test_volume_and_stock_are_told_apart_from_the_noise(tmp_path):
    """5 % and 3 % of what was dosed are 5.83 % of it."""
    figure = planned(tmp_path).figures["dosed_error"]
    assert figure.value == pytest.approx(40.0 * 75 / 84.006 / 180 * 0.0583, rel=1e-3)
    more = 'volume_uncertainty = "12 %"'
    figure = planned(tmp_path, more=more).figures["dosed_error"]
    assert figure.value == pytest.approx(40.0 * 75 / 84.006 / 180 * 0.1237, rel=1e-3)


def test_top_off_water_with_alkalinity_is_counted(tmp_path):
    """1 L a day at 4 dKH into 180 L is 0.0222 dKH a day."""
    tail = '[top_off]\nalkalinity = "4 dKH"\n'
    rows = top_off(1.0)
    pure = planned(tmp_path, rows=rows).figures["uptake"].shown.value
    hard = planned(tmp_path, rows=rows, tail=tail).figures["uptake"].shown.value
    assert hard - pure == pytest.approx(4 / 180, rel=0.1)


def test_a_salinity_that_changed_is_said(tmp_path):
    rows = readings("salinity", 35, -0.1, unit="", scatter=0.05)
    text = text_of(planned(tmp_path, rows=rows), "sure")
    assert "The salinity went from 35" in text


@pytest.mark.parametrize(("stated", "says"), [("0.05", "no more than"), ("0.01", "more than")])
def test_the_scatter_is_compared_with_what_the_methods_state(tmp_path, stated, says):
    plan = planned(tmp_path)
    path = tmp_path / "log.csv"
    first, *rows = path.read_text("utf-8").splitlines()
    told = [row + ("," + stated if ",reading," in row else ",") for row in rows]
    path.write_text("\n".join([first + ",uncertainty", *told]) + "\n", encoding="utf-8")
    text = text_of(plan_from_file(tmp_path / "tank.toml"), "sure")
    assert f"The readings scatter {says} their methods say" in text
    assert "their methods say" not in text_of(plan, "sure")


def test_a_log_whose_doses_cannot_be_is_refused_in_plain_words(tmp_path):
    """A pump that was written down as far too fast for some days in the middle."""
    rows = [
        f"{START + timedelta(days=day):%Y-%m-%d 09:00},dose,soda,{rate},mL/day"
        for day, rate in ((8, 9000), (13, 0))
    ]
    with pytest.raises(DomainError, match=r"log\.csv: .* look for a dose, a pump or a change"):
        planned(tmp_path, pump=0.0, uptake=0.05, rows=rows)
