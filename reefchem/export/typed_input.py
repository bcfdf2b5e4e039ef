"""What somebody types for a relation: its name, its inputs with or without units."""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError, UnitError
from reefchem.core.quantity import magnitude, quantity
from reefchem.core.record import calculations, records
from reefchem.core.written_number import number_from_text, short
from reefchem.formula.names import plain_name
from reefchem.formula.units import plain_unit

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reefchem.core.record import Argument, Record

__all__ = ["given_inputs", "near_names", "number_and_unit", "taken", "with_unit"]

WRITTEN = {
    "C": "degC",
    "°C": "degC",
    "F": "degF",
    "°F": "degF",
    "K": "kelvin",
    "°dH": "dKH",
    "dH": "dKH",
    "°f": "French_degree",
    "°fH": "French_degree",
    "ppm CaCO3": "ppm_CaCO3",
    "mg/L CaCO3": "ppm_CaCO3",
    "US gal": "US_liquid_gallon",
    "imp gal": "imperial_gallon",
    "l": "L",
    "ml": "mL",
}
"""Units as keepers write them, and as pint reads them."""

WORDS = {
    "alk": "alkalinity",
    "ca": "calcium",
    "dkh": "german degrees alkalinity",
    "do": "oxygen",
    "fh": "french degrees",
    "hydrometer": "specific gravity",
    "kh": "german degrees alkalinity",
    "meq": "alkalinity",
    "milliequivalents": "alkalinity",
    "mg": "magnesium",
    "nh3": "ammonia",
    "no3": "nitrate",
    "o2": "oxygen",
    "omega": "omega saturation",
    "po4": "phosphate",
    "ppm": "mass concentration",
    "ppt": "salinity",
    "psu": "salinity",
    "rho": "density",
    "sal": "salinity",
    "sg": "specific gravity",
    "soda": "sodium hydrogencarbonate",
}
"""Words that keepers use, and those of the names here."""

_POWER = re.compile(r"([a-z])([23])\b")
_NUMBER_AND_UNIT = re.compile(r"([+-]?[0-9.,]+(?:[eE][+-]?[0-9]+)?)\s*(.*)")


def near_names(name: str, *, most: int = 5) -> list[str]:
    """Return the relations and calculations whose names or first lines share most words."""
    words = set(re.findall(r"[a-z0-9]+", name.lower())) - {"from", "to", "of", "in", "the", "as"}
    wanted = words | {part for word in words for part in WORDS.get(word, "").split()}
    known = records() | calculations()
    scores = {}
    for other, record in known.items():
        own = set(other.split("_"))
        told = set(re.findall(r"[a-z0-9]+", record.summary.lower())) - own
        scores[other] = 2 * len(wanted & own) + len(wanted & told) - 0.1 * len(own)
    best = [n for n in sorted(scores, key=lambda n: -scores[n]) if scores[n] > 0.9][:most]
    close = get_close_matches(name, known, n=2, cutoff=0.75)
    return list(dict.fromkeys([*close, *best]))[:most]


def given_inputs(record: Record, texts: Iterable[str]) -> dict[str, object]:
    """Return the number in the recorded unit by argument, from texts such as ``temperature=77 F``.

    An argument may be called by its symbol, as ``t=25``.

    Raises
    ------
    DomainError
        When a text cannot be read, or names no argument; the message says what is taken.
    """
    symbols = {plain_name(a.symbol): name for name, a in record.arguments.items()}
    found: dict[str, object] = {}
    for text in texts:
        key, equals, value = text.partition("=")
        key = key.strip()
        if not equals:
            msg = f"{text!r} is not of the form name=value; {taken(record)}"
            raise DomainError(msg)
        name = key if key in record.arguments else symbols.get(key, key)
        if name in record.options:
            found[name] = value.strip()
            continue
        if name not in record.arguments:
            near = get_close_matches(name, record.arguments, n=1, cutoff=0.5)
            near += [n for n in record.arguments if len(key) > 1 and n.startswith(key)]
            hint = f"; did you mean {near[0]}?" if near else "."
            msg = f"{record.name} has no {key!r}{hint} {taken(record)}"
            raise DomainError(msg)
        if name in found:
            msg = f"{record.name}: {name} is given twice"
            raise DomainError(msg)
        found[name] = _typed(value, record.arguments[name], name)
    return found


def number_and_unit(text: str, name: str) -> tuple[str, str]:
    """Return the number, written as Python reads it, and the unit of a text; either may be odd.

    Raises
    ------
    DomainError
        When it does not begin with a number, or with one that may be two numbers.
    """
    match = _NUMBER_AND_UNIT.fullmatch(text.strip())
    if match is None:
        msg = f"{name}: {short(text)} is not a number"
        raise DomainError(msg)
    if "," in match[1] and "." in match[1]:
        msg = f"{name}: write {match[1].replace(',', '')} without a comma of thousands"
        raise DomainError(msg)
    try:
        number_from_text(match[1])
    except DomainError as error:
        msg = f"{name}: {error}"
        raise DomainError(msg) from None
    return match[1].replace(",", "."), match[2].strip()


def _typed(text: str, argument: Argument, name: str) -> float:
    """Return the number that was typed, in the recorded unit."""
    number, unit = number_and_unit(text, name)
    if not unit:
        return float(number)
    if argument.unit == "1":
        msg = f"{name} is a pure number; write {number} without {unit!r}"
        raise DomainError(msg)
    typed = with_unit(float(number), unit, argument.unit, name)
    return float(magnitude(typed, argument.unit, name))


def with_unit(number: float, unit: str, expected: str, name: str) -> Any:
    """Return a quantity of a unit that was typed."""
    try:
        return quantity(number, WRITTEN.get(unit, _POWER.sub(r"\1**\2", unit)))
    except UnitError:
        msg = f"{name}: {short(unit)} is no unit that is known here; {plain_unit(expected)} is"
        raise DomainError(msg) from None


def taken(record: Record) -> str:
    """Return in a sentence what a relation takes."""
    pieces = []
    for name, argument in record.arguments.items():
        told = plain_unit(argument.unit) or "pure number"
        optional = ", optional" if name in record.defaults else ""
        pieces.append(f"{name} ({told}{optional})")
    return f"It takes {', '.join(pieces)}."
