"""Figures of the chapter on salts and solutions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matplotlib.figure import Figure

from reefchem.dosing import salts

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["how_much_dissolves"]

SHOWN = ("Na2CO3", "NaHCO3", "Ca(HCOO)2", "KNO3", "CaCl2")


def how_much_dissolves() -> Figure:
    """Return grams in 100 g of water by temperature, for salts that keepers dissolve."""
    figure = Figure(figsize=(5.6, 3.0), layout="constrained")
    axes: Axes = figure.subplots()
    for formula in SHOWN:
        known = salts[formula].solubility
        if known is None:
            continue
        celsius, grams = zip(*known.points, strict=True)
        axes.plot(celsius, grams, marker="o", markersize=3, label=salts[formula].name)
    axes.set_xlabel("°C")
    axes.set_ylabel("g in 100 g of water, water-free")
    axes.set_xlim(0, 40)
    axes.set_ylim(0, None)
    axes.legend(frameon=False, fontsize=8)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
