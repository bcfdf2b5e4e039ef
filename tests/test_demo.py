"""The demo end to end: from two invented files to a plan that knows nothing of the truth."""

from __future__ import annotations

import html
import json
import re
import subprocess
import sys
from html.parser import HTMLParser
from itertools import pairwise
from statistics import mean

import pytest

from demo import __main__ as demo
from demo.judge import algae_of_the_readings
from demo.simulate import MEQ_PER_DKH, SLIP_DAY, START, simulated, write_logs
from demo.year import look_back, year_page, year_text
from reefchem import report
from reefchem.core.record import describe
from reefchem.examples import read_example, run
from reefchem.seawater import nacl_scale_reading, salinity_from_nacl_scale
from reefchem.tank.log import LogError, read_log
from reefchem.tank.plan import plan_from_file
from reefchem.tank.planning.cautions import ALWAYS


@pytest.fixture(scope="module")
def plan(root):
    return plan_from_file(root / "demo" / "tank.toml")


@pytest.fixture(scope="module")
def page(plan):
    return report.plan_page(plan, book="../../book/_build/html", how_to_build=demo.HOW_TO_BUILD)


@pytest.fixture(scope="module")
def data(plan):
    return json.loads(json.dumps(report.plan_data(plan, book="book")))


@pytest.fixture(scope="module")
def truth():
    return simulated()


@pytest.fixture(scope="module")
def progress():
    """Shares of the work on the year that are done, as they were told while `year` was made."""
    return []


@pytest.fixture(scope="module")
def year(plan, progress):
    return look_back(plan, lambda done, of: progress.append(done / of))


@pytest.fixture(scope="module")
def page_of_the_year(year):
    return year_page(year)


@pytest.mark.parametrize("name", ["log.csv", "notebook.csv"])
def test_the_files_are_those_that_the_simulation_makes(root, tmp_path, name):
    write_logs(tmp_path)
    assert (tmp_path / name).read_text("utf-8") == (root / "demo" / name).read_text("utf-8")


def test_every_file_says_that_it_is_invented(root):
    for name in ("tank.toml", "log.csv", "notebook.csv"):
        assert (root / "demo" / name).read_text("utf-8").startswith("# INVENTED")


def test_the_notebook_is_refused_for_its_slips_and_keeps_its_good_rows(root, truth):
    stocks = {"soda", "calcium chloride", "saltpetre"}
    with pytest.raises(LogError) as caught:
        read_log(root / "demo/notebook.csv", time_zone="Europe/Dublin", stocks=stocks)
    reasons = [fault.reason for fault in caught.value.faults]
    expected = ("decimal comma", "28.04 dKH is possible", "'sodda'", "repeats line", "2026-06-31")
    assert len(reasons) == len(expected)
    for reason, part in zip(reasons, expected, strict=True):
        assert part in reason
    assert len(caught.value.log) == len(truth.notebook) - len(expected)
    assert len(truth.notebook) == len(truth.rows) + 1, "the doubled row is all there is more"


def test_the_interval_holds_the_true_uptake(plan, truth):
    true = mean(truth.uptake[-42:]) * MEQ_PER_DKH
    assert plan.estimate.low <= true <= plan.estimate.high


def test_every_estimate_of_the_year_holds_its_truth(year):
    for verdict in year.verdicts:
        assert verdict.holds, verdict
        assert verdict.low < verdict.estimate < verdict.high


def test_the_intervals_of_the_year_hold_the_uptake_as_often_as_they_say(year):
    """Ten windows at 95 %: fewer than eight would be one chance in eighty."""
    held = [window.low <= window.truth <= window.high for window in year.windows]
    assert len(held) == 10
    assert sum(held) >= 8


def test_a_bottle_that_nobody_noted_looks_like_corals_that_eat(year, truth):
    with_row, without = year.forgotten
    true = mean(truth.uptake[263:305])
    assert with_row == pytest.approx(true, abs=0.01)
    assert without > true + 0.03


def test_the_refractometer_was_wrong_until_a_standard_was_read(plan, truth):
    """What it showed in a standard of 35 gives the scale away, and with it the tank of before."""
    assert f"{nacl_scale_reading(35.0):.1f}" == "36.6"
    assert truth.salinity[0] == pytest.approx(salinity_from_nacl_scale(35.0), rel=1e-12)
    shown = [row for row in truth.notebook if ",salinity," in row][:6]
    read = [float(row.split(",")[3]) for row in shown[:5]]
    assert mean(read) == pytest.approx(35.0, abs=0.2)
    put_right = [entry.value for entry in plan.log.readings("salinity")][:5]
    assert mean(put_right) == pytest.approx(truth.salinity[0], abs=0.2)
    assert truth.salinity[210] == pytest.approx(35.0, abs=0.15)
    steps = [abs(b - a) for a, b in pairwise(truth.salinity[200:])]
    assert max(steps) < 0.5, "brought up within a bound for each day"


def test_a_top_off_that_failed_shows_in_the_salinity(truth):
    """Four days at 1.9 L leave 172.4 of 180 L: everything stands 180/172.4 higher."""
    assert truth.salinity[165] == pytest.approx(truth.salinity[160] * 180 / 172.4, rel=1e-6)
    assert truth.salinity[168] == pytest.approx(truth.salinity[160], abs=0.05)
    assert truth.magnesium[165] / truth.magnesium[160] == pytest.approx(180 / 172.4, rel=1e-3)


def test_nitrate_is_at_zero_until_the_light_is_cut(plan, truth):
    zone = [e for e in plan.log.readings("nitrate") if 105 <= day_of(e) <= 238]
    assert sum(entry.value == 0 for entry in zone) >= len(zone) - 3
    assert max(truth.nitrate[105:239]) < 0.2
    assert truth.nitrate[-1] > 2.0


def test_the_algae_were_foreseen_from_the_weeks_in_which_nitrate_fell(plan, truth):
    """The true gain at six hours is what food brings less what the algae take, by their truth."""
    light, dose = algae_of_the_readings(plan.log)
    true = 0.5 * 0.8 * 0.45 / 6.25 * 1000 / 180 * 62.004 / 14.007 - truth.taken[-1]
    low, high = light.gain.interval
    assert low < true < high
    assert dose.gain.standard < light.gain.standard


def day_of(entry):
    return (entry.when.date() - START.date()).days


def test_the_level_is_the_true_alkalinity(plan):
    last = plan.estimate.readings[-1]
    assert day_of(last.entry) == 362
    true = simulated().alkalinity[362] * MEQ_PER_DKH
    reach = 3 * plan.estimate.last_error
    assert plan.estimate.last == pytest.approx(true, abs=reach)


def test_the_slip_of_the_log_is_shown(plan):
    (slip,) = plan.estimate.outliers
    assert slip.entry.note.startswith("in a hurry")
    assert slip.entry.when.date().isoformat() == "2026-10-14"
    assert SLIP_DAY == 345


def test_the_planned_dose_holds_the_true_tank_at_its_target(plan):
    """Ten weeks of the invented corals with the planned doses and water changes."""
    uptake = simulated().uptake[-1] * MEQ_PER_DKH
    volume, potency, target = 180.0, 75 / 84.006, 7.5 * MEQ_PER_DKH
    alkalinity = plan.estimate.last
    days = round(-(-plan.figures["days_on_the_way"].value // 1))
    for day in range(70):
        if day % 7 == 6:
            alkalinity += 0.1 * (7.0 * MEQ_PER_DKH - alkalinity)
        name = "dose_on_the_way" if day < days else "dose"
        change = plan.figures[name].value * potency / volume - uptake
        assert abs(change) <= 0.5 * MEQ_PER_DKH
        alkalinity += change
        if day >= days:
            assert alkalinity == pytest.approx(target, abs=0.2 * MEQ_PER_DKH)


def test_every_number_of_the_json_recomputes_from_its_relation(data):
    assert len(data["figures"]) > 30
    for figure in data["figures"].values():
        record = describe(figure["relation"])
        inputs = {name: given["value"] for name, given in figure["inputs"].items()}
        assert inputs.keys() == record.arguments.keys()
        assert record.function(**inputs) == figure["value"]
        assert record.unit == figure["unit"]
        assert figure["book"] == f"book/relations.html#{figure['relation']}"
        if figure["shown"]["relation"]:
            convert = describe(figure["shown"]["relation"]).function
            assert convert(figure["value"]) == figure["shown"]["value"]
        for given in figure["inputs"].values():
            if given["figure"]:
                assert given["figure"] in data["figures"]


def test_every_number_that_is_read_is_one_of_the_figures(data):
    for section in data["sections"]:
        for line in section["lines"]:
            for name in line["figures"]:
                number = data["figures"][name]["shown"]["text"].partition(" ")[0]
                assert number in line["text"]


def test_every_hazard_has_its_caution_in_text_page_and_json(plan, page, data):
    text = " ".join(report.plan_text(plan, width=10_000).split())
    flat = re.sub(r"\s+", " ", unescaped(page))
    for stock in plan.description.stocks:
        for hazard in stock.salt.hazards:
            assert hazard.code in text
            assert hazard.code in flat
            assert any(hazard.code in caution for caution in data["cautions"])
    for caution in ALWAYS:
        assert caution in text
        assert caution in flat
        assert caution in data["cautions"]


def unescaped(page):
    return html.unescape(re.sub(r"<[^>]+>", "", page))


class Reader(HTMLParser):
    """Collects links, anchors and whatever the page would fetch."""

    def __init__(self):
        super().__init__()
        self.links, self.ids, self.fetched, self.open = [], [], [], []

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.ids += [given["id"]] if "id" in given else []
        if tag == "a":
            self.links.append((given.get("href", ""), given.get("class", "")))
        if tag in {"script", "link", "iframe", "img", "object"} or "src" in given:
            self.fetched.append(tag)
        if tag not in {"meta", "path", "use", "br", "hr", "mspace"}:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if self.open and self.open[-1] == tag:
            self.open.pop()


def test_the_page_needs_nothing_else(page):
    reader = Reader()
    reader.feed(page)
    assert reader.fetched == []
    assert "http" not in page.replace("http://www.w3.org", "")
    assert reader.open == []


def test_every_number_links_to_its_relation_and_has_its_working(page, plan):
    reader = Reader()
    reader.feed(page)
    numbers = [href for href, kind in reader.links if kind == "number"]
    shown = [
        figure for section in plan.sections for line in section.lines for figure in line.figures
    ]
    assert numbers == [f"../../book/_build/html/relations.html#{f.relation}" for f in shown]
    for name in plan.figures:
        assert reader.ids.count(f"f-{name}") == 1
    for href, _ in reader.links:
        if href.startswith("#"):
            assert href[1:] in reader.ids


def test_both_plots_have_words_beside_them(page):
    labels = re.findall(r'role="img" aria-label="([^"]+)"', page)
    assert len(labels) == 2
    for words in ("Sodium chloride left behind", "18 readings of alkalinity"):
        assert sum(words in label for label in labels) == 1
    assert "var(--plot-1)" in page
    assert "#0102" not in page


def test_the_page_is_the_same_each_time(page, plan):
    again = report.plan_page(plan, book="../../book/_build/html", how_to_build=demo.HOW_TO_BUILD)
    assert again == page


def test_the_page_of_the_year_needs_nothing_else_and_says_what_it_shows(year, page_of_the_year):
    page = page_of_the_year
    reader = Reader()
    reader.feed(page)
    assert reader.fetched == []
    assert reader.open == []
    labels = re.findall(r'role="img" aria-label="([^"]+)"', page)
    assert len(labels) == 4
    assert all(len(label) > 80 for label in labels)
    assert page.count("<td>inside</td>") == len(year.verdicts)
    for fault in year.faults:
        assert html.escape(fault) in page
    assert year_page(year) == page


def test_the_year_is_told_on_a_terminal_as_on_the_page(year, page_of_the_year):
    text = year_text(year)
    assert "MISSES" not in text
    assert max(map(len, text.splitlines())) <= 100
    flat, page = " ".join(text.split()), html.unescape(" ".join(page_of_the_year.split()))
    for sentence in (
        "measure first: the volume of the water",
        "what is not in the log looks like corals that eat",
        "in 100000 tanks that the measurements allow",
    ):
        assert sentence in flat
        assert sentence in page


@pytest.mark.usefixtures("year")
def test_the_progress_of_the_year_is_told(progress):
    assert progress == sorted(progress)
    assert progress[-1] == 1.0
    assert len(progress) > 20


def test_the_demo_runs_as_the_readme_says(root, tmp_path):
    page = tmp_path / "plan.html"
    done = subprocess.run(
        [sys.executable, "-m", "demo", str(page)],
        cwd=root, capture_output=True, text=True, check=True, encoding="utf-8",
    )  # fmt: skip
    assert "WHAT TO DO TODAY" in done.stdout
    assert "CAUTIONS" in done.stdout
    assert "THE YEAR, JUDGED BY ITS TRUTH" in done.stdout
    assert "Judging the year" in done.stderr
    for path in (page, tmp_path / "year.html"):
        assert path.read_text("utf-8").startswith("<!DOCTYPE html>")


def test_what_a_keeper_writes_cannot_become_markup(root, tmp_path):
    text = (root / "demo" / "tank.toml").read_text("utf-8")
    text = text.replace("The lamp room tank", "<script>alert(1)</script>")
    (tmp_path / "tank.toml").write_text(text, encoding="utf-8")
    log = (
        (root / "demo" / "log.csv")
        .read_text("utf-8")
        .replace("museum closed", "<b>closed</b> {7*7}")
    )
    (tmp_path / "log.csv").write_text(log, encoding="utf-8")
    page = report.plan_page(plan_from_file(tmp_path / "tank.toml"), book="book")
    assert "<script" not in page
    assert "&lt;b&gt;closed&lt;/b&gt; {7*7}" in page


@pytest.mark.parametrize(
    ("example", "relation", "figure"),
    [
        ("demo-uptake", "alkalinity_uptake", "uptake"),
        ("demo-dose", "alkalinity_need", "need"),
        ("demo-dose", "daily_dose", "dose"),
        ("demo-nitrate", "nitrate_rise", "nitrate_rise"),
        ("demo-nitrate", "potassium_nitrate_volume", "nitrate_dose"),
    ],
)
def test_the_chapter_works_through_the_plan_s_own_numbers(root, plan, example, relation, figure):
    outcome = run(read_example(root / "book" / "examples" / f"{example}.toml"))
    (step,) = [step for step in outcome.steps if step.record.name == relation]
    assert step.value == pytest.approx(plan.figures[figure].value, rel=1e-5)
    for name, given in plan.figures[figure].inputs.items():
        assert step.inputs[name] == pytest.approx(given.value, rel=1e-5)


def test_the_chapter_tells_what_the_plan_says(root, plan):
    chapter = " ".join((root / "book/parts/a_tank_of_our_own.md").read_text("utf-8").split())
    said = {name: f"{f.shown.value:#.3g}" for name, f in plan.figures.items()}
    assert f"{said['uptake_low']} to {said['uptake_high']} dKH a day" in chapter
    assert f"stands at {said['level']} dKH" in chapter
    assert f"a reading of {said['expected']} dKH" in chapter
    assert f"between {said['reading_low']} and {said['reading_high']} in 95" in chapter
    assert f"since May show {said['uptake_calcium']} mg/L a day" in chapter
    assert f"expect {said['calcium_expected']}, two equivalents" in chapter
    assert f"They are {plan.figures['calcium_apart'].value:.1f} standard uncertainties" in chapter
    days = [day_of(entry) for entry in plan.log.readings("calcium")][-6:]
    calcium = mean(simulated().uptake[days[0] : days[-1]]) * MEQ_PER_DKH / 2 * 40.078
    assert f"The truth of these days is {calcium:.2f}" in chapter
    low, high = said["uptake_calcium_low"], said["uptake_calcium_high"]
    assert f"just outside the interval of the calcium readings, {low} to {high};" in chapter
    assert not float(low) <= calcium <= float(high)
    truth = simulated().uptake[-42:]
    assert f"truth of the simulation, {mean(truth):.3f} on average" in chapter


def test_the_chapter_tells_what_the_year_says(root, year, truth):
    chapter = " ".join((root / "book/parts/a_tank_of_our_own.md").read_text("utf-8").split())
    for fault in year.faults:
        assert fault in chapter
    for one in year.verdicts:
        row = (
            f"| {one.what} | {one.truth:#.3g} {one.unit} | {one.estimate:#.3g} "
            f"| {one.low:#.3g} to {one.high:#.3g} |".replace(" 0.00 to", " 0 to")
        )
        assert row.replace("  ", " ") in chapter
    with_row, without = year.forgotten
    assert f"With it six weeks of readings show {with_row:.3f} dKH a day; without it, " in chapter
    assert f"without it, {without:.3f}. The truth is {mean(truth.uptake[263:305]):.3f}" in chapter
    figures, dkh = year.sure.figures, MEQ_PER_DKH
    uptake, dose, grams = (figures[name] for name in ("uptake", "dose", "skeleton"))
    assert f"{uptake.value / dkh:.3f} ± {uptake.standard / dkh:.3f} dKH a day" in chapter
    assert f"| {dose.value:.1f} ± {dose.standard:.1f} mL |" in chapter
    assert f"| {grams.value:.1f} ± {grams.standard:.1f} g |" in chapter
    share = f"{uptake.shares['tank.volume']:.0%}".replace("%", " %")
    assert f"The volume is {share} of the doubt" in chapter
    low, high = (bound["alkalinity"][-1] / dkh for bound in (year.ahead.low, year.ahead.high))
    assert f"between {low:.1f} and {high:.1f} dKH, 19 times in 20" in chapter


def test_the_chapter_works_through_the_algae_and_the_wrong_scale(root, plan):
    light, dose = algae_of_the_readings(plan.log)
    change = dose.gain.value - dose.choice.dosed
    outcome = run(read_example(root / "book/examples/demo-lights.toml"))
    taken, then = outcome.steps
    assert taken.inputs["change"] == pytest.approx(change, abs=6e-4)
    assert taken.inputs["brought"] - then.value == pytest.approx(light.gain.value, abs=1e-3)
    chapter = " ".join((root / "book/parts/a_tank_of_our_own.md").read_text("utf-8").split())
    assert f"fell, by {-change:.2f} mg/L a day" in chapter
    assert f"the gain is {light.gain.value:+.2f} ± {light.gain.standard:.2f} mg/L a day" in chapter
    scale = run(read_example(root / "book/examples/demo-refractometer.toml"))
    assert scale.steps[-1].value == pytest.approx(simulated().salinity[0], rel=1e-9)
    top_off = run(read_example(root / "book/examples/demo-top-off.toml"))
    assert top_off.steps[-1].value == pytest.approx(simulated().salinity[165], abs=0.05)
    (noted,) = [e.note for e in plan.log.readings("salinity") if 165 <= day_of(e) <= 168]
    assert "showed 36.3" in noted
    assert "the log has 36.3" in chapter
