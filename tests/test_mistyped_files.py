"""A mistake in a file of published values, misprints or exercises is told with file and key."""

from __future__ import annotations

import re

import pytest

from reefchem.core.errors import DomainError
from reefchem.examples.errata import errata
from reefchem.examples.exercise import read_exercise
from reefchem.examples.model import read_example
from reefchem.examples.published import published

VALUE = """source = "fofonoff1983"
[[value]]
relation = "seawater_density"
inputs = { salinity = "35", temperature = "24.9940014397" }
printed = "1023.34306"
at = "p. 19, t68 = 25"
read = "primary"
"""

MISPRINT = """[[erratum]]
source = "fofonoff1983"
at = "p. 19"
relation = "seawater_density"
inputs = { salinity = "35", temperature = "24.9940014397" }
printed = "1032.34306"
should_be = "1023.34306"
read = "primary"
reason = "two digits changed places"
"""

EXERCISE = """title = "Water"
question = "How dense is water of {temperature}?"
level = 1
seed = 7
relation = "pure_water_density"
[inputs]
temperature = { from = "20", to = "30", step = "1", unit = "degC" }
[answer]
unit = "kg/m**3"
within = "0.5 %"
"""

EXAMPLE = """title = "Water"
question = "How dense is it?"
relation = "pure_water_density"
[inputs]
temperature = { value = "25", unit = "degC" }
[printed]
value = "997.05"
unit = "kg/m**3"
source = "bigg1967"
at = "table"
"""

READERS = {
    "values": (VALUE, lambda folder: published("values", folder)),
    "errata": (MISPRINT, errata),
    "exercise": (EXERCISE, lambda folder: read_exercise(folder / "exercise.toml")),
    "example": (EXAMPLE, lambda folder: read_example(folder / "example.toml")),
}


def read(folder, kind, *changes):
    """Write a file, changed here and there, and read it."""
    text, reader = READERS[kind]
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    (folder / f"{kind}.toml").write_text(text, encoding="utf-8")
    return reader(folder)


@pytest.mark.parametrize("kind", READERS)
def test_as_it_stands_it_is_read(kind, tmp_path):
    assert read(tmp_path, kind)


@pytest.mark.parametrize(
    ("kind", "old", "new", "said"),
    [
        ("values", "at = ", "page = ", "values.toml, value 1: unknown key ['page']"),
        ("values", '"primary"', '"seen"', "value 1: read is one of ['memory', 'primary', 'secon"),
        ("values", "at = ", 'as = "ln2"\nat = ', "value 1: read is one of"),
        ("values", "at = ", 'tolerance = "1"\nat = ', "a tolerance of its own needs a reason"),
        ("values", "at = ", 'reason = "so"\nat = ', "needs a reason, and the other way round"),
        ("values", "seawater_density", "density_of_sea", "no relation is called 'density_of_sea'"),
        ("values", "1023.34306", "about 1023", "'about 1023' is not a finite decimal number"),
        ("errata", "reason = ", "why = ", "errata.toml, erratum 1: missing ['reason'], unknown"),
        ("errata", '"two digits changed places"', '""', "missing ['reason'], unknown []"),
        ("errata", "seawater_density", "density_of_sea", "no relation is called 'density_of_sea'"),
        ("exercise", "level = 1", "level = 4", "level is 1, 2 or 3 and seed a whole number; they"),
        ("exercise", "seed = 7", 'seed = "7"', "they are 1, '7'"),
        ("exercise", "seed = ", "seeds = ", "exercise.toml: unknown key ['seeds']"),
        ("exercise", "0.5 %", "0.5", "within is a percentage such as '0.5 %', not '0.5'"),
        ("exercise", '"30"', '"20"', "from 20 to 20 in steps of 1 leaves nothing to draw"),
        ("exercise", 'step = "1"', 'step = "0"', "from 20 to 30 in steps of 0 leaves nothing to"),
        ("exercise", 'title = "Water"', "title = 5", "title is needed, as text; it is 5"),
        ("exercise", 'from = "20"', 'from = "low"', "result.temperature: 'low' is not a finite"),
        ("example", "[printed]", "[print]", "unknown key ['print']"),
        (
            "example",
            'title = "Water"',
            "title = 3",
            "example.toml: title is needed, as text; it is 3",
        ),
    ],
)
def test_a_mistake_is_told_with_file_and_key(kind, old, new, said, tmp_path):
    with pytest.raises(DomainError, match=re.escape(said)) as told:
        read(tmp_path, kind, (old, new))
    assert f"{kind}.toml" in str(told.value)


def test_a_misprint_that_is_right_and_a_correction_that_is_wrong_are_told(tmp_path):
    (turned,) = read(
        tmp_path,
        "errata",
        ("1032.34306", "1023.34306"),
        ('should_be = "1023.', 'should_be = "1032.'),
    )
    right, wrong = turned.faults()
    assert right.startswith("fofonoff1983, p. 19: seawater_density computes 1023.3430")
    assert right.endswith(", as printed (1023.34306); that is no misprint")
    assert wrong.endswith(", not 1032.34306 as it is said to be right")
    assert read(tmp_path, "errata")[0].faults() == []


def test_a_misprint_without_inputs_is_taken_at_its_word(tmp_path):
    (told,) = read(
        tmp_path,
        "errata",
        ('inputs = { salinity = "35", temperature = "24.9940014397" }\n', ""),
        ("1032.34306", "nothing like it"),
    )
    assert told.faults() == []


def test_without_a_list_of_misprints_there_are_none(tmp_path):
    assert errata(tmp_path) == []
