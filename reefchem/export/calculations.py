"""Calculations with several parts: their parts and options, and those that are not exported."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING, Any

from reefchem.carbonate.constants import CARBONIC, CONVERSION, FLUORIDE
from reefchem.carbonate.totals import BORON
from reefchem.core.record import calculations
from reefchem.core.sources import citation
from reefchem.core.term import Symbol, Term

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.record import Record

__all__ = [
    "LEFT_OUT",
    "OPTIONS",
    "calculation_data",
    "exported_calculations",
    "parts_of",
    "traced_parts",
]

LEFT_OUT: Mapping[str, str] = {
    "alkalinity_from_titration": "takes a table of readings and fits it",
    "calcium_reactor": "put together from carbonate_system, reactor_drip and "
    "reactor_carbon_dioxide",
    "daily_swing": "goes through a day in steps of minutes",
    "dose_effect": "takes a stock solution, not numbers",
    "drop_kit": "counts whole drops; electrode_endpoint has the same chemistry without them",
    "nutrient_budget": "put together from nitrogen_in_food, nitrate_from_food, nitrate_uptake, "
    "phosphate_taken_with_nitrate and alkalinity_from_nitrate_gain",
    "raise_alkalinity": "put together from carbonate_system, once for each state",
    "titration_curve": "takes a table; titration_ph gives one point of it",
}
"""Why a calculation is not in the module, by its name."""

OPTIONS: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "carbonate_system": {
        "boron": tuple(BORON),
        "carbonic": tuple(CARBONIC),
        "fluoride": tuple(FLUORIDE),
        "conversion": CONVERSION,
    }
}


def exported_calculations() -> list[Record]:
    """Return the calculations that the module has."""
    return [record for name, record in calculations().items() if name not in LEFT_OUT]


def parts_of(record: Record) -> dict[str, str]:
    """Return the unit of each number that a calculation gives, by name; ``"1"`` for pure ones."""
    made = _result_class(record)
    if record.name in LEFT_OUT:
        names = [field.name for field in fields(made) if "tuple" not in str(field.type)]
    else:
        names = list(made.UNITS if record.name == "carbonate_system" else traced_parts(record))
    return {name: made.UNITS.get(name, "1") for name in names}


def calculation_data(record: Record) -> dict[str, object]:
    """Return what is known of a calculation beside its arguments, for JSON."""
    made = _result_class(record)
    return {
        "summary": record.summary,
        "source": record.source,
        "cited": citation(record.source),
        "at": record.at,
        "options": {name: list(known) for name, known in OPTIONS.get(record.name, {}).items()},
        "parts": {
            name: {"unit": unit, "summary": _summary(made, name)}
            for name, unit in parts_of(record).items()
        },
    }


def _result_class(record: Record) -> Any:
    kernel: Any = record.kernel
    return kernel.__globals__[kernel.__annotations__["return"]]


def _summary(made: Any, part: str) -> str:
    """Return the first line of what the class says of a part that it works out itself."""
    return (getattr(getattr(made, part, None), "__doc__", "") or "").partition("\n")[0]


def traced_parts(record: Record) -> dict[str, Term]:
    """Return every part of the result as a term, those that the class works out included."""
    result = record.kernel(**{n: Symbol(n, a.symbol) for n, a in record.arguments.items()})
    own = list(vars(result))
    worked_out = [name for name, value in vars(type(result)).items() if isinstance(value, property)]
    parts = {name: getattr(result, name) for name in [*own, *worked_out]}
    given = set(record.arguments)
    return {
        name: term
        for name, term in parts.items()
        if isinstance(term, Term) and not (isinstance(term, Symbol) and name in given)
    }
