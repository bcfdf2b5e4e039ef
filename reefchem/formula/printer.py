"""What all printers of equations share: precedence, signs, polynomials."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.core.constants import LN10
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
)

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["Printer", "polynomial", "rising"]

SUM, PRODUCT, POWER, ATOM = 1, 2, 3, 4


class Printer:
    """Walks a tree and asks its subclass how each piece is set.

    Parameters
    ----------
    name_of
        Returns the set name of a term that the body named, or None to print it in full.
    symbol
        Returns how an argument is set.
    put_in
        Returns the number that stands in the place of a term, or None to print the term; it is
        told how tightly the number must bind.
    """

    def __init__(
        self,
        name_of: Callable[[Term], str | None],
        symbol: Callable[[Symbol], str],
        put_in: Callable[[Term, int], str | None] | None = None,
    ) -> None:
        self.name_of = name_of
        self.symbol = symbol
        self.put_in = put_in

    def full(self, term: Term) -> str:
        """Print a term that has a name by what it stands for."""
        return self.show(term) if isinstance(term, Symbol) else self._set(term)[0]

    def show(self, term: Term, at_least: int = 0) -> str:
        """Print a term, in brackets if it binds less tightly than `at_least`."""
        number = self.put_in(term, at_least) if self.put_in else None
        if number is not None:
            return number
        name = self.name_of(term)
        if name is not None:
            return name
        text, binding = self._set(term)
        return text if binding >= at_least else self.brackets(text)

    def _set(self, term: Term) -> tuple[str, int]:
        match term:
            case Number():
                text = self.number(term.value)
                return text, (SUM if term.value < 0 else self.number_binding(text))
            case Symbol():
                return self.symbol(term), ATOM
            case Negative():
                return self.minus + self.show(term.operand, PRODUCT), SUM
            case Binary():
                return self._binary(term)
            case Comparison():
                signs = {"<=": self.at_most, ">=": self.at_least}
                sign = signs.get(term.operator, term.operator)
                return f"{self.show(term.left, SUM)} {sign} {self.show(term.right, SUM)}", 0
            case Apply():
                return self._apply(term)
            case Choice():
                parts = (term.then, term.condition, term.otherwise)
                return self.choice(*(self.show(part) for part in parts)), ATOM
            case Call():
                return self.call(term, [self.show(argument) for argument in term.arguments]), ATOM
            case Root():
                return self.root(term), ATOM
        msg = f"{type(term).__name__} cannot be printed"
        raise TypeError(msg)

    def _binary(self, term: Binary) -> tuple[str, int]:
        series = polynomial(term) or rising(term)
        if series is not None:
            return " ".join(self._polynomial_pieces(*series)), SUM
        left, right, sign = term.left, term.right, term.operator
        if sign in "+-":
            return self._joined(self.show(left, SUM), sign, self.show(right, PRODUCT), right), SUM
        if sign == "/":
            return self._fraction(left, right)
        if sign == "**":
            return self.power(self.show(left, ATOM), self.show(right)), POWER
        return self._product(term)

    def _joined(self, before: str, sign: str, after: str, right: Term) -> str:
        """Join two parts of a sum; a number below zero takes its sign into the join."""
        if sign == "+" and isinstance(right, Number) and right.value < 0:
            return f"{before} {self.minus} {self.number(-right.value)}"
        if sign == "+" and isinstance(right, Binary) and self.name_of(right) is None:
            series = rising(right)
            if series is not None:
                first, *others = self._polynomial_pieces(*series)
                signed = first.removeprefix(self.minus)
                joined = "+" if signed == first else self.minus
                return " ".join([before, joined, signed, *others])
            lead = _leading_number(right)
            if lead is not None and lead.value < 0:
                return f"{before} {self.minus} {self._without_sign(right)}"
        return f"{before} {self.minus if sign == '-' else '+'} {after}"

    def _without_sign(self, term: Binary) -> str:
        return self.show(_flipped(term), PRODUCT)

    def _apply(self, term: Apply) -> tuple[str, int]:
        """Set a function; a power of ten, which bodies write with exp, as that power."""
        operand = term.operand
        if term.function == "exp" and isinstance(operand, Binary) and operand.operator == "*":
            left, right = operand.left, operand.right
            if isinstance(left, Number) and abs(left.value) == LN10:
                sign = self.minus if left.value < 0 else ""
                exponent = sign + self.show(right, PRODUCT if sign else 0)
                return self.power(self.number(10), exponent), POWER
        return self.apply(term.function, self.show(operand)), ATOM

    def _fraction(self, left: Term, right: Term) -> tuple[str, int]:
        """Set a fraction; one over another becomes one, a logarithm over ln 10 a decimal one."""
        if isinstance(right, Number) and right.value == LN10:
            minus = isinstance(left, Negative)
            inner = left.operand if isinstance(left, Negative) else left
            if isinstance(inner, Apply) and inner.function == "log":
                made = self.apply("log10", self.show(inner.operand))
                return (self.minus + made, SUM) if minus else (made, ATOM)
        under = [right]
        while isinstance(left, Binary) and left.operator == "/" and self.name_of(left) is None:
            under.insert(0, left.right)
            left = left.left
        return self.fraction(left, under)

    def _product(self, term: Binary) -> tuple[str, int]:
        """Set a product; its leading number gives its sign to the whole."""
        factors = [*_factors(term.left, self.name_of), *_factors(term.right, self.name_of)]
        first = factors[0]
        if isinstance(first, Number) and first.value < 0:
            rest = factors[1:] if first.value == -1 else [Number(-first.value), *factors[1:]]
            return self.minus + self._factors_set(rest), SUM
        return self._factors_set(factors), PRODUCT

    def _factors_set(self, factors: list[Term]) -> str:
        pieces = []
        index = 0
        while index < len(factors):
            count = 1
            while index + count < len(factors) and factors[index + count] is factors[index]:
                count += 1
            shown = self.show(factors[index], ATOM if count > 1 else PRODUCT)
            pieces.append(self.power(shown, str(count)) if count > 1 else shown)
            index += count
        return self.product(pieces)

    def _polynomial_pieces(self, variable: Term, coefficients: list[Number]) -> list[str]:
        shown = self.show(variable, ATOM)
        pieces: list[str] = []
        for degree, coefficient in enumerate(coefficients):
            value = coefficient.value
            if value == 0:
                continue
            piece = self.number(abs(value))
            if degree:
                power = shown if degree == 1 else self.power(shown, str(degree))
                piece = power if abs(value) == 1 else self.product([piece, power])
            sign = self.minus if value < 0 else "+"
            first = piece if value > 0 else f"{self.minus}{piece}"
            pieces.append(f"{sign} {piece}" if pieces else first)
        return pieces

    def summands(self, term: Term) -> list[str]:
        """Return the parts of a sum, each but the first with its sign; lines break between them."""
        series = polynomial(term) or rising(term)
        if series is not None:
            return self._polynomial_pieces(*series)
        if isinstance(term, Binary) and term.operator in "+-":
            left = term.left
            whole = self.name_of(left) is not None or isinstance(left, Symbol | Call)
            before = [self.show(left, SUM)] if whole else self.summands(left)
            after = self._joined("", term.operator, self.show(term.right, PRODUCT), term.right)
            return [*before, after.strip()]
        if isinstance(term, Root):
            first, *others = self.summands(term.residual)
            return [*self.sought(term), first, *others, "= 0"]
        return [self.full(term)]

    # What a subclass decides.
    minus = "-"
    at_most = "<="
    at_least = ">="

    def number(self, value: float) -> str:
        """Set a number."""
        raise NotImplementedError

    def number_binding(self, text: str) -> int:  # noqa: ARG002 - subclasses look at the text
        """Return how tightly a set number binds."""
        return ATOM

    def brackets(self, text: str) -> str:
        """Set brackets around a text."""
        raise NotImplementedError

    def product(self, pieces: list[str]) -> str:
        """Set a product."""
        raise NotImplementedError

    def fraction(self, over: Term, under: list[Term]) -> tuple[str, int]:
        """Set a fraction with a product below; return how tightly it binds."""
        raise NotImplementedError

    def power(self, base: str, exponent: str) -> str:
        """Set a power."""
        raise NotImplementedError

    def apply(self, function: str, operand: str) -> str:
        """Set one of the functions exp, log, log10, sqrt."""
        raise NotImplementedError

    def choice(self, then: str, condition: str, otherwise: str) -> str:
        """Set a choice."""
        raise NotImplementedError

    def call(self, term: Call, arguments: list[str]) -> str:
        """Set another relation."""
        raise NotImplementedError

    def sought(self, term: Root) -> list[str]:
        """Set the words before a residual that is to be zero."""
        raise NotImplementedError

    def root(self, term: Root) -> str:
        """Set a root in words: the unknown for which the residual is zero."""
        return " ".join(self.summands(term))


def polynomial(term: Term) -> tuple[Term, list[Number]] | None:
    """Return the variable and the coefficients of ``c0 + x * (c1 + x * (c2 + ...))``.

    Bodies nest polynomials this way because it is fast and exact; pages print them as the source
    does. None when the term is not one, or is of the first degree.
    """
    found = _nested(term)
    return found if found is not None and len(found[1]) > 2 else None


def rising(term: Term) -> tuple[Term, list[Number]] | None:
    """Return the same of ``x * (c1 + x * (c2 + ...))``, which has no constant."""
    if not (isinstance(term, Binary) and term.operator == "*"):
        return None
    found = _nested(term.right)
    if found is None or found[0] is not term.left:
        return None
    return found[0], [Number(0.0), *found[1]]


def _nested(term: Term) -> tuple[Term, list[Number]] | None:
    coefficients: list[Number] = []
    variable: Term | None = None
    while True:
        if isinstance(term, Number) and variable is not None:
            coefficients.append(term)
            return variable, coefficients
        if not (
            isinstance(term, Binary)
            and term.operator == "+"
            and isinstance(term.left, Number)
            and isinstance(term.right, Binary)
            and term.right.operator == "*"
        ):
            return None
        if variable is None:
            variable = term.right.left
        if term.right.left is not variable or isinstance(variable, Number):
            return None
        coefficients.append(term.left)
        term = term.right.right


def _factors(term: Term, name_of: Callable[[Term], str | None]) -> list[Term]:
    if isinstance(term, Binary) and term.operator == "*" and name_of(term) is None:
        return [*_factors(term.left, name_of), *_factors(term.right, name_of)]
    return [term]


def _leading_number(term: Term) -> Number | None:
    while isinstance(term, Binary) and term.operator in "*/":
        term = term.left
    return term if isinstance(term, Number) else None


def _flipped(term: Term) -> Term:
    """Return a product or fraction with the sign of its leading number changed."""
    if isinstance(term, Binary):
        return Binary(term.operator, _flipped(term.left), term.right)
    if isinstance(term, Number):
        return Number(-term.value)
    return Negative(term)
