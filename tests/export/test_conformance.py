"""Functions of somebody else: right ones agree, and wrong ones are found and explained."""

import json
import math
import sys

import pytest

from reefchem.carbonate import carbonate_system
from reefchem.core.errors import DomainError
from reefchem.core.record import calculations, records
from reefchem.export import conformance
from reefchem.export.answers import from_command, from_csv, questions
from reefchem.export.conformance import judge, named_like_relations
from reefchem.export.vectors import vectors
from reefchem.seawater import seawater_density

pytestmark = pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")


def test_the_package_agrees_with_itself():
    own = {name: record.function for name, record in (records() | calculations()).items()}
    assert conformance.run(own).agrees


def test_a_program_that_passes_over_everything_is_told_that_nothing_was_judged():
    report = conformance.Report(())
    assert not report.agrees
    assert report.text().splitlines() == [
        "0 vectors, 0 agree.",
        "Every vector was passed over, so nothing was judged.",
    ]


def test_a_result_in_several_parts_is_judged_part_by_part():
    report = conformance.run(carbonate_system)
    assert len({verdict.vector.part for verdict in report.verdicts}) > 1
    assert report.agrees, report.text()


def test_a_small_difference_is_found_and_its_size_told():
    def density(salinity, temperature):
        return seawater_density(salinity, temperature) * 1.00001

    report = conformance.run(density, relation="seawater_density")
    assert not report.agrees
    assert all(v.difference == pytest.approx(1e-5 * v.vector.expected.value, rel=1e-3)
               for v in report.differing if v.vector.kind == "interior")  # fmt: skip
    assert "(0.001 %)" in report.text()
    assert "relations.html#seawater_density" in report.text()


def test_an_answer_to_the_impossible_is_found():
    def seawater_density(salinity, temperature):
        return records()["seawater_density"].kernel(abs(salinity), temperature)

    differing = conformance.run(seawater_density).differing
    assert {verdict.vector.kind for verdict in differing} == {"refusal"}


def test_none_nan_and_exceptions_are_ways_to_refuse():
    refusal = next(v for v in vectors(["seawater_density"]) if v.kind == "refusal")
    assert judge(refusal, None).agrees
    assert judge(refusal, math.nan).agrees
    assert not judge(refusal, 1000.0).agrees


def test_a_refusal_of_the_possible_differs():
    interior = next(v for v in vectors(["seawater_density"]) if v.kind == "interior")
    verdict = judge(interior, None, "ValueError: no")
    assert not verdict.agrees
    assert "no number: ValueError: no" in str(verdict)


def test_a_function_with_other_arguments_is_refused_at_once():
    with pytest.raises(TypeError, match="takes salinity, temperature by name"):
        conformance.run(lambda s, t: s + t, relation="seawater_density")
    with pytest.raises(TypeError, match="'<lambda>' is no relation"):
        conformance.run(lambda salinity, temperature: 0)


def test_a_usual_slip_is_named_in_the_report():
    def seawater_density(salinity, temperature):
        return records()["seawater_density"].kernel(salinity, (temperature - 32) / 1.8)

    text = conformance.run(seawater_density).text()
    assert "perhaps temperature unit: the temperature was taken for °F" in text


PROGRAM = """
import json, sys
for line in sys.stdin:
    asked = json.loads(line)
    s, t = asked["inputs"].values()
    if s < 0 or t < -273.15:
        print(json.dumps({"id": asked["id"], "error": "impossible"}))
    else:
        from reefchem.core.record import describe
        value = describe(asked["relation"]).kernel(s, t)
        print(json.dumps({"id": asked["id"], "value": value}))
"""


def test_a_program_answers_in_json_lines(tmp_path):
    program = tmp_path / "program.py"
    program.write_text(PROGRAM)
    report = from_command(f"{sys.executable} {program}", vectors(["seawater_density"]))
    assert report.agrees, report.text()


def test_a_program_may_skip_but_not_forget(tmp_path):
    program = tmp_path / "program.py"
    program.write_text(
        "import json, sys\n"
        "for line in list(sys.stdin)[1:]:\n"
        "    print(json.dumps({'id': json.loads(line)['id'], 'skip': True}))\n"
    )
    report = from_command(f"{sys.executable} {program}", vectors(["seawater_density"]))
    assert len(report.verdicts) == 1
    assert not report.agrees
    assert "gave no answer" in report.text()


@pytest.mark.parametrize(
    ("source", "said"),
    [
        ("import sys; sys.exit('out of paper')", "ended with status 1: out of paper"),
        ("print('hello')", "line 1 of its output is no answer: 'hello'"),
        ("import time; time.sleep(5)", "timed out"),
    ],
)
def test_a_program_that_goes_wrong_is_told_of(tmp_path, source, said):
    program = tmp_path / "program.py"
    program.write_text(source)
    with pytest.raises(DomainError, match=said):
        from_command(f"{sys.executable} {program}", vectors(["seawater_density"]), seconds=2)


def test_a_program_that_is_not_there_is_told_of():
    with pytest.raises(DomainError, match="No such file"):
        from_command("no-such-program", vectors(["seawater_density"]))


def test_questions_have_bare_numbers_in_recorded_units():
    first = json.loads(questions(vectors(["seawater_density"])).splitlines()[0])
    assert first.keys() == {"id", "relation", "inputs"}
    assert first["inputs"].keys() == {"salinity", "temperature"}


def test_a_table_of_results_is_judged_line_by_line(tmp_path):
    asked = vectors(["seawater_density"])
    table = tmp_path / "results.csv"
    lines = [f"{v.id},{'' if v.computed is None else v.computed}" for v in asked]
    table.write_text("\n".join(["id,value", *lines]))
    assert from_csv(table, asked).agrees
    table.write_text(f"id,value\n{asked[0].id},1000\n")
    report = from_csv(table, asked)
    assert (len(report.verdicts), report.agrees) == (1, False)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("id,result\na,1\n", "results.csv, line 1: .*missing: value"),
        ("id,value\nnonsense,1\n", "line 2, column id: no vector is called 'nonsense'"),
        ("id,value\nedge-seawater_density-all-low,much\n", "column value: 'much' is no number"),
    ],
)
def test_a_table_that_cannot_be_read_is_refused_with_its_line(tmp_path, text, said):
    table = tmp_path / "results.csv"
    table.write_text(text)
    with pytest.raises(DomainError, match=said):
        from_csv(table, vectors(["seawater_density"]))


def test_a_slip_behind_most_differences_is_told_first():
    def seawater_density(salinity, temperature):
        return records()["seawater_density"].kernel(salinity, (temperature - 32) / 1.8)

    second = conformance.run(seawater_density).text().splitlines()[1]
    assert "others: perhaps temperature unit, as the temperature was taken for °F" in second


def test_functions_of_a_module_are_found_by_their_names():
    found = named_like_relations({"seawater_density": seawater_density, "other": print, "x": 1})
    assert found == {"seawater_density": seawater_density}
    with pytest.raises(TypeError, match="no function is named like a relation"):
        named_like_relations({"other": print})
