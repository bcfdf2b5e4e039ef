"""The tree of an equation, written down by running it.

A body that is called with `Symbol` terms instead of numbers leaves behind the tree of what it
would have computed: the same operations, in the same order, with the digits of its coefficients.
The formula on a page, the numbers put in, and the JavaScript behind a page are printed from that
tree, so that none of them can differ from the function.

A term cannot be compared in an `if`: write `where(condition, a, b)`.
"""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from typing import NoReturn

    from reefchem.core.record import Record

__all__ = [
    "Apply",
    "Binary",
    "Call",
    "Choice",
    "Comparison",
    "Negative",
    "Number",
    "Root",
    "Symbol",
    "Term",
    "as_term",
    "root_term",
]


class Term:
    """A node of the tree of an equation."""

    __slots__ = ()
    __array_ufunc__ = None  # NumPy leaves mixed operations to the methods below

    def parts(self) -> tuple[Term, ...]:
        """Return the terms this one is made of."""
        return ()

    def walk(self) -> Iterator[Term]:
        """Go through this term and all below it, outermost first."""
        yield self
        for part in self.parts():
            yield from part.walk()

    def __add__(self, other: object) -> Term:
        return _binary("+", self, other)

    def __radd__(self, other: object) -> Term:
        return _binary("+", other, self)

    def __sub__(self, other: object) -> Term:
        return _binary("-", self, other)

    def __rsub__(self, other: object) -> Term:
        return _binary("-", other, self)

    def __mul__(self, other: object) -> Term:
        return _binary("*", self, other)

    def __rmul__(self, other: object) -> Term:
        return _binary("*", other, self)

    def __truediv__(self, other: object) -> Term:
        return _binary("/", self, other)

    def __rtruediv__(self, other: object) -> Term:
        return _binary("/", other, self)

    def __pow__(self, other: object) -> Term:
        return _binary("**", self, other)

    def __rpow__(self, other: object) -> Term:
        return _binary("**", other, self)

    def __neg__(self) -> Term:
        return Negative(self)

    def __pos__(self) -> Term:
        return self

    def __lt__(self, other: object) -> Term:
        return _comparison("<", self, other)

    def __le__(self, other: object) -> Term:
        return _comparison("<=", self, other)

    def __gt__(self, other: object) -> Term:
        return _comparison(">", self, other)

    def __ge__(self, other: object) -> Term:
        return _comparison(">=", self, other)

    def __bool__(self) -> NoReturn:
        msg = "an equation cannot branch with `if`, `and` or `max`; write where(condition, a, b)"
        raise TypeError(msg)


class Number(Term):
    """A number as the body has it."""

    __slots__ = ("value",)

    def __init__(self, value: float) -> None:
        self.value: float = value


class Symbol(Term):
    """An argument of the relation, or the unknown of a root."""

    __slots__ = ("latex", "name")

    def __init__(self, name: str, latex: str) -> None:
        self.name: str = name
        self.latex: str = latex


class Negative(Term):
    """A term with its sign changed."""

    __slots__ = ("operand",)

    def __init__(self, operand: Term) -> None:
        self.operand: Term = operand

    def parts(self) -> tuple[Term, ...]:
        """Return the operand."""
        return (self.operand,)


class Binary(Term):
    """Two terms joined by one of ``+ - * / **``."""

    __slots__ = ("left", "operator", "right")

    def __init__(self, operator: str, left: Term, right: Term) -> None:
        self.operator: str = operator
        self.left: Term = left
        self.right: Term = right

    def parts(self) -> tuple[Term, ...]:
        """Return both sides."""
        return (self.left, self.right)


class Comparison(Term):
    """Two terms compared by one of ``< <= > >=``."""

    __slots__ = ("left", "operator", "right")

    def __init__(self, operator: str, left: Term, right: Term) -> None:
        self.operator: str = operator
        self.left: Term = left
        self.right: Term = right

    def parts(self) -> tuple[Term, ...]:
        """Return both sides."""
        return (self.left, self.right)

    def __and__(self, other: Term) -> Choice:
        """Return the condition that both hold, which arrays write with this sign."""
        return Choice(self, other, Number(0))


class Apply(Term):
    """One of the functions ``exp log sqrt`` of a term."""

    __slots__ = ("function", "operand")

    def __init__(self, function: str, operand: Term) -> None:
        self.function: str = function
        self.operand: Term = operand

    def parts(self) -> tuple[Term, ...]:
        """Return the operand."""
        return (self.operand,)


class Choice(Term):
    """The first term where the condition holds, the second elsewhere."""

    __slots__ = ("condition", "otherwise", "then")

    def __init__(self, condition: Term, then: Term, otherwise: Term) -> None:
        self.condition: Term = condition
        self.then: Term = then
        self.otherwise: Term = otherwise

    def parts(self) -> tuple[Term, ...]:
        """Return the condition and both branches."""
        return (self.condition, self.then, self.otherwise)


class Call(Term):
    """Another relation with its arguments in the order of its record.

    `options` holds what was passed beside the recorded arguments (another fit, say).
    """

    __slots__ = ("arguments", "options", "record")

    def __init__(
        self, record: Record, arguments: tuple[Term, ...], options: dict[str, object]
    ) -> None:
        self.record: Record = record
        self.arguments: tuple[Term, ...] = arguments
        self.options: dict[str, object] = options

    def parts(self) -> tuple[Term, ...]:
        """Return the arguments."""
        return self.arguments


class Root(Term):
    """The value of the unknown between two bounds at which the residual is zero."""

    __slots__ = ("lower", "residual", "unknown", "upper")

    def __init__(self, unknown: Symbol, residual: Term, lower: Term, upper: Term) -> None:
        self.unknown: Symbol = unknown
        self.residual: Term = residual
        self.lower: Term = lower
        self.upper: Term = upper

    def parts(self) -> tuple[Term, ...]:
        """Return the unknown, the residual and the bounds."""
        return (self.unknown, self.residual, self.lower, self.upper)


def as_term(value: object) -> Term:
    """Return a number as a term; leave a term as it is."""
    if isinstance(value, Term):
        return value
    if isinstance(value, int | float) and not isinstance(value, bool):
        return Number(value if type(value) is int else float(value))
    msg = f"an equation holds numbers and terms, not {type(value).__name__} {value!r}"
    raise TypeError(msg)


def root_term(
    residual: Callable[[Term], object], lower: object, upper: object, name: str, latex: str
) -> Root:
    """Write down a root by calling the residual with its unknown as a symbol."""
    unknown = Symbol(name, latex)
    return Root(unknown, as_term(residual(unknown)), as_term(lower), as_term(upper))


def _binary(operator: str, left: object, right: object) -> Term:
    return Binary(operator, as_term(left), as_term(right))


def _comparison(operator: str, left: object, right: object) -> Term:
    return Comparison(operator, as_term(left), as_term(right))
