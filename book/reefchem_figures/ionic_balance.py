"""Figures of the chapter on ionic balance."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.conversion import alkalinity_from_german_degrees
from reefchem.dosing import THIRD, all_in_one, compare_methods, ionic_balance, two_part

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["drift_by_method", "drift_by_water_change", "methods_for_one_tank"]

DEGREE = alkalinity_from_german_degrees(1.0)
IONS = ("sodium", "chloride", "magnesium", "calcium", "potassium", "sulfate", "boron")


def drift_by_method() -> Figure:
    """Return the change of each ion after a year, for three methods, 10 % changed each week."""
    figure = Figure(figsize=(5.6, 3.0), layout="constrained")
    axes: Axes = figure.subplots()
    methods = {
        "two-part": two_part().left,
        "two-part with a third solution": two_part(third=THIRD).left,
        "all-in-one, limewater, reactor": all_in_one().left,
    }
    width = 0.8 / len(methods)
    for index, (name, left) in enumerate(methods.items()):
        balance = ionic_balance(left, daily_uptake=DEGREE, time=365.0, share=0.1)
        places = np.arange(len(IONS)) + (index - 1) * width
        axes.bar(places, [100 * balance.change(ion) for ion in IONS], width, label=name)
    axes.axhline(0, color="black", linewidth=0.8)
    axes.set_xticks(range(len(IONS)), IONS)
    axes.set_ylabel("change after a year, %")
    axes.legend(frameon=False, fontsize=8, loc="lower left")
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def drift_by_water_change() -> Figure:
    """Return the magnesium of a two-part tank over two years, for four weekly water changes."""
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
    axes: Axes = figure.subplots()
    left = two_part().left
    weeks = np.arange(0, 105)
    for share in (0.0, 0.05, 0.1, 0.2):
        level = [
            100
            * ionic_balance(left, daily_uptake=DEGREE, time=7.0 * week, share=share).change(
                "magnesium"
            )
            for week in weeks
        ]
        axes.plot(weeks, level, label=f"{100 * share:.0f} % a week")
    axes.set_xlabel("weeks at 1 dKH a day")
    axes.set_ylabel("magnesium, % from seawater")
    axes.set_xlim(0, 104)
    axes.set_ylim(None, 0)
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def methods_for_one_tank() -> Figure:
    """Return what each method leaves, takes and does to carbon dioxide in a day, for one tank."""
    figure = Figure(figsize=(5.6, 2.6), layout="constrained")
    methods = compare_methods(daily_uptake=DEGREE, volume=200.0, evaporation=3.0).methods[::-1]
    names = [method.name.replace(" and calcium", "\nand calcium") for method in methods]
    panels = {
        "salt gathers, mg/L": [method.salt for method in methods],
        "oxygen taken, mg/L": [method.oxygen for method in methods],
        "CO₂ to leave, mmol/L": [method.carbon_dioxide for method in methods],
    }
    for axes, (label, values) in zip(
        figure.subplots(1, 3, sharey=True), panels.items(), strict=True
    ):
        axes.barh(names, values)
        axes.axvline(0, color="black", linewidth=0.8)
        axes.set_xlabel(label, fontsize=8)
        axes.tick_params(labelsize=7)
        axes.spines[["top", "right"]].set_visible(False)
    return figure
