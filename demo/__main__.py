"""``python -m demo``: the plan of the invented tank, and its year judged by the truth.

Both are printed, and written as pages: the plan to ``demo/build/plan.html`` and the year beside it.
With a path as its only argument the plan is written there, and the year as ``year.html`` in the
same folder. The tank and its log are invented: ``demo/tank.toml``, and ``demo/log.csv`` which
``python -m demo.simulate`` makes. ``reefchem plan`` does the same for your own files, without a
truth to compare with.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

import click

from demo.year import look_back, year_page, year_text
from reefchem import report
from reefchem.tank.plan import plan_from_file

HERE = Path(__file__).parent
BOOK = HERE.parent / "book" / "_build" / "html"
BUILD = "sphinx-build -b html book book/_build/html"
HOW_TO_BUILD = f"It is built from the project's folder by: {BUILD}"


def main(page: Path = HERE / "build" / "plan.html") -> None:
    """Print the plan and the year, and write both as pages."""
    plan = plan_from_file(HERE / "tank.toml")
    page.parent.mkdir(parents=True, exist_ok=True)
    book = os.path.relpath(BOOK, page.parent.resolve()).replace(os.sep, "/")
    page.write_text(report.plan_page(plan, book=book, how_to_build=HOW_TO_BUILD), encoding="utf-8")
    sys.stdout.write(report.plan_text(plan))
    sys.stdout.flush()
    with click.progressbar(length=100, label="Judging the year", file=sys.stderr) as bar:
        year = look_back(plan, lambda done, of: bar.update(100 * done // of - bar.pos))
    sys.stdout.write(f"\n{year_text(year)}")
    beside = page.with_name("year.html")
    beside.write_text(year_page(year), encoding="utf-8")
    sys.stdout.write(f"\nThe plan as a page, with plots and every working: {page}\n")
    sys.stdout.write(f"The year as a page, with its truth: {beside}\n")
    sys.stdout.write(f"The numbers of the plan link to the book. {HOW_TO_BUILD}\n")


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:2]))
