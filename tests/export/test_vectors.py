import json
from importlib.resources import files

import jsonschema
import pytest
from conftest import EXAMPLES, ROOT

from reefchem.core.quantity import quantity
from reefchem.core.record import records
from reefchem.examples import read_examples
from reefchem.export.vectors import as_json, vectors

EVERY = vectors()
FIVE = {"total_alkalinity", "dic", "ph_total", "pco2", "carbonate"}
SCHEMA = json.loads(files("reefchem.export").joinpath("vectors.schema.json").read_text("utf-8"))


def test_vectors_are_what_their_schema_says():
    validator = jsonschema.Draft202012Validator(SCHEMA)
    validator.check_schema(SCHEMA)
    validator.validate(json.loads(json.dumps(as_json(EVERY))))


def test_a_vector_that_says_too_little_does_not_fit_the_schema():
    data = json.loads(json.dumps(as_json(vectors(["seawater_density"]))))
    del data["vectors"][-1]["refusal"]
    with pytest.raises(jsonschema.ValidationError, match="'refusal' is a required property"):
        jsonschema.validate(data, SCHEMA)


def test_every_relation_has_points_inside_at_the_edges_and_refusals():
    kinds = {name: set() for name in records()}
    for vector in EVERY:
        if vector.relation in kinds:
            kinds[vector.relation].add(vector.kind)
    for name, found in kinds.items():
        assert {"interior", "edge"} <= found, name
    refusable = [
        record
        for record in records().values()
        if any(abs(a.possible[0]) < float("inf") for a in record.arguments.values())
    ]
    assert all("refusal" in kinds[record.name] for record in refusable)


def test_ids_are_unique():
    assert len({vector.id for vector in EVERY}) == len(EVERY)


def test_what_is_computed_agrees_with_what_is_expected():
    for vector in EVERY:
        if vector.expected is not None:
            off = abs(vector.computed - vector.expected.value)
            assert off <= vector.expected.tolerance * (1 + 1e-9), vector.id


def test_a_logarithm_in_a_source_becomes_the_number_itself():
    (k0,) = [v for v in EVERY if v.id.startswith("published") and v.printed == "-3.5617"]
    assert k0.expected.value == pytest.approx(0.02839, rel=1e-4)
    assert k0.expected.tolerance == pytest.approx(0.02839 * 5e-5, rel=1e-3)


def test_outside_the_range_is_flagged():
    outside = [vector for vector in EVERY if vector.kind == "outside" and vector.expected]
    assert outside
    assert all(any(" covers " in flag for flag in v.flags) for v in outside)


def test_a_longer_example_gives_a_vector_for_each_step():
    steps = {name: example.steps for name, example in read_examples(EXAMPLES).items()}
    made = {vector.id: vector for vector in EVERY if vector.kind in {"example", "step"}}
    assert len(made) == sum(map(len, steps.values()))
    assert {f"example-{name}" for name in steps} <= made.keys()
    for vector in made.values():
        for argument, earlier in vector.taken_from.items():
            before = made[earlier]
            assert before.kind == "step"
            given = quantity(before.computed, records()[before.relation].unit)
            unit = records()[vector.relation].arguments[argument].unit
            assert vector.inputs[argument] == pytest.approx(given.to(unit).magnitude, rel=1e-12)
        if vector.kind == "step":
            assert any(flag.startswith("step ") for flag in vector.flags)


def test_the_carbonate_system_has_vectors_for_every_pair_choice_and_refusal():
    own = [vector for vector in EVERY if vector.relation == "carbonate_system"]
    pairs = {frozenset(FIVE & vector.inputs.keys()) for vector in own if vector.expected}
    assert len(pairs) == 10
    assert {vector.options.get("carbonic") for vector in own} >= {"roy1993", "sulpis2020"}
    assert {vector.kind for vector in own} == {"published", "interior", "outside", "refusal"}


def test_the_page_of_a_vector_is_in_the_book():
    chapters = {vector.page for vector in EVERY if vector.page.startswith("parts/")}
    assert chapters
    for page in chapters:
        assert (ROOT / "book" / page).with_suffix(".md").exists()


def test_an_unknown_relation_is_refused():
    with pytest.raises(KeyError, match="no relation is called nonsense"):
        vectors(["nonsense"])


def test_a_printed_value_keeps_its_digits_and_its_source():
    published = [v for v in EVERY if v.kind == "published" and v.relation == "seawater_density"]
    assert any(v.source == "fofonoff1983" and v.printed == "1023.34306" for v in published)
