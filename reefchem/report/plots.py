"""The two plots of a plan as SVG that follows the page: its colours, its font, light or dark."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING, Any

from reefchem.tank.planning.figures import Ledger

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure as Canvas

    from reefchem.tank.plan import Plan

__all__ = ["alkalinity_plot", "balance_plot"]

INK, QUIET = "#010203", "#010204"
FIRST, SECOND, THIRD = "#010205", "#010206", "#010207"
VARIABLES = {
    INK: "var(--ink)",
    QUIET: "var(--line)",
    FIRST: "var(--plot-1)",
    SECOND: "var(--plot-2)",
    THIRD: "var(--plot-3)",
}
"""Colours that stand for the page's own; no plot shows them as they are."""

STYLE: Any = {
    "svg.fonttype": "none",
    "svg.hashsalt": "reefchem",
    "font.family": "sans-serif",
    "font.size": 11,
    "text.color": INK,
    "axes.edgecolor": QUIET,
    "axes.labelcolor": INK,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "grid.color": QUIET,
    "grid.linewidth": 0.5,
    "xtick.color": INK,
    "ytick.color": INK,
    "xtick.labelsize": 10,
    "ytick.labelsize": 10,
    "legend.frameon": False,
    "legend.fontsize": 10,
    "figure.constrained_layout.use": True,
}


def alkalinity_plot(plan: Plan) -> tuple[str, str]:
    """Return the alkalinity with its uptake as SVG, and in words."""
    import matplotlib as mpl  # noqa: PLC0415 - the extra `plan`
    from matplotlib.figure import Figure as Canvas  # noqa: PLC0415 - the extra `plan`

    ledger = Ledger(plan.description.texts["tank.alkalinity_unit"])
    show = ledger.show
    found = plan.estimate
    unit = show(0.0, "meq/L").unit
    days = [reading.days - found.readings[-1].days for reading in found.readings]
    values = [show(reading.level, "meq/L").value for reading in found.readings]
    fitted = [show(reading.fitted, "meq/L").value for reading in found.readings]
    target = show(plan.description.number("targets.alkalinity"), "meq/L").value
    odd = [(d, v) for d, v, r in zip(days, values, found.readings, strict=True) if r.outlier]
    with mpl.rc_context(STYLE):
        canvas = Canvas(figsize=(6.4, 3.4))
        axes = canvas.subplots()
        axes.axhline(target, color=THIRD, linewidth=1.2, linestyle=(0, (6, 3)), label="target")
        axes.plot(days, fitted, color=SECOND, linewidth=1.8, label="what the fit makes of the log")
        axes.plot(days, values, "o", color=FIRST, markersize=5, label="readings")
        if odd:
            axes.plot(*zip(*odd, strict=True), "o", color=FIRST, markersize=11, fillstyle="none",
                      label="far from the others")  # fmt: skip
        axes.set_xlabel("days before the last reading")
        axes.set_ylabel(f"alkalinity, {unit}")
        _legend_below(canvas, axes)
        svg = _svg(canvas)
    uptake = plan.figures["uptake"].shown
    words = (
        f"{len(values)} readings of alkalinity over {-days[0]:.0f} days, "
        f"between {min(values):.1f} and "
        f"{max(values):.1f} {unit}, with the line that doses, water changes and an uptake of "
        f"{uptake.value:.3f} {uptake.unit} give; the target is {target:.1f} {unit}."
    )
    if odd:
        words += f" Far from the line: {len(odd)} of them."
    return svg, words


def balance_plot(plan: Plan) -> tuple[str, str]:
    """Return the salt left behind, month by month, as SVG, and in words."""
    import matplotlib as mpl  # noqa: PLC0415 - the extra `plan`
    from matplotlib.figure import Figure as Canvas  # noqa: PLC0415 - the extra `plan`

    left = plan.drift
    without = [value / 1000 for value in left.without]
    kept = [value / 1000 for value in left.with_changes]
    with mpl.rc_context(STYLE):
        canvas = Canvas(figsize=(6.4, 3.4))
        axes = canvas.subplots()
        axes.plot(left.months, without, color=SECOND, linewidth=1.8, linestyle=(0, (6, 3)),
                  label="two-part, no water changes")  # fmt: skip
        axes.plot(
            left.months, kept, color=FIRST, linewidth=1.8, label="two-part, these water changes"
        )
        axes.plot(left.months, left.all_in_one, color=THIRD, linewidth=2.4, linestyle=(0, (1, 2)),
                  label="calcium formate or limewater")  # fmt: skip
        axes.set_xlabel("months of 30 days from now")
        axes.set_ylabel("sodium chloride left, g/L")
        axes.set_xlim(0, left.months[-1])
        axes.set_ylim(bottom=0 if max(without) > 0 else None)
        _legend_below(canvas, axes)
        svg = _svg(canvas)
    words = (
        f"Sodium chloride left behind over a year at this uptake: without water changes it reaches "
        f"{without[-1]:.2f} g/L, with these water changes {kept[-1]:.2f} g/L; calcium formate and "
        "limewater leave none."
    )
    return svg, words


def _legend_below(canvas: Canvas, axes: Axes) -> None:
    handles, labels = axes.get_legend_handles_labels()
    canvas.legend(handles, labels, loc="outside lower center", ncols=2)


def _svg(canvas: Canvas) -> str:
    """Return a figure as SVG without prologue or date, its colours handed to the page."""
    out = io.StringIO()
    canvas.savefig(out, format="svg", transparent=True, metadata={"Date": None})
    text = out.getvalue()
    text = text[text.index("<svg") :]
    text = re.sub(r"<metadata>.*?</metadata>", "", text, flags=re.DOTALL)
    for stand_in, variable in VARIABLES.items():
        text = text.replace(stand_in, variable)
    text = re.sub(r"font: ([\d.]+px) [^;\"]*", r"font: \1 var(--sans)", text)
    text = re.sub(r'(<svg [^>]*?) width="[\d.]+pt"', r"\1", text, count=1)
    return re.sub(r'(<svg [^>]*?) height="[\d.]+pt"', r"\1", text, count=1)
