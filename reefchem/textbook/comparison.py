"""The directive ``comparison``: a relation drawn through the points that others printed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar

from docutils.parsers.rst import directives

from reefchem.formula.digits import concise, prose_number
from reefchem.formula.units import plain_unit
from reefchem.textbook.figure import FigureFrom
from reefchem.textbook.worked_example import code_behind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from docutils import nodes
    from sphinx.util.typing import OptionSpec

    from reefchem.core.record import Record
    from reefchem.examples.published import PublishedValue

__all__ = ["Comparison", "Series", "series_of"]

STYLES = (
    ("#0072b2", "o", "-"),
    ("#d55e00", "s", "--"),
    ("#009e73", "^", "-."),
    ("#cc79a7", "D", ":"),
)
"""Colour, marker and line of each series; told apart without colour, too."""

STEPS = 120
"""Points of a curve."""


@dataclass(frozen=True)
class Series:
    """Printed values that differ in one input only, in the order of that input.

    Attributes
    ----------
    over
        The input along the axis.
    label
        What the other inputs are, where other series have others.
    """

    over: str
    values: tuple[PublishedValue, ...]
    label: str

    @property
    def places(self) -> list[float]:
        """The values of the input along the axis."""
        return [value.inputs[self.over] for value in self.values]

    @property
    def shares(self) -> list[float]:
        """Computed minus printed, as a share of what is allowed."""
        return [value.deviation() / value.tolerance for value in self.values]

    def curve(self, low: float, high: float) -> tuple[list[float], list[float]]:
        """Return the curve that the relation computes, as the source prints it."""
        places = [low + (high - low) * step / STEPS for step in range(STEPS + 1)]
        first = self.values[0]
        return places, [
            replace(first, inputs={**first.inputs, self.over: x}).computed() for x in places
        ]


def series_of(values: Sequence[PublishedValue], over: str, record: Record) -> list[Series]:
    """Return printed values in series along one input; a value that stands alone is left out."""
    groups: dict[Any, list[PublishedValue]] = {}
    for value in values:
        rest = {name: x for name, x in value.inputs.items() if name != over}
        kind = (value.unit, value.scale, value.part, tuple(sorted(value.options.items())))
        groups.setdefault((kind, tuple(sorted(rest.items()))), []).append(value)
    found = {key: group for key, group in groups.items() if len(group) > 1}
    fixed = [{**record.defaults, **dict(rest)} for _, rest in found]
    differing = [
        name
        for name in record.arguments
        if name != over and len({inputs.get(name) for inputs in fixed}) > 1
    ]
    return [
        Series(
            over,
            tuple(sorted(group, key=lambda value: value.inputs[over])),
            ", ".join(_said(record, name, inputs[name]) for name in differing if name in inputs),
        )
        for inputs, group in zip(fixed, found.values(), strict=True)
    ]


def _said(record: Record, name: str, value: float) -> str:
    argument = record.arguments[name]
    number = prose_number(concise(value, 6))
    return f"${argument.symbol}$ = {number} {plain_unit(argument.unit)}".strip()


class Comparison(FigureFrom):
    """Draw a relation through its published points, with the differences below.

    The argument is the relation. The option `over` names the input along the axis; `source` keeps
    the points of one source. The content is the caption; how many points there are and how large
    the differences, is added to it and told in the text alternative.
    """

    required_arguments = 1
    has_content = True
    option_spec: ClassVar[OptionSpec | None] = {
        "over": directives.unchanged_required,
        "source": directives.unchanged_required,
    }

    def run(self) -> Sequence[nodes.Node]:
        """Return the figure with its caption."""
        record = self.found("relation", self.catalogue.records)
        over = self.options.get("over", next(iter(record.arguments)))
        if over not in record.arguments:
            kind = f"argument of {record.name}"
            raise self.unknown(kind, over, record.arguments)
        self.depend_on(*code_behind([record]))
        self.depend_on(*sorted(self.catalogue.published_folder.glob("*.toml")))
        known = self.catalogue.checks_of(record.name)
        source = self.options.get("source", "")
        series = series_of([v for v in known if source in {"", v.source}], over, record)
        if not series:
            msg = f"no published values of {record.name} differ in {over} alone"
            raise self.error(msg)
        points = [value for one in series for value in one.values]
        told = {
            "name": record.name,
            "count": len(points),
            "largest": concise(max(abs(s) for one in series for s in one.shares), 2),
            "sources": list(dict.fromkeys(value.source for value in points)),
        }
        alt = (
            f"{record.name} as a curve over {record.title(over)}, through {told['count']} printed "
            f"points; the largest difference is {told['largest']} of what is allowed."
        )
        made = self.drawn(_figure(record, series), f"{record.name} over {over}", alt)
        made[0] += self.html("comparison.html", **told)
        return made


def _figure(record: Record, series: Sequence[Series]) -> Any:
    from matplotlib.figure import Figure  # noqa: PLC0415 - only pages with figures need it

    figure = Figure(figsize=(6.4, 4.6), layout="constrained")
    above, below = figure.subplots(2, 1, sharex=True, height_ratios=(3, 1))
    every = [place for one in series for place in one.places]
    low, high = min(every), max(every)
    for number, one in enumerate(series):
        colour, marker, line = STYLES[number % len(STYLES)]
        above.plot(*one.curve(low, high), line, color=colour, label=one.label)
        printed = [value.value for value in one.values]
        above.plot(one.places, printed, marker, color=colour, fillstyle="none", markersize=4.5)
        below.plot(one.places, one.shares, marker, color=colour, fillstyle="none", markersize=3.5)
    for edge in (-1, 0, 1):
        below.axhline(edge, color="0.5", linewidth=0.8, linestyle="-" if edge == 0 else ":")
    below.set_ylim(-1.25, 1.25)
    below.set_yticks([-1, 0, 1], ["−1", "0", "1"])
    below.set_ylabel("difference\nover allowed")
    over, first = series[0].over, series[0].values[0]
    below.set_xlabel(_axis(record.title(over), record.arguments[over].unit))
    scaled = f"{first.scale} " if first.scale else ""
    above.set_ylabel(_axis(f"{scaled}${record.symbol}$", first.unit))
    if any(one.label for one in series):
        above.legend(frameon=False, fontsize=9)
    return figure


def _axis(words: str, unit: str) -> str:
    shown = plain_unit(unit)
    return f"{words}, {shown}" if shown else words
