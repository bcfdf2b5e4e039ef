"""All relations as JavaScript: the same operations in the same order as the Python bodies."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from reefchem.core.record import records
from reefchem.core.sources import citation
from reefchem.core.term import Root, Symbol
from reefchem.core.vouch import noting
from reefchem.export.calculations import (
    LEFT_OUT,
    OPTIONS,
    calculation_data,
    exported_calculations,
    traced_parts,
)
from reefchem.export.carbonate_system import carbonate_source
from reefchem.export.statements import ModulePrinter, function_of_parts
from reefchem.formula.equation import equation
from reefchem.formula.javascript import function_source, needed
from reefchem.formula.units import plain_unit

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reefchem.core.record import Argument, Record

__all__ = ["declarations", "functions_source", "module_source", "record_data", "runtime"]

INFINITY = float("inf")


def runtime() -> str:
    """Return the few functions that generated code stands on: root finding, numbers as text."""
    return _file("runtime.js")


def functions_source(records: Iterable[Record]) -> str:
    """Return the functions of the relations, and of all that they call, called ones first."""
    return "\n\n".join(function_source(record) for record in needed(records))


def module_source() -> str:
    """Return an ES module with a checked function for each relation and most calculations.

    A function takes numbers in the recorded units, by position or as one object. It refuses what
    is impossible with a `DomainError`, says aloud what is outside a source's range, on the way to
    the result too, and lets NaN pass, as the Python functions do.
    """
    every, whole = needed(records().values()), exported_calculations()
    names = [record.name for record in every]
    known = {record.name: record_data(record) for record in every}
    parts = {record.name: record_data(record) for record in whole}
    relations = [f'export const {name} = guarded("{name}");' for name in names]
    calculated = [f'export const {record.name} = calculated("{record.name}");' for record in whole]
    return "\n\n".join(
        [
            _file("module_head.js").strip(),
            _left_out("// "),
            f"export const records = freeze({json.dumps(known, ensure_ascii=False)});",
            f"export const calculations = freeze({json.dumps(parts, ensure_ascii=False)});",
            _file("module_ranges.js").strip(),
            "const bodies = (() => {",
            runtime().strip(),
            _file("module_called.js").strip(),
            "\n\n".join(function_source(record, ModulePrinter) for record in every),
            "\n\n".join(map(_calculation_source, whole)),
            f"return {{ {', '.join([*names, *parts])} }};\n}})();",
            _file("module_guard.js").strip(),
            "\n".join([*relations, *calculated]) + "\n",
        ]
    )


def _calculation_source(record: Record) -> str:
    """Return a function that takes numbers in the order of the record and returns an object."""
    if record.name == "carbonate_system":
        return carbonate_source(record, OPTIONS[record.name])
    head = f"{record.name}({', '.join(record.arguments)})"
    return function_of_parts(head, traced_parts(record), record)


def record_data(record: Record) -> dict[str, object]:
    """Return what is known of a relation or calculation, for JSON; an open end is null."""
    arguments = {
        name: _argument_data(argument, record, name) for name, argument in record.arguments.items()
    }
    if not record.unit:
        return calculation_data(record) | {"arguments": arguments}
    data: dict[str, object] = {
        "summary": record.summary,
        "unit": record.unit,
        "symbol": record.symbol,
        "source": record.source,
        "cited": citation(record.source),
        "at": record.at,
        "iterated": isinstance(equation(record).result, Root),
        "arguments": arguments,
    }
    covers = _result_range(record)
    return data | {"covers": list(covers)} if covers else data


def _result_range(record: Record) -> tuple[float, float] | None:
    """Return what a source covers of the result itself, where it says so."""
    notes: list[tuple[Any, float, float]] = []
    token = noting.set(notes)
    try:
        arguments = {name: Symbol(name, a.symbol) for name, a in record.arguments.items()}
        result = record.kernel(**arguments)
    finally:
        noting.reset(token)
    return next(((low, high) for term, low, high in notes if term is result), None)


def _left_out(before: str) -> str:
    """Return lines that say which calculations the module does not have, and why."""
    lines = [f"{name}: {reason}" for name, reason in LEFT_OUT.items()]
    return "\n".join(before + line for line in ["Not in this module:", *lines])


def declarations() -> str:
    """Return the TypeScript declarations of the module, with units and ranges as comments."""
    return "\n".join(
        [
            _left_out("// "),
            _file("module_head.d.ts"),
            *map(_declaration, needed(records().values())),
            *map(_calculation_declaration, exported_calculations()),
        ]
    )


def _declaration(record: Record) -> str:
    unit = plain_unit(record.unit) or "pure number"
    taken = ", ".join(_taken(record))
    lines = [
        *_comment(record),
        f" * @returns {unit}",
        f" * @see {citation(record.source)}, {record.at}",
        " */",
        f"export function {record.name}({taken}): number;",
        f"export function {record.name}(inputs: {{ {taken.replace(', ', '; ')} }}): number;",
    ]
    return "\n".join(lines) + "\n"


def _calculation_declaration(record: Record) -> str:
    """Declare a calculation: what it takes, and an interface for what it returns."""
    data: Any = calculation_data(record)
    made = "".join(word.capitalize() for word in record.name.split("_"))
    made += "" if made.endswith("System") else "Result"
    options = [
        f"{name}?: {' | '.join(json.dumps(one) for one in known)}"
        for name, known in data["options"].items()
    ]
    lines = [f"/** What {record.name} returns. */", f"export interface {made} {{"]
    for name, part in data["parts"].items():
        unit = plain_unit(part["unit"]) or "pure number"
        told = f"{part['summary'].removesuffix('.')}; {unit}" if part["summary"] else unit
        lines += [f"  /** {told} */", f"  readonly {name}: number;"]
    lines += ["}", *_comment(record), f" * @see {citation(record.source)}, {record.at}", " */"]
    taken = "; ".join([*_taken(record), *options])
    lines.append(f"export function {record.name}(inputs: {{ {taken} }}): {made};")
    return "\n".join(lines) + "\n"


def _comment(record: Record) -> list[str]:
    lines = ["/**", f" * {record.summary}", " *"]
    for name, argument in record.arguments.items():
        low, high = argument.span
        kind = "the source covers" if argument.valid else "usual"
        own = plain_unit(argument.unit) or "pure number"
        lines.append(f" * @param {name} {own}; {kind} {low:.10g} to {high:.10g}")
    return lines


def _taken(record: Record) -> list[str]:
    """Return the arguments as TypeScript, those that may be left out with a question mark."""
    return [f"{name}{'?' if name in record.defaults else ''}: number" for name in record.arguments]


def _argument_data(argument: Argument, record: Record, name: str) -> dict[str, object]:
    low, high = argument.possible
    data: dict[str, object] = {
        "unit": argument.unit,
        "symbol": argument.symbol,
        "possible": [_finite(low), _finite(high)],
    }
    data["valid" if argument.valid else "typical"] = list(argument.span)
    if name in record.defaults:
        data["default"] = record.defaults[name]
    return data


def _finite(value: float) -> float | None:
    return None if abs(value) == INFINITY else value


def _file(name: str) -> str:
    return files("reefchem.export").joinpath(name).read_text(encoding="utf-8")
