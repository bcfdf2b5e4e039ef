"""Large arrays through a body without new memory at each operation.

A body written as an expression takes memory for each of its results. For large arrays the equation
is written down once (see `core.term`) and turned into the same operations, in the same order, that
write into a few rows of memory which stay in the processor's cache. What the expression checks on
the way is checked here too; where a check fails, the expression itself has the word.
"""

from __future__ import annotations

from reefchem.core.functions import exp, log, sqrt
from reefchem.core.term import Apply, Binary, Call, Negative, Number, Symbol, Term, as_term
from reefchem.core.vouch import noting

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from reefchem.core.record import Record

__all__ = ["in_place"]

_UFUNCS = {"+": "add", "-": "subtract", "*": "multiply", "/": "divide"}

_programs: dict[tuple[Record, tuple[bool, ...]], tuple[Callable[..., bool], int] | None] = {}


def in_place(record: Record, values: list[Any], size: int) -> Callable[..., bool] | None:
    """Return a function that computes a piece into given memory, or None where there is none.

    Parameters
    ----------
    record
        The relation; its options are the defaults.
    values
        Floats and float arrays, one for each recorded argument.
    size
        Largest piece.

    Returns
    -------
    callable or None
        Called with the piece of the result and then the pieces of the values. It returns whether
        all checks were passed; else what it wrote is to be computed again by the body. There is
        none for a body with a root, a choice or a power.
    """
    key = record, tuple(type(value) is float for value in values)
    if key not in _programs:
        _programs[key] = _Writer(*key).program()
    made = _programs[key]
    if made is None:
        return None
    import numpy as np  # noqa: PLC0415 - only where somebody brought an array

    program, rows = made
    memory = np.empty((rows, size))

    def piece(result: Any, *given: Any) -> bool:
        return program(result, memory[:, : result.size], *given)

    return piece


class _Writer:
    """Writes the program of a relation, for arguments of which some are floats."""

    def __init__(self, record: Record, floats: tuple[bool, ...]) -> None:
        self.record = record
        self.symbols = [Symbol(name, a.symbol) for name, a in record.arguments.items()]
        named = zip(record.arguments, floats, strict=True)
        self.scalars = {name for name, is_float in named if is_float}
        self.resolved: dict[int, tuple[Term, Term]] = {}
        self.alike: dict[tuple[object, ...], Term] = {}
        self.checks: list[tuple[Term, float, float]] = []
        self.uses: dict[int, int] = {}
        self.names: dict[int, str] = {}
        self.lines: list[str] = []
        self.free: list[str] = []
        self.rows: list[str] = []

    def program(self) -> tuple[Callable[..., bool], int] | None:
        """Return the program and how many rows of memory it needs."""
        result = self._body(self.record, tuple(self.symbols), {})
        if not self._count(result) or self._write(result, last=True) != "_result":
            return None
        import numpy as np  # noqa: PLC0415 - only where somebody brought an array

        head = ", ".join(["_result", "_memory", *self.record.arguments])
        rows = [f"{row} = _memory[{index}]" for index, row in enumerate(self.rows)]
        body = "\n    ".join([*rows, *self.lines, "return True"])
        source = f"def _program({head}):\n    {body}\n"
        ufuncs = [*_UFUNCS.values(), "negative", "exp", "log", "sqrt"]
        space: dict[str, Any] = {f"_{name}": getattr(np, name) for name in ufuncs}
        space |= {"_float_exp": exp, "_float_log": log, "_float_sqrt": sqrt}
        where = f"<{self.record.name} in place>"
        exec(compile(source, where, "exec"), space)  # noqa: S102 - our own text
        return space["_program"], len(self.rows)

    def _body(self, record: Record, given: tuple[Term, ...], options: dict[str, object]) -> Term:
        """Return what a body computes, and note what it vouches for."""
        token = noting.set(self.checks)
        try:
            named = dict(zip(record.arguments, given, strict=True))
            return as_term(record.kernel(**named, **options))
        finally:
            noting.reset(token)

    def _resolved(self, term: Term) -> Term:
        """Return the term to write: a body for a call, and one term for all that are alike."""
        if id(term) in self.resolved:
            return self.resolved[id(term)][1]
        if isinstance(term, Call):
            for key, part in zip(term.record.arguments, term.arguments, strict=True):
                self._note_range(term.record, key, part)
            found = self._resolved(self._body(term.record, term.arguments, term.options))
        else:
            parts = tuple(id(self._resolved(part)) for part in term.parts())
            kind = getattr(term, "operator", None) or getattr(term, "function", None)
            own = repr(term.value) if isinstance(term, Number) else None
            one = id(term) if isinstance(term, Symbol) else None
            found = self.alike.setdefault((type(term), kind, own, one, parts), term)
        self.resolved[id(term)] = term, found
        return found

    def _note_range(self, record: Record, key: str, part: Term) -> None:
        """Note the range of an argument, unless the boundary has looked at it already."""
        low, high = record.arguments[key].bounds
        if isinstance(part, Symbol) and part.name in self.record.arguments:
            least, most = self.record.arguments[part.name].bounds
            if low <= least and most <= high:
                return
        self.checks.append((part, low, high))

    def _count(self, term: Term) -> bool:
        """Count how often each term is used; return whether all can be written."""
        term = self._resolved(term)
        seen = id(term) in self.uses
        self.uses[id(term)] = self.uses.get(id(term), 0) + 1
        if seen or isinstance(term, Number | Symbol):
            return True
        plain = isinstance(term, Negative | Apply)
        plain |= isinstance(term, Binary) and term.operator in _UFUNCS
        return plain and all(self._count(part) for part in term.parts())

    def _write(self, term: Term, *, last: bool = False) -> str:
        """Write the lines that compute a term, unless they are there; return its name."""
        term = self._resolved(term)
        if id(term) in self.names:
            return self.names[id(term)]
        parts = [self._resolved(part) for part in term.parts()]
        given = [self._write(part) for part in parts]
        if isinstance(term, Number):
            name = repr(term.value)
            self.scalars.add(name)
        elif isinstance(term, Symbol):
            name = term.name
        elif self.scalars.issuperset(given):
            name = f"_float{len(self.names)}"
            self.scalars.add(name)
            self.lines.append(f"{name} = {_float_operation(term, given)}")
        else:
            self._release(parts, given)
            name = "_result" if last else self._row()
            self.lines.append(f"{_array_operation(term)}({', '.join([*given, name])})")
        self.names[id(term)] = name
        for checked, low, high in self.checks:
            if self._resolved(checked) is term:
                inside = f"{low!r} <= {name} <= {high!r}"
                if name not in self.scalars:
                    inside = f"{low!r} <= {name}.min() and {name}.max() <= {high!r}"
                self.lines.append(f"if not ({inside}): return False")
        return name

    def _release(self, parts: list[Term], names: list[str]) -> None:
        """Note which rows are not read again after the operation at hand."""
        for part, name in zip(parts, names, strict=True):
            self.uses[id(part)] -= 1
            if name in self.rows and not self.uses[id(part)]:
                self.free.append(name)

    def _row(self) -> str:
        """Return a row of memory that nobody reads any more, or a new one."""
        if self.free:
            return self.free.pop()
        self.rows.append(f"_row{len(self.rows)}")
        return self.rows[-1]


def _float_operation(term: Term, given: list[str]) -> str:
    if isinstance(term, Binary):
        return f"{given[0]} {term.operator} {given[1]}"
    return f"_float_{term.function}({given[0]})" if isinstance(term, Apply) else f"-{given[0]}"


def _array_operation(term: Term) -> str:
    if isinstance(term, Binary):
        return f"_{_UFUNCS[term.operator]}"
    return f"_{term.function}" if isinstance(term, Apply) else "_negative"
