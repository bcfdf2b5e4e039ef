"""Figures of the chapter on the alkalinity test."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.carbonate import electrode_endpoint, endpoint_error, seawater_pk, titrated_share

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["curve", "errors", "what_is_counted"]

WATER = {"salinity": 35.0, "temperature": 25.0}
ALKALINITY, CARBON, AIR_HELD = 2790.0, 2420.0, 12.0
DEGREE = 348.5


def curve() -> Figure:
    """Return pH against acid for a tank's water, in a still and in a shaken vial."""
    figure = Figure(figsize=(5.6, 3.0), layout="constrained")
    axes: Axes = figure.subplots()
    ph = np.linspace(3.2, 8.2, 300)
    for carbon, label, style in (
        (CARBON, "carbon dioxide stays", "-"),
        (AIR_HELD, "carbon dioxide shaken out", "--"),
    ):
        acid = electrode_endpoint(
            ALKALINITY, carbon, **WATER, endpoint_ph=ph, acid_concentration=1.0
        ).reading
        shown = acid > 0.0 if carbon > 1000.0 else acid > 0.9 * ALKALINITY
        axes.plot(acid[shown] / DEGREE, ph[shown], style, label=label)
    axes.axvline(ALKALINITY / DEGREE, color="0.6", linewidth=0.8)
    axes.annotate(
        "alkalinity",
        (ALKALINITY / DEGREE, 6.6),
        xytext=(-6, 0),
        textcoords="offset points",
        ha="right",
        color="black",
    )
    axes.axhspan(4.2, 4.6, color="tab:orange", alpha=0.2, linewidth=0)
    axes.annotate("colour changes", (0.3, 4.33), color="black", fontsize=9)
    axes.set_xlabel("acid added, as dKH")
    axes.set_ylabel("pH (total scale)")
    axes.set_xlim(0, 9.5)
    axes.legend(frameon=False, loc="lower left", bbox_to_anchor=(0.02, 0.34))
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def errors() -> Figure:
    """Return the error of a reading against the pH at which the titration stops."""
    figure = Figure(figsize=(5.6, 2.6), layout="constrained")
    axes: Axes = figure.subplots()
    ph = np.linspace(3.8, 5.4, 200)
    for carbon, label, style in (
        (CARBON, "carbon dioxide stays", "-"),
        (300.0, "half-heartedly shaken", ":"),
        (AIR_HELD, "shaken out", "--"),
    ):
        axes.plot(ph, endpoint_error(ph, carbon, 5.847) / DEGREE, style, label=label)
    axes.axhline(0.0, color="0.6", linewidth=0.8)
    axes.set_xlabel("pH (total scale) at which the colour changes")
    axes.set_ylabel("reading less alkalinity, dKH")
    axes.set_ylim(-1.2, 0.5)
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def what_is_counted() -> Figure:
    """Return the share of four bases that a titration counts, against its end point."""
    figure = Figure(figsize=(5.6, 2.6), layout="constrained")
    axes: Axes = figure.subplots()
    ph = np.linspace(3.5, 5.5, 200)
    for name, pk, style in (
        ("hydrogencarbonate", 5.847, "-"),
        ("acetate", seawater_pk(4.76), "--"),
        ("formate", seawater_pk(3.75), "-."),
        ("borate, of all boron", 8.60, ":"),
    ):
        axes.plot(ph, 100 * titrated_share(8.2, ph, pk), style, label=name)
    axes.axvline(4.5, color="0.6", linewidth=0.8)
    axes.set_xlabel("pH (total scale) at which the titration stops")
    axes.set_ylabel("counted, %")
    axes.set_ylim(0, 102)
    figure.legend(frameon=False, loc="outside right upper", fontsize=9)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
