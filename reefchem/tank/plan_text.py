"""The sentences of a plan: words with figures between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.formula.digits import significant
from reefchem.tank.figures import Figure

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["Line", "Section", "shown"]


@dataclass(frozen=True)
class Line:
    """One sentence or two; a figure stands where its number is read."""

    pieces: tuple[str | Figure, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The figures of the line, in its order."""
        return tuple(piece for piece in self.pieces if isinstance(piece, Figure))

    def text(self, number: Callable[[Figure], str] | None = None) -> str:
        """Return the line as text; `number` sets each figure."""
        setter = number or shown
        return "".join(setter(p) if isinstance(p, Figure) else p for p in self.pieces)


@dataclass(frozen=True)
class Section:
    """Lines under a heading."""

    id: str
    title: str
    lines: tuple[Line, ...]


def shown(figure: Figure) -> str:
    """Return a figure's number and unit as a keeper reads them."""
    text = significant(figure.shown.value, figure.digits)
    unit = figure.shown.unit
    if unit == "days" and text == "1":
        unit = "day"
    return f"{text}\u00a0{unit}".strip().replace("-", "−")  # noqa: RUF001 - a minus sign is meant
