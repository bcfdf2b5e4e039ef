"""Figures of the chapter on the invented tank; the truth is known here, and only here."""

from __future__ import annotations

import sys
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from reefchem.tank.plan import plan_from_file

ROOT = Path(__file__).resolve().parents[2]
if str(ROOT) not in sys.path:
    sys.path.append(str(ROOT))  # the demo is no part of the package

from demo import judge, plots  # noqa: E402 - found by the line above
from demo.simulate import simulated  # noqa: E402

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from demo.simulate import Truth

__all__ = ["a_year", "the_nitrate", "the_salt", "the_uptake"]


@cache
def truth() -> Truth:
    """Return what only the simulation knows."""
    return simulated()


def a_year() -> Figure:
    """Return the alkalinity of the year, with what was read."""
    return plots.alkalinity(truth())


def the_salt() -> Figure:
    """Return salinity, magnesium and calcium: what was read, and what was true."""
    return plots.salt(truth())


def the_nitrate() -> Figure:
    """Return nitrate, and the hours of light that it followed."""
    return plots.nitrate(truth())


def the_uptake() -> Figure:
    """Return the uptake, and what plans would have found after each six weeks."""
    return plots.uptake(truth(), judge.windows(plan_from_file(ROOT / "demo/tank.toml"), truth()))
