"""Figure of the chapter on nitrogen and phosphorus."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.tank import nitrate_from_food, nitrogen_in_food

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["food_against_light"]


def food_against_light() -> Figure:
    """Return the nitrate that food brings and that algae take, over the hours of light."""
    figure = Figure(figsize=(7.2, 3.4), layout="constrained")
    axes: Axes = figure.subplots()
    hours = np.linspace(0.0, 14.0, 2)
    brought = nitrate_from_food(nitrogen_in_food(0.5, 0.45), 180.0)
    taken = (brought + 0.3) / 9.0
    axes.plot(hours, taken * hours, "-", label="taken by algae, in proportion to light")
    axes.axhline(brought, linestyle="--", color="tab:orange", label="brought by food")
    axes.plot([brought / taken], [brought], "o", color="black")
    axes.annotate(f"{brought / taken:.1f} hours hold", (brought / taken + 0.3, brought - 0.12))
    axes.set_xlabel("hours of light for the algae in a day")
    axes.set_ylabel("nitrate, mg/L a day")
    axes.set_xlim(0, 14)
    axes.set_ylim(0, None)
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
