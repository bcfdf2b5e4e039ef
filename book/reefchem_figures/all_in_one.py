"""Figures of the chapter on all-in-one dosing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.conversion import alkalinity_from_german_degrees
from reefchem.dosing import oxidised_share, oxygen_for_acetate, oxygen_for_formate

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["alkalinity_appears", "oxygen_taken"]

HOURS = (6.0, 12.0, 24.0)


def alkalinity_appears() -> Figure:
    """Return how the alkalinity of one dose of formate appears, for three half-lives."""
    figure = Figure(figsize=(5.6, 2.6), layout="constrained")
    axes: Axes = figure.subplots()
    time = np.linspace(0.0, 72.0, 200)
    for hours in HOURS:
        axes.plot(time, oxidised_share(time / 24, hours / 24), label=f"half in {hours:.0f} hours")
    axes.set_xlabel("hours since a dose of 1 dKH")
    axes.set_ylabel("alkalinity that has appeared, dKH")
    axes.set_xlim(0, 72)
    axes.set_ylim(0, 1.02)
    axes.legend(frameon=False, loc="lower right")
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def oxygen_taken() -> Figure:
    """Return the oxygen that a degree takes from formate and from acetate."""
    figure = Figure(figsize=(5.6, 1.6), layout="constrained")
    axes: Axes = figure.subplots()
    degree = alkalinity_from_german_degrees(1.0)
    rows = (
        ("acetate", oxygen_for_acetate(degree)),
        ("formate", oxygen_for_formate(degree)),
        ("two-part, limewater", 0.0),
    )
    for row, (_, mass) in enumerate(rows):
        axes.barh(row, mass, color="tab:green", height=0.6)
        axes.annotate(f"{mass:.1f}", (mass + 0.2, row), va="center", fontsize=9)
    axes.set_yticks(range(len(rows)), [name for name, _ in rows])
    axes.set_xlabel("oxygen for 1 dKH, mg from each litre")
    axes.set_xlim(0, 26)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
