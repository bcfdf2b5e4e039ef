"""A plan as plain data, for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from reefchem.core.sources import citation
from reefchem.tank.planning.text import shown

if TYPE_CHECKING:
    from reefchem.tank.plan import Plan
    from reefchem.tank.planning.figures import Figure

__all__ = ["FORMAT", "plan_data", "relation_link"]

FORMAT = "reefchem plan 1"
"""Name and version of the form of the data."""


def relation_link(book: str, relation: str) -> str:
    """Return the address of a relation's entry in the book.

    Examples
    --------
    >>> relation_link("book", "daily_dose")
    'book/relations.html#daily_dose'
    """
    return f"{book.rstrip('/')}/relations.html#{relation}"


def plan_data(plan: Plan, *, book: str) -> dict[str, Any]:
    """Return a plan as dicts, lists, texts and numbers.

    Parameters
    ----------
    plan
        The plan.
    book
        Where the book is, for the links of the numbers.
    """
    return {
        "format": FORMAT,
        "tank": plan.description.texts["tank.name"],
        "note": plan.description.texts["tank.note"],
        "sections": [
            {
                "id": section.id,
                "title": section.title,
                "lines": [
                    {
                        "text": line.text().replace("\u00a0", " "),
                        "figures": [figure.id for figure in line.figures],
                    }
                    for line in section.lines
                ],
            }
            for section in plan.sections
        ],
        "cautions": list(plan.cautions),
        "figures": {name: _figure(figure, book) for name, figure in plan.figures.items()},
        "readings": [
            {
                "line": reading.entry.line,
                "when": reading.entry.when.isoformat(),
                "written": reading.entry.written,
                "alkalinity": reading.level,
                "fitted": reading.fitted,
                "unit": "meq/L",
                "weight": reading.weight,
                "outlier": reading.outlier,
            }
            for reading in plan.estimate.readings
        ],
    }


def _figure(figure: Figure, book: str) -> dict[str, Any]:
    record = figure.record
    return {
        "label": figure.label,
        "value": figure.value,
        "unit": figure.unit,
        "shown": {
            "text": shown(figure).replace("\u00a0", " "),
            "value": figure.shown.value,
            "unit": figure.shown.unit,
            "relation": figure.shown.relation,
        },
        "relation": figure.relation,
        "source": citation(record.source),
        "at": record.at,
        "book": relation_link(book, figure.relation),
        "inputs": {
            name: {
                "value": given.value,
                "unit": record.arguments[name].unit,
                "origin": given.origin,
                "figure": given.figure,
            }
            for name, given in figure.inputs.items()
        },
    }
