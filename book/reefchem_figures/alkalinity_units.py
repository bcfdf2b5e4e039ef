"""Figures of the chapter on the units of alkalinity."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matplotlib.figure import Figure

from reefchem.conversion import as_alkalinity

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["ladder"]

WATER = {"salinity": 35.0, "temperature": 25.0}
LADDER = (
    ("dKH", "German degrees (dKH)", 1.0),
    ("meq/L", "acid, meq/L", 0.5),
    ("umol/kg", "acid, µmol/kg\n(salinity 35, 25 °C)", 500.0),
    ("mg/L CaCO3", "as mg/L of CaCO₃", 25.0),
    ("mg/L HCO3", "as mg/L of HCO₃", 25.0),
)
LEAST, MOST = 5.0, 12.0


def ladder() -> Figure:
    """Return five rulers, one for each unit, laid side by side at the same alkalinity."""
    figure = Figure(figsize=(5.6, 3.0), layout="constrained")
    axes: Axes = figure.subplots()
    for row, (unit, label, step) in enumerate(LADDER):
        height = len(LADDER) - row
        axes.plot([LEAST, MOST], [height, height], color="black", linewidth=1)
        lowest, highest = (as_alkalinity(x, "dKH", unit, **WATER) for x in (LEAST, MOST))
        mark = -(-lowest // step) * step
        while mark <= highest:
            x = as_alkalinity(mark, unit, "dKH", **WATER)
            axes.plot([x, x], [height, height + 0.18], color="black", linewidth=1)
            axes.annotate(f"{mark:g}", (x, height + 0.22), ha="center", fontsize=8)
            mark += step
        axes.annotate(label, (LEAST - 0.15, height), ha="right", va="center", fontsize=9)
    ocean = as_alkalinity(2300.0, "umol/kg", "dKH", **WATER)
    axes.axvline(ocean, color="tab:blue", linestyle="--", linewidth=1)
    axes.annotate("surface ocean", (ocean + 0.05, 0.5), color="tab:blue", fontsize=9)
    axes.set_xlim(LEAST - 2.6, MOST + 0.2)
    axes.set_ylim(0.3, len(LADDER) + 0.6)
    axes.set_axis_off()
    return figure
