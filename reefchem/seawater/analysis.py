"""A water analysis as a table: our own neutral CSV, read with every mistake named.

The first line names the columns; a line that begins with ``#`` is a remark::

    # invented
    substance,value,unit,uncertainty
    sodium,10950,mg/L,2 %
    calcium,431,mg/L,8
    alkalinity,8.1,dKH,0.2
    iodine,<5,ug/L,

`substance` is a name or a symbol of `SUBSTANCES`. `unit` is one of `UNITS`, or of
`ALKALINITY_UNITS` for the alkalinity; "ppm" is refused, since it may be mg/L or mg/kg.
`uncertainty` is a standard uncertainty in the same unit or in per cent; it may be empty. A value
``<5`` says "below 5". A bad row is never dropped: all are reported at once.
"""

from __future__ import annotations

import csv
import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError

if TYPE_CHECKING:
    from pathlib import Path

__all__ = [
    "ALKALINITY_UNITS",
    "COLUMNS",
    "SUBSTANCES",
    "UNITS",
    "AnalysisError",
    "Measured",
    "Mistake",
    "Substance",
    "analysis_from_text",
    "read_analysis",
]

COLUMNS = ("substance", "value", "unit", "uncertainty")
MOST_BYTES = 1_000_000

ALKALINITY_UNITS = ("dKH", "meq/L", "mg/L CaCO3", "umol/kg")

UNITS: dict[str, tuple[float, bool, bool]] = {
    "mg/L": (1e-3, True, True),
    "ug/L": (1e-6, True, True),
    "mg/kg": (1e-3, True, False),
    "ug/kg": (1e-6, True, False),
    "mmol/L": (1e-3, False, True),
    "umol/L": (1e-6, False, True),
    "mmol/kg": (1e-3, False, False),
    "umol/kg": (1e-6, False, False),
}
"""Grams or moles in one; whether it is a mass; whether it is in a litre."""


@dataclass(frozen=True)
class Substance:
    """Something that an analysis may list.

    Attributes
    ----------
    name
        As the report calls it.
    formula
        What a mass is a mass of.
    charge
        Charge that a mole brings into the balance of strong ions; 0 where weak acids decide.
    key
        What is counted: two rows with one key speak of the same thing.
    """

    name: str
    formula: str
    charge: int
    key: str


def _substances() -> dict[str, Substance]:
    rows = (
        ("sodium", "Na", 1, "sodium"),
        ("magnesium", "Mg", 2, "magnesium"),
        ("calcium", "Ca", 2, "calcium"),
        ("potassium", "K", 1, "potassium"),
        ("strontium", "Sr", 2, "strontium"),
        ("chloride", "Cl", -1, "chloride"),
        ("sulfate", "SO4", -2, "sulfate"),
        ("sulfur", "S", -2, "sulfate"),
        ("bromide", "Br", -1, "bromide"),
        ("fluoride", "F", -1, "fluoride"),
        ("boron", "B", 0, "boron"),
        ("boric acid", "H3BO3", 0, "boron"),
        ("nitrate", "NO3", -1, "nitrate"),
        ("phosphate", "PO4", -1, "phosphate"),
        ("phosphorus", "P", -1, "phosphate"),
        ("silicon", "Si", 0, "silicon"),
        ("lithium", "Li", 1, "lithium"),
        ("iodine", "I", 0, "iodine"),
        ("barium", "Ba", 2, "barium"),
        ("molybdenum", "Mo", 0, "molybdenum"),
        ("rubidium", "Rb", 1, "rubidium"),
        ("vanadium", "V", 0, "vanadium"),
        ("chromium", "Cr", 0, "chromium"),
        ("manganese", "Mn", 0, "manganese"),
        ("iron", "Fe", 0, "iron"),
        ("cobalt", "Co", 0, "cobalt"),
        ("nickel", "Ni", 0, "nickel"),
        ("copper", "Cu", 0, "copper"),
        ("zinc", "Zn", 0, "zinc"),
        ("arsenic", "As", 0, "arsenic"),
        ("selenium", "Se", 0, "selenium"),
        ("aluminium", "Al", 0, "aluminium"),
    )
    known = {}
    for row in rows:
        substance = Substance(*row)
        known[substance.name] = known[substance.formula.lower()] = substance
    known["alkalinity"] = Substance("alkalinity", "", -1, "alkalinity")
    return known


SUBSTANCES: dict[str, Substance] = _substances()
"""By name and by symbol, both in small letters.

Charges of weak acids are counted in the alkalinity. Phosphate brings one charge, as in the
conservative form of the alkalinity (Wolf-Gladrow et al., 2007).
"""


@dataclass(frozen=True)
class Measured:
    """One good row.

    Attributes
    ----------
    line
        Where it stands in the table.
    substance
        What was measured.
    value, unit
        As written.
    uncertainty
        In the same unit; NaN where the table gives none.
    below
        Whether the table says "below" the value.
    """

    line: int
    substance: Substance
    value: float
    unit: str
    uncertainty: float = math.nan
    below: bool = False

    def amount(self, value: float, litre: float) -> float:
        """Return mol/kg of seawater of a value in the row's unit; `litre` weighs so many kg."""
        scale, is_mass, per_litre = UNITS[self.unit]
        amount = value * scale
        if is_mass:
            amount /= molar_mass(self.substance.formula)
        return amount / litre if per_litre else amount


@dataclass(frozen=True)
class Mistake:
    """What is wrong with one cell, and where; `column` counts from 1, 0 is the whole line."""

    file: str
    line: int
    column: int
    reason: str

    def __str__(self) -> str:
        column = f", column {self.column} ({COLUMNS[self.column - 1]})" if self.column else ""
        return f"{self.file}, line {self.line}{column}: {self.reason}"


class AnalysisError(DomainError):
    """A table has bad rows.

    Attributes
    ----------
    mistakes
        Every one of them, in the order of the file.
    measured
        The good rows, for those who want to go on without the bad ones.
    """

    def __init__(self, mistakes: list[Mistake], measured: list[Measured]) -> None:
        self.mistakes = tuple(mistakes)
        self.measured = tuple(measured)
        super().__init__("\n".join(str(mistake) for mistake in mistakes))


def read_analysis(path: Path) -> tuple[Measured, ...]:
    """Return the rows of a table in a file.

    Raises
    ------
    AnalysisError
        When any row is bad; it lists every mistake and carries the good rows.
    """
    if path.stat().st_size > MOST_BYTES:
        reason = f"the file is larger than {MOST_BYTES} bytes"
        raise AnalysisError([Mistake(path.name, 1, 0, reason)], [])
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = path.read_bytes()[: error.start].count(b"\n") + 1
        raise AnalysisError([Mistake(path.name, line, 0, "this is no UTF-8 text")], []) from None
    return analysis_from_text(text, path.name)


def analysis_from_text(text: str, name: str = "table") -> tuple[Measured, ...]:
    r"""Return the rows of a table.

    Parameters
    ----------
    text
        The table.
    name
        What to call it in messages.

    Examples
    --------
    >>> rows = analysis_from_text("substance,value,unit\nCa,431,mg/L\n")
    >>> rows[0].substance.name, rows[0].value
    ('calcium', 431.0)
    """
    mistakes: list[Mistake] = []
    measured: list[Measured] = []
    seen: dict[str, int] = {}
    header: list[str] | None = None
    for line, written in enumerate(text.splitlines(), 1):
        if not written.strip() or written.lstrip().startswith("#"):
            continue
        found: list[tuple[int, str]] = []
        try:
            cells = [cell.strip() for cell in next(csv.reader([written], strict=True))]
        except csv.Error as error:
            mistakes.append(Mistake(name, line, 0, f"this is no line of a table ({error})"))
            continue
        if header is None:
            header = [cell.lower() for cell in cells]
            if header not in (list(COLUMNS), list(COLUMNS[:3])):
                reason = f"the first line names the columns {','.join(COLUMNS)}; it has {written!r}"
                raise AnalysisError([Mistake(name, line, 0, reason)], [])
            continue
        if len(cells) > len(header) or len(cells) < len(COLUMNS) - 1:
            reason = f"{len(cells)} cells for {len(header)} columns"
            mistakes.append(Mistake(name, line, 0, reason))
            continue
        row = _row(line, [*cells, ""][: len(COLUMNS)], found)
        if row is not None and row.substance.name in seen:
            found.append((1, f"{cells[0]} stands in line {seen[row.substance.name]} already"))
        if found or row is None:
            mistakes += [Mistake(name, line, column, reason) for column, reason in found]
            continue
        seen[row.substance.name] = line
        measured.append(row)
    if header is None:
        mistakes.append(Mistake(name, 1, 0, "the table is empty"))
    if mistakes:
        raise AnalysisError(mistakes, measured)
    return tuple(measured)


_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]*)?(?:[eE][+-]?[0-9]{1,3})?|\.[0-9]+")


def _row(line: int, cells: list[str], found: list[tuple[int, str]]) -> Measured | None:
    """Return the row of four cells; note what is wrong with each."""
    name, value, unit, uncertainty = cells
    substance = SUBSTANCES.get(name.lower())
    if substance is None:
        found.append((1, f"{name!r} is no substance of the list"))
    below = value.startswith("<")
    number = _number(value.removeprefix("<").strip(), 2, found)
    allowed = ALKALINITY_UNITS if substance and not substance.formula else tuple(UNITS)
    unit = unit.replace("µ", "u").replace("μ", "u")  # the micro sign and the Greek letter
    if substance is not None and unit not in allowed:
        vague = "'ppm' may be mg/L or mg/kg" if unit == "ppm" else f"{unit!r} is no unit for it"
        found.append((3, f"{vague}; say one of {', '.join(allowed)}"))
    doubt = math.nan
    if uncertainty:
        relative = uncertainty.endswith("%")
        doubt = _number(uncertainty.removesuffix("%").strip(), 4, found)
        doubt = number * doubt / 100 if relative else doubt
    if found or substance is None:
        return None
    return Measured(line, substance, number, unit, doubt, below)


def _number(text: str, column: int, found: list[tuple[int, str]]) -> float:
    if _NUMBER.fullmatch(text) and math.isfinite(float(text)):
        return float(text)
    hint = "; use a point for the decimals" if "," in text else ""
    said = f"{text!r} is no number of zero or more" if text else "a number is missing"
    found.append((column, said + hint))
    return math.nan
