"""Figures of the chapter on quantities and units."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.seawater import volume_from_rise_uncertainty

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["volume_by_rise"]

READINGS = ((1.0, "-"), (2.0, "--"), (5.0, ":"))


def volume_by_rise() -> Figure:
    """Return how well a rise tells the volume, for readings of three qualities."""
    figure = Figure(figsize=(5.0, 3.1), layout="constrained")
    axes: Axes = figure.subplots()
    rise = np.linspace(5.0, 60.0, 200)
    for reading, style in READINGS:
        doubt = volume_from_rise_uncertainty(100.0, 0.01, rise, reading)
        label = f"readings to {reading:g} mg/L"
        axes.plot(rise, doubt, style, color="tab:blue", label=label)
    axes.legend(frameon=False)
    axes.set_ylim(0.0, 60.0)
    axes.set_xlim(5.0, 60.0)
    axes.set_xlabel("rise of the reading, mg/L")
    axes.set_ylabel("uncertainty of the volume, %")
    return figure
