"""What a log and a description may speak of: quantities, their units, what is possible.

One table for the log, the description, the documentation and the messages.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError
from reefchem.core.quantity import magnitude, quantity
from reefchem.core.written_number import number_from_text, short

__all__ = ["AMOUNTS", "READINGS", "Measure", "amount_from_text", "difference_from_text"]


@dataclass(frozen=True)
class Measure:
    """A quantity with the units it may be written in.

    Attributes
    ----------
    unit
        The unit that the package works in.
    lowest, highest
        What is possible, in that unit; a value outside is refused as a slip of the pen.
    written
        Factor or pint unit by the way a keeper writes a unit.
    """

    unit: str
    lowest: float
    highest: float
    written: dict[str, str | float]

    def units(self) -> str:
        """Return the accepted units as text for a message."""
        return ", ".join(unit or "(none)" for unit in self.written)


_ALKALINITY: dict[str, str | float] = {
    "dKH": "dKH",
    "meq/L": 1.0,
    "mmol/L": 1.0,
    "mg/L CaCO3": "ppm_CaCO3",
    "ppm CaCO3": "ppm_CaCO3",
}
_VOLUME: dict[str, str | float] = {
    "L": 1.0,
    "l": 1.0,
    "mL": 1e-3,
    "ml": 1e-3,
    "US gal": "US_liquid_gallon",
}

_DISSOLVED: dict[str, str | float] = {"mg/L": 1.0, "ug/L": 1e-3, "µg/L": 1e-3}
_NITRATE = molar_mass("NO3-") / molar_mass("N")
_PHOSPHATE = molar_mass("PO4^3-") / molar_mass("P")

READINGS: dict[str, Measure] = {
    "alkalinity": Measure("meq/L", 0.0, 10.0, _ALKALINITY),
    "calcium": Measure("mg/L", 0.0, 1000.0, _DISSOLVED),
    "magnesium": Measure("mg/L", 0.0, 3000.0, _DISSOLVED),
    "potassium": Measure("mg/L", 0.0, 1500.0, _DISSOLVED),
    "nitrate": Measure(
        "mg/L", 0.0, 500.0, _DISSOLVED | {"mg/L N": _NITRATE, "ug/L N": _NITRATE * 1e-3}
    ),
    "phosphate": Measure(
        "mg/L", 0.0, 20.0, _DISSOLVED | {"mg/L P": _PHOSPHATE, "ug/L P": _PHOSPHATE * 1e-3}
    ),
    "salinity": Measure("1", 0.0, 60.0, {"": 1.0, "1": 1.0}),
    "temperature": Measure(
        "degC", 0.0, 45.0, {"degC": 1.0, "°C": 1.0, "degF": "degF", "°F": "degF"}
    ),
}
"""What a reading may be of."""

AMOUNTS: dict[str, Measure] = {
    "volume": Measure("L", 0.0, 100_000.0, _VOLUME),
    "dose": Measure("mL", 0.0, 100_000.0, {"mL": 1.0, "ml": 1.0, "L": 1e3, "l": 1e3}),
    "dose rate": Measure("mL/day", 0.0, 100_000.0, {"mL/day": 1.0, "mL per day": 1.0}),
    "share": Measure("1", 0.0, 1.0, {"%": 0.01}),
    "alkalinity": READINGS["alkalinity"],
    "dissolved": Measure("mg/L", 0.0, 3000.0, _DISSOLVED),
    "salinity": READINGS["salinity"],
    "temperature": READINGS["temperature"],
    "strength": Measure("g/L", 0.0, 1500.0, {"g/L": 1.0, "mg/mL": 1.0}),
    "time": Measure(
        "day", 0.0, 3660.0, {"d": 1.0, "day": 1.0, "days": 1.0, "week": 7.0, "weeks": 7.0}
    ),
    "alkalinity per day": Measure(
        "meq/L/day", 0.0, 10.0, {f"{unit} per day": to for unit, to in _ALKALINITY.items()}
    ),
    "dissolved per day": Measure("mg/L/day", 0.0, 500.0, {"mg/L per day": 1.0}),
}
"""What else a log or a description may give, with a unit."""


def amount_from_text(text: str, unit: str, measure: Measure, what: str) -> float:
    """Return a written number with its written unit, in the unit that the package works in.

    Raises
    ------
    DomainError
        When the number cannot be read, the unit is none of the measure's, or the value is
        impossible.
    """
    number = number_from_text(text)
    if unit not in measure.written:
        unit = unit.replace("\u03bc", "\u00b5")  # the Greek letter looks like the sign for micro
    if unit not in measure.written:
        hint = ""
        if unit.lower().startswith("ppm"):
            hint = "; ppm is per litre on one kit and per kilogram on another: write which"
        if unit.isdigit():
            hint = "; a decimal comma? put the number in quotes, or part the columns by semicolons"
        msg = f"{what} is written in {short(unit)}; accepted are {measure.units()}{hint}"
        raise DomainError(msg)
    value = _converted(number, measure.written[unit], measure.unit)
    if not measure.lowest <= value <= measure.highest:
        low, high = (_back(bound, measure, unit) for bound in (measure.lowest, measure.highest))
        msg = (
            f"{what} is {text} {unit}".rstrip()
            + f"; {low} to {high} {unit}".rstrip()
            + " is possible"
        )
        raise DomainError(msg)
    return value


def difference_from_text(text: str, unit: str, measure: Measure) -> float:
    """Return a written difference of two amounts, in the unit that the package works in.

    Raises
    ------
    DomainError
        When the number cannot be read.

    Examples
    --------
    >>> round(difference_from_text("1.8", "°F", READINGS["temperature"]), 9)
    1.0
    """
    return number_from_text(text) * _line(measure.written[unit], measure.unit)[0]


def _converted(number: float, to: str | float, unit: str) -> float:
    factor, offset = _line(to, unit)
    return number * factor + offset


def _back(bound: float, measure: Measure, unit: str) -> str:
    factor, offset = _line(measure.written[unit], measure.unit)
    return f"{(bound - offset) / factor:.4g}"


@cache
def _line(to: str | float, unit: str) -> tuple[float, float]:
    """Return factor and offset from a written unit to that of the package."""
    if not isinstance(to, str):
        return to, 0.0
    written = f"{to}/day" if unit.endswith("/day") else to
    zero, one = (float(magnitude(quantity(n, written), unit, "value")) for n in (0.0, 1.0))
    return one - zero, zero
