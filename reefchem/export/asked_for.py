"""What a name asks for: a relation, or one part of a calculation, which then acts as a relation."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.core.record import calculations, records
from reefchem.export.calculations import OPTIONS, parts_of
from reefchem.export.typed_input import near_names

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.record import Record

__all__ = ["asked_for", "with_options"]

MAIN = ("ph_total", "dic", "total_alkalinity", "pco2", "omega_aragonite", "ph_nbs")
"""What is mostly asked of the carbonate system."""


def asked_for(name: str) -> Record:
    """Return the record of a relation, or of a part such as ``carbonate_system.ph_total``.

    Raises
    ------
    KeyError
        When there is none; the message names those that are near.
    """
    if name in records():
        return records()[name]
    whole, _, part = name.partition(".")
    record = calculations().get(whole)
    if record is None:
        near = near_names(name)
        lines = [f"  {other}: {_summary(other)}" for other in near]
        hint = "\n".join(["; perhaps one of these:", *lines]) if near else ""
        msg = f"no relation is called {name!r}{hint}"
        raise KeyError(msg)
    parts = parts_of(record)
    if part not in parts:
        new = [name for name in parts if name not in record.arguments]
        main = [name for name in MAIN if name in parts] or new[:6]
        asked = f"no part is called {part!r}" if part else "it has several results"
        msg = (
            f"{whole}: {asked}; name one, as {whole}.{main[0]}. Some are {', '.join(main)}; "
            f"`reefchem work {whole}` lists all"
        )
        raise KeyError(msg)
    made = copy.copy(record)
    made.name, made.unit = name, parts[part]
    made.symbol = r"\mathrm{pH}" if part.startswith("ph_") else ""
    made.function = lambda **inputs: getattr(record.function(**inputs), part)
    return made


def with_options(record: Record, options: Mapping[str, Any]) -> Record:
    """Return the record of the same with other choices of constants.

    Raises
    ------
    DomainError
        When an option has no choices to be typed.
    """
    known = OPTIONS.get(record.name.partition(".")[0], {})
    for name, value in options.items():
        if value not in known.get(name, ()):
            choices = ", ".join(known.get(name, ())) or "no choice that can be typed"
            msg = f"{record.name}: {name} is {value!r}; there is {choices}"
            raise DomainError(msg)
    made = copy.copy(record)
    made.options = record.options | dict(options)
    whole, _, part = record.name.partition(".")
    calculation = calculations()[whole].function
    made.function = lambda **inputs: getattr(calculation(**inputs, **options), part)
    return made


def _summary(name: str) -> str:
    return (records() | calculations())[name].summary.removeprefix("Return ")
