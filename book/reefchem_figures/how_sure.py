"""Figures of the chapter on how sure a number is."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.conversion import german_degrees
from reefchem.seawater import hydrometer_salinity
from reefchem.uncertainty import simulate, uncertainty, years_ahead

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["salinity_of_a_reading", "shares_of_doubt", "ten_years"]

READING = {
    "reading": (1.0250, 0.0003),
    "temperature": (25.0, 0.5),
    "calibration_temperature": 20.0,
    "reference_temperature": 20.0,
}


def salinity_of_a_reading() -> Figure:
    """Return how often each salinity lies behind one reading, drawn and computed."""
    figure = Figure(figsize=(5.6, 2.6), layout="constrained")
    axes: Axes = figure.subplots()
    drawn = simulate(hydrometer_salinity, members=40_000, **READING)
    made = uncertainty(hydrometer_salinity, **READING)
    axes.hist(drawn, bins=60, density=True, color="tab:blue", alpha=0.45, label="40 000 draws")
    x = np.linspace(drawn.min(), drawn.max(), 300)
    bell = np.exp(-0.5 * ((x - made.value) / made.standard) ** 2)
    bell /= made.standard * np.sqrt(2 * np.pi)
    axes.plot(x, bell, color="tab:orange", label="from slopes")
    low, high = made.interval
    axes.axvspan(low, high, color="gray", alpha=0.15, label="19 times in 20")
    axes.set_xlabel("salinity behind a hydrometer reading of 1.0250")
    axes.set_yticks([])
    axes.legend(frameon=False)
    axes.spines[["top", "right", "left"]].set_visible(False)
    return figure


def shares_of_doubt() -> Figure:
    """Return which input the doubt about a hydrometer's salinity comes from."""
    figure = Figure(figsize=(5.6, 1.6), layout="constrained")
    axes: Axes = figure.subplots()
    shares = uncertainty(hydrometer_salinity, **READING).shares
    for row, (name, share) in enumerate(sorted(shares.items(), key=lambda item: item[1])):
        axes.barh(row, 100 * share, color="tab:blue", height=0.6)
        axes.annotate(f"{name}: {100 * share:.0f} %", (100 * share + 1, row), va="center")
    axes.set_yticks([])
    axes.set_xlim(0, 100)
    axes.set_xlabel("share of the variance, %")
    axes.spines[["top", "right", "left"]].set_visible(False)
    return figure


def ten_years() -> Figure:
    """Return ten years of one alkalinity, with volume and uptake drawn together and apart."""
    days = [*np.linspace(0.0, 364.0, 27), *np.linspace(420.0, 3650.0, 60)]
    figure = Figure(figsize=(5.6, 2.6), layout="constrained")
    panels: list[Axes] = list(figure.subplots(1, 2, sharey=True))
    together = {("volume", "alkalinity_uptake"): -1.0}
    for axes, correlation, title in zip(
        panels, (together, None), ("drawn together", "drawn apart"), strict=True
    ):
        ahead = years_ahead(
            {"NaHCO3": (40.3, (75.0, 1.0)), "CaCl2·2H2O": (40.7, (65.0, 1.0))},
            volume=(180.0, 3.6),
            alkalinity_uptake=(0.2, 0.004),
            alkalinity=(2.7, 0.05),
            fresh_alkalinity=(2.7, 0.05),
            change=18.0,
            days=days,
            members=20_000,
            correlation=correlation,
        )
        years = np.array(ahead.days) / 365
        low, middle, high = (
            german_degrees(bound["alkalinity"]) for bound in (ahead.low, ahead.middle, ahead.high)
        )
        axes.fill_between(years, low, high, alpha=0.25, color="tab:blue", linewidth=0)
        axes.plot(years, middle, color="tab:blue")
        axes.set_title(title, fontsize=10)
        axes.set_xlabel("years")
        axes.spines[["top", "right"]].set_visible(False)
    panels[0].set_ylabel("alkalinity, dKH")
    return figure
