"""Figures of the chapter on two-part dosing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.conversion import alkalinity_from_german_degrees
from reefchem.dosing import (
    calcium_carbonate_formed,
    calcium_used,
    chloride_left,
    sodium_chloride_left,
    sodium_left,
)
from reefchem.tank import after_water_changes_with_gain

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["what_stays", "with_water_changes"]

DEGREE = alkalinity_from_german_degrees(1.0)
WEEKS = 52


def what_stays() -> Figure:
    """Return what a degree of two-part dosing puts in, and where each part of it ends."""
    figure = Figure(figsize=(5.6, 2.5), layout="constrained")
    axes: Axes = figure.subplots()
    rows = (
        ("calcium", calcium_used(DEGREE), "into the skeleton", "tab:orange"),
        (
            "alkalinity, as CaCO₃",
            calcium_carbonate_formed(DEGREE),
            "into the skeleton",
            "tab:orange",
        ),
        ("sodium", sodium_left(DEGREE), "stays in the water", "tab:blue"),
        ("chloride", chloride_left(DEGREE), "stays in the water", "tab:blue"),
    )
    for row, (_, mass, fate, colour) in enumerate(reversed(rows)):
        axes.barh(row, mass, color=colour, height=0.6)
        axes.annotate(f"{mass:.1f} mg/L {fate}", (mass + 0.2, row), va="center", fontsize=9)
    axes.set_yticks(range(len(rows)), [name for name, *_ in reversed(rows)])
    axes.set_xlim(0, 28)
    axes.set_xlabel("for each degree (dKH) that corals use, mg/L")
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def with_water_changes() -> Figure:
    """Return the sodium chloride left over a year, for three ways to change water."""
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
    axes: Axes = figure.subplots()
    weeks = np.arange(1.0, WEEKS + 1)
    weekly = sodium_chloride_left(7 * DEGREE)
    axes.plot(weeks, weekly * weeks / 1000, label="no water changed")
    for share in (0.05, 0.1, 0.2):
        left = after_water_changes_with_gain(0.0, 0.0, weekly, share, weeks)
        axes.plot(weeks, left / 1000, label=f"{100 * share:.0f} % a week")
    axes.set_xlabel("weeks at 1 dKH a day")
    axes.set_ylabel("sodium chloride left, g/L")
    axes.set_xlim(0, WEEKS)
    axes.set_ylim(0, None)
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
