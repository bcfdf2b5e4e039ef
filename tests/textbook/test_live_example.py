"""A live example in the hands of a reader, on a page of the little book."""

from __future__ import annotations

from math import log2

import chromium
import pytest

from reefchem.core.constants import ZERO_CELSIUS

CLAP = "#example-clap-in-a-cold-room"


@pytest.fixture
def page(browser, second_book):
    with chromium.opened(browser, second_book / "index.html") as page:
        yield page


@pytest.fixture
def clap(page):
    return page.locator(CLAP)


def result(section):
    shown = section.get_attribute("data-result")
    return None if shown is None else float(shown)


def field(section, name):
    return section.locator(f'[data-input="result.{name}"] input')


def unit(section, name):
    return section.locator(f'[data-input="result.{name}"] select')


def speed(celsius):
    return 343.2 * ((celsius + ZERO_CELSIUS) / (20 + ZERO_CELSIUS)) ** 0.5


def test_a_number_that_is_typed_is_computed_at_once(clap):
    field(clap, "temperature").fill("0")
    assert result(clap) == pytest.approx(1000 * 3.432 / speed(0), rel=1e-12)
    assert clap.locator(".result .number").first.inner_text().startswith("10.36")


def test_the_numbers_in_the_formula_follow(page, clap):
    field(clap, "distance").fill("1,5")
    field(clap, "temperature").fill("-3.25")
    numbers = clap.locator(".formula").nth(1)
    shown = [row.text_content() for row in numbers.locator("[data-slot]").all()]
    assert shown == ["1.5", f"{speed(-3.25):.6g}"]
    called = clap.locator(".called .number")
    assert called.inner_text() == f"{speed(-3.25):.6g}"
    field(clap, "distance").fill("-1")
    assert numbers.locator("[data-slot]").first.text_content() == "–"
    field(clap, "distance").fill("3e-7")
    assert numbers.locator("[data-slot]").first.text_content() == "3×10−7"


def test_another_unit_says_the_same_thing(clap):
    unit(clap, "temperature").select_option("degF")
    assert field(clap, "temperature").input_value() == "68"
    unit(clap, "distance").select_option("ft")
    assert float(field(clap, "distance").input_value()) == pytest.approx(11.2598, abs=1e-4)
    assert result(clap) == pytest.approx(10, rel=1e-9)


def test_a_root_is_found_in_the_page(page):
    section = page.locator("#example-time-for-a-value")
    section.locator('[data-input="time.exposure"] input').fill("10")
    section.locator('[data-input="time.aperture"] input').fill("5.6")
    time = 5.6**2 / 2**10
    assert result(section) == pytest.approx(exposure(8, time), rel=1e-12)


def exposure(aperture, time):
    return log2(aperture**2 / time)


def test_a_decimal_comma_is_read_and_a_doubtful_one_refused(clap):
    distance = field(clap, "distance")
    distance.fill("1,716")
    assert "either" in clap.locator(".note").first.inner_text()
    assert result(clap) is None
    distance.fill("1,7160")
    assert result(clap) == pytest.approx(5, rel=1e-9)
    distance.fill("a lot")
    assert "not a number" in clap.locator(".note").first.inner_text()


def test_outside_the_range_is_said_and_the_impossible_refused(clap):
    temperature = field(clap, "temperature")
    note = clap.locator(".note").nth(1)
    temperature.fill("80")
    assert "outside the source's range, −20 to 50" in note.inner_text()
    assert result(clap) is not None
    temperature.fill("-300")
    assert "impossible" in note.inner_text()
    assert temperature.get_attribute("aria-invalid") == "true"
    assert result(clap) is None
    assert clap.locator(".result .number").first.inner_text() == "–"


def test_a_field_is_called_what_its_record_says(clap):
    assert clap.get_by_role("textbox", name="way of the sound").input_value() == "3.432"
    assert clap.get_by_label("unit of way of the sound").input_value() == "m"


def test_a_result_on_the_way_outside_a_range_is_said_too(page):
    section = page.locator("#example-echo-as-thermometer")
    said = section.locator(".outside").nth(1)
    speed = section.locator('[data-input="air.speed"] input')
    assert not said.is_visible()
    speed.fill("400")
    assert said.inner_text() == (
        "temperature: outside the source's range, −20 to 50; the value is used as given"
    )
    assert result(section) == pytest.approx(1000 * 3.432 / 400, rel=1e-12)
    speed.fill("343.2")
    assert not said.is_visible()


def test_the_badge_speaks_of_the_given_numbers_only(page, clap):
    assert clap.locator(".check .mark").is_visible()
    field(clap, "distance").fill("2")
    assert not clap.locator(".check .mark").is_visible()
    clap.get_by_role("button", name="Back to the given values").click()
    assert clap.locator(".check .mark").is_visible()
    assert field(clap, "distance").input_value() == "3.432"
    assert page.evaluate("document.activeElement.tagName") == "INPUT"


def test_a_link_carries_the_inputs_of_the_reader(browser, second_book, clap):
    field(clap, "distance").fill("2,5000")
    unit(clap, "temperature").select_option("degF")
    address = clap.get_by_role("link", name="Link to these numbers").get_attribute("href")
    with chromium.opened(browser, second_book / "index.html", fragment=address) as page:
        there = page.locator(CLAP)
        assert result(there) == result(clap)
        assert field(there, "distance").input_value() == "2.5000"
        assert unit(there, "temperature").input_value() == "degF"
        page.wait_for_timeout(200)
        assert there.locator(".title").bounding_box()["y"] < 700, "the page goes to the example"


def test_an_address_with_nonsense_changes_nothing(browser, second_book):
    for nonsense in ("%ZZ", "?result.distance=none", "?result.other=5 m", "?result.distance=5 kg"):
        address = f"{CLAP}{nonsense}"
        with chromium.opened(browser, second_book / "index.html", fragment=address) as page:
            assert field(page.locator(CLAP), "distance").input_value() == "3.432"


def test_the_keyboard_reaches_everything(page, clap):
    distance = field(clap, "distance")
    distance.focus()
    page.keyboard.press("ArrowUp")
    assert distance.input_value() == "3.433"
    page.keyboard.press("Escape")
    assert distance.input_value() == "3.432"
    page.keyboard.press("ArrowDown")
    seen = set()
    for _ in range(16):
        page.keyboard.press("Tab")
        seen.add(page.evaluate("document.activeElement.textContent.trim()"))
    assert {"Back to the given values", "Link to these numbers", "Result over one input"} <= seen


def test_what_changed_is_told_to_a_screen_reader(page, clap):
    field(clap, "distance").fill("2")
    clap.get_by_role("status").get_by_text("Result: 5.828").wait_for(timeout=3000, state="attached")
    for one in page.locator("section :is(input, select):visible").all():
        name = one.get_attribute("id")
        labelled = name and page.locator(f'label[for="{name}"]').count()
        assert labelled or one.get_attribute("aria-label") or one.get_attribute("placeholder")


def test_the_first_live_result_comes_within_a_tenth_of_a_second(page):
    took, shown = page.evaluate(
        """(selector) => {
          const section = document.querySelector(selector);
          const field = section.querySelector("input");
          const start = performance.now();
          field.value = "2";
          field.dispatchEvent(new Event("input"));
          return [performance.now() - start, section.dataset.result];
        }""",
        CLAP,
    )
    assert took < 100
    assert float(shown) == pytest.approx(5.82751, rel=1e-5)


def test_a_curve_is_drawn_from_the_same_code(clap):
    clap.get_by_text("Result over one input").click()
    plot = clap.locator(".plot svg")
    assert "as way of the sound goes from 0.1 to 10 m" in plot.get_attribute("aria-label")
    assert plot.locator("path.line").count() == 1
    clap.get_by_label("input along the curve").select_option(index=1)
    assert "as temperature goes from −20 to 50 °C" in plot.get_attribute("aria-label")


def test_an_exercise_judges_in_any_unit_and_draws_again(page):
    section = page.locator("#exercise-wait-for-the-clap")
    first = section.locator(".question").inner_text()
    section.get_by_role("button", name="Other numbers").click()
    assert section.locator(".question").inner_text() != first
    given = section.locator(".given").all_text_contents()
    metres, celsius = (float(text.split()[0].replace("−", "-")) for text in given)
    section.locator("form input").fill(f"{metres / speed(celsius):.6f}".replace(".", ","))
    section.get_by_label("unit of your answer").select_option("s")
    section.get_by_role("button", name="Check").click()
    assert section.locator(".verdict").inner_text().startswith("Right")
    section.locator("form input").fill("1")
    section.locator("form input").press("Enter")
    assert section.locator(".verdict").inner_text().startswith("Not yet")


def test_an_example_that_is_not_live_has_no_fields(page):
    assert page.locator("#example-speed-at-twenty input").count() == 0


def test_without_script_every_example_is_complete(browser, second_book):
    file = second_book / "index.html"
    with chromium.opened(browser, file, java_script_enabled=False) as page:
        section = page.locator(CLAP)
        assert section.locator("input").count() == 0
        text = section.inner_text()
        assert "3.432 m" in text
        assert "10 ms" in text
        assert "✓" in text


def test_paper_has_the_numbers_but_no_buttons(page, clap):
    field(clap, "distance").fill("2")
    page.emulate_media(media="print")
    assert not clap.get_by_role("button").first.is_visible()
    assert not clap.get_by_text("Result over one input").is_visible()
    assert field(clap, "distance").is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_text_and_figures_stand_out_from_the_page(browser, second_book, scheme):
    file = second_book / "index.html"
    colours = """(node) => {
      const numbers = (text) => text.match(/[\\d.]+/g).map(Number);
      let behind = node;
      const back = (one) => getComputedStyle(one).backgroundColor;
      while (back(behind) === "rgba(0, 0, 0, 0)") behind = behind.parentElement;
      return [numbers(getComputedStyle(node).color), numbers(back(behind))];
    }"""
    with chromium.opened(browser, file, color_scheme=scheme) as page:
        for selector in (".worked-example .title", ".uses", ".check .mark", ".label", ".caption",
                         ".relation a", ".drawn svg", ".formula math", "select"):  # fmt: skip
            text, behind = page.locator(selector).first.evaluate(colours)
            assert contrast(text, behind) >= 4.5, selector


def contrast(one, other):
    """Return the contrast of two colours as WCAG 2 defines it."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour):
    parts = [c / 255 for c in colour[:3]]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
