"""Figures of the chapter on carbon dioxide and room air."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.carbonate import daily_swing, ph_in_air, raise_alkalinity
from reefchem.conversion import alkalinity_from_german_degrees, per_kilogram

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["a_day", "ph_against_air", "sources"]

SALINITY, TEMPERATURE = 35.0, 25.0
TANK = {
    "salinity": SALINITY,
    "temperature": TEMPERATURE,
    "total_alkalinity": 2788.0,
    "respiration": 8.0,
    "photosynthesis": 18.0,
    "light_hours": 10.0,
}


def _degrees(degrees: float) -> float:
    """Return dKH as µmol/kg."""
    return 1000 * per_kilogram(alkalinity_from_german_degrees(degrees), SALINITY, TEMPERATURE)


def ph_against_air() -> Figure:
    """Return the pH in balance with air against its carbon dioxide, for four alkalinities."""
    figure = Figure(figsize=(5.6, 3.0), layout="constrained")
    axes: Axes = figure.subplots()
    air = np.linspace(350.0, 2000.0, 200)
    for degrees, style in ((6.0, ":"), (8.0, "-"), (10.0, "--"), (12.0, "-.")):
        ph = ph_in_air(_degrees(degrees), air, SALINITY, TEMPERATURE)
        axes.plot(air, ph, style, label=f"{degrees:.0f} dKH")
    axes.axvline(420.0, color="0.6", linewidth=0.8)
    axes.annotate("outdoors", (430.0, 7.47), color="black", fontsize=9)
    axes.set_xlabel("carbon dioxide in the air, ppm")
    axes.set_ylabel("pH in balance (total scale)")
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def a_day() -> Figure:
    """Return a day of pH and of oxygen for three ways to air an invented tank."""
    figure = Figure(figsize=(5.6, 3.9), layout="constrained")
    upper, lower = figure.subplots(2, 1, sharex=True)
    for air, time, label, style in (
        (1000.0, 6.0, "1000 ppm, still surface", ":"),
        (1000.0, 1.5, "1000 ppm, moved surface", "-"),
        (450.0, 1.5, "450 ppm, moved surface", "--"),
    ):
        day = daily_swing(**TANK, air=air, oxygen_time=time)
        upper.plot(day.hour, day.ph_total, style, label=label)
        lower.plot(day.hour, 100 * day.oxygen / day.oxygen_saturation, style)
    for axes in (upper, lower):
        axes.axvspan(10.0, 24.0, color="0.5", alpha=0.2, linewidth=0)
        axes.spines[["top", "right"]].set_visible(False)
    upper.set_ylabel("pH (total scale)")
    upper.legend(frameon=False, fontsize=9, loc="upper right")
    upper.set_ylim(None, 8.6)
    lower.set_ylabel("oxygen, % of saturation")
    lower.set_xlabel("hours since the light came on")
    lower.set_xlim(0, 24)
    lower.set_xticks(range(0, 25, 4))
    return figure


def sources() -> Figure:
    """Return the change of pH and saturation for a degree of each source, in a jar and in air."""
    figure = Figure(figsize=(5.6, 3.1), layout="constrained")
    left, right = figure.subplots(1, 2, sharey=True)
    names = (
        "calcium acetate",
        "calcium formate",
        "sodium bicarbonate",
        "sodium carbonate",
        "sodium hydroxide",
        "calcium hydroxide",
    )
    water = {"salinity": SALINITY, "temperature": TEMPERATURE, "air": 420.0}
    for row, name in enumerate(names):
        made = raise_alkalinity(
            _degrees(1.0), total_alkalinity=2440.0, dic=2130.0, source=name, **water
        )
        jar, air = ("closed jar", "back in balance with air") if row == 0 else ("", "")
        left.barh(row + 0.18, made.ph_change_closed, 0.34, color="tab:orange", label=jar)
        left.barh(row - 0.18, made.ph_change_air, 0.34, color="tab:blue", label=air)
        right.barh(row + 0.18, made.omega_change_closed, 0.34, color="tab:orange")
        right.barh(row - 0.18, made.omega_change_air, 0.34, color="tab:blue")
    for axes in (left, right):
        axes.axvline(0.0, color="black", linewidth=0.8)
        axes.spines[["top", "right"]].set_visible(False)
    left.set_yticks(range(len(names)), names)
    left.set_xlabel("change of pH")
    right.set_xlabel("change of aragonite saturation")
    figure.legend(loc="outside upper center", ncols=2, frameon=False, fontsize=9)
    return figure
