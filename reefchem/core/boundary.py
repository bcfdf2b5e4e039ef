"""The longer way into a relation: kinds, units, ranges, arrays.

Every kind of number that is not a float inside the source's range comes through here.
"""

from __future__ import annotations

import contextlib
import sys
import warnings

from reefchem.core.blocks import BLOCK, in_blocks
from reefchem.core.errors import DomainError, RangeWarning, UnitError
from reefchem.core.functions import is_symbolic
from reefchem.core.quantity import is_quantity, magnitude, with_unit
from reefchem.core.roots import searching
from reefchem.core.term import Call, Term, as_term

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any
    from collections.abc import Iterator

    from reefchem.core.record import Argument, Record

__all__ = ["call", "checked_values", "strict", "valid"]

@contextlib.contextmanager
def strict() -> Iterator[None]:
    """Refuse, inside the context, what is outside a source's range.

    Examples
    --------
    >>> from reefchem.seawater import seawater_density
    >>> with strict():
    ...     seawater_density(35.0, 60.0)
    Traceback (most recent call last):
    reefchem.core.errors.DomainError: seawater_density: temperature is 60 degC; ...
    """
    with warnings.catch_warnings():
        warnings.simplefilter("error", RangeWarning)
        try:
            yield
        except RangeWarning as warning:
            raise DomainError(str(warning)) from None


def valid(function: Any, *values: Any, **named: Any) -> Any:
    """Return where all inputs of a relation are inside the source's range: a bool or a mask."""
    record = function.__relation__
    given = dict(zip(record.arguments, values, strict=False)) | named
    inside: Any = True
    for name, value in (record.defaults | given).items():
        argument = record.arguments[name]
        bare = magnitude(value, argument.unit, name) if is_quantity(value) else value
        low, high = argument.valid or argument.possible
        inside = inside & ((bare >= low) & (bare <= high))
    return inside


def call(record: Record, values: tuple[Any, ...], options: dict[str, Any]) -> Any:
    """Call the body of a relation with whatever came.

    Parameters
    ----------
    record
        The relation.
    values
        One for each recorded argument, in order.
    options
        What the record does not describe, by name.
    """
    if any(isinstance(value, Term) for value in values):
        given = {key: value for key, value in options.items() if value != record.options[key]}
        return Call(record, tuple(as_term(value) for value in values), given)
    if any(is_symbolic(value) for value in values):
        return _body(record, values, options)
    bare, like = checked_values(record.name, record.arguments, values, record.defaults)
    if not record.unit:
        parts = _body(record, tuple(bare), options)
        return parts if like is None else parts.with_units(like)
    result = _computed(record, bare, options)
    return result if like is None else with_unit(result, record.unit, like)


def checked_values(
    name: str,
    arguments: dict[str, Argument],
    values: tuple[Any, ...],
    defaults: dict[str, Any],
) -> tuple[list[Any], Any]:
    """Return floats and float arrays in the recorded units, and a quantity that came, if any.

    Raises
    ------
    TypeError
        When a value is of a kind that is not a number here (a list, a text, a bool ...).
    UnitError
        When a quantity has the wrong dimension, or only some arguments have units.
    DomainError
        When a value is impossible.
    """
    like = next((value for value in values if is_quantity(value)), None)
    bare = []
    for (key, argument), value in zip(arguments.items(), values, strict=True):
        if value is None and key in defaults and defaults[key] is None:
            bare.append(None)
            continue
        where = f"{name}: {key}"
        number = value
        if is_quantity(value):
            number = magnitude(value, argument.unit, where)
        elif like is not None and argument.unit != "1" and value is not defaults.get(key):
            msg = f"{where} needs a unit ({argument.unit}), since other arguments have one"
            raise UnitError(msg)
        number = _number(number, where)
        _judge(number, argument, where)
        bare.append(number)
    return bare, like


def _number(value: Any, where: str) -> Any:
    """Return a float or a float array; refuse every other kind by name."""
    if type(value) is float:
        return value
    if isinstance(value, int | float) and not isinstance(value, bool):
        try:
            return float(value)
        except OverflowError:
            msg = f"{where} is an integer of {len(str(value))} digits; it does not fit a float"
            raise DomainError(msg) from None
    numpy = sys.modules.get("numpy")
    if numpy is not None and isinstance(value, numpy.ndarray | numpy.number):
        if value.dtype.kind in "fiu":
            return value.astype(float) if isinstance(value, numpy.ndarray) else float(value)
        msg = f"{where} is an array of {value.dtype}; floats or integers are expected"
        raise TypeError(msg)
    if hasattr(value, "__array__") and hasattr(value, "dtype") and hasattr(value, "shape"):
        msg = (
            f"{where} is a {type(value).__name__}; hand over its values "
            "(.to_numpy() or .values) and put the labels back on the result"
        )
        raise TypeError(msg)
    hint = "; make it a NumPy array" if isinstance(value, list | tuple) else ""
    msg = f"{where} is a {type(value).__name__}, {_short(value)}; a number is expected{hint}"
    raise TypeError(msg)


def _judge(value: Any, argument: Argument, where: str) -> None:
    """Refuse the impossible, warn of what is outside the source's range, let NaN pass."""
    if type(value) is float:
        lowest = highest = value
    elif value.size == 0:
        return
    else:
        import numpy as np  # noqa: PLC0415 - an array is at hand

        lowest, highest = float(np.fmin.reduce(value, None)), float(np.fmax.reduce(value, None))
    low, high = argument.possible
    if lowest < low or highest > high or highest == float("inf") or lowest == -float("inf"):
        bad = lowest if lowest < low or lowest == -float("inf") else highest
        msg = (
            f"{where} is {_number_text(bad)}{_unit_text(argument)}{_place(value, bad)}; "
            f"{_allowed(low, high)}{_unit_text(argument)} is possible"
        )
        raise DomainError(msg)
    if argument.valid is None or searching.get():
        return
    low, high = argument.valid
    if lowest < low or highest > high:
        bad = lowest if lowest < low else highest
        msg = (
            f"{where} is {_number_text(bad)}{_unit_text(argument)}{_place(value, bad)}; the source "
            f"covers {_number_text(low)} to {_number_text(high)}{_unit_text(argument)}. "
            "It is used as given"
        )
        warnings.warn(msg, RangeWarning, stacklevel=_outside())


def _computed(record: Record, values: list[Any], options: dict[str, Any]) -> Any:
    arrays = [value for value in values if type(value) is not float]
    if not arrays:
        try:
            return _body(record, tuple(values), options)
        except (OverflowError, ZeroDivisionError, ValueError) as error:
            if isinstance(error, DomainError):
                raise
            given = ", ".join(
                f"{name}={value!r}" for name, value in zip(record.arguments, values, strict=True)
            )
            msg = f"{record.name}: no finite result for {given} ({error})"
            raise DomainError(msg) from error
    import numpy as np  # noqa: PLC0415 - an array is at hand

    with np.errstate(all="ignore"):
        if all(a.shape == arrays[0].shape for a in arrays) and 0 < arrays[0].size <= BLOCK:
            result = np.asarray(_body(record, tuple(values), options), dtype=float)
            return np.broadcast_to(result, arrays[0].shape).copy() if result.ndim == 0 else result
        return in_blocks(lambda *pieces: _body(record, pieces, options), values)


def _body(record: Record, values: tuple[Any, ...], options: dict[str, Any]) -> Any:
    return record.kernel(**dict(zip(record.arguments, values, strict=True)), **options)


def _outside() -> int:
    """Return the stack level of the first caller outside this package."""
    level, frame = 2, sys._getframe(2)  # noqa: SLF001 - the cheap way to a caller
    while frame.f_back is not None and (
        str(frame.f_globals.get("__name__", "")).startswith("reefchem.")
        or frame.f_code.co_filename.startswith("<boundary of")
    ):
        level, frame = level + 1, frame.f_back
    return level


def _place(value: Any, bad: float) -> str:
    if type(value) is float:
        return ""
    import numpy as np  # noqa: PLC0415 - an array is at hand

    places = np.argwhere(value == bad)
    index = ", ".join(str(int(i)) for i in places[0])
    return f" at [{index}]"


def _allowed(low: float, high: float) -> str:
    if high == float("inf"):
        return "any finite number" if low == -float("inf") else f"{_number_text(low)} or more"
    if low == -float("inf"):
        return f"{_number_text(high)} or less"
    return f"{_number_text(low)} to {_number_text(high)}"


def _number_text(value: float) -> str:
    return f"{value:.10g}"


def _unit_text(argument: Argument) -> str:
    return "" if argument.unit == "1" else f" {argument.unit}"


def _short(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."
