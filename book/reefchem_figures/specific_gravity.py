"""Figures of the chapter on specific gravity."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.seawater import SCALES, hydrometer_salinity

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["one_reading_four_salinities"]

SHOWN = (("25/25 °C", "-"), ("20/20 °C", "--"), ("60/60 °F", "-."), ("20/4 °C", ":"))
READING = 1.0264
WATER = 25.0


def one_reading_four_salinities() -> Figure:
    """Return the salinity that a glass hydrometer means at 25 °C, for four scales."""
    figure = Figure(figsize=(5.0, 3.4), layout="constrained")
    axes: Axes = figure.subplots()
    readings = np.linspace(1.0215, 1.0285, 71)
    for name, style in SHOWN:
        calibration, reference = SCALES[name]
        scale = {"calibration_temperature": calibration, "reference_temperature": reference}
        axes.plot(readings, hydrometer_salinity(readings, WATER, **scale), style, label=name)
        found = hydrometer_salinity(READING, WATER, **scale)
        axes.plot(READING, found, "o", color="black", markersize=4)
        axes.annotate(f" {found:.1f}", (READING, found), va="top", fontsize=9)
    axes.axvline(READING, color="0.6", linewidth=0.8)
    axes.set_xlim(readings[0], readings[-1])
    axes.set_ylim(29.0, 41.0)
    axes.ticklabel_format(axis="x", useOffset=False)
    axes.set_xlabel("reading of a glass hydrometer, water at 25 °C")
    axes.set_ylabel("salinity")
    axes.legend(frameon=False, title="scale", loc="upper left")
    return figure
