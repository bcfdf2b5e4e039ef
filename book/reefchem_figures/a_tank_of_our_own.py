"""Figures of the chapter on the invented tank; the truth is known here, and only here."""

from __future__ import annotations

import runpy
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from matplotlib.figure import Figure

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["a_year"]

SIMULATION = Path(__file__).resolve().parents[2] / "demo" / "simulate.py"


def a_year() -> Figure:
    """Return a year of the invented tank: what was read, and what was true."""
    truth = runpy.run_path(str(SIMULATION))["simulated"]()
    rows = [row.split(",") for row in truth.rows if ",reading,alkalinity," in row]
    start = rows[0][0][:10]
    figure = Figure(figsize=(7.2, 5.6), layout="constrained")
    upper: Axes
    lower: Axes
    upper, lower = figure.subplots(2, 1, sharex=True)
    days = [_days(start, row[0][:10]) for row in rows]
    upper.plot(range(len(truth.alkalinity)), truth.alkalinity, "-", label="true alkalinity")
    upper.plot(days, [float(row[3]) for row in rows], ".", label="readings")
    upper.set_ylabel("alkalinity, dKH")
    upper.legend(frameon=False, ncols=2)
    lower.plot(range(len(truth.uptake)), truth.uptake, "-", label="true uptake, dKH a day")
    lower.plot(
        range(len(truth.nitrate)),
        [value / 10 for value in truth.nitrate],
        "--",
        label="true nitrate, in tens of mg/L",
    )
    lower.set_xlabel("days since the tank was started")
    lower.set_ylim(0, None)
    lower.legend(frameon=False)
    for axes in (upper, lower):
        axes.spines[["top", "right"]].set_visible(False)
    return figure


def _days(first: str, second: str) -> int:
    return (date.fromisoformat(second) - date.fromisoformat(first)).days
