"""The figure of the book."""

from __future__ import annotations

from exposure_relations import sound_speed
from matplotlib.figure import Figure


def speed() -> Figure:
    """Return the speed of sound over the temperature."""
    figure = Figure(figsize=(5, 3))
    axes = figure.subplots()
    temperatures = [-20, 0, 20, 40]
    axes.plot(temperatures, [sound_speed(float(t)) for t in temperatures])
    axes.set_xlabel("temperature, °C")
    axes.annotate("20 °C", (20, 343.2))
    return figure
