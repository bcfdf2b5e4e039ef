"""Figures of the chapter on limewater."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.conversion import german_degrees
from reefchem.dosing import limewater_limit

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["what_evaporation_allows"]


def what_evaporation_allows() -> Figure:
    """Return the most that limewater brings in a day, by the share of water that evaporates."""
    figure = Figure(figsize=(5.6, 2.6), layout="constrained")
    axes: Axes = figure.subplots()
    share = np.linspace(0.0, 3.0, 100)
    for celsius, style in ((25.0, "-"), (20.0, "--"), (30.0, ":")):
        most = german_degrees(limewater_limit(share, 100.0, celsius))
        note = "" if celsius == 25.0 else " (not verified)"
        axes.plot(share, most, style, color="tab:blue", label=f"lime at {celsius:.0f} °C{note}")
    axes.set_xlabel("evaporation, % of the water in a day")
    axes.set_ylabel("most alkalinity, dKH a day")
    axes.set_xlim(0, 3)
    axes.set_ylim(0, None)
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
