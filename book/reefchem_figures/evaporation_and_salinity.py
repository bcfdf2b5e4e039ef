"""Figure of the chapter on evaporation and salinity."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.tank import evaporation_drift

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["without_top_off"]


def without_top_off() -> Figure:
    """Return the salinity over ten days without top-off, for three rates of evaporation."""
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
    axes: Axes = figure.subplots()
    days = np.linspace(0.0, 10.0, 41)
    for share, line in ((0.005, ":"), (0.01, "-"), (0.02, "--")):
        salinity = evaporation_drift(35.0, 25.0, 100.0, 100.0 * share, days)
        axes.plot(days, salinity, linestyle=line, label=f"{100 * share:g} % of the water a day")
    axes.set_xlabel("days without top-off")
    axes.set_ylabel("practical salinity")
    axes.set_xlim(0, 10)
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
