"""Results that print themselves: text, HTML and JSON, always with their cautions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from reefchem.core.result import Result

__all__ = ["Line", "Report"]


@dataclass(frozen=True)
class Line:
    """One number of a report."""

    label: str
    value: float
    unit: str

    def number(self) -> str:
        """Return the number as printed, with five digits."""
        return f"{self.value:.5g}"


class Report(Result):
    """A result with lines to print and cautions that are never left out.

    A subclass has a field `cautions` and gives its `title` and `lines`.
    """

    cautions: tuple[str, ...]

    @property
    def title(self) -> str:
        """First line of the report."""
        raise NotImplementedError

    def lines(self) -> list[Line]:
        """Return the numbers to print, in order."""
        raise NotImplementedError

    def text(self) -> str:
        """Return the report as text."""
        width = max(len(line.label) for line in self.lines())
        rows = [f"  {line.label:<{width}}  {line.number()} {line.unit}" for line in self.lines()]
        cautions = [f"  ! {caution}" for caution in self.cautions]
        return "\n".join([self.title, *rows, *cautions])

    def html(self) -> str:
        """Return the report as a piece of HTML."""
        from html import escape  # noqa: PLC0415 - only where HTML is asked for

        rows = "".join(
            f"<tr><th scope='row'>{escape(line.label)}</th>"
            f"<td>{line.number()} {escape(line.unit)}</td></tr>"
            for line in self.lines()
        )
        cautions = "".join(f"<li>{escape(caution)}</li>" for caution in self.cautions)
        warned = f"<ul class='cautions'>{cautions}</ul>" if cautions else ""
        return f"<table><caption>{escape(self.title)}</caption>{rows}</table>{warned}"

    def as_dict(self) -> dict[str, Any]:
        """Return the report as plain data, ready for JSON."""
        numbers = {
            line.label: {"value": line.value, "unit": line.unit}
            for line in self.lines()
            if line.value == line.value
        }
        return {"title": self.title, "numbers": numbers, "cautions": list(self.cautions)}
