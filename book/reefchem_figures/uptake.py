"""Figures of the chapter on uptake: invented readings from a seed."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure

from reefchem.conversion import german_degrees
from reefchem.tank import uptake
from reefchem.tank.log import Entry, Log

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from reefchem.tank import UptakeEstimate

__all__ = ["how_readings_narrow", "readings_and_fit"]

TRUE = 0.20
SCATTER = 0.035
START = datetime(2026, 3, 1, 18, tzinfo=UTC)


def invented(days: int, every: int, seed: int = 12, slip: int | None = None) -> UptakeEstimate:
    """Return the estimate for an invented tank whose uptake is 0.20 meq/L a day."""
    draw = np.random.default_rng(seed)
    entries = [Entry(1, START, "dose", "soda", 30.0, "mL/day", "30 mL/day")]
    alkalinity = 2.9
    for day in range(days):
        when = START + timedelta(days=day, hours=1)
        if day % every == 0:
            seen = alkalinity + draw.normal(0.0, SCATTER) - (0.4 if day == slip else 0.0)
            entries.append(
                Entry(2 + day, when, "reading", "alkalinity", seen, "meq/L", f"{seen:.2f} meq/L")
            )
        if day % 7 == 6:
            entries.append(Entry(900 + day, when, "water change", "", 0.1, "1", "10 %"))
            alkalinity += 0.1 * (2.5 - alkalinity)
        alkalinity += 30.0 * 0.9 / 150.0 - TRUE
    return uptake(Log("invented", tuple(entries)), volume=150.0, potencies={"soda": 0.9}, fresh=2.5)


def readings_and_fit() -> Figure:
    """Return invented readings with one slip, the robust fit, and the weights."""
    found = invented(36, 2, slip=20)
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
    axes: Axes = figure.subplots()
    days = [r.days for r in found.readings]
    axes.plot(days, [german_degrees(r.fitted) for r in found.readings], "-", label="fit")
    axes.plot(days, [german_degrees(r.level) for r in found.readings], "o", label="readings")
    odd = found.outliers[0]
    axes.annotate(
        f"weight {odd.weight:.2f}",
        (odd.days, german_degrees(odd.level)),
        (odd.days + 1, german_degrees(odd.level)),
        va="center",
        fontsize=9,
    )
    axes.set_xlabel("days")
    axes.set_ylabel("alkalinity, dKH")
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def how_readings_narrow() -> Figure:
    """Return the 95 % interval of the uptake as readings come in, every second day."""
    figure = Figure(figsize=(5.6, 2.8), layout="constrained")
    axes: Axes = figure.subplots()
    spans = np.arange(12, 61, 4)
    found = [invented(int(span), 2) for span in spans]
    low = [german_degrees(estimate.low) for estimate in found]
    high = [german_degrees(estimate.high) for estimate in found]
    axes.fill_between(spans, low, high, alpha=0.25, label="95 % interval")
    axes.plot(spans, [german_degrees(e.uptake) for e in found], "o-", label="estimate")
    axes.axhline(german_degrees(TRUE), linestyle="--", color="tab:gray", label="the truth")
    axes.set_xlabel("days of readings, one every second day")
    axes.set_ylabel("uptake, dKH a day")
    axes.legend(frameon=False)
    axes.spines[["top", "right"]].set_visible(False)
    return figure
