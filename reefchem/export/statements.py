"""Terms that share parts as JavaScript statements: what is used twice is computed once, by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.core.term import (
    Apply,
    Binary,
    Call,
    Comparison,
    Number,
    Root,
    Symbol,
    Term,
    as_term,
)
from reefchem.formula.javascript import JavaScriptPrinter
from reefchem.formula.printer import ATOM

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from reefchem.core.record import Record

__all__ = ["ModulePrinter", "function_of_parts", "statements"]


class ModulePrinter(JavaScriptPrinter):
    """Prints a call of another relation so that the module judges its inputs and its result."""

    def call(self, term: Call, arguments: list[str]) -> str:
        """Set a call, with the places of the inputs whose range is the callee's to judge.

        An input of the caller that it hands on under the same name was judged before.
        """
        super().call(term, arguments)
        places = [
            str(place)
            for place, (name, given) in enumerate(
                zip(term.record.arguments, term.arguments, strict=True)
            )
            if term.record.arguments[name].valid and not self._judged_before(name, given)
        ]
        return f"called({term.record.name}, [{', '.join(places)}], {', '.join(arguments)})"

    def _judged_before(self, name: str, given: Term) -> bool:
        own = self.caller.arguments.get(name)
        same = isinstance(given, Symbol) and given.name == name
        return same and own is not None and own.valid is not None


def statements(wanted: Mapping[str, Term], caller: Record) -> tuple[list[str], dict[str, str]]:
    """Return lines of JavaScript, and by name the expression that has the value after them.

    Parameters
    ----------
    wanted
        Terms by name; a part that they share is computed once.
    caller
        Whose body this is.
    """
    scope = _Scope(caller)
    scope.put(wanted.values())
    return scope.lines, {name: scope.show(term) for name, term in wanted.items()}


def function_of_parts(
    head: str,
    wanted: Mapping[str, Term],
    caller: Record,
    *,
    first: str = "",
    as_list: bool = False,
) -> str:
    """Return a JavaScript function that returns terms: an object by name, or a list.

    Parameters
    ----------
    head
        Its name and what it takes.
    wanted, caller
        As for `statements`.
    first
        A line before all others.
    as_list
        Whether names are left out.
    """
    lines, made = statements(wanted, caller)
    told = (
        f"[{', '.join(made.values())}]"
        if as_list
        else "{ " + ", ".join(f"{name}: {text}" for name, text in made.items()) + " }"
    )
    body = "\n".join(f"  {line}" for line in [*filter(None, [first]), *lines, f"return {told};"])
    return f"function {head} {{\n{body}\n}}"


class _Scope(ModulePrinter):
    """The statements of one function, in the order they are computed."""

    def __init__(self, caller: Record, outer: _Scope | None = None) -> None:
        super().__init__(self.named, lambda symbol: symbol.name)
        self.caller, self.outer = caller, outer
        self.lines: list[str] = []
        self.names: dict[int, str] = {}
        self.known: _Known = _Known() if outer is None else outer.known
        self.letter: str = "v" if outer is None else chr(ord(outer.letter) + 1)

    def named(self, term: Term) -> str | None:
        """Return the name of a term that was computed before."""
        own = self.names.get(self.known.number(term))
        return own if own or self.outer is None else self.outer.named(term)

    def put(self, terms: Iterable[Term]) -> None:
        """Write a line for each part that is used more than once, parts before wholes."""
        order, counts = self._counted(terms)
        for term in order:
            number = self.known.number(term)
            if counts[number] > 1:
                name = f"{self.letter}{len(self.lines)}"
                self.lines.append(f"const {name} = {self.full(term)};")
                self.names[number] = name

    def call(self, term: Call, arguments: list[str]) -> str:
        """Set a call; one with constants of its own is written out."""
        if term.options:
            return self.show(self.known.body(term), ATOM)
        return super().call(term, arguments)

    def root(self, term: Root) -> str:
        """Set a search; the residual has statements of its own."""
        inner = _Scope(self.caller, self)
        inner.put([term.residual])
        body = " ".join([*inner.lines, f"return {inner.show(term.residual)};"])
        unknown = self.symbol(term.unknown)
        bounds = f"{self.show(term.lower)}, {self.show(term.upper)}"
        return f"findRoot(({unknown}) => {{ {body} }}, {bounds})"

    def _counted(self, terms: Iterable[Term]) -> tuple[list[Term], dict[int, int]]:
        """Return the parts that are no leaf and have no name, parts first, and their uses.

        What a search needs and its unknown does not touch counts twice: it is computed before.
        """
        order: list[Term] = []
        counts: dict[int, int] = {}

        def visit(term: Term) -> None:
            if isinstance(term, Symbol | Number) or self.named(term) is not None:
                return
            number = self.known.number(term)
            counts[number] = counts.get(number, 0) + 1
            if counts[number] > 1:
                return
            if isinstance(term, Root):
                parts = [
                    term.lower,
                    term.upper,
                    *2 * list(self._untouched(term.residual, term.unknown)),
                ]
            elif isinstance(term, Call) and term.options:
                parts = [self.known.body(term)]
            else:
                parts = list(term.parts())
            for part in parts:
                visit(part)
            order.append(term)

        for term in terms:
            visit(term)
        return order, counts

    def _untouched(self, term: Term, unknown: Symbol) -> Iterator[Term]:
        """Give the largest parts of a residual that do not lean on the unknown."""
        if not any(part is unknown for part in term.walk()):
            yield term
        elif isinstance(term, Root):
            yield from self._untouched(term.lower, unknown)
            yield from self._untouched(term.upper, unknown)
        elif isinstance(term, Call) and term.options:
            yield from self._untouched(self.known.body(term), unknown)
        else:
            for part in term.parts():
                yield from self._untouched(part, unknown)


class _Known:
    """Terms by number: those that say the same have the same one."""

    def __init__(self) -> None:
        self._by_term: dict[int, tuple[int, Term]] = {}  # the term, so that its id stays its own
        self._by_shape: dict[tuple[object, ...], int] = {}
        self._bodies: dict[int, Term] = {}

    def number(self, term: Term) -> int:
        """Return the number of a term."""
        found = self._by_term.get(id(term))
        if found is None:
            number = self._by_shape.setdefault(self._shape(term), len(self._by_shape))
            found = self._by_term[id(term)] = (number, term)
        return found[0]

    def body(self, term: Call) -> Term:
        """Return what a call with constants of its own computes."""
        number = self.number(term)
        if number not in self._bodies:
            given = dict(zip(term.record.arguments, term.arguments, strict=True))
            self._bodies[number] = as_term(term.record.kernel(**given, **term.options))
        return self._bodies[number]

    def _shape(self, term: Term) -> tuple[object, ...]:
        match term:
            case Number():
                return ("number", repr(term.value))
            case Symbol():
                return ("symbol", term.name)
            case Call():
                own: tuple[object, ...] = (term.record.name, id(term) if term.options else 0)
            case Apply():
                own = (term.function,)
            case Binary() | Comparison():
                own = (term.operator,)
            case _:
                own = ()
        return (type(term).__name__, *own, *(self.number(part) for part in term.parts()))
