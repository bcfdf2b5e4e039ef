"""Figures of the chapter on saturation and precipitation."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.carbonate import (
    NO_PRECIPITATION_MORAS2022,
    ON_PARTICLES_MORAS2022,
    carbonate_system,
    omega_aragonite_from_ph_total,
)

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["map_of_readings", "plume"]

WATER = {"salinity": 35.0, "temperature": 25.0}
CALCIUM = 421.8
STRENGTH = 6e5


def map_of_readings() -> Figure:
    """Return lines of equal saturation over alkalinity and pH."""
    degrees = np.linspace(5.0, 14.0, 91)
    ph = np.linspace(7.6, 8.5, 91)
    omega = omega_aragonite_from_ph_total(
        degrees[np.newaxis, :], np.array(CALCIUM), ph[:, np.newaxis], **WATER
    )
    figure = Figure(figsize=(5.6, 3.3), layout="constrained")
    axes: Axes = figure.subplots()
    lines = axes.contour(degrees, ph, omega, levels=[1, 2, 3, 4, 5, 7, 10, 15], colors="black")
    for label in axes.clabel(lines, fontsize=8):
        label.set_color("black")
    axes.contourf(degrees, ph, omega, levels=[5, 7, 100], colors=["#fee6ce", "#fdae6b"], alpha=0.7)
    axes.set_xlabel("alkalinity, dKH")
    axes.set_ylabel("pH, total scale")
    return figure


def plume() -> Figure:
    """Return saturation against the dilution of three doses of the same alkalinity."""
    dilution = np.geomspace(100.0, 100000.0, 301)
    share = 1.0 / dilution
    tank = {"total_alkalinity": 2400.0, "dic": 2050.0, "calcium": 10284.6}
    figure = Figure(figsize=(5.6, 3.1), layout="constrained")
    axes: Axes = figure.subplots()
    for label, carbon, style in (
        ("hydroxide", 0.0, "-"),
        ("carbonate", 0.5, "--"),
        ("hydrogencarbonate", 1.0, ":"),
    ):
        state = carbonate_system(
            **WATER,
            total_alkalinity=tank["total_alkalinity"] * (1 - share) + STRENGTH * share,
            dic=tank["dic"] * (1 - share) + STRENGTH * carbon * share,
            calcium=tank["calcium"] * (1 - share),
        )
        axes.loglog(dilution, state.omega_aragonite, style, color="tab:blue", label=label)
    for limit in (NO_PRECIPITATION_MORAS2022, ON_PARTICLES_MORAS2022):
        axes.axhline(limit, color="tab:orange", linewidth=1)
    axes.set_xlabel("kilograms of tank water to one of solution")
    axes.set_ylabel("saturation with aragonite")
    axes.set_yticks([4, 5, 7, 10, 20, 40], ["4", "5", "7", "10", "20", "40"])
    axes.set_yticks([], minor=True)
    axes.legend(fontsize=8, frameon=False)
    return figure
