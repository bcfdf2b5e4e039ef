"""Test vectors: inputs with units, and what a right implementation answers or refuses.

Five kinds stand side by side. *Published* values and *examples* carry a number that somebody else
printed, or that can be worked by hand. *Interior* points and *edges* of the ranges carry what this
package computes. *Outside* points lie beyond a source's range: they are computed and flagged.
*Refusals* are impossible, and a right implementation gives no number for them.
"""

from __future__ import annotations

import math
import warnings
from dataclasses import asdict, dataclass, field
from importlib.metadata import version
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError, RangeWarning
from reefchem.core.quantity import conversion, quantity
from reefchem.core.record import calculations, records
from reefchem.core.sources import citation
from reefchem.examples.model import read_examples
from reefchem.examples.published import published_values
from reefchem.examples.runner import run
from reefchem.export.folders import examples_folder, published_folder
from reefchem.export.javascript import record_data

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from reefchem.core.record import Record
    from reefchem.examples.published import PublishedValue
    from reefchem.examples.runner import Outcome

__all__ = ["FORMAT", "Expected", "Vector", "as_json", "vectors"]

FORMAT = "reefchem-vectors-1"
CLOSE = 1e-6
"""Share of a computed value that still counts as agreement."""


@dataclass(frozen=True)
class Expected:
    """The answer, in the recorded unit, and how far off still agrees."""

    value: float
    unit: str
    tolerance: float


@dataclass(frozen=True)
class Vector:
    """One point: a relation, its inputs, and what is expected.

    Attributes
    ----------
    kind
        ``"published"``, ``"example"``, ``"interior"``, ``"edge"``, ``"outside"``, ``"refusal"``.
    inputs
        Number by argument, in the recorded units.
    part
        Field of the result, where the relation is a calculation with several.
    expected
        None where a right implementation gives no number.
    computed
        What this package computes, to the last digit.
    refusal
        Why no number is given.
    flags
        What a reader should know, such as that an input is outside the source's range.
    source, at, printed
        Who printed the number, where, and its digits.
    """

    id: str
    kind: str
    relation: str
    inputs: dict[str, float]
    expected: Expected | None
    computed: float | None = None
    refusal: str = ""
    part: str = ""
    options: dict[str, Any] = field(default_factory=dict)
    flags: tuple[str, ...] = ()
    source: str = ""
    at: str = ""
    printed: str = ""

    @property
    def page(self) -> str:
        """Where the book explains the relation."""
        return f"relations.html#{self.relation}"


def vectors(names: Iterable[str] | None = None) -> list[Vector]:
    """Return every vector, or those of some relations.

    Parameters
    ----------
    names
        Relations; all when left out.

    Raises
    ------
    KeyError
        When a name is that of no relation.
    """
    known = records()
    wanted = set(names) if names is not None else None
    unknown = (wanted or set()) - known.keys() - calculations().keys()
    if unknown:
        msg = f"no relation is called {', '.join(sorted(unknown))}"
        raise KeyError(msg)
    made = [*_published(wanted), *_examples(wanted)]
    for record in known.values():
        if wanted is None or record.name in wanted:
            made += _points(record)
    return made


def as_json(made: list[Vector]) -> dict[str, Any]:
    """Return vectors and the records they speak of for JSON, as ``vectors.schema.json`` says."""
    known = records()
    used = sorted({vector.relation for vector in made} & known.keys())
    return {
        "format": FORMAT,
        "made_by": f"reefchem {version('reefchem')}",
        "relations": {name: record_data(known[name]) for name in used},
        "vectors": [_data(vector) for vector in made],
    }


def _data(vector: Vector) -> dict[str, Any]:
    arguments = (records() | calculations())[vector.relation].arguments
    data: dict[str, Any] = {
        "id": vector.id,
        "kind": vector.kind,
        "relation": vector.relation,
        "inputs": {
            name: {"value": value, "unit": arguments[name].unit}
            for name, value in vector.inputs.items()
        },
        "expected": asdict(vector.expected) if vector.expected else None,
        "page": vector.page,
    }
    for name in ("computed", "refusal", "part", "options", "source", "at", "printed"):
        value = getattr(vector, name)
        if value not in {None, ""} if not isinstance(value, dict) else value:
            data[name] = value
    if vector.flags:
        data["flags"] = list(vector.flags)
    if vector.source:
        data["cited"] = citation(vector.source)
    return data


def _published(wanted: set[str] | None) -> Iterator[Vector]:
    folder = published_folder()
    counts: dict[str, int] = {}
    for value in published_values(folder) if folder else []:
        key = f"{value.source}-{value.relation}"
        counts[key] = counts.get(key, 0) + 1
        if wanted is not None and value.relation not in wanted:
            continue
        record = (records() | calculations())[value.relation]
        unit = record.unit or _unit_of_part(value)
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
            flags=(*tolerance, *_range_flags(caught)),
            source=value.source,
            at=value.at,
            printed=value.printed,
        )


def _unit_of_part(value: PublishedValue) -> str:
    return value.unit or "1"


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


def _examples(wanted: set[str] | None) -> Iterator[Vector]:
    folder = examples_folder()
    for example in read_examples(folder).values() if folder else []:
        (first, *others) = example.steps
        if not others and (wanted is None or first.relation in wanted):
            yield _example(run(example))


def _example(outcome: Outcome) -> Vector:
    step, told = outcome.steps[-1], outcome.expected
    value, tolerance = told.number, told.tolerance
    if told.unit != step.record.unit:
        factor, offset = conversion(quantity(1.0, told.unit), step.record.unit, step.record.name)
        value, tolerance = value * factor + offset, tolerance * abs(factor)
    flags = {"exact": "by hand", "common": "common practice, no source", "printed": ""}[told.kind]
    return Vector(
        id=f"example-{outcome.example.id}",
        kind="example",
        relation=step.record.name,
        inputs=dict(step.inputs),
        expected=Expected(value, step.record.unit, tolerance),
        computed=step.value,
        flags=tuple(filter(None, (flags, told.reason and f"tolerance: {told.reason}"))),
        source=told.source,
        at=told.at,
        printed=f"{told.value} {told.unit}",
    )


def _points(record: Record) -> Iterator[Vector]:
    """Give interior points, edges, points outside and refusals of a relation."""
    spans = {name: argument.span for name, argument in record.arguments.items()}
    for index in range(3):
        inputs = {
            name: _rounded(low + _share(index, place) * (high - low))
            for place, (name, (low, high)) in enumerate(spans.items())
        }
        yield _point(record, "interior", str(index + 1), inputs)
    yield _point(record, "edge", "all-low", {name: span[0] for name, span in spans.items()})
    yield _point(record, "edge", "all-high", {name: span[1] for name, span in spans.items()})
    middle = {name: _rounded((low + high) / 2) for name, (low, high) in spans.items()}
    for name, argument in record.arguments.items():
        low, high = argument.span
        beyond = _rounded(high + 0.05 * (high - low))
        if argument.valid and beyond <= argument.possible[1]:
            yield _point(record, "outside", name, {**middle, name: beyond})
        least, most = argument.possible
        if abs(least) < math.inf:
            yield _refused(record, name, {**middle, name: least - 0.01 * (1 + abs(least))})
        if abs(most) < math.inf:
            yield _refused(record, f"{name}-high", {**middle, name: most + 0.01 * (1 + abs(most))})


def _share(index: int, place: int) -> float:
    """Return a share of the way that differs from point to point and argument to argument."""
    return (0.21 + 0.618034 * index + 0.37 * place) % 1.0


def _rounded(value: float) -> float:
    """Return a number with few digits, so that a vector can be typed."""
    return float(f"{value:.6g}")


def _point(record: Record, kind: str, label: str, inputs: dict[str, float]) -> Vector:
    name = f"{kind}-{record.name}-{label}"
    inputs = {key: float(value) for key, value in inputs.items()}
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always")
        try:
            value = float(record.function(**inputs))
        except DomainError as error:
            return Vector(name, kind, record.name, inputs, None, refusal=str(error))
    flags = _range_flags(caught)
    expected = Expected(value, record.unit, max(CLOSE * abs(value), 1e-12))
    return Vector(name, kind, record.name, inputs, expected, computed=value, flags=flags)


def _range_flags(caught: list[warnings.WarningMessage]) -> tuple[str, ...]:
    """Return what was said about ranges, each once."""
    said = (str(one.message) for one in caught if issubclass(one.category, RangeWarning))
    return tuple(dict.fromkeys(text.removesuffix(". It is used as given") for text in said))


def _refused(record: Record, label: str, inputs: dict[str, float]) -> Vector:
    made = _point(record, "refusal", label, inputs)
    if made.expected is not None:
        msg = f"{record.name} answers {made.computed} to the impossible {inputs}"
        raise DomainError(msg)
    return made
