"""Every worked example agrees with its printed answer, and with no neighbour of it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from conftest import EXAMPLES, ROOT

from reefchem.core.errors import DomainError
from reefchem.core.sources import entries
from reefchem.examples import read_example, read_examples, run
from reefchem.examples.exercise import read_exercises

WORKED = read_examples(EXAMPLES)
EXERCISES = read_exercises(ROOT / "book" / "exercises")

each = pytest.mark.parametrize("example", WORKED.values(), ids=WORKED.keys())
asked = pytest.mark.parametrize("exercise", EXERCISES.values(), ids=EXERCISES.keys())

pytestmark = pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")


@each
def test_the_answer_agrees_with_the_printed_one(example):
    outcome = run(example)
    assert outcome.agrees, str(outcome)


def altered(example, sign):
    """Return the example with its answer moved by a unit of the last digit.

    Where the tolerance is wider than the digits, it is moved by as much as the tolerance spans.
    """
    printed = Decimal(example.expected.value)
    unit = Decimal((0, (1,), int(printed.as_tuple().exponent)))
    step = max(unit, 2 * Decimal(repr(example.expected.tolerance)))
    moved = replace(example.expected, value=str(printed + sign * step))
    return replace(example, expected=moved)


@each
def test_an_answer_altered_in_its_last_digit_does_not_agree(example):
    outcomes = [run(altered(example, sign)) for sign in (1, -1)]
    assert not all(outcome.agrees for outcome in outcomes)
    assert any("DISAGREES" in str(outcome) for outcome in outcomes)


@each
def test_an_example_says_what_it_asks_and_where_its_answer_stands(example):
    assert example.title
    assert not example.title.endswith(".")
    expected = example.expected
    if expected.kind == "printed":
        assert expected.source in entries()
        assert expected.at
    else:
        assert expected.reasoning


def test_there_are_enough_of_each_kind():
    kinds = [example.expected.kind for example in WORKED.values()]
    assert len(kinds) >= 10
    assert kinds.count("printed") >= 3
    assert kinds.count("exact") >= 3


@asked
@pytest.mark.parametrize("seed", [None, 0, 1, 2, 20240229, 4294967295])
def test_an_exercise_has_a_question_and_a_finite_answer_for_any_seed(exercise, seed):
    question, answer = exercise.asked(seed), exercise.answer(seed)
    assert "{" not in question
    assert answer == answer
    assert abs(answer) != float("inf")
    assert answer != 0, "a relative tolerance judges nothing at zero"


@asked
def test_other_seeds_draw_other_numbers(exercise):
    assert exercise.draws
    assert len({exercise.asked(seed) for seed in range(12)}) > 1
    assert exercise.asked(5) == exercise.asked(5)


@asked
def test_level_and_tolerance_of_an_exercise_are_sensible(exercise):
    assert 0 < exercise.within <= 0.05
    assert exercise.level in {1, 2, 3}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("title = 'T'", r"one of .* is needed|\['relation', 'inputs'\] is missing"),
        ("title = 'T'\ncolour = 'red'", r"unknown key \['colour'\]"),
        (
            (
                "title = 'T'\nrelation = 'us_gallons'\n[inputs]\n[exact]\nvalue = 'many'\n"
                "unit = '1'\nreasoning = 'none'"
            ),
            "'many' is not a finite decimal number",
        ),
        (
            (
                "title = 'T'\nrelation = 'us_gallons'\n[inputs]\n[exact]\nvalue = '1'\nunit = '1'\n"
                "reasoning = 'none'\ntolerance = '1'"
            ),
            "a tolerance of its own needs a reason",
        ),
        (
            (
                "title = 'T'\nrelation = 'us_gallons'\n[inputs]\nx = {step = 'later'}\n[exact]\n"
                "value = '1'\nunit = '1'\nreasoning = 'none'"
            ),
            "names 'later', which is no earlier step",
        ),
    ],
    ids=["nothing", "unknown key", "no number", "tolerance without reason", "later step"],
)
def test_an_example_that_cannot_be_read_is_refused_with_file_and_key(tmp_path, text, said):
    path = tmp_path / "odd.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(DomainError, match=rf"odd\.toml.*({said})"):
        read_example(path)


def test_a_step_with_inputs_that_do_not_fit_is_refused():
    example = next(iter(WORKED.values()))
    step = replace(example.steps[0], inputs={})
    with pytest.raises(TypeError, match="missing"):
        run(replace(example, steps=(step,)))
