"""Figures of the chapter on refraction."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.seawater import nacl_scale_reading, uncompensated_reading

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["one_drop_many_readings"]

INCREMENTS = (1.731e-4, 1.760e-4)
"""Half a unit of the last digit on either side of the handbook value of kitchen salt."""


def one_drop_many_readings() -> Figure:
    """Return what three refractometers show in water of salinity 35, by temperature."""
    figure = Figure(figsize=(5.6, 3.1), layout="constrained")
    axes: Axes = figure.subplots()
    temperature = np.linspace(15.0, 30.0, 151)
    low, high = sorted(nacl_scale_reading(35.0, increment=b) for b in INCREMENTS)
    axes.axhspan(low, high, color="tab:orange", alpha=0.3)
    axes.plot(
        temperature,
        np.full_like(temperature, nacl_scale_reading(35.0)),
        "--",
        color="tab:orange",
        label="scale for kitchen salt, compensated",
    )
    axes.plot(
        temperature,
        np.full_like(temperature, 35.0),
        "-",
        color="tab:green",
        label="scale for seawater, compensated",
    )
    axes.plot(
        temperature,
        uncompensated_reading(35.0, temperature),
        "-.",
        color="tab:blue",
        label="scale for seawater, right at 20 °C only",
    )
    axes.set_xlim(15.0, 30.0)
    axes.set_xlabel("temperature of the drop, °C")
    axes.set_ylabel("reading")
    axes.legend(frameon=False, loc="lower left")
    axes.spines[["top", "right"]].set_visible(False)
    return figure
