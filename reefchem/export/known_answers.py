"""Vectors whose answer has another author: published values and worked examples, step by step."""

from __future__ import annotations

import math
import warnings
from typing import TYPE_CHECKING

from reefchem.core.quantity import conversion, quantity
from reefchem.core.record import calculations, records
from reefchem.examples.model import read_examples
from reefchem.examples.published import published_values
from reefchem.examples.runner import run
from reefchem.export.calculations import parts_of
from reefchem.export.folders import examples_folder, published_folder
from reefchem.export.vector import Expected, Vector, near, range_flags

if TYPE_CHECKING:
    from collections.abc import Container, Iterator

    from reefchem.examples.published import PublishedValue
    from reefchem.examples.runner import Outcome

__all__ = ["examples_as_vectors", "published_as_vectors"]


def published_as_vectors(wanted: Container[str]) -> Iterator[Vector]:
    """Give a vector for each published value of the wanted relations."""
    folder = published_folder()
    counts: dict[str, int] = {}
    for value in published_values(folder) if folder else []:
        key = f"{value.source}-{value.relation}"
        counts[key] = counts.get(key, 0) + 1
        if value.relation not in wanted:
            continue
        record = (records() | calculations())[value.relation]
        unit = record.unit or parts_of(record).get(value.part, "1")
        with warnings.catch_warnings(record=True) as caught:
            warnings.simplefilter("always")
            expected, computed = _as_recorded(value, unit)
        tolerance = (f"tolerance: {value.reason}",) if value.reason else ()
        yield Vector(
            id=f"published-{key}-{counts[key]}",
            kind="published",
            relation=value.relation,
            inputs=dict(value.inputs),
            expected=expected,
            computed=computed,
            part=value.part,
            options=dict(value.options),
            flags=(*tolerance, *range_flags(caught)),
            source=value.source,
            at=value.at,
            printed=value.printed,
        )


def _back(scale: str, value: float) -> float:
    """Return the number of which a source prints a logarithm."""
    if not scale:
        return value
    return math.exp(value) if scale == "ln" else 10.0 ** (-value if scale[0] == "-" else value)


def _as_recorded(value: PublishedValue, unit: str) -> tuple[Expected, float]:
    """Return the printed number and what is computed in the recorded unit, without logarithm."""
    low, middle, high = (
        _back(value.scale, x)
        for x in (value.value - value.tolerance, value.value, value.value + value.tolerance)
    )
    tolerance = max(abs(high - middle), abs(low - middle))
    computed = _back(value.scale, value.computed())
    if not value.part and value.unit not in {"", unit}:
        factor, offset = conversion(quantity(1.0, value.unit), unit, value.relation)
        middle, computed = middle * factor + offset, computed * factor + offset
        tolerance *= abs(factor)
    return Expected(middle, unit, tolerance), computed


def examples_as_vectors(wanted: Container[str]) -> Iterator[Vector]:
    """Give the vectors of worked examples: one for each step of a wanted relation, in order."""
    folder = examples_folder()
    for example in read_examples(folder).values() if folder else []:
        if not any(step.relation in wanted for step in example.steps):
            continue
        with warnings.catch_warnings(record=True) as caught:
            warnings.simplefilter("always")
            outcome = run(example)
        made = _steps(outcome, range_flags(caught))
        yield from (vector for vector in made if vector.relation in wanted)


def _steps(outcome: Outcome, ranges: tuple[str, ...]) -> Iterator[Vector]:
    """Give a vector for each step; inputs that are results of earlier ones say of which."""
    example, done = outcome.example, outcome.steps
    title = f"example-{example.id}"
    ids = {step.id: title if step is outcome.last else f"{title}-{step.id}" for step in done}
    for given, step in zip(example.steps, done, strict=True):
        last = step is outcome.last
        told = outcome.expected
        said = {"exact": "by hand", "common": "common practice, no source", "printed": ""}
        flags = (said[told.kind], told.reason and f"tolerance: {told.reason}")
        number = list(ids).index(step.id) + 1
        way = f"step {number} of {len(done)}: {example.title}" if len(done) > 1 else ""
        own = tuple(text for text in ranges if text.startswith(f"{step.record.name}:"))
        yield Vector(
            id=ids[step.id],
            kind="example" if last else "step",
            relation=step.record.name,
            inputs=dict(step.inputs),
            expected=_answer(outcome) if last else near(step.value, step.record.unit),
            computed=step.value,
            flags=tuple(filter(None, (way, *(flags if last else ()), *own))),
            source=told.source if last else "",
            at=told.at if last else "",
            printed=f"{told.value} {told.unit}" if last else "",
            taken_from={name: ids[g.step] for name, g in given.inputs.items() if g.step},
        )


def _answer(outcome: Outcome) -> Expected:
    """Return the printed answer in the recorded unit."""
    record, told = outcome.last.record, outcome.expected
    if told.unit == record.unit:
        return Expected(told.number, record.unit, told.tolerance)
    factor, offset = conversion(quantity(1.0, told.unit), record.unit, record.name)
    return Expected(told.number * factor + offset, record.unit, told.tolerance * abs(factor))
