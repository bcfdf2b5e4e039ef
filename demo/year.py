"""The year of the invented tank as text and as one page: what was found, and what was true."""

from __future__ import annotations

import html
import io
import textwrap
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from demo import judge, plots, simulate
from reefchem import report
from reefchem.tank.log import LogError, read_log
from reefchem.uncertainty import plan_ahead

if TYPE_CHECKING:
    from collections.abc import Callable

    from matplotlib.figure import Figure

    from demo.judge import Verdict, Window
    from demo.simulate import Truth
    from reefchem.tank.plan import Plan
    from reefchem.uncertainty import PlanUncertainty, YearsAhead

__all__ = ["Year", "look_back", "year_page", "year_text"]

HERE = Path(__file__).parent
MEMBERS = 100_000
SALINITY = (35.0, 0.2)
"""Of the tank and of the new seawater, with the standard uncertainty of a refractometer that was
set with a standard."""


@dataclass(frozen=True)
class Year:
    """Everything that the year is judged by.

    Attributes
    ----------
    faults
        What the notebook was refused for, row by row.
    ahead
        Ten years of the tank with the doses of today.
    forgotten
        Uptake with and without the row on the empty bottle.
    """

    truth: Truth
    faults: tuple[str, ...]
    verdicts: tuple[Verdict, ...]
    windows: tuple[Window, ...]
    forgotten: tuple[float, float]
    sure: PlanUncertainty
    ahead: YearsAhead


def look_back(plan: Plan, progress: Callable[[int, int], None]) -> Year:
    """Return the year, judged by its truth.

    Parameters
    ----------
    plan
        Of the log that was put right.
    progress
        Called with steps done and steps of all, while it takes a second or more.
    """
    truth = simulate.simulated()
    sure = judge.sure_of(plan, lambda done, of: progress(done, 2 * of))
    ahead = plan_ahead(
        sure,
        members=MEMBERS,
        progress=lambda done, of: progress(of + done, 2 * of),
        salinity=SALINITY,
        fresh_salinity=SALINITY,
    )
    return Year(
        truth=truth,
        faults=_faults(plan),
        verdicts=judge.verdicts(plan, truth, sure),
        windows=judge.windows(plan, truth),
        forgotten=judge.forgotten(plan),
        sure=sure,
        ahead=ahead,
    )


def year_text(year: Year) -> str:
    """Return the year for a terminal."""
    lines = ["THE YEAR, JUDGED BY ITS TRUTH", ""]
    lines += [
        "Only the simulation knows the truth. The interval should hold it 19 times in 20.",
        "",
    ]
    for one in year.verdicts:
        mark = "holds" if one.holds else "MISSES"
        lines.append(f"  {one.what}: {_estimate(one)}; true {_digits(one.truth)}: {mark}")
    held = sum(window.low <= window.truth <= window.high for window in year.windows)
    lines += [
        f"  uptake after each six weeks: {held} of {len(year.windows)} intervals hold the mean",
        "",
        *(f"{textwrap.fill(sentence, 100)}\n" for sentence in _sentences(year)),
    ]
    return "\n".join(lines).rstrip() + "\n"


def year_page(year: Year) -> str:
    """Return the year as an HTML page that needs nothing else."""
    style = (Path(report.__file__).parent / "templates" / "plan.css").read_text(encoding="utf-8")
    rows = "".join(
        f'<tr><th scope="row">{html.escape(one.what)}</th><td>{_digits(one.truth)} {one.unit}</td>'
        f"<td>{_digits(one.estimate)} ({_digits(one.low)} to {_digits(one.high)})</td>"
        f"<td>{'inside' if one.holds else 'OUTSIDE'}</td></tr>"
        for one in year.verdicts
    )
    pictures = "".join(
        f'<section><h2>{title}</h2><div class="plot">{_svg(figure, words)}</div>'
        f'<p class="from">{words}</p></section>'
        for title, figure, words in _pictures(year)
    )
    faults = "".join(f"<li><p>{html.escape(fault)}</p></li>" for fault in year.faults)
    said = "".join(f"<li><p>{html.escape(text)}</p></li>" for text in _sentences(year))
    return f"""<!DOCTYPE html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>The lamp room tank: a year, judged by its truth</title>
<style>
{style}
.plot {{ background: #fff; border-radius: 8px; padding: 0.5rem; }}
.plot svg {{ width: 100%; height: auto; }}
.verdicts {{ overflow-x: auto; }}
.verdicts thead {{ position: static; width: auto; height: auto; clip-path: none; }}
.verdicts tbody tr {{ display: table-row; }}
.verdicts tbody th[scope="row"], .verdicts tbody td:nth-child(2) {{ white-space: normal; }}
.verdicts thead th {{ overflow-wrap: normal; }}
.verdicts tbody th, .verdicts tbody td {{ display: table-cell; overflow-wrap: normal; }}
.verdicts tbody th, .verdicts tbody td {{ padding: 0.3rem 0.7rem 0.3rem 0; }}
.verdicts tbody th, .verdicts tbody td {{ border-top: 1px solid var(--line); }}
</style>
</head>
<body>
<header>
<p class="kind">A year, judged by its truth</p>
<h1>The lamp room tank</h1>
<p class="note">Invented. A simulation made the log, so that for once the truth is known.</p>
</header>
<main>
<section><h2>What was found, and what was true</h2>
<div class="verdicts" tabindex="0" role="region" aria-label="Estimates beside the truth"><table>
<thead><tr><th scope="col">number</th><th scope="col">true</th>
<th scope="col">found (interval)</th><th scope="col">truth</th></tr></thead>
<tbody>{rows}</tbody></table></div></section>
<section><h2>What the year teaches</h2><ul>{said}</ul></section>
<section><h2>What the log refused</h2>
<p>The notebook as it was written has these faults. Each was put right before anything was worked
out; nothing was dropped.</p><ul>{faults}</ul></section>
{pictures}
</main>
</body>
</html>
"""


def _faults(plan: Plan) -> tuple[str, ...]:
    stocks = {stock.name for stock in plan.description.stocks}
    zone = plan.description.texts["tank.time_zone"]
    try:
        read_log(HERE / "notebook.csv", time_zone=zone, stocks=stocks)
    except LogError as error:
        return tuple(map(str, error.faults))
    return ()


def _estimate(one: Verdict) -> str:
    estimate = f"{_digits(one.estimate)} {one.unit}".rstrip()
    return f"{estimate} ({_digits(one.low)} to {_digits(one.high)})"


def _digits(value: float) -> str:
    """Return a number with three digits, zeros at its end too."""
    return f"{value:#.3g}".rstrip(".") if value else "0"


def _sentences(year: Year) -> tuple[str, ...]:
    """Return what the year teaches, in words."""
    first, ahead = year.sure.first, year.ahead
    low, high = ahead.low["alkalinity"][-1], ahead.high["alkalinity"][-1]
    to_degrees = 1 / simulate.MEQ_PER_DKH
    with_row, without = year.forgotten
    return (
        (
            f"To know the uptake of each litre better, measure first: {_plain(first('uptake'))}. "
            f"To know the dose better: {_plain(first('dose'))}. The dose in millilitres does not "
            "lean on the volume."
        ),
        (
            f"The empty bottle is in the log. Without its row the same six weeks would show "
            f"{without:.3f} dKH a day instead of {with_row:.3f}: what is not in the log looks "
            "like corals that eat."
        ),
        (
            f"Ten years of today's doses, in {ahead.members} tanks that the measurements allow: "
            f"alkalinity {low * to_degrees:.1f} to {high * to_degrees:.1f} dKH, magnesium "
            f"{ahead.low['magnesium'][-1]:.0f} to {ahead.high['magnesium'][-1]:.0f} mg/L, "
            "19 times in 20, if the corals took no more than today."
        ),
    )


def _plain(name: str) -> str:
    known = {
        "tank.volume": "the volume of the water",
        "stock.soda": "the strength of the soda",
        "water_change.alkalinity": "the alkalinity of the new seawater",
        "readings.alkalinity": "the alkalinity, more often",
    }
    return known[name]


WORDS = {
    "alkalinity": """\
Alkalinity between 6 and 8 dKH over a year, with readings close to it. Two are far off: one was
written in another unit, one made in a hurry. A dip where the bottle of soda was empty.""",
    "salt": """\
Salinity was 33.4 while the refractometer read 35, until it was held into a standard on day 202;
magnesium and calcium stand a twentieth lower until then. A peak where the top-off stood still.""",
    "nitrate": """\
Nitrate rises to 15 mg/L, falls to zero under nine hours of light, and comes to between 2 and
3 mg/L when the light is cut to six hours on day 238.""",
    "uptake": """\
The true uptake grows from 0.2 to 0.64 dKH a day; what plans would have found after each six weeks
lies on it.""",
}
"""What each picture shows, for those who do not see it."""


def _pictures(year: Year) -> tuple[tuple[str, Figure, str], ...]:
    truth = year.truth
    return (
        ("Alkalinity", plots.alkalinity(truth), WORDS["alkalinity"]),
        ("Salinity, and what a wrong refractometer did", plots.salt(truth), WORDS["salt"]),
        ("Nitrate and the light of the algae", plots.nitrate(truth), WORDS["nitrate"]),
        ("Uptake", plots.uptake(truth, year.windows), WORDS["uptake"]),
    )


def _svg(figure: Figure, words: str) -> str:
    import matplotlib as mpl  # noqa: PLC0415 - the extra `plan`

    style: Any = {"svg.fonttype": "none", "svg.hashsalt": "reefchem", "font.size": 10}
    out = io.StringIO()
    with mpl.rc_context(style):
        figure.savefig(out, format="svg", metadata={"Date": None})
    text = out.getvalue()
    return text[text.index("<svg") :].replace(
        "<svg ", f'<svg role="img" aria-label="{html.escape(words)}" ', 1
    )
