"""Numbers as people write them in files and on the command line."""

from __future__ import annotations

import re

from reefchem.core.errors import DomainError

__all__ = ["number_from_text", "short"]

LONGEST = 40

_NUMBER = re.compile(r"[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)([eE][+-]?[0-9]{1,3})?")
_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")


def number_from_text(text: str) -> float:
    """Return the number that a text writes, with a decimal point or a decimal comma.

    Raises
    ------
    DomainError
        When it is no finite number, or when a comma may be one of thousands.

    Examples
    --------
    >>> number_from_text("7,4")
    7.4
    """
    if not text:
        msg = "a number is missing"
        raise DomainError(msg)
    if len(text) > LONGEST or not _NUMBER.fullmatch(text):
        msg = f"{short(text)} is not a number"
        raise DomainError(msg)
    if _THOUSANDS.fullmatch(text):
        plain, point = text.replace(",", ""), text.replace(",", ".")
        msg = f"{text!r} may be {plain} or {point}; write it with a decimal point"
        raise DomainError(msg)
    number = float(text.replace(",", "."))
    if number in {float("inf"), -float("inf")}:
        msg = f"{text!r} is too large for a number"
        raise DomainError(msg)
    return number


def short(text: str) -> str:
    """Return a text in quotation marks for a message, cut where it is long."""
    shown = text if len(text) <= 30 else text[:29] + "…"
    return repr(shown)
