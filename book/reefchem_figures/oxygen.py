"""Figures of the chapter on oxygen."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.seawater import oxygen_saturation_at_pressure, pressure_at_altitude

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["saturation_by_temperature"]

ALTITUDES = ((0.0, "-"), (1000.0, "--"), (2000.0, ":"))


def saturation_by_temperature() -> Figure:
    """Return the oxygen that seawater can hold, by temperature, at three altitudes."""
    figure = Figure(figsize=(5.0, 3.1), layout="constrained")
    axes: Axes = figure.subplots()
    temperature = np.linspace(18.0, 32.0, 141)
    for altitude, style in ALTITUDES:
        pressure = pressure_at_altitude(altitude)
        oxygen = oxygen_saturation_at_pressure(35.0, temperature, pressure)
        words = f"{altitude:.0f} m" if altitude else "sea level"
        axes.plot(temperature, oxygen, style, color="tab:blue", label=words)
    axes.legend(frameon=False)
    axes.axvspan(24.0, 27.0, color="0.5", alpha=0.2, linewidth=0, zorder=0)
    axes.set_xlim(18.0, 32.0)
    axes.set_xlabel("temperature, °C")
    axes.set_ylabel("oxygen in balance with air, mg/L")
    return figure
