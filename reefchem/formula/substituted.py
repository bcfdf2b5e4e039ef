"""An equation with numbers in the place of its symbols, line by line in the order of computing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.term import Call, Symbol, Term
from reefchem.formula.digits import concise
from reefchem.formula.equation import evaluate, same_call
from reefchem.formula.printer import ATOM

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from reefchem.formula.equation import Equation
    from reefchem.formula.printer import Printer

__all__ = ["Line", "Slot", "numbers", "readable", "substituted"]


@dataclass(frozen=True)
class Slot:
    """A number that stands in the place of a term.

    Attributes
    ----------
    kind, key
        ``"argument"`` and its name, ``"named"`` and its name, or ``"call"`` and its index among
        the known calls.
    tight
        Whether it is raised to a power, so that a power of ten needs brackets.
    alone
        Whether it stands by itself, so that not even a sign needs brackets.
    """

    kind: str
    key: str
    tight: bool = False
    alone: bool = False


@dataclass(frozen=True)
class Line:
    """One line: the name that the body gave to it (empty for the result), and its sum in parts."""

    name: str
    parts: list[str]


def substituted(
    equation: Equation,
    printer: Callable[[Equation, Callable[[Term, int], str | None]], Printer],
    set_slot: Callable[[Slot], str],
) -> list[Line]:
    """Return the lines of an equation with each known quantity replaced by a number.

    Parameters
    ----------
    equation
        The equation.
    printer
        `latex_printer` or `plain_printer`.
    set_slot
        Returns how the number is set.
    """
    named = {id(term): name for name, term in equation.known_named()}
    calls = equation.known_calls()

    def put_in(term: Term, at_least: int) -> str | None:
        tight = at_least == ATOM
        if isinstance(term, Symbol) and equation.arguments.get(term.name) is term:
            return set_slot(Slot("argument", term.name, tight))
        if id(term) in named:
            return set_slot(Slot("named", named[id(term)], tight))
        if isinstance(term, Call):
            for index, call in enumerate(calls):
                if same_call(call, term):
                    return set_slot(Slot("call", str(index), tight))
        return None

    made = printer(equation, put_in)
    lines = [Line(name, made.summands(term)) for name, term in equation.known_named()]
    return [*lines, Line("", made.summands(equation.result))]


def numbers(equation: Equation, inputs: Mapping[str, float]) -> dict[tuple[str, str], float]:
    """Return the number of each slot, by kind and key."""
    found = {("argument", name): value for name, value in inputs.items()}
    for name, term in equation.known_named():
        found["named", name] = float(evaluate(term, inputs))
    for index, call in enumerate(equation.known_calls()):
        found["call", str(index)] = float(evaluate(call, inputs))
    return found


def readable(kind: str, value: float) -> str:
    """Return the text of a number put in: inputs to ten digits, what is computed to six."""
    return concise(value, 10 if kind == "argument" else 6)
