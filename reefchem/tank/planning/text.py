"""The sentences of a plan: words with figures between them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from reefchem.formula.digits import significant
from reefchem.tank.planning.figures import Figure

__all__ = ["Line", "Section", "bare", "days_text", "say", "shown"]


@dataclass(frozen=True)
class Line:
    """One sentence or two; a figure stands where its number is read."""

    pieces: tuple[str | Figure, ...]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The figures of the line, in its order."""
        return tuple(piece for piece in self.pieces if isinstance(piece, Figure))

    def text(self) -> str:
        """Return the line as text."""
        return "".join(shown(p) if isinstance(p, Figure) else p for p in self.pieces)


@dataclass(frozen=True)
class Section:
    """Lines under a heading."""

    id: str
    title: str
    lines: tuple[Line, ...]


def say(*pieces: str | Figure) -> Line:
    """Return a line of words and figures."""
    return Line(pieces)


def bare(figure: Figure) -> Figure:
    """Return a figure that is shown without its unit, for the first of two with the same."""
    return replace(figure, shown=replace(figure.shown, unit=""))


def shown(figure: Figure) -> str:
    """Return a figure's number and unit as a keeper reads them."""
    text = significant(figure.shown.value, figure.digits)
    unit = figure.shown.unit
    if unit == "days" and text == "1":
        unit = "day"
    return f"{text}\u00a0{unit}".strip().replace("-", "\u2212")


def days_text(days: float) -> str:
    """Return a number of days as it follows "every" or "the next".

    Examples
    --------
    >>> days_text(1.0), days_text(7.0)
    ('day', '7 days')
    """
    return "day" if days == 1 else f"{days:g} days"
