"""The demo end to end: from two invented files to a plan that knows nothing of the truth."""

from __future__ import annotations

import html
import json
import re
import subprocess
import sys
from html.parser import HTMLParser

import pytest

from demo import __main__ as demo
from demo.simulate import MEQ_PER_DKH, SLIP_DAY, simulated, write_log
from reefchem import report
from reefchem.core.record import describe
from reefchem.examples import read_example, run
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


def test_the_log_is_the_one_that_the_simulation_makes(root, tmp_path):
    write_log(tmp_path / "log.csv")
    assert (tmp_path / "log.csv").read_text("utf-8") == (root / "demo/log.csv").read_text("utf-8")


def test_both_files_say_that_they_are_invented(root):
    for name in ("tank.toml", "log.csv"):
        assert (root / "demo" / name).read_text("utf-8").startswith("# INVENTED.")


def test_the_interval_holds_the_true_uptake(plan):
    truth = simulated().uptake[-42:]
    true = sum(truth) / len(truth) * MEQ_PER_DKH
    assert plan.estimate.low <= true <= plan.estimate.high


def test_the_level_is_the_true_alkalinity(plan):
    last = plan.estimate.readings[-1]
    day = 364 - 3
    assert last.entry.when.date().isoformat() == "2026-10-31"
    true = simulated().alkalinity[day + 1] * MEQ_PER_DKH
    reach = 3 * plan.estimate.last_error + 0.01
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
                assert data["figures"][name]["shown"]["text"] in line["text"]


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
    assert "Sodium chloride left behind" in labels[0]
    assert "18 readings of alkalinity" in labels[1]
    assert "var(--plot-1)" in page
    assert "#0102" not in page


def test_the_page_is_the_same_each_time(page, plan):
    again = report.plan_page(plan, book="../../book/_build/html", how_to_build=demo.HOW_TO_BUILD)
    assert again == page


def test_the_demo_runs_as_the_readme_says(root, tmp_path):
    page = tmp_path / "plan.html"
    done = subprocess.run(
        [sys.executable, "-m", "demo", str(page)],
        cwd=root, capture_output=True, text=True, check=True, encoding="utf-8",
    )  # fmt: skip
    assert "WHAT TO DO TODAY" in done.stdout
    assert "CAUTIONS" in done.stdout
    assert page.read_text("utf-8").startswith("<!DOCTYPE html>")


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
    truth = simulated().uptake[-42:]
    assert f"truth of the simulation, {sum(truth) / len(truth):.3f} on average" in chapter
