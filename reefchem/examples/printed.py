"""Printed numbers: their digits, and what agrees with them."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation

from reefchem.core.errors import DomainError

__all__ = ["half_last_digit", "parse_printed"]


def parse_printed(text: str, where: str) -> float:
    """Return the number that a text prints.

    Raises
    ------
    DomainError
        When the text is not a finite decimal number.
    """
    return float(_decimal(text, where))


def half_last_digit(text: str, where: str) -> float:
    """Return half a unit of the last printed digit.

    Examples
    --------
    >>> half_last_digit("2.839e-2", "table III")
    5e-06
    """
    exponent = _decimal(text, where).as_tuple().exponent
    return float(Decimal((0, (5,), int(exponent) - 1)))


def _decimal(text: str, where: str) -> Decimal:
    try:
        number = Decimal(text)
    except (InvalidOperation, TypeError):
        number = Decimal("nan")
    if not number.is_finite():
        msg = f"{where}: {text!r} is not a finite decimal number written as text"
        raise DomainError(msg)
    return number
