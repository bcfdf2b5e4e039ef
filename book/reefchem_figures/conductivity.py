"""Figures of the chapter on conductivity."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.seawater import linear_compensation_reading

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["what_a_coefficient_costs"]

COEFFICIENTS = ((0.0191, "-"), (0.0200, "--"), (0.0210, "-."))
SALINITY = 35.0


def what_a_coefficient_costs() -> Figure:
    """Return what meters with three coefficients show in water of salinity 35."""
    figure = Figure(figsize=(5.0, 3.1), layout="constrained")
    axes: Axes = figure.subplots()
    temperature = np.linspace(18.0, 32.0, 141)
    for coefficient, style in COEFFICIENTS:
        shown = linear_compensation_reading(SALINITY, temperature, coefficient=coefficient)
        axes.plot(temperature, shown, style, label=f"{100 * coefficient:.2f} % for each °C")
    axes.axhline(SALINITY, color="0.6", linewidth=0.8)
    axes.axvspan(24.0, 27.0, color="0.5", alpha=0.2, linewidth=0, zorder=0)
    axes.set_xlim(18.0, 32.0)
    axes.set_xlabel("temperature, °C")
    axes.set_ylabel("salinity shown, true salinity 35")
    axes.legend(frameon=False)
    return figure
