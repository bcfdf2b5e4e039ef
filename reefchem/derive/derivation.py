"""Derivations: from laws to the closed form, in stages, each proving a function.

A derivation is a generator that takes SymPy symbols under the names of the relation's arguments.
It yields stages worth reading and returns the closed form::

    @derivation(bicarbonate_share, title="Bicarbonate's share, from mass action")
    def from_mass_action(hydrogen, k1, k2):
        laws = ...
        yield "Two mass-action laws and the carbon balance.", laws
        ...
        return solution / carbon

For a relation that is a root, or that calls one, the derivation returns the residual, and takes
the unknown under its name as well. A parameter `fit` receives the fit with symbols for numbers.
One that is called like a relation which the body calls receives a function, which stands for that
relation where it is a root and has no closed form.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import sympy

from reefchem.core.record import Record, describe
from reefchem.core.term import Call, Root, Symbol, as_term
from reefchem.formula.equation import equation
from reefchem.formula.names import latex_name
from reefchem.formula.symbolic import to_sympy

if TYPE_CHECKING:
    from collections.abc import Callable, Generator

__all__ = ["Derivation", "Stage", "derivation", "derivations", "derive", "written_out"]

_known: list[Derivation] = []


@dataclass(frozen=True)
class Stage:
    """One step for the reader: a sentence, and the expressions or equations it speaks of."""

    text: str
    expressions: tuple[Any, ...]


@dataclass(frozen=True)
class Derivation:
    """A proof that a relation is what its laws lead to.

    Attributes
    ----------
    record
        The relation.
    title
        What is derived, for the page.
    body
        The generator function.
    """

    record: Record
    title: str
    body: Callable[..., Generator[tuple[Any, ...], None, Any]]

    @property
    def name(self) -> str:
        """Name of the generator function."""
        return self.body.__name__

    @cached_property
    def symbols(self) -> dict[str, Any]:
        """SymPy symbol, or fit of symbols, by the name of each parameter of the body."""
        root = self._root
        unknown = None if root is None else root.unknown.name
        found: dict[str, Any] = {}
        for name in inspect.signature(self.body).parameters:
            if name in self.record.fits:
                fit = type(self.record.fits[name])
                numbers = {n: sympy.Symbol(latex_name(n), real=True) for n in fit.names()}
                found[name] = fit(**numbers)
            elif name in self.record.arguments or name == unknown:
                if root is not None and name == unknown:
                    latex = root.unknown.latex
                else:
                    latex = self.record.arguments[name].symbol
                low = self.record.arguments[name].possible[0] if name != unknown else 0.0
                assumptions = {"positive": True} if low >= 0 else {"real": True}
                found[name] = sympy.Symbol(latex, **assumptions)
            elif name in self._called:
                found[name] = sympy.Function(self._called[name].symbol)
            else:
                msg = f"{self.name}: {self.record.name} has no argument {name!r}"
                raise TypeError(msg)
        return found

    @property
    def _called(self) -> dict[str, Record]:
        """The relations that the body calls, by name."""
        return {call.record.name: call.record for call in equation(self.record).calls()}

    @cached_property
    def _run(self) -> tuple[tuple[Stage, ...], Any]:
        stages: list[Stage] = []
        generator = self.body(**self.symbols)
        while True:
            try:
                text, *expressions = next(generator)
            except StopIteration as stop:
                return tuple(stages), stop.value
            flat = expressions[0] if len(expressions) == 1 else expressions
            many = flat if isinstance(flat, list | tuple) else [flat]
            stages.append(Stage(text, tuple(many)))

    @property
    def stages(self) -> tuple[Stage, ...]:
        """The steps worth reading, in order."""
        return self._run[0]

    @property
    def result(self) -> Any:
        """The closed form, or the residual of a root."""
        return self._run[1]

    @cached_property
    def _call(self) -> Call | None:
        """The call of a root, when the relation only prepares what that root is given."""
        result = equation(self.record).result
        if isinstance(result, Call) and isinstance(equation(result.record).result, Root):
            return result
        return None

    @cached_property
    def _root(self) -> Root | None:
        record = self.record if self._call is None else self._call.record
        result = equation(record).result
        return result if isinstance(result, Root) else None

    @property
    def is_residual(self) -> bool:
        """Whether the result is a residual that must be zero, since the relation is a root."""
        return self._root is not None

    def computed(self) -> Any:
        """Return what the function computes when it is given the symbols, with exact numbers."""
        if self._root is not None:
            known = dict(self.symbols)
            if self._call is not None:
                prepared = (to_sympy(a, known, exact=True) for a in self._call.arguments)
                unknown = self._root.unknown.name
                known = dict(zip(self._call.record.arguments, prepared, strict=True))
                known[unknown] = self.symbols[unknown]
            return to_sympy(self._root.residual, known, exact=True)
        missing = self.record.arguments.keys() - self.symbols.keys() - self.record.defaults.keys()
        if missing:
            msg = f"{self.name} does not take {sorted(missing)} of {self.record.name}"
            raise TypeError(msg)
        values: dict[str, Any] = {}
        meaning: dict[str, Any] = {}
        for name, given in self.symbols.items():
            if name in self.record.fits:
                places = {n: f"{name}.{n}" for n in given.names()}
                values[name] = type(given)(**{n: Symbol(p, p) for n, p in places.items()})
                meaning |= {p: getattr(given, n) for n, p in places.items()}
            elif name not in self.record.arguments:
                meaning[f"{name}()"] = given
            else:
                values[name], meaning[name] = Symbol(name, name), given
        return to_sympy(as_term(self.record.kernel(**values)), meaning, exact=True)

    def difference(self) -> Any:
        """Return the closed form minus what the function computes, simplified: 0 when proved."""
        difference = sympy.nsimplify(self.result - self.computed(), rational=True)
        return sympy.simplify(sympy.expand(difference))


def derivation(
    function: Callable[..., Any], *, title: str
) -> Callable[[Callable[..., Any]], Derivation]:
    """Register a generator as a derivation of a relation.

    Parameters
    ----------
    function
        The relation that it proves.
    title
        What is derived, for the page.
    """

    def register(body: Callable[..., Any]) -> Derivation:
        made = Derivation(describe(function), title, body)
        _known.append(made)
        return made

    return register


def derivations() -> list[Derivation]:
    """Return every derivation of the package."""
    package = importlib.import_module("reefchem.derive")
    for module in pkgutil.iter_modules(package.__path__, "reefchem.derive."):
        importlib.import_module(module.name)
    return list(_known)


def derive(function: Callable[..., Any] | str) -> list[Derivation]:
    """Return the derivations of a relation; an empty list when there is none."""
    record = describe(function)
    return [made for made in derivations() if made.record is record]


def written_out(function: Callable[..., Any], **symbols: Any) -> Any:
    """Return another relation for a derivation to build on, with its numbers as exact fractions.

    Parameters
    ----------
    function
        The relation.
    symbols
        SymPy expression by the name of each argument.
    """
    return to_sympy(equation(describe(function)).result, symbols, exact=True)
