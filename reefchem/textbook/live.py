"""The code behind the live examples, generated from the relations."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from reefchem.core.errors import UnitError
from reefchem.core.quantity import magnitude, quantity
from reefchem.export.javascript import functions_source, runtime
from reefchem.formula.equation import equation
from reefchem.formula.javascript import details_source
from reefchem.formula.units import plain_unit
from reefchem.textbook.steps import called_slots

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from reefchem.core.record import Record

__all__ = ["argument_data", "possible_data", "unit_choices", "written"]


def written(records: Mapping[str, Record]) -> str:
    """Return the script with the relations of the book, as one object `textbookRelations`."""
    parts = [runtime(), functions_source(records.values())]
    rows = []
    for name, record in records.items():
        parts.append(details_source(record))
        slots = json.dumps(called_slots(equation(record)))
        rows.append(f"  {name}: {{ value: {name}, details: {name}__details, slots: {slots} }},")
    table = "\n".join(["const textbookRelations = {", *rows, "};"])
    body = "\n\n".join([*parts, table])
    return (
        "// Generated from the relations of the book.\n"
        f"var textbookLive = (function () {{\n{body}\n"
        "return { relations: textbookRelations, significant, concise };\n})();\n"
    )


def unit_choices(
    unit: str, groups: Iterable[Iterable[str]], recorded: str
) -> list[dict[str, object]]:
    """Return the units a reader may choose, with factor and offset to the recorded unit."""
    names = [unit, recorded]
    for group in groups:
        members = list(group)
        if recorded in members or unit in members:
            names += members
    found = []
    for name in dict.fromkeys(names):
        try:
            zero, one = (float(magnitude(quantity(x, name), recorded, "unit")) for x in (0.0, 1.0))
        except UnitError:
            continue
        exact = name == recorded
        found.append(
            {
                "unit": name,
                "label": plain_unit(name),
                "factor": 1.0 if exact else one - zero,
                "offset": 0.0 if exact else zero,
            }
        )
    return found


def argument_data(record: Record, name: str) -> dict[str, object]:
    """Return the ranges of an argument for the page's script, with that of its curve."""
    return {"span": list(record.arguments[name].span), **possible_data(record, name)}


def possible_data(record: Record, name: str) -> dict[str, object]:
    """Return what the page's script needs to judge a value; infinity is left out."""
    argument = record.arguments[name]
    low, high = argument.possible
    data: dict[str, object] = {}
    if argument.valid:
        data["valid"] = list(argument.valid)
    if low > -float("inf"):
        data["lowest"] = low
    if high < float("inf"):
        data["highest"] = high
    return data
