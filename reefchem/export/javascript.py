"""All relations as JavaScript: the same operations in the same order as the Python bodies."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import TYPE_CHECKING

from reefchem.core.sources import citation
from reefchem.core.term import Root
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


def module_source(records: Iterable[Record]) -> str:
    """Return an ES module with a checked function for each relation.

    A function takes numbers in the recorded units, by position or as one object. It refuses what
    is impossible with a `DomainError`, says aloud what is outside a source's range, and lets NaN
    pass, as the Python functions do.
    """
    every = needed(records)
    names = [record.name for record in every]
    about = json.dumps({record.name: record_data(record) for record in every}, ensure_ascii=False)
    exports = "\n".join(f'export const {name} = guarded("{name}");' for name in names)
    return "\n\n".join(
        [
            _file("module_head.js").strip(),
            f"export const records = freeze({about});",
            "const bodies = (() => {",
            runtime().strip(),
            _file("module_refusal.js").strip(),
            functions_source(every),
            f"return {{ {', '.join(names)} }};\n}})();",
            _file("module_guard.js").strip(),
            exports + "\n",
        ]
    )


def record_data(record: Record) -> dict[str, object]:
    """Return what is known of a relation, for JSON; an open end of a range is null."""
    iterated = isinstance(equation(record).result, Root)
    return {
        "summary": record.summary,
        "unit": record.unit,
        "symbol": record.symbol,
        "source": record.source,
        "cited": citation(record.source),
        "at": record.at,
        "iterated": iterated,
        "arguments": {
            name: _argument_data(argument, record.defaults.get(name))
            for name, argument in record.arguments.items()
        },
    }


def declarations(records: Iterable[Record]) -> str:
    """Return the TypeScript declarations of the module, with units and ranges as comments."""
    return "\n".join([_file("module_head.d.ts"), *map(_declaration, needed(records))])


def _declaration(record: Record) -> str:
    unit = plain_unit(record.unit) or "pure number"
    lines = ["/**", f" * {record.summary}", " *"]
    arguments, fields = [], []
    for name, argument in record.arguments.items():
        low, high = argument.span
        kind = "the source covers" if argument.valid else "usual"
        own = plain_unit(argument.unit) or "pure number"
        lines.append(f" * @param {name} {own}; {kind} {low:.10g} to {high:.10g}")
        optional = "?" if name in record.defaults else ""
        arguments.append(f"{name}{optional}: number")
        fields.append(f"{name}{optional}: number")
    lines += [f" * @returns {unit}", f" * @see {citation(record.source)}, {record.at}", " */"]
    lines.append(f"export function {record.name}({', '.join(arguments)}): number;")
    lines.append(f"export function {record.name}(inputs: {{ {'; '.join(fields)} }}): number;")
    return "\n".join(lines) + "\n"


def _argument_data(argument: Argument, default: float | None) -> dict[str, object]:
    low, high = argument.possible
    data: dict[str, object] = {
        "unit": argument.unit,
        "symbol": argument.symbol,
        "possible": [_finite(low), _finite(high)],
    }
    data["valid" if argument.valid else "typical"] = list(argument.span)
    if default is not None:
        data["default"] = default
    return data


def _finite(value: float) -> float | None:
    return None if abs(value) == INFINITY else value


def _file(name: str) -> str:
    return files("reefchem.export").joinpath(name).read_text(encoding="utf-8")
