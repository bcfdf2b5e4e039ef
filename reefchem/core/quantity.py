"""Units at the boundary: a quantity comes in, magnitudes go to the body, a quantity goes out.

Any pint registry is welcome and is kept. Units that pint does not know (equivalents, the hardness
degrees) are defined in `registry`, from the atomic weights.
"""

from __future__ import annotations

import re
import sys
from functools import cache, lru_cache
from threading import Lock

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import UnitError

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from pint import UnitRegistry

__all__ = ["conversion", "definitions", "is_quantity", "magnitude", "quantity", "registry"]

DEGREE = 10.0
"""Milligrams of CaO (German) or CaCO3 (French) in a litre, at one degree (definition)."""

GRAIN = 64.79891
"""Milligrams in a grain (definition)."""

IMPERIAL_GALLON = 4.54609
"""Litres in an imperial gallon (definition)."""

US_GALLON = 3.785411784
"""Litres in a US gallon (definition)."""


_making = Lock()


def definitions() -> dict[str, str]:
    """Return the units that pint lacks, by name, as text that pint reads.

    An equivalent is a mole of charge. A hardness or alkalinity degree is a mass of a calcium
    salt in a volume; each mole of that salt carries two equivalents.
    """
    per_litre = "milliequivalent / liter"
    two_per_oxide = 2 / molar_mass("CaO")
    two_per_carbonate = 2 / molar_mass("CaCO3")
    return {
        "equivalent": "mole = eq",
        "dKH": f"{DEGREE * two_per_oxide!r} * {per_litre} = _ = German_degree",
        "ppm_CaCO3": f"{two_per_carbonate!r} * {per_litre}",
        "French_degree": f"{DEGREE * two_per_carbonate!r} * {per_litre}",
        "Clark_degree": f"{GRAIN / IMPERIAL_GALLON * two_per_carbonate!r} * {per_litre}",
        "grain_per_US_gallon_CaCO3": f"{GRAIN / US_GALLON * two_per_carbonate!r} * {per_litre}",
    }


def registry() -> UnitRegistry[Any]:
    """Return the project's pint registry, with the units of `definitions`."""
    with _making:  # or two threads would have two registries, whose quantities do not mix
        return _registry()


@cache
def _registry() -> UnitRegistry[Any]:
    from pint import UnitRegistry  # noqa: PLC0415 - pint is loaded only by those who use it

    units: UnitRegistry[Any] = UnitRegistry()
    for name, text in definitions().items():
        units.define(f"{name} = {text}")
    return units


def quantity(value: Any, unit: str) -> Any:
    """Return a value with a unit, in the project's registry.

    Parameters
    ----------
    value
        A number or an array.
    unit
        Names of units with ``*``, ``/``, brackets and small powers, as ``"mol/kg"``,
        ``"kg/m**3"`` or ``"mL per day"``.

    Raises
    ------
    UnitError
        When the text is no unit.

    Examples
    --------
    >>> quantity(8.0, "dKH").to("meq/L").magnitude
    2.8532196800827436
    """
    if isinstance(value, str):
        msg = f"a quantity has a number, not the text {value[:30]!r}"
        raise UnitError(msg)
    return registry().Quantity(value, _unit(unit))


_LONGEST = 100
_LETTER = "A-Za-z_\u00b5\u03bc\u00b0"
"""With the micro sign, the Greek letter that looks like it, and the sign of a degree."""

_TOKEN = re.compile(
    rf"\s*(?:[{_LETTER}%][{_LETTER}0-9]*"
    r"(?:\s*(?:\*\*|\^)\s*[+-]?[0-9](?:\.[0-9]{1,4})?(?![0-9.]|\s*(?:\*\*|\^)))?"
    r"|[0-9]{1,9}(?:\.[0-9]{1,9})?"
    r"|\*(?!\*)|/(?!/)|[()\u00b7])\s*"
)
"""A name, perhaps to a power of one digit before the point; a number; a sign; a bracket."""


@lru_cache(maxsize=1024)
def _unit(text: str) -> Any:
    """Return the unit that a text writes; pint sees only what is short and has small powers."""
    if len(text) > _LONGEST:
        msg = f"a unit of {len(text)} characters; at most {_LONGEST} are allowed"
        raise UnitError(msg)
    position = 0
    while position < len(text):
        match = _TOKEN.match(text, position)
        if match is None:
            msg = (
                f"{text!r} is no unit that is known here; it cannot be read at {text[position:]!r}"
            )
            raise UnitError(msg)
        position = match.end()
    try:
        return registry().Unit(text)
    except Exception:  # noqa: BLE001 - pint lets through whatever its tokeniser raises
        msg = f"{text!r} is no unit that is known here"
        raise UnitError(msg) from None


def is_quantity(value: object) -> bool:
    """Return whether `value` is a pint quantity of any registry, without importing pint."""
    pint = sys.modules.get("pint")
    return pint is not None and isinstance(value, pint.Quantity)


def magnitude(value: Any, unit: str, where: str) -> Any:
    """Return the magnitude of a quantity in `unit`.

    Parameters
    ----------
    value
        A pint quantity of any registry.
    unit
        The recorded unit; ``"1"`` for a pure number.
    where
        Relation and argument, for the message.

    Raises
    ------
    UnitError
        When the dimension differs, when a difference of temperature is given for a temperature,
        and when a unit is given for a pure number: it would be converted silently.
    """
    factor, offset = conversion(value, unit, where)
    bare = value.magnitude
    if factor != 1.0:
        bare = bare * factor
    return bare + offset if offset else bare


def conversion(value: Any, unit: str, where: str) -> tuple[float, float]:
    """Return factor and offset that take the magnitude of a quantity to `unit`.

    The parameters and the errors are those of `magnitude`.
    """
    # `units` would make a new object at each call; `_units` is what it wraps.
    units = value._units  # noqa: SLF001
    key = (value.__class__, units, unit)
    found = _incoming.get(key)
    if found is None:
        if len(_incoming) >= _MOST_KEPT:
            _incoming.clear()
        found = _incoming[key] = _conversion(value.units, value.__class__, unit, where)
    return found


def with_unit(value: Any, unit: str, like: Any) -> Any:
    """Return `value` as a quantity in `unit`, of the class and registry of `like`."""
    cls = like.__class__
    known = _outgoing.get((cls, unit))
    if known is None:
        if len(_outgoing) >= _MOST_KEPT:
            _outgoing.clear()
        known = _outgoing[cls, unit] = _known_unit(cls, unit)
    factor, units = known
    number = value if factor == 1.0 else value * factor
    if not hasattr(cls, "_REGISTRY"):  # pint's own class, which asks for pint's own registry
        return cls(number, units)
    made = object.__new__(cls)  # what `cls(number, units)` leaves behind, for a tenth of its time
    made._magnitude = number
    made._units = units
    return made


_MOST_KEPT = 4096
_incoming: dict[tuple[type, object, str], tuple[float, float]] = {}
_outgoing: dict[tuple[type, str], tuple[float, Any]] = {}


def _conversion(units: Any, cls: Any, unit: str, where: str) -> tuple[float, float]:
    if unit == "1":
        if units != cls(1, "").units:
            msg = f"{where} is a pure number; {units} would be converted silently"
            raise UnitError(msg)
        return 1.0, 0.0
    if ("delta_" in str(units)) != ("delta_" in unit) and "deg" in unit:
        msg = f"{where} is expected in {unit}, not in {units}"
        raise UnitError(msg)
    if str(units) == str(registry().Unit(unit)):
        return 1.0, 0.0
    own: Any = registry().Quantity
    try:
        zero, one = (
            float(own(base.magnitude, str(base.units)).to(unit).magnitude)
            for base in (cls(number, units).to_base_units() for number in (0.0, 1.0))
        )
    except _dimension_errors() as error:
        msg = f"{where} is expected in {unit}, not in {units}"
        raise UnitError(msg) from error
    return one - zero, zero


def _known_unit(cls: Any, unit: str) -> tuple[float, Any]:
    """Return the recorded unit in the registry of `cls`, or its base units there and the factor.

    Units are given as what a quantity holds of them, which `cls` takes as it is.
    """
    try:
        return 1.0, cls(1, unit)._units  # noqa: SLF001
    except _dimension_errors():
        own: Any = registry().Quantity
        base = own(1.0, unit).to_base_units()
        return float(base.magnitude), cls(1, str(base.units))._units  # noqa: SLF001


def _dimension_errors() -> tuple[type[Exception], ...]:
    from pint import errors  # noqa: PLC0415 - pint is loaded: a quantity is at hand

    return (errors.DimensionalityError, errors.UndefinedUnitError, errors.OffsetUnitCalculusError)
