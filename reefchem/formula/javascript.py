"""Equations as JavaScript functions: the same operations in the same order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.core.term import Call, Symbol, Term
from reefchem.formula.equation import equation
from reefchem.formula.printer import ATOM, PRODUCT, Printer

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reefchem.core.record import Record
    from reefchem.core.term import Apply, Binary, Root
    from reefchem.formula.equation import Equation

__all__ = ["JavaScriptPrinter", "details_source", "function_source", "needed"]

_RESERVED = frozenset(
    "arguments await break case catch class const continue debugger default delete do else enum "
    "eval export extends false finally for function if implements import in instanceof interface "
    "let new null package private protected public return static super switch this throw true "
    "try typeof var void while with yield findRoot refuse Math".split()
)


class JavaScriptPrinter(Printer):
    """Prints terms as JavaScript expressions.

    Attributes
    ----------
    caller
        The relation whose body is printed.
    """

    caller: Record

    def number(self, value: float) -> str:
        """Set a number so that it reads back to the same double."""
        return repr(value) if value == value else "NaN"

    def brackets(self, text: str) -> str:
        """Set round brackets."""
        return f"({text})"

    def _binary(self, term: Binary) -> tuple[str, int]:
        """Keep the tree as it is: no polynomial is unrolled, no sign is moved."""
        left, right, sign = term.left, term.right, term.operator
        if sign == "**":
            return f"Math.pow({self.show(left)}, {self.show(right)})", ATOM
        binding = 1 if sign in "+-" else PRODUCT
        return f"{self.show(left, binding)} {sign} {self.show(right, binding + 1)}", binding

    def _apply(self, term: Apply) -> tuple[str, int]:
        """Set a function of Math."""
        return f"Math.{term.function}({self.show(term.operand)})", ATOM

    def choice(self, then: str, condition: str, otherwise: str) -> str:
        """Set a choice."""
        return f"({condition} ? {then} : {otherwise})"

    def call(self, term: Call, arguments: list[str]) -> str:
        """Set a call of another generated function."""
        if term.options:
            msg = f"{term.record.name} is called with {sorted(term.options)}; export it by itself"
            raise ValueError(msg)
        return f"{term.record.name}({', '.join(arguments)})"

    def root(self, term: Root) -> str:
        """Set a search by the routine of the runtime."""
        residual = f"({term.unknown.name}) => {self.show(term.residual)}"
        return f"findRoot({residual}, {self.show(term.lower)}, {self.show(term.upper)})"


def function_source(record: Record, kind: type[JavaScriptPrinter] = JavaScriptPrinter) -> str:
    """Return the JavaScript function of a relation; it takes numbers in the recorded units."""
    traced = equation(record)
    printer, names = _printer(traced, kind)
    lines = _named_lines(traced, printer, names)
    body = "\n".join([*_refusals(record), *lines, f"  return {printer.full(traced.result)};"])
    return f"function {record.name}({_head(traced)}) {{\n{body}\n}}"


def _refusals(record: Record) -> list[str]:
    """Return a line for each argument that refuses what is impossible; NaN passes."""
    lines = []
    for name, argument in record.arguments.items():
        low, high = (_bound(value) for value in argument.possible)
        value = _argument_name(name)
        outside = [f"{value} {sign} {bound}" for sign, bound in (("<", low), (">", high))]
        outside += [f"{value} === {bound}" for bound in (low, high) if "Infinity" in bound]
        told = f'"{record.name}", "{name}", {value}, {low}, {high}'
        lines.append(
            f"  if ({' || '.join(o for o in outside if not _idle(o))}) return refuse({told});"
        )
    return lines


def _bound(value: float) -> str:
    return repr(value).replace("inf", "Infinity")


def _idle(comparison: str) -> bool:
    return comparison.endswith(("< -Infinity", "> Infinity"))


def details_source(record: Record) -> str:
    """Return a function that gives what a page shows beside the result, as an array.

    It holds the quantities named on the way, then the other relations that are called, in the
    order of `Equation.known_named` and `Equation.known_calls`.
    """
    traced = equation(record)
    printer, names = _printer(traced)
    named = [names[name] for name, _ in traced.known_named()]
    values = ", ".join([*named, *(printer.full(call) for call in traced.known_calls())])
    body = "\n".join([*_named_lines(traced, printer, names), f"  return [{values}];"])
    return f"function {record.name}__details({_head(traced)}) {{\n{body}\n}}"


def _named_lines(traced: Equation, printer: JavaScriptPrinter, names: dict[str, str]) -> list[str]:
    return [f"  const {names[name]} = {printer.full(term)};" for name, term in traced.known_named()]


def _printer(
    traced: Equation, kind: type[JavaScriptPrinter] = JavaScriptPrinter
) -> tuple[JavaScriptPrinter, dict[str, str]]:
    taken = {*traced.arguments, *_RESERVED}
    names = {name: f"{name}_" if name in taken else name for name in traced.named}

    known = {id(term) for _, term in traced.known_named()}

    def name_of(term: Term) -> str | None:
        name = traced.name_of(term) if id(term) in known else None
        return None if name is None else names[name]

    printer = kind(name_of, _argument)
    printer.caller = traced.record
    return printer, names


def _argument(symbol: Symbol) -> str:
    return _argument_name(symbol.name)


def _argument_name(name: str) -> str:
    return f"{name}_" if name in _RESERVED else name


def _head(traced: Equation) -> str:
    return ", ".join(_argument(symbol) for symbol in traced.arguments.values())


def needed(records: Iterable[Record]) -> list[Record]:
    """Return the relations and all that they call, each once, called ones first."""
    found: dict[str, Record] = {}

    def add(record: Record) -> None:
        if record.name in found:
            return
        for call in equation(record).calls():
            add(call.record)
        found[record.name] = record

    for record in records:
        add(record)
    return list(found.values())
