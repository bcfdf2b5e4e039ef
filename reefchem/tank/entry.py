"""What a log may hold: the meaning of its columns, what may happen, and a good row."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from reefchem.tank.quantities import READINGS

__all__ = ["COLUMNS", "KINDS", "REQUIRED", "Entry"]

COLUMNS: dict[str, str] = {
    "when": "date, or date and time: 2026-03-01 or 2026-03-01 18:30, with +01:00 or Z if wanted",
    "what": "reading, dose, water change, top-off or event",
    "quantity": "what was read, or which stock was dosed; empty otherwise",
    "value": "the number, with a decimal point (a decimal comma is understood where it is clear)",
    "unit": "its unit, always written",
    "method": "how it was read; optional",
    "note": "free text; optional, but an event needs one",
    "uncertainty": "standard uncertainty of a reading, a number in its unit; optional",
}
"""Meaning of each column. `method`, `note` and `uncertainty` may be left out."""

KINDS: dict[str, str] = {
    "reading": "a test result: " + ", ".join(READINGS),
    "dose": (
        "a volume of a stock of the description, in mL or L; or what a pump gives from then on, "
        "in mL/day, until another such row (0 when it stops)"
    ),
    "water change": "water replaced by fresh seawater: in L, US gal or % of the tank",
    "top-off": "fresh water added for what evaporated, in L or US gal",
    "event": "anything worth a line; it enters no calculation",
}
"""What may stand in the column `what`."""

AMOUNTS_OF: dict[str, tuple[str, ...]] = {
    "dose": ("dose", "dose rate"),
    "water change": ("volume", "share"),
    "top-off": ("volume",),
}
"""Amounts that a row other than a reading may give; its unit tells which."""

REQUIRED = ("when", "what", "quantity", "value", "unit")
"""Columns that a log must have."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One good row.

    Attributes
    ----------
    line
        Where it stands in the file.
    when
        In coordinated universal time; a date without a time stands for noon.
    what, quantity
        As in the file, lower case where it is a word of ours.
    value, unit
        In the unit that the package works in; ``nan`` and empty for an event.
    written
        Number and unit as the keeper wrote them.
    uncertainty
        Standard uncertainty that a reading states, in the unit of `value`; None where none is.
    """

    line: int
    when: datetime
    what: str
    quantity: str
    value: float
    unit: str
    written: str
    method: str = ""
    note: str = ""
    uncertainty: float | None = None
