"""What can go wrong, by name.

`UnitError` is about units, `DomainError` and `NoRootError` are about the impossible, and
`RangeWarning` is about the range that a source vouches for.
"""

from __future__ import annotations

__all__ = ["DomainError", "NoRootError", "RangeWarning", "UnitError"]


class UnitError(TypeError):
    """A quantity has the wrong dimension, or only some arguments have units."""


class DomainError(ValueError):
    """An input is impossible; the message names the argument, the value and the allowed range."""


class NoRootError(DomainError):
    """No value of the unknown satisfies the inputs inside the bracket that was searched.

    Attributes
    ----------
    reason : str
        What was looked for and where; the message says for which inputs as well.
    """

    def __init__(self, reason: str, given: str = "") -> None:
        self.reason = reason
        super().__init__(f"{given}: {reason}" if given else reason)


class RangeWarning(UserWarning):
    """A value is outside the range of the source. The value is used as given."""
