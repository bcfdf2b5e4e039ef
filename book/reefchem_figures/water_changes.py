"""Figures of the chapter on water changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.tank import after_water_changes, after_water_changes_with_gain

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["against_a_gain", "old_water"]


def old_water() -> Figure:
    """Return what is left of 40 mg/L after a number of changes, for three sizes."""
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
    axes: Axes = figure.subplots()
    changes = np.arange(0.0, 13.0)
    marks = (("o", "-"), ("s", "--"), ("^", ":"))
    for share, (mark, line) in zip((0.1, 0.25, 0.5), marks, strict=True):
        level = after_water_changes(40.0, 0.0, share, changes)
        axes.plot(
            changes, level, marker=mark, linestyle=line, label=f"{100 * share:.0f} % each time"
        )
    axes.set_xlabel("water changes")
    axes.set_ylabel("nitrate, mg/L")
    axes.set_xlim(0, 12)
    axes.set_ylim(0, 42)
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def against_a_gain() -> Figure:
    """Return the level before each weekly change when food adds 2 mg/L a week."""
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
    axes: Axes = figure.subplots()
    weeks = np.arange(0.0, 53.0)
    for start, line in ((40.0, "-"), (0.0, "--")):
        after = after_water_changes_with_gain(start, 0.0, 2.0, 0.1, weeks)
        axes.plot(weeks, after + 2.0, linestyle=line, label=f"from {start:.0f} mg/L")
    axes.axhline(20.0, color="tab:gray", linewidth=0.9)
    axes.annotate("gain over share: 20 mg/L", (30, 16.8), fontsize=9)
    axes.set_xlabel("weeks, with 10 % changed and 2 mg/L gained in each")
    axes.set_ylabel("nitrate before a change, mg/L")
    axes.set_xlim(0, 52)
    axes.set_ylim(0, 44)
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
