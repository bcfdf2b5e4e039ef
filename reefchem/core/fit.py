"""Fitted numbers that stand beside the equation they belong to."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import dataclass_transform
else:

    def dataclass_transform(**_options: object):  # noqa: ANN202 - only type checkers read it
        """Leave the class alone at run time."""
        return lambda cls: cls


__all__ = ["Fit"]


@dataclass_transform(frozen_default=True, kw_only_default=True)
class Fit:
    """A frozen set of fitted numbers with the digits of the source as defaults.

    A subclass lists its numbers as annotated class attributes. An instance without arguments is
    the published fit; keyword arguments replace single numbers, so that a derivation can put
    symbols in their place and a reader can see how much the result leans on each.

    It does what a frozen dataclass does, without the import that dataclasses cost.

    Examples
    --------
    >>> class Line(Fit):
    ...     intercept: float = 1.5
    ...     slope: float = 0.25
    >>> Line(slope=0.5)
    Line(intercept=1.5, slope=0.5)
    """

    def __init__(self, **numbers: object) -> None:
        names = type(self).names()
        for name in numbers:
            if name not in names:
                msg = f"{type(self).__name__} has no fitted number {name!r}; it has {names}"
                raise TypeError(msg)
        for name in names:  # all of them: what an instance holds itself is quicker to reach
            object.__setattr__(self, name, numbers.get(name, getattr(type(self), name)))

    @classmethod
    def names(cls) -> tuple[str, ...]:
        """Return the names of the fitted numbers in the order of the source."""
        return tuple(name for part in reversed(cls.__mro__) for name in _numbers_of(part))

    def __iter__(self) -> Iterator[object]:
        """Go through the numbers in the order of the source."""
        return (getattr(self, name) for name in type(self).names())

    def __setattr__(self, name: str, value: object) -> None:
        msg = f"{type(self).__name__} is frozen; make another with {name}={value!r}"
        raise AttributeError(msg)

    def __delattr__(self, name: str) -> None:
        msg = f"{type(self).__name__} is frozen; {name} cannot be taken away"
        raise AttributeError(msg)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Fit) and type(other) is type(self) and [*self] == [*other]

    def __hash__(self) -> int:
        return hash((type(self), *self))

    def __repr__(self) -> str:
        numbers = ", ".join(f"{name}={getattr(self, name)!r}" for name in type(self).names())
        return f"{type(self).__name__}({numbers})"


def _numbers_of(part: type) -> dict[str, object]:
    return part.__annotations__ if part is not Fit and issubclass(part, Fit) else {}
