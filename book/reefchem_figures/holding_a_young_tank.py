"""Figure of the chapter on holding a young tank."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.conversion import alkalinity_from_german_degrees, german_degrees
from reefchem.tank import alkalinity_ahead, alkalinity_need, need_on_the_way

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["hold_and_approach"]

DAYS = 21


def path(dosed: list[float]) -> list[float]:
    """Return the alkalinity by day, in degrees, with a weekly change of a tenth."""
    uptake = alkalinity_from_german_degrees(0.6)
    level, fresh = alkalinity_from_german_degrees(6.3), alkalinity_from_german_degrees(7.0)
    seen = [german_degrees(level)]
    for day, brought in enumerate(dosed):
        level = alkalinity_ahead(level, brought, uptake, 1.0)
        if day % 7 == 6:
            level += 0.1 * (fresh - level)
        seen.append(german_degrees(level))
    return seen


def hold_and_approach() -> Figure:
    """Return three ways to dose a tank at 6.3 dKH that shall be at 7.5 dKH."""
    target, fresh = (alkalinity_from_german_degrees(d) for d in (7.5, 7.0))
    need = alkalinity_need(alkalinity_from_german_degrees(0.6), target, fresh, 0.1, 7.0)
    way = need_on_the_way(need, alkalinity_from_german_degrees(6.3), target, 3.0)
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
    axes: Axes = figure.subplots()
    days = np.arange(DAYS + 1)
    axes.plot(days, path([way] * 3 + [need] * (DAYS - 3)), "-", label="approach, then hold")
    axes.plot(days, path([need] * DAYS), "--", label="only hold")
    axes.plot(days, path([0.9 * need] * DAYS), ":", label="a tenth too little")
    axes.axhline(7.5, color="tab:gray", linewidth=0.9)
    axes.set_xlabel("days; a tenth of the water is changed each week")
    axes.set_ylabel("alkalinity, dKH")
    axes.set_xlim(0, DAYS)
    axes.set_ylim(4.7, None)
    axes.legend(frameon=False, loc="lower left")
    axes.spines[["top", "right"]].set_visible(False)
    return figure
