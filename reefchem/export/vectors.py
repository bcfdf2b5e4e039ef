"""Test vectors: inputs with units, and what a right implementation answers or refuses.

Seven kinds stand side by side. *Published* values and *examples* carry a number that somebody else
printed, or that can be worked by hand; the *steps* of a longer example carry what leads there.
*Interior* points and *edges* of the ranges carry what this package computes. *Outside* points lie
beyond a source's range: they are computed and flagged. *Refusals* are impossible, and a right
implementation gives no number for them.
"""

from __future__ import annotations

import csv
import io
from dataclasses import asdict
from importlib.metadata import version
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.core.record import calculations, records
from reefchem.core.sources import citation
from reefchem.export.javascript import record_data
from reefchem.export.known_answers import examples_as_vectors, published_as_vectors
from reefchem.export.points import calculation_points, relation_points
from reefchem.export.vector import Expected, Vector
from reefchem.formula.units import plain_unit

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["FORMAT", "Expected", "Vector", "as_json", "as_table", "vectors"]

FORMAT = "reefchem-vectors-1"


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
    known = records().keys() | calculations().keys()
    wanted = known if names is None else set(names)
    unknown = wanted - known
    if unknown:
        msg = f"no relation is called {', '.join(sorted(unknown))}"
        raise KeyError(msg)
    made = [*published_as_vectors(wanted), *examples_as_vectors(wanted)]
    for every, points in ((records(), relation_points), (calculations(), calculation_points)):
        for record in every.values():
            if record.name in wanted:
                made += points(record)
    return made


def as_json(made: list[Vector]) -> dict[str, Any]:
    """Return vectors and the records they speak of for JSON, as ``vectors.schema.json`` says."""
    used = sorted({vector.relation for vector in made})
    return {
        "format": FORMAT,
        "made_by": f"reefchem {version('reefchem')}",
        "relations": {n: record_data(records()[n]) for n in used if n in records()},
        "calculations": {n: record_data(calculations()[n]) for n in used if n in calculations()},
        "vectors": [_data(vector) for vector in made],
    }


def as_table(made: list[Vector]) -> str:
    """Return the vectors of one relation as CSV for a spreadsheet, with an empty column `value`.

    Raises
    ------
    DomainError
        When they are of several relations, which have other columns.
    """
    relations = sorted({vector.relation for vector in made})
    if len(relations) != 1:
        msg = f"a table holds one relation, not {len(relations)}; name it with --relation"
        raise DomainError(msg)
    record = (records() | calculations())[relations[0]]
    heads = [f"{name} ({plain_unit(a.unit) or '1'})" for name, a in record.arguments.items()]
    options = sorted({name for vector in made for name in vector.options})
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(["id", *heads, *options, "part", "unit", "value"])
    for vector in made:
        unit = vector.expected.unit if vector.expected else record.unit
        inputs = [vector.inputs.get(name, "") for name in record.arguments]
        chosen = [vector.options.get(name, "") for name in options]
        writer.writerow([vector.id, *inputs, *chosen, vector.part, plain_unit(unit), ""])
    return text.getvalue()


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
    for name, earlier in vector.taken_from.items():
        data["inputs"][name]["from"] = earlier
    for name in ("computed", "refusal", "part", "options", "source", "at", "printed"):
        value = getattr(vector, name)
        if value not in {None, ""} if not isinstance(value, dict) else value:
            data[name] = value
    if vector.flags:
        data["flags"] = list(vector.flags)
    if vector.source:
        data["cited"] = citation(vector.source)
    return data
