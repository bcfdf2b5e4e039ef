"""Figure of the chapter on nitrogen and phosphorus."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.tank import nitrate_from_food, nitrogen_in_food, water_change_rate
from reefchem.uncertainty import Choice, nitrate_choices

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["food_against_light", "three_choices"]


def food_against_light() -> Figure:
    """Return the nitrate that food brings and that algae take, over the hours of light."""
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
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


def three_choices() -> Figure:
    """Return nitrate after each of three choices, with the band that holds 19 members in 20."""
    choices = (
        ("dose 0.5 mg/L a day", Choice("dose", dosed=0.5), "-"),
        ("5 hours of light", Choice("light", hours=5.0), "--"),
        ("0.8 g of food", Choice("food", food=0.8), ":"),
    )
    figure = Figure(figsize=(5.6, 2.5), layout="constrained")
    panels: list[Axes] = list(figure.subplots(1, 3, sharey=True))
    days = np.linspace(0.0, 120.0, 121)
    rate = water_change_rate(0.1, 7.0)
    for axes, (label, choice, style) in zip(panels, choices, strict=True):
        (found,) = nitrate_choices(
            [choice],
            volume=(180.0, 4.0),
            food=(0.5, 0.05),
            protein=(0.45, 0.03),
            phosphorus=(0.010, 0.002),
            kept=(0.2, 0.1),
            nitrate_change=(-0.30, 0.05),
            hours=9.0,
            response=(1.0, 0.2),
        )
        low, middle, high = (
            np.maximum(settled, 0.0) * (1 - np.exp(-rate * days)) for settled in found.settled
        )
        axes.fill_between(days, low, high, alpha=0.25, color="tab:blue", linewidth=0)
        axes.plot(days, middle, style, color="tab:blue")
        axes.axhline(5.0, color="tab:orange", linewidth=1)
        axes.set_title(label, fontsize=10)
        axes.set_xlabel("days")
        axes.spines[["top", "right"]].set_visible(False)
    panels[0].set_ylabel("nitrate, mg/L")
    panels[0].set_ylim(0, 20)
    return figure
