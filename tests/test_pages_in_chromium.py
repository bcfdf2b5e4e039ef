"""The built pages in a browser without a network: they compute what Python computes."""

from __future__ import annotations

import json
import random
import re
from dataclasses import replace

import chromium
import pytest
from conftest import EXAMPLES, ROOT

from reefchem.core.errors import DomainError
from reefchem.examples import Given, in_unit, read_examples, read_exercises, run_steps

KNOWN = read_examples(EXAMPLES)
EXERCISES = read_exercises(ROOT / "book" / "exercises")
DIRECTIVE = re.compile(r"^[`:]{3,}\{(worked-example|exercise)\}[ \t]+([\w.-]+)", re.MULTILINE)
CHAPTERS = {
    path.stem: DIRECTIVE.findall(path.read_text(encoding="utf-8"))
    for path in sorted((ROOT / "book" / "parts").glob("*.md"))
}
LIVE = [stem for stem, found in CHAPTERS.items() if any(kind[0] == "w" for kind, _ in found)]
ASKING = [stem for stem, found in CHAPTERS.items() if any(kind[0] == "e" for kind, _ in found)]
PHONE = {"width": 360, "height": 740}

pytestmark = pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")


def data_of(section):
    return json.loads(section.locator("script.textbook-data").text_content())


def drawn(data, seed):
    """Return text and unit of each input: a number in its span, in one of the units on offer."""
    source = random.Random(seed)  # noqa: S311 - a test that repeats itself
    typed = {}
    for field in data["inputs"]:
        unit = source.choice(field["units"])
        low, high = ((x - unit["offset"]) / unit["factor"] for x in field["span"])
        typed[field["key"]] = (f"{source.uniform(low, high):.6g}", unit["unit"])
    return typed


def type_in(section, typed):
    for key, (text, unit) in typed.items():
        box = section.locator(f'[data-input="{key}"]')
        if box.locator("select").count():
            box.locator("select").select_option(unit)
        box.locator("input").fill(text)


def in_python(example, data, typed):
    """Return what Python computes for typed inputs, or None where it refuses."""
    steps = []
    for step, told in zip(example.steps, data["steps"], strict=True):
        changed = {
            name: Given(*typed[told["arguments"][name]["input"]])
            for name, given in step.inputs.items()
            if not given.step
        }
        steps.append(replace(step, inputs={**step.inputs, **changed}))
    try:
        return in_unit(run_steps(example.id, steps)[-1], example.expected.unit)
    except DomainError:
        return None


@pytest.mark.parametrize("chapter", LIVE)
def test_every_live_example_computes_what_python_computes(browser, built_book, chapter):
    answered = 0
    with chromium.opened(browser, built_book / "parts" / f"{chapter}.html") as page:
        for kind, name in CHAPTERS[chapter]:
            section = page.locator(f"#example-{name}")
            if kind != "worked-example" or not section.locator("script.textbook-data").count():
                continue
            for seed in (1, 2):
                data = data_of(section)
                typed = drawn(data, f"{name} {seed}")
                type_in(section, typed)
                right = in_python(KNOWN[name], data, typed)
                shown = section.get_attribute("data-result")
                if right is None:
                    assert shown in {None, "NaN", "Infinity", "-Infinity"}, (name, typed)
                else:
                    assert float(shown) == pytest.approx(right, rel=1e-12), (name, typed)
                    answered += 1
    assert answered


@pytest.mark.parametrize("chapter", LIVE)
def test_back_at_the_given_inputs_the_page_is_what_it_was_without_script(
    browser, built_book, chapter
):
    file = built_book / "parts" / f"{chapter}.html"
    read = "all => all.map(e => e.innerText.replaceAll('\\u2009', ' '))"
    with chromium.opened(browser, file, java_script_enabled=False) as page:
        still = [
            e.inner_text() for e in page.locator(".can-change .step, .can-change .check").all()
        ]
    with chromium.opened(browser, file) as page:
        for section in page.locator(".can-change").all():
            first = section.locator("input").first
            given = first.input_value()
            first.fill("1.2345")
            first.fill(given)
            assert not section.get_by_text("Back to the given values").is_visible()
        page.wait_for_timeout(50)
        live = page.locator(".can-change .step, .can-change .check").evaluate_all(read)
    assert [squeezed(t) for t in live] == [squeezed(t) for t in still]


def squeezed(text):
    return re.sub(r"\s+", "", text)


@pytest.mark.parametrize("chapter", ASKING)
def test_exercises_judge_answers_as_python_does(browser, built_book, chapter):
    with chromium.opened(browser, built_book / "parts" / f"{chapter}.html") as page:
        for kind, name in CHAPTERS[chapter]:
            if kind != "exercise":
                continue
            exercise, section = EXERCISES[name], page.locator(f"#exercise-{name}")
            for seed in (exercise.seed, exercise.seed + 1):
                assert section.locator(".question").inner_text() == exercise.asked(seed)
                truth = exercise.answer(seed)
                for factor, verdict in ((1, "Right"), (1 + 0.9 * exercise.within, "Right"),
                                        (1 + 1.1 * exercise.within, "Not yet")):  # fmt: skip
                    section.locator("form input").fill(repr(truth * factor))
                    section.get_by_role("button", name="Check").click()
                    assert section.locator(".verdict").inner_text().startswith(verdict), (
                        name,
                        seed,
                    )
                solution = section.locator("output.answer .number").text_content()
                assert number(solution) == pytest.approx(truth, rel=1e-4)
                section.get_by_role("button", name="Other numbers").click()


def number(text):
    raised = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻−", "0123456789--")
    return float(text.translate(raised).replace(" × 10", "e"))


def all_pages(built_book):
    return [p for p in sorted(built_book.rglob("*.html")) if "_static" not in p.parts]


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_no_page_is_wider_than_a_phone(browser, built_book, theme):
    for file in all_pages(built_book):
        with chromium.opened(browser, file, viewport=PHONE, color_scheme=theme) as page:
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
            width = page.evaluate("document.documentElement.scrollWidth")
            assert width <= PHONE["width"], (file.name, width)


def test_dark_pages_have_light_text_and_figures(browser, built_book):
    file = built_book / "parts" / "two_part.html"
    with chromium.opened(browser, file, color_scheme="dark") as page:
        colour = "e => getComputedStyle(e).color.match(/\\d+/g).map(Number)"
        for selector in (".worked-example .title", ".relation math", ".drawn svg"):
            red, green, blue = page.locator(selector).first.evaluate(colour)[:3]
            assert min(red, green, blue) > 150, selector


def test_a_link_to_a_relation_leads_on_to_its_entry(browser, built_book):
    file = built_book / "relations.html"
    with chromium.opened(browser, file, fragment="#seawater_density") as page:
        page.wait_for_url("**/relations/seawater.html#seawater_density")
        assert page.locator("#seawater_density .formula").is_visible()
