"""Numbers for readers: how many digits, and how they are set."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

__all__ = ["concise", "exact_text", "prose_number", "significant"]

_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


def exact_text(value: float) -> str:
    """Return the shortest text that reads back as the same number."""
    if isinstance(value, int):
        return str(value)
    text = repr(value)
    return text.removesuffix(".0")


def significant(value: float, digits: int = 6) -> str:
    """Return a number with so many significant digits; ties go away from zero.

    Very large and very small numbers come with a power of ten, as ``1.234e-9``. The page's
    script does the same, so that Python and the browser print the same text.

    Examples
    --------
    >>> significant(1023.3412348, 7)
    '1023.341'
    >>> significant(2.839188e-2, 4)
    '0.02839'
    """
    if value != value or value in {float("inf"), float("-inf")}:
        return "not a number" if value != value else ("−∞" if value < 0 else "∞")
    if value == 0:
        return "0"
    exact = Decimal(value)
    rounded = exact.quantize(Decimal(1).scaleb(exact.adjusted() - digits + 1), ROUND_HALF_UP)
    power = rounded.adjusted()
    if -5 < power < max(digits, 6):
        return format(rounded.quantize(Decimal(1).scaleb(min(0, power - digits + 1))), "f")
    mantissa = rounded.scaleb(-power).quantize(Decimal(1).scaleb(1 - digits))
    return f"{mantissa:f}e{power}"


def concise(value: float, digits: int) -> str:
    """Return a number with at most so many significant digits, without zeros at its end.

    Examples
    --------
    >>> concise(0.0203, 6), concise(-2.0, 6), concise(1.5e-9, 6)
    ('0.0203', '-2', '1.5e-9')
    """
    mantissa, e, power = significant(value, digits).partition("e")
    short = mantissa.rstrip("0").rstrip(".") if "." in mantissa else mantissa
    return f"{short}{e}{power}"


def prose_number(text: str) -> str:
    """Return a number's text as prose has it: a true minus sign, the power of ten raised.

    Examples
    --------
    >>> prose_number("-1.5e-7")
    '−1.5 × 10⁻⁷'
    """
    mantissa, e, power = text.partition("e")
    shown = mantissa.replace("-", "−")
    return f"{shown} × 10{str(int(power)).translate(_RAISED)}" if e else shown
