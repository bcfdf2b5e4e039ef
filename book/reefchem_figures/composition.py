"""Figures of the chapter on the composition of seawater."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matplotlib.figure import Figure

from reefchem.core.atoms import charge_of
from reefchem.seawater import SPECIES, composition

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["ions_of_seawater"]

SMALLEST = 1.0
COLOURS = {1: "tab:red", 0: "tab:grey", -1: "tab:blue"}
NAMES = {"bicarbonate": "hydrogencarbonate"}
WORDS = {1: "cations", 0: "uncharged", -1: "anions"}


def ions_of_seawater() -> Figure:
    """Return the mass of each species in a kilogram of seawater, on a scale of powers of ten."""
    masses = composition(35.0).mass_contents
    names = sorted((n for n in masses if masses[n] > SMALLEST), key=masses.__getitem__)
    figure = Figure(figsize=(5.3, 3.6), layout="constrained")
    axes: Axes = figure.subplots()
    seen = set()
    for row, name in enumerate(names):
        charge = charge_of(SPECIES[name])
        sign = (charge > 0) - (charge < 0)
        label = None if sign in seen else WORDS[sign]
        seen.add(sign)
        axes.barh(row, masses[name], color=COLOURS[sign], label=label)
        number = f" {masses[name]:.0f}" if masses[name] > 1000 else f" {masses[name]:.3g}"
        axes.annotate(number, (masses[name], row), va="center", fontsize=8)
    axes.set_yticks(range(len(names)), [NAMES.get(name, name.replace("_", " ")) for name in names])
    axes.set_xscale("log")
    axes.set_xlim(SMALLEST, 9e4)
    axes.set_xlabel("mg in a kilogram of seawater, salinity 35")
    axes.legend(loc="lower right", frameon=False)
    return figure
