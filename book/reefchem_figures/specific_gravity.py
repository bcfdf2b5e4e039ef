"""Figures of the chapter on density and specific gravity."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.seawater import SCALES, specific_gravity

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["one_water_many_readings"]

SHOWN = ("60/60 °F", "20/20 °C", "25/25 °C", "20/4 °C")
STYLES = ("-", "--", "-.", ":")
COLOURS = ("tab:orange", "tab:blue", "tab:green", "tab:purple")


def one_water_many_readings() -> Figure:
    """Return what scales of four kinds show in a tank of 25 °C, over the salinity."""
    figure = Figure(figsize=(7.2, 3.8), layout="constrained")
    axes: Axes = figure.subplots()
    salinity = np.linspace(30.0, 40.0, 101)
    for scale, style, colour in zip(SHOWN, STYLES, COLOURS, strict=True):
        _, reference = SCALES[scale]
        shown = specific_gravity(salinity, 25.0, reference_temperature=reference)
        axes.plot(salinity, shown, style, color=colour, label=scale)
    axes.axhline(1.0264, color="gray", linewidth=0.8)
    axes.annotate("a reading of 1.0264", (30.1, 1.02648), fontsize=9)
    axes.set_xlabel("practical salinity")
    axes.set_ylabel("specific gravity at 25 °C")
    axes.legend(title="scale", frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
