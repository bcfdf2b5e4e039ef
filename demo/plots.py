"""The year of the invented tank in pictures: what was read, and what was true."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from matplotlib.figure import Figure

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from matplotlib.axes import Axes

    from demo.judge import Window
    from demo.simulate import Truth

__all__ = ["alkalinity", "nitrate", "readings", "salt", "uptake"]

MONTHS = [0, 56, 112, 168, 224, 280, 336]


def readings(rows: Iterable[str], quantity: str) -> tuple[list[int], list[float]]:
    """Return days and values of the readings of one quantity in the rows of a log."""
    cells = [row.split(",") for row in rows]
    first = date.fromisoformat(cells[0][0][:10])
    found = [c for c in cells if c[1] == "reading" and c[2] == quantity]
    days = [(date.fromisoformat(c[0][:10]) - first).days for c in found]
    return days, [float(c[3]) for c in found]


def alkalinity(truth: Truth) -> Figure:
    """Return the alkalinity of the year, with what was read."""
    figure, axes = _sheet("alkalinity, dKH")
    days, values = readings(truth.rows, "alkalinity")
    axes.plot(range(len(truth.alkalinity)), truth.alkalinity, "-", label="true")
    axes.plot(days, values, ".", label="read")
    axes.set_ylim(bottom=2.0)
    for day, height, text in (
        (254, 2.6, "in meq/L"),
        (345, 5.7, "in a hurry"),
        (283, 6.0, "bottle empty"),
    ):
        axes.annotate(text, (day, height), (day - 96, height - 0.35), arrowprops=_ARROW)
    axes.legend(frameon=False, ncols=2, loc="lower left")
    return figure


def salt(truth: Truth) -> Figure:
    """Return the salinity as it was, as it was read, and what it did to calcium and magnesium."""
    figure = Figure(figsize=(7.2, 5.6), layout="constrained")
    upper, middle, lower = figure.subplots(3, 1, sharex=True)
    days, values = readings(truth.notebook, "salinity")
    upper.plot(range(len(truth.salinity)), truth.salinity, "-", label="true")
    upper.plot(days, values, "o", markersize=4, label="as read at the time")
    upper.axvline(202, color="black", linewidth=0.8, linestyle=":")
    upper.set_ylabel("salinity")
    upper.legend(frameon=False, ncols=2, loc="lower right")
    for axes, name, course in (
        (middle, "magnesium", truth.magnesium),
        (lower, "calcium", truth.calcium),
    ):
        axes.plot(range(len(course)), course, "-")
        axes.plot(*readings(truth.rows, name), "o", markersize=4)
        axes.axvline(202, color="black", linewidth=0.8, linestyle=":")
        axes.set_ylabel(f"{name}, mg/L")
    lower.set_xlabel("days since the tank was started")
    lower.set_xticks(MONTHS)
    for axes in (upper, middle, lower):
        axes.spines[["top", "right"]].set_visible(False)
    return figure


def nitrate(truth: Truth) -> Figure:
    """Return the nitrate of the year, with the hours of light for the algae."""
    figure, axes = _sheet("nitrate, mg/L")
    axes.plot(range(len(truth.nitrate)), truth.nitrate, "-", label="true")
    axes.plot(*readings(truth.rows, "nitrate"), ".", label="read")
    for day, text in ((0, "6 h"), (40, "9 h of light for the algae"), (238, "6 h")):
        axes.axvline(day, color="black", linewidth=0.8, linestyle=":")
        axes.text(day + 3, 15.4, text, fontsize=9)
    axes.set_ylim(0, 16.5)
    axes.legend(frameon=False, ncols=2, loc="center right")
    return figure


def uptake(truth: Truth, found: Sequence[Window]) -> Figure:
    """Return the true uptake, and what plans would have found after each six weeks."""
    figure, axes = _sheet("uptake, dKH a day")
    axes.plot(range(len(truth.uptake)), truth.uptake, "-", label="true")
    ends = [window.end - 21 for window in found]
    values = [window.estimate for window in found]
    reach = [window.high - window.estimate for window in found]
    axes.errorbar(
        ends, values, yerr=reach, fmt="o", markersize=4, capsize=3, label="found in six weeks"
    )
    axes.set_ylim(0, 0.75)
    axes.legend(frameon=False, ncols=2, loc="lower right")
    return figure


_ARROW = {"arrowstyle": "-", "linewidth": 0.8}


def _sheet(label: str) -> tuple[Figure, Axes]:
    figure = Figure(figsize=(7.2, 3.4), layout="constrained")
    axes = figure.subplots()
    axes.set_xlabel("days since the tank was started")
    axes.set_ylabel(label)
    axes.set_xticks(MONTHS)
    axes.spines[["top", "right"]].set_visible(False)
    return figure, axes
