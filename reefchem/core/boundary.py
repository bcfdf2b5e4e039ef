"""The longer way into a relation: kinds, units, ranges, arrays.

Every kind of number that is not a float inside the source's range comes through here.
"""

from __future__ import annotations

import contextlib
import sys
import warnings
from contextvars import ContextVar

from reefchem.core.blocks import BLOCK, IN_PLACE_BLOCK, in_blocks, place_in_whole, said_before
from reefchem.core.errors import DomainError, NoRootError, RangeWarning, UnitError
from reefchem.core.functions import is_symbolic
from reefchem.core.in_place import in_place
from reefchem.core.quantity import conversion, is_quantity, with_unit
from reefchem.core.record import describe
from reefchem.core.roots import searching
from reefchem.core.term import Call, Term, as_term

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Generator
    from typing import Any

    from reefchem.core.record import Argument, Record

__all__ = [
    "call",
    "checked_values",
    "first_outside",
    "is_strict",
    "no_result",
    "strict",
    "valid",
]

INFINITY = float("inf")

_strict: ContextVar[bool] = ContextVar("strict", default=False)


@contextlib.contextmanager
def strict() -> Generator[None]:
    """Refuse, inside the context, what is outside a source's range.

    It holds for the thread or the task that entered it.

    Examples
    --------
    >>> from reefchem.seawater import seawater_density
    >>> with strict():
    ...     seawater_density(35.0, 60.0)
    Traceback (most recent call last):
    reefchem.core.errors.DomainError: seawater_density: temperature is 60 degC; the source covers \
-2 to 40 degC
    """
    token = _strict.set(True)
    try:
        yield
    finally:
        _strict.reset(token)


def is_strict() -> bool:
    """Return whether what is outside a source's range is refused."""
    return _strict.get()


def valid(function: Callable[..., Any], *values: Any, **named: Any) -> Any:
    """Return where all inputs of a relation are inside the source's range.

    Parameters
    ----------
    function
        A relation.
    values, named
        Its arguments, as in a call. One whose source states no range counts as inside where it
        is possible.

    Returns
    -------
    bool or numpy.ndarray of bool
        False for NaN.

    Examples
    --------
    >>> from reefchem.seawater import seawater_density
    >>> valid(seawater_density, 35.0, 60.0)
    False
    """
    record = describe(function)
    given = dict(zip(record.arguments, values, strict=False))
    twice = given.keys() & named.keys()
    given = record.defaults | given | named
    unknown = given.keys() - record.arguments.keys()
    missing = record.arguments.keys() - given.keys()
    if len(values) > len(record.arguments) or twice or unknown or missing:
        msg = f"{record.name} takes {list(record.arguments)}, each once"
        raise TypeError(msg)
    inside: Any = True
    for name, argument in record.arguments.items():
        if given[name] is None and name in record.defaults and record.defaults[name] is None:
            continue
        bare = _bare(given[name], argument, f"{record.name}: {name}")
        low, high = argument.bounds
        inside = inside & ((low <= bare) & (bare <= high))
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
    for value in values:
        if type(value) is float:
            continue
        if isinstance(value, Term):
            given = {k: v for k, v in options.items() if v != record.options[k]}
            return Call(record, tuple(as_term(value) for value in values), given)
        if is_symbolic(value):
            return _body(record, values, options)
    bare, like = checked_values(record.name, record.arguments, values, record.defaults)
    if not record.unit:
        parts = _body(record, bare, options)
        return parts if like is None else parts.with_units(like)
    result = _computed(record, bare, options)
    return result if like is None else with_unit(result, record.unit, like)


def checked_values(
    name: str,
    arguments: dict[str, Argument],
    values: tuple[Any, ...],
    defaults: dict[str, Any],
) -> tuple[list[Any], Any]:
    """Return floats and float arrays in the recorded units, and the first quantity that came.

    Raises
    ------
    TypeError
        When a value is of a kind that is not a number here (a list, a text, a bool ...).
    UnitError
        When a quantity has the wrong dimension, or only some arguments have units.
    DomainError
        When a value is impossible.
    """
    like = None
    for value in values:
        if type(value) is not float and is_quantity(value):
            like = value
            break
    bare: list[Any] = []
    for (key, argument), value in zip(arguments.items(), values, strict=True):
        if like is not None and not is_quantity(value):
            _bare_beside_units(value, argument, f"{name}: {key}", defaults.get(key))
        if value is None and key in defaults and defaults[key] is None:
            bare.append(None)
            continue
        number = value if type(value) is float else _bare(value, argument, f"{name}: {key}")
        low, high = argument.bounds
        if type(number) is not float or not low <= number <= high:
            _judge(number, argument, name, key)
        bare.append(number)
    return bare, like


def no_result(record: Record, values: tuple[Any, ...] | list[Any], error: Exception) -> DomainError:
    """Return the error that says for which inputs a body has no result.

    Either its arithmetic broke down, or a search that it began found nothing.
    """
    given = ", ".join(
        f"{name}={value!r}" for name, value in zip(record.arguments, values, strict=True)
    )
    if isinstance(error, NoRootError):
        return NoRootError(error.reason, f"{record.name}({given})")
    return DomainError(f"{record.name}: no finite result for {given} ({error})")


def _bare_beside_units(value: Any, argument: Argument, where: str, default: Any) -> None:
    """Refuse a bare number that needs a unit; one that nobody gave, a default, has its own."""
    if argument.unit != "1" and value is not default:
        msg = f"{where} needs a unit ({argument.unit}), since other arguments have one"
        raise UnitError(msg)


def _bare(value: Any, argument: Argument, where: str) -> Any:
    """Return a float or a float array in the recorded unit."""
    if not is_quantity(value):
        return _number(value, where)
    factor, offset = conversion(value, argument.unit, where)
    number = _number(value.magnitude, where)
    if factor != 1.0:
        number = number * factor
    return number + offset if offset else number


def _number(value: Any, where: str) -> Any:
    """Return a float or a float array; refuse every other kind by name."""
    if type(value) is float:
        return value
    if isinstance(value, float) or type(value) is int:
        try:
            return float(value)
        except OverflowError:
            bits = int(value).bit_length()
            msg = f"{where} is an integer of {bits} bits; it does not fit a float"
            raise DomainError(msg) from None
    numpy: Any = sys.modules.get("numpy")
    if numpy is not None and isinstance(value, numpy.ndarray | numpy.generic):
        if isinstance(value, numpy.ma.MaskedArray):
            msg = f"{where} is a masked array; fill it first (.filled(nan)): NaN passes through"
            raise TypeError(msg)
        if value.dtype.kind in "fiu":
            if isinstance(value, numpy.ndarray):
                return numpy.asarray(value, dtype=float)
            return float(value)
        what = "an array" if isinstance(value, numpy.ndarray) else "a number"
        msg = f"{where} is {what} of type {value.dtype}; floats or integers are expected"
        raise TypeError(msg)
    if hasattr(value, "dtype"):
        msg = (
            f"{where} is a {type(value).__name__}; hand over its values "
            "(.to_numpy() or .values) and put the labels back on the result"
        )
        raise TypeError(msg)
    hint = "; make it a NumPy array" if isinstance(value, list | tuple) else ""
    msg = f"{where} is a {type(value).__name__}, {_short(value)}; a number is expected{hint}"
    raise TypeError(msg)


def _judge(value: Any, argument: Argument, name: str, key: str) -> None:
    """Refuse the impossible, warn of what is outside the source's range, let NaN pass."""
    if type(value) is float:
        lowest = highest = value
    elif value.size == 0:
        return
    else:
        lowest, highest = float(value.min()), float(value.max())
        if lowest != lowest:  # a NaN among them, which `min` hands on and `fmin` leaves out
            import numpy as np  # noqa: PLC0415 - an array is at hand

            lowest, highest = float(np.fmin.reduce(value, None)), float(np.fmax.reduce(value, None))
    where = f"{name}: {key}"
    low, high = argument.possible
    infinite = lowest == -INFINITY or highest == INFINITY
    if infinite or lowest < low or highest > high:
        bad = lowest if lowest < low or lowest == -INFINITY else highest
        allowed = _allowed(low, high)
        if abs(bad) == INFINITY and "finite" not in allowed:
            allowed = f"{allowed}, and finite,"
        msg = f"{where} is {_at(value, bad, argument)}; {allowed} is possible"
        raise DomainError(msg)
    if argument.valid is None:
        return
    low, high = argument.valid
    if lowest < low or highest > high:
        bad = lowest if lowest < low else highest
        if searching.get() or _judged_before(key, bad):
            return
        unit = _unit_text(argument)
        msg = (
            f"{where} is {_at(value, bad, argument)}; the source covers "
            f"{_number_text(low)} to {_number_text(high)}{unit}"
        )
        if _strict.get():
            raise DomainError(msg)
        if not said_before(where):
            warnings.warn(f"{msg}. It is used as given", RangeWarning, stacklevel=first_outside())


def _computed(record: Record, values: list[Any], options: dict[str, Any]) -> Any:
    arrays = [value for value in values if type(value) is not float]
    if not arrays:
        try:
            return _body(record, values, options)
        except NoRootError as error:
            raise no_result(record, values, error) from error
        except DomainError:
            raise
        except (OverflowError, ZeroDivisionError, ValueError) as error:
            raise no_result(record, values, error) from error
    import numpy as np  # noqa: PLC0415 - an array is at hand

    shape = arrays[0].shape
    with np.errstate(all="ignore"):
        if arrays[0].size > IN_PLACE_BLOCK or any(array.shape != shape for array in arrays):
            usual = all(value is record.options[key] for key, value in options.items())
            program = in_place(record, values, IN_PLACE_BLOCK) if usual else None
            size = IN_PLACE_BLOCK if program else BLOCK
            return in_blocks(lambda *pieces: _body(record, pieces, options), values, program, size)
        result = np.asarray(_body(record, values, options), dtype=float)
        fresh = result.shape == shape and result.flags.writeable
        if fresh and not any(np.may_share_memory(result, array) for array in arrays):
            return result
        return np.broadcast_to(result, shape).copy()


def _body(record: Record, values: tuple[Any, ...] | list[Any], options: dict[str, Any]) -> Any:
    if record.leading:
        return record.kernel(*values, **options)
    return record.kernel(**dict(zip(record.arguments, values, strict=True)), **options)


def _judged_before(key: str, bad: float) -> bool:
    """Return whether the relation at work was given this value under the same name.

    Its own source has the word then: seawater is described down to -2 °C, by an equation in which
    that of pure water, vouched for from 0 °C, is one part.
    """
    frame, own = sys._getframe(), True  # noqa: SLF001 - the cheap way to a caller
    while frame.f_back is not None:
        frame = frame.f_back
        if not frame.f_code.co_filename.startswith("<boundary of"):
            continue
        if own:
            own = False
            continue
        argument = frame.f_globals["_record"].arguments.get(key)
        if argument is None or argument.valid is None:
            return False
        given = frame.f_locals[key]
        same = given == bad
        return is_quantity(given) or bool(same if isinstance(same, bool) else same.any())
    return False


def first_outside() -> int:
    """Return the stack level of the first caller outside this package."""
    level, frame = 2, sys._getframe(2)  # noqa: SLF001 - the cheap way to a caller
    while frame.f_back is not None and (
        str(frame.f_globals.get("__name__")).startswith("reefchem.")
        or frame.f_code.co_filename.startswith("<boundary of")
    ):
        level, frame = level + 1, frame.f_back
    return level


def _at(value: Any, bad: float, argument: Argument) -> str:
    """Return the offending value with its unit, and its place in an array."""
    text = f"{_number_text(bad)}{_unit_text(argument)}"
    if type(value) is float or value.ndim == 0:
        return text
    import numpy as np  # noqa: PLC0415 - an array is at hand

    first = place_in_whole(tuple(int(i) for i in np.argwhere(value == bad)[0]))
    return f"{text} at [{', '.join(map(str, first))}]"


def _allowed(low: float, high: float) -> str:
    """Return what is possible, in words; the unit was said before."""
    if low == -INFINITY and high == INFINITY:
        return "any finite number"
    if high == INFINITY:
        return f"{_number_text(low)} or more"
    if low == -INFINITY:
        return f"{_number_text(high)} or less"
    return f"{_number_text(low)} to {_number_text(high)}"


def _number_text(value: float) -> str:
    return f"{value:.10g}"


def _unit_text(argument: Argument) -> str:
    return "" if argument.unit == "1" else f" {argument.unit}"


def _short(value: object) -> str:
    from reprlib import repr as short  # noqa: PLC0415 - only for a message

    return short(value)
