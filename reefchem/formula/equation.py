"""The equation of a relation, written down by running its body once with symbols."""

from __future__ import annotations

import math
import operator
import sys
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from reefchem.core.roots import find_root
from reefchem.core.term import (
    Apply,
    Binary,
    Call,
    Choice,
    Comparison,
    Negative,
    Number,
    Root,
    Symbol,
    Term,
    as_term,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from types import FrameType

    from reefchem.core.record import Record

__all__ = ["Equation", "equation", "evaluate", "evaluate_binary", "same_call", "traced"]


@dataclass(frozen=True)
class Equation:
    """What a body computes: its arguments, the quantities it names on the way, and its result.

    Attributes
    ----------
    record
        The relation.
    arguments
        Symbol by name of each recorded argument.
    named
        The local variables of the body that hold a term, by name, in the order of first use.
        They are the "where" lines of the printed formula.
    result
        The term that the body returns.
    """

    record: Record
    arguments: Mapping[str, Symbol]
    named: Mapping[str, Term]
    result: Term

    def name_of(self, term: Term) -> str | None:
        """Return the name that the body gave to a term, if any."""
        return next((name for name, other in self.named.items() if other is term), None)

    def calls(self) -> list[Call]:
        """Return the calls of other relations, outermost first."""
        return [term for term in self.result.walk() if isinstance(term, Call)]

    def known_named(self) -> list[tuple[str, Term]]:
        """Return the named quantities that the arguments fix, each after those it is made of."""
        known = [(name, term) for name, term in self.named.items() if self._is_known(term)]
        return sorted(known, key=lambda item: self._depth(item[1]))

    def known_calls(self) -> list[Call]:
        """Return the calls that the arguments fix, the same call once."""
        found: list[Call] = []
        for call in self.calls():
            if self._is_known(call) and not any(same_call(call, other) for other in found):
                found.append(call)
        return found

    def _is_known(self, term: Term) -> bool:
        """Return whether a term has a value before any root is found."""
        inside = [t for t in term.walk() if isinstance(t, Symbol)]
        return all(self.arguments.get(symbol.name) is symbol for symbol in inside)

    def _depth(self, term: Term) -> int:
        inside = {id(part) for part in term.walk()} - {id(term)}
        below = [other for other in self.named.values() if id(other) in inside]
        return max((1 + self._depth(other) for other in below), default=0)


def same_call(one: Call, other: Call) -> bool:
    """Return whether two calls ask for the same value."""
    same = one.record is other.record and one.options == other.options
    return same and all(a is b for a, b in zip(one.arguments, other.arguments, strict=True))


@cache
def equation(record: Record) -> Equation:
    """Return the equation of a relation with its default fit."""
    arguments = {name: Symbol(name, a.symbol) for name, a in record.arguments.items()}
    result, seen = _run(record.kernel, dict(arguments))
    ordered: dict[str, Term] = {}
    used = {id(term) for term in result.walk()}
    for name, term in seen.items():
        plain = isinstance(term, Symbol | Number) or term is result
        if not plain and id(term) in used and not any(term is t for t in ordered.values()):
            ordered[name] = term
    return Equation(record, arguments, ordered, result)


def traced(record: Record, options: Mapping[str, object]) -> Term:
    """Return what the body computes with other options than the defaults."""
    if not options:
        return equation(record).result
    arguments = {name: Symbol(name, a.symbol) for name, a in record.arguments.items()}
    return as_term(record.kernel(**arguments, **options))


def _run(kernel: Callable[..., Any], values: dict[str, Term]) -> tuple[Term, dict[str, Term]]:
    """Call a body with symbols; return its result and its local variables that are terms."""
    seen: dict[str, Term] = {}

    def note(frame: FrameType, event: str, _argument: object) -> None:
        if event == "return" and frame.f_code is kernel.__code__:
            seen.update({k: v for k, v in frame.f_locals.items() if isinstance(v, Term)})

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        result = as_term(kernel(**values))
    finally:
        sys.setprofile(before)
    return result, seen


_OPERATIONS: dict[str, Callable[[Any, Any], Any]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
    "**": operator.pow,
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}


def evaluate_binary(sign: str, left: Any, right: Any) -> Any:
    """Return two values joined or compared by a sign of the tree."""
    return _OPERATIONS[sign](left, right)


def evaluate(term: Term, values: Mapping[str, float]) -> Any:
    """Return the value of a term for values of its symbols.

    It does what the body does, in the same order, so the result is the same to the last bit.
    """
    match term:
        case Number():
            return term.value
        case Symbol():
            return values[term.name]
        case Negative():
            return -evaluate(term.operand, values)
        case Binary() | Comparison():
            left, right = evaluate(term.left, values), evaluate(term.right, values)
            return evaluate_binary(term.operator, left, right)
        case Apply():
            return getattr(math, term.function)(evaluate(term.operand, values))
        case Choice():
            chosen = term.then if evaluate(term.condition, values) else term.otherwise
            return evaluate(chosen, values)
        case Call():
            arguments = [float(evaluate(argument, values)) for argument in term.arguments]
            return term.record.kernel(
                **dict(zip(term.record.arguments, arguments, strict=True)), **term.options
            )
        case Root():
            return find_root(
                lambda x: float(evaluate(term.residual, {**values, term.unknown.name: x})),
                float(evaluate(term.lower, values)),
                float(evaluate(term.upper, values)),
                unknown=term.unknown.name,
            )
    msg = f"no value for {type(term).__name__}"
    raise TypeError(msg)
