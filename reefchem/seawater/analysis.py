"""A water analysis as a table: our own neutral CSV, read with every fault named.

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
``<5`` says "below 5". Cells may be parted by semicolons or tabs, too, and
decimals by a comma where it is clear. A bad row is never dropped: all are reported at once.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError
from reefchem.core.fault import Fault, FaultyFileError
from reefchem.core.table import contents, numbered_lines, table_rows
from reefchem.core.written_number import number_from_text, short

if TYPE_CHECKING:
    from pathlib import Path

__all__ = [
    "ALKALINITY_UNITS",
    "COLUMNS",
    "SUBSTANCES",
    "UNITS",
    "AnalysisError",
    "Fault",
    "Measured",
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


class AnalysisError(FaultyFileError):
    """A table has bad rows.

    Attributes
    ----------
    measured
        The good rows, for those who want to go on without the bad ones.
    """

    def __init__(self, file: str, faults: list[Fault], measured: list[Measured]) -> None:
        super().__init__(file, faults)
        self.measured: tuple[Measured, ...] = tuple(measured)


def read_analysis(path: Path) -> tuple[Measured, ...]:
    """Return the rows of a table in a file.

    Raises
    ------
    AnalysisError
        When any row is bad; it lists every fault and carries the good rows.
    DomainError
        When the file cannot be read at all.
    """
    return _measured(contents(path, MOST_BYTES), path.name)


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
    return _measured(text, name)


def _measured(raw: bytes | str, file: str) -> tuple[Measured, ...]:
    faults: list[Fault] = []
    measured: list[Measured] = []
    seen: dict[str, int] = {}
    for line, cells in table_rows(numbered_lines(raw), file, COLUMNS, COLUMNS[:3], faults):
        found: list[tuple[str, str]] = []
        row = _row(line, cells, found)
        if row is not None and row.substance.name in seen:
            reason = f"{cells[0]} stands in line {seen[row.substance.name]} already"
            found.append(("substance", reason))
        if found or row is None:
            faults += [Fault(file, line, column, reason) for column, reason in found]
            continue
        seen[row.substance.name] = line
        measured.append(row)
    if faults:
        raise AnalysisError(file, faults, measured)
    return tuple(measured)


def _row(line: int, cells: tuple[str, ...], found: list[tuple[str, str]]) -> Measured | None:
    """Return the row of four cells; note what is wrong with each."""
    name, value, unit, uncertainty = cells
    substance = SUBSTANCES.get(name.lower())
    if substance is None:
        found.append(("substance", f"{short(name)} is no substance of the list"))
    below = value.startswith("<")
    number = _number(value.removeprefix("<").strip(), "value", found)
    allowed = ALKALINITY_UNITS if substance and not substance.formula else tuple(UNITS)
    unit = unit.replace("\u00b5", "u").replace("\u03bc", "u")  # the micro sign, the Greek letter
    if substance is not None and unit not in allowed:
        vague = (
            "'ppm' may be mg/L or mg/kg" if unit == "ppm" else f"{short(unit)} is no unit for it"
        )
        found.append(("unit", f"{vague}; say one of {', '.join(allowed)}"))
    doubt = math.nan
    if uncertainty:
        relative = uncertainty.endswith("%")
        doubt = _number(uncertainty.removesuffix("%").strip(), "uncertainty", found)
        doubt = number * doubt / 100 if relative else doubt
    if found or substance is None:
        return None
    return Measured(line, substance, number, unit, doubt, below)


def _number(text: str, column: str, found: list[tuple[str, str]]) -> float:
    try:
        number = number_from_text(text)
    except DomainError as error:
        found.append((column, str(error)))
        return math.nan
    if number < 0:
        found.append((column, f"{text} is less than zero"))
    return number
