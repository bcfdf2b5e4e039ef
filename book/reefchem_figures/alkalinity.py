"""Figures of the chapter on what alkalinity is."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.carbonate import carbonate_system

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["holders"]

WATER = {"salinity": 35.0, "temperature": 25.0}
DIC = 2000.0


def holders() -> Figure:
    """Return who holds the alkalinity of water with 2000 µmol/kg of carbon, against pH."""
    ph = np.linspace(7.0, 9.0, 201)
    state = carbonate_system(**WATER, dic=DIC, ph_total=ph)
    figure = Figure(figsize=(5.6, 3.1), layout="constrained")
    axes: Axes = figure.subplots()
    axes.stackplot(
        ph,
        state.bicarbonate,
        2.0 * state.carbonate,
        state.borate,
        state.hydroxide,
        labels=("hydrogencarbonate", "carbonate, counted twice", "borate", "hydroxide"),
        colors=("#9ecae1", "#3182bd", "#fdae6b", "#e6550d"),
    )
    axes.plot(ph, state.total_alkalinity, color="black", linewidth=1)
    for low in (7.8, 8.3):
        axes.axvline(low, color="black", linestyle=":", linewidth=1)
    axes.set_xlabel("pH, total scale")
    axes.set_ylabel("alkalinity, µmol/kg")
    axes.set_xlim(7.0, 9.0)
    axes.legend(loc="upper left", fontsize=8, frameon=False)
    return figure
