"""The record around a relation: unit, symbol, ranges, source, and the boundary it guards.

`relation` turns a plain function into one that takes every kind of number. A float inside the
source's range goes straight to the body; everything else takes the longer way, in `boundary`.
"""

from __future__ import annotations

from reefchem.core.errors import DomainError, NoRootError
from reefchem.core.fit import Fit

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from typing import Any, ParamSpec, TypeVar

    P = ParamSpec("P")
    R = TypeVar("R")

__all__ = [
    "Argument",
    "Record",
    "arg",
    "calculation",
    "calculations",
    "describe",
    "records",
    "relation",
]

INFINITY = float("inf")
EITHER_SIGN = (-INFINITY, INFINITY)
"""What is possible for an amount that may be below zero."""

POSITIVE = (1e-300, INFINITY)
"""What is possible for an amount that is divided by."""

LARGEST = 1.7976931348623157e308
"""The largest double."""

_relations: dict[str, Record] = {}
_calculations: dict[str, Record] = {}


class Argument:
    """What the record says of one argument.

    Attributes
    ----------
    unit : str
        Unit of a bare number, as pint writes it; ``"1"`` for a pure number.
    symbol : str
        How it is written in a formula, in LaTeX.
    valid : tuple of float or None
        The range that the source vouches for.
    typical : tuple of float or None
        A range for tests and sliders where the source gives none.
    possible : tuple of float
        Values outside cannot be: they are refused. The bounds themselves are allowed.
    title : str
        What it is called beside a field; empty where the name says it. See `Record.title`.
    bounds : tuple of float
        What needs no second look: the valid range, or what is possible where the source gives
        none. Finite, so that infinity is outside.
    """

    __slots__ = ("bounds", "possible", "symbol", "title", "typical", "unit", "valid")

    def __init__(
        self,
        unit: str,
        symbol: str,
        valid: tuple[float, float] | None,
        typical: tuple[float, float] | None,
        possible: tuple[float, float],
        title: str,
    ) -> None:
        self.unit: str = unit
        self.symbol: str = symbol
        self.valid: tuple[float, float] | None = valid
        self.typical: tuple[float, float] | None = typical
        self.possible: tuple[float, float] = possible
        self.title: str = title
        low, high = valid or possible
        self.bounds: tuple[float, float] = (max(low, -LARGEST), min(high, LARGEST))

    def titled(self, title: str) -> Argument:
        """Return the same with a title, for an argument that several relations share."""
        return Argument(self.unit, self.symbol, self.valid, self.typical, self.possible, title)

    @property
    def span(self) -> tuple[float, float]:
        """The valid range, or the typical one where the source gives none."""
        span = self.valid or self.typical
        if span is None:
            msg = "an argument needs a valid range, or a typical one where the source gives none"
            raise ValueError(msg)
        return span


def arg(
    unit: str,
    symbol: str,
    *,
    valid: tuple[float, float] | None = None,
    typical: tuple[float, float] | None = None,
    possible: tuple[float, float] | None = None,
    title: str = "",
) -> Argument:
    """Return what a record says of one argument.

    `title` says in a few words what it is, where its name, spelt out, would leave a reader asking.
    `possible` defaults to what the unit allows: no temperature below absolute zero, no amount,
    mass, volume or pure number below zero. Give it where that is not so.
    """
    if possible is None:
        lowest = {"degC": -273.15, "delta_degC": -INFINITY}.get(unit, 0.0)
        possible = (lowest, INFINITY)
    return Argument(unit, symbol, valid, typical, possible, title)


class Record:
    """Everything known of a relation beside its body.

    Attributes
    ----------
    name : str
        Name of the function; unique in the project.
    function : callable
        The public function, with its boundary.
    kernel : callable
        The body alone: no check, no unit.
    unit, symbol : str
        Of the result; the unit as pint writes it, the symbol in LaTeX.
    arguments : dict
        `Argument` by name, in the order of the signature.
    options : dict
        Default by name of what the record does not describe (fits, choices).
    defaults : dict
        Default by name of recorded arguments that have one.
    source, at : str
        Key of the bibliography, and the place in the source.
    leading : bool
        Whether the recorded arguments come first and may be given by position.
    """

    __slots__ = (
        "arguments",
        "at",
        "defaults",
        "function",
        "kernel",
        "leading",
        "name",
        "options",
        "source",
        "symbol",
        "unit",
    )

    def __init__(
        self,
        kernel: Callable[..., Any],
        unit: str,
        symbol: str,
        source: str,
        at: str,
        arguments: Mapping[str, Argument],
    ) -> None:
        self.name: str = kernel.__name__
        self.kernel: Callable[..., Any] = kernel
        self.unit: str = unit
        self.symbol: str = symbol
        self.source: str = source
        self.at: str = at
        names, defaults = _signature(kernel)
        missing = [name for name in arguments if name not in names]
        if missing:
            msg = f"{self.name}: the record describes {missing}, which the function does not take"
            raise TypeError(msg)
        self.arguments: dict[str, Argument] = {
            name: arguments[name] for name in names if name in arguments
        }
        self.defaults: dict[str, Any] = {
            name: defaults[name] for name in self.arguments if name in defaults
        }
        self.options: dict[str, Any] = {
            name: defaults[name] for name in names if name not in arguments
        }
        count = kernel.__code__.co_argcount
        self.leading: bool = tuple(self.arguments) == names[:count][: len(self.arguments)]
        self.function: Callable[..., Any] = kernel

    @property
    def module(self) -> str:
        """Name of the module that defines the relation."""
        return self.kernel.__module__

    @property
    def summary(self) -> str:
        """First line of the docstring."""
        return (self.kernel.__doc__ or "").strip().partition("\n")[0]

    @property
    def fits(self) -> dict[str, Fit]:
        """The fitted numbers among the options."""
        return {name: value for name, value in self.options.items() if isinstance(value, Fit)}

    def title(self, argument: str) -> str:
        """Return what an argument is called beside a field, in a few words."""
        from reefchem.core.titles import spelt  # noqa: PLC0415 - no calculation needs words

        return self.arguments[argument].title or spelt(argument)

    def __reduce__(self) -> tuple[Callable[[str], Record | None], tuple[str]]:
        """Pickle the name; what the package does not know by its name cannot be pickled."""
        if _named(self.name) is not self:
            msg = f"{self.name} is not the package's own, and cannot be pickled"
            raise TypeError(msg)
        return _named, (self.name,)

    def __copy__(self) -> Record:
        """Return another record of the same, whose attributes may be changed."""
        made = object.__new__(Record)
        for name in Record.__slots__:
            setattr(made, name, getattr(self, name))
        return made

    def __repr__(self) -> str:
        return f"<relation {self.name} in {self.unit}, {self.source} {self.at}>"


def relation(
    *, unit: str, symbol: str, source: str, at: str, **arguments: Argument
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Put a record and a boundary around the body of a relation.

    Parameters
    ----------
    unit, symbol
        Of the result.
    source, at
        Key of the bibliography; precise place in the source.
    arguments
        An `arg` for each argument that is a number with a unit. What is left undescribed is an
        option and keeps its default unless it is given.
    """

    def around(kernel: Callable[P, R]) -> Callable[P, R]:
        return _enter(Record(kernel, unit, symbol, source, at, arguments), _relations)

    return around


def calculation(
    *, source: str, at: str, **arguments: Argument
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Put the same boundary around a function whose result has several parts.

    The body sees floats and whole float arrays in the recorded units. An argument whose default
    is None may stay None. When quantities come in, the result's `with_units` is called with one
    of them; see `core.result`.
    """

    def around(kernel: Callable[P, R]) -> Callable[P, R]:
        return _enter(Record(kernel, "", "", source, at, arguments), _calculations)

    return around


def _enter(record: Record, known: dict[str, Record]) -> Callable[..., Any]:
    other = _relations.get(record.name) or _calculations.get(record.name)
    if other is not None and other.module != record.module:
        msg = f"{record.name} is defined in {other.module} and again in {record.module}"
        raise TypeError(msg)
    known[record.name] = record
    record.function = _guarded(record)
    return record.function


def describe(function: str | Callable[..., Any]) -> Record:
    """Return the record of a relation, given the function or its name.

    Examples
    --------
    >>> from reefchem.seawater import seawater_density
    >>> describe(seawater_density).unit
    'kg/m**3'
    """
    if isinstance(function, str):
        _import_all()
        known = _relations
        if function not in known:
            from difflib import get_close_matches  # noqa: PLC0415 - only for the message

            near = ", ".join(get_close_matches(function, known)) or "none with a similar name"
            msg = f"no relation is called {function!r}; there is {near}"
            raise KeyError(msg)
        return known[function]
    record = getattr(function, "__relation__", None)
    if not isinstance(record, Record):
        msg = f"{function!r} is not a relation"
        raise TypeError(msg)
    return record


def _named(name: str) -> Record | None:
    _import_all()
    return _relations.get(name) or _calculations.get(name)


def records() -> dict[str, Record]:
    """Return every relation of the package by name, in alphabetical order."""
    _import_all()
    return dict(sorted(_relations.items()))


def calculations() -> dict[str, Record]:
    """Return every calculation with a result in several parts, in alphabetical order."""
    _import_all()
    return dict(sorted(_calculations.items()))


_imported: list[str] = []
"""Packages whose modules have all been imported; listing them takes longer than most calls."""


def _import_all() -> None:
    if _imported:
        return
    import importlib  # noqa: PLC0415 - only for listing all
    import pkgutil  # noqa: PLC0415

    packages = ("seawater", "conversion", "carbonate", "dosing", "tank")
    for package in packages:
        parent = importlib.import_module(f"reefchem.{package}")
        for module in pkgutil.iter_modules(parent.__path__, f"{parent.__name__}."):
            importlib.import_module(module.name)
    _imported.extend(packages)


def _signature(kernel: Callable[..., Any]) -> tuple[tuple[str, ...], dict[str, Any]]:
    """Return the names of the arguments and their defaults, without the cost of `inspect`."""
    code = kernel.__code__
    positional = code.co_argcount
    names = code.co_varnames[: positional + code.co_kwonlyargcount]
    values = kernel.__defaults__ or ()
    defaults = dict(zip(names[positional - len(values) : positional], values, strict=True))
    return names, defaults | (kernel.__kwdefaults__ or {})


def _guarded(record: Record) -> Callable[..., Any]:
    """Return the public function: floats in range go straight to the body, the rest is checked.

    The function is written out so that it has the signature of the body and costs a few
    comparisons.
    """
    kernel = record.kernel
    names, defaults = _signature(kernel)
    positional = kernel.__code__.co_argcount
    space: dict[str, Any] = {
        "_body": kernel,
        "_checked": _checked,
        "_record": record,
        "_DomainError": DomainError,
        "_NoRootError": NoRootError,
        "_no_result": _no_result,
    }
    head: list[str] = []
    for index, name in enumerate(names):
        if index == positional:
            head.append("*")
        if name in defaults:
            space[f"_default_{name}"] = defaults[name]
        head.append(f"{name}=_default_{name}" if name in defaults else name)
    tests: list[str] = []
    for index, (name, argument) in enumerate(record.arguments.items()):
        space[f"_low{index}"], space[f"_high{index}"] = argument.bounds
        test = f"type({name}) is float and _low{index} <= {name} <= _high{index}"
        may_be_none = name in defaults and defaults[name] is None
        tests.append(f"({name} is None or {test})" if may_be_none else test)
    handed = ", ".join(name if i < positional else f"{name}={name}" for i, name in enumerate(names))
    recorded = ", ".join([*record.arguments, ""])
    options = ", ".join(f"{name!r}: {name}" for name in record.options)
    source = f"""
def {record.name}({", ".join(head)}):
    if {" and ".join(tests) or "True"}:
        try:
            return _body({handed})
        except _NoRootError as error:
            raise _no_result(_record, ({recorded}), error) from error
        except _DomainError:
            raise
        except (OverflowError, ZeroDivisionError, ValueError) as error:
            raise _no_result(_record, ({recorded}), error) from error
    return _checked(_record, ({recorded}), {{{options}}})
"""
    exec(compile(source, f"<boundary of {record.name}>", "exec"), space)  # noqa: S102 - our own text
    function: Any = space[record.name]
    function.__module__, function.__qualname__ = kernel.__module__, kernel.__qualname__
    function.__doc__, function.__annotations__ = kernel.__doc__, kernel.__annotations__
    function.__wrapped__, function.__relation__ = kernel, record
    return function  # type: ignore[no-any-return]  # exec has no types


def _checked(record: Record, values: tuple[Any, ...], options: dict[str, Any]) -> Any:
    from reefchem.core.boundary import call  # noqa: PLC0415 - floats in range never need it

    return call(record, values, options)


def _no_result(record: Record, values: tuple[Any, ...], error: Exception) -> Exception:
    from reefchem.core.boundary import no_result  # noqa: PLC0415 - floats in range never need it

    return no_result(record, values, error)
