"""What the two files of a tank may hold, as tables made from what reads them.

The command line prints them and the book shows them, so neither can say what is not so.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.tank.description import FIELDS
from reefchem.tank.entry import AMOUNTS_OF, COLUMNS, KINDS, REQUIRED
from reefchem.tank.quantities import AMOUNTS, READINGS

if TYPE_CHECKING:
    from reefchem.tank.description import Field
    from reefchem.tank.quantities import Measure

__all__ = ["FILE_TABLES", "file_table"]

FILE_TABLES: dict[str, tuple[str, tuple[str, ...]]] = {
    "description": (
        "The description is a TOML file. Tables and keys:",
        ("key", "meaning", "units", "when left out"),
    ),
    "columns": (
        "The log is a CSV file whose first line names these columns, or TOML, a [[row]] each:",
        ("column", "meaning", "must be there"),
    ),
    "kinds": ("In the column what stands one of these:", ("what", "meaning", "units")),
    "readings": ("A reading may be of these:", ("quantity", "units", "possible")),
}
"""Sentence and headings of each table."""


def file_table(name: str) -> list[tuple[str, ...]]:
    """Return the rows of one of `FILE_TABLES`.

    Examples
    --------
    >>> file_table("readings")[0][0]
    'alkalinity'
    """
    if name == "description":
        return [
            (
                f"[[{table}]] {key}" if table == "stock" else f"[{table}] {key}",
                field.meaning,
                field.measure.units() if field.measure else "",
                _default(field),
            )
            for table, fields in FIELDS.items()
            for key, field in fields.items()
        ]
    if name == "columns":
        return [(key, text, "yes" if key in REQUIRED else "no") for key, text in COLUMNS.items()]
    if name == "kinds":
        return [
            (kind, text, ", ".join(AMOUNTS[amount].units() for amount in AMOUNTS_OF.get(kind, ())))
            for kind, text in KINDS.items()
        ]
    return [(name, measure.units(), _possible(measure)) for name, measure in READINGS.items()]


def _possible(measure: Measure) -> str:
    unit = {"1": "", "degC": "°C"}.get(measure.unit, measure.unit)
    return f"{measure.lowest:g} to {measure.highest:g} {unit}".rstrip()


def _default(field: Field) -> str:
    if field.default is None:
        return "must be given"
    if not field.default:
        return "nothing"
    return field.default + (" (common practice, no source)" if field.practice else "")
