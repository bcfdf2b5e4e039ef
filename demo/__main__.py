"""``python -m demo``: the plan of the invented tank, on the terminal and as one page.

With a path as its only argument the page is written there instead of ``demo/build/plan.html``.
The tank and its log are invented: ``demo/tank.toml``, and ``demo/log.csv`` which
``python -m demo.simulate`` makes. ``reefchem plan`` does the same for your own files.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from reefchem import report
from reefchem.tank.plan import plan_from_file

HERE = Path(__file__).parent
BOOK = HERE.parent / "book" / "_build" / "html"
BUILD = "sphinx-build -b html book book/_build/html"
HOW_TO_BUILD = f"It is built from the project's folder by: {BUILD}"


def main(page: Path = HERE / "build" / "plan.html") -> None:
    """Print the plan and write the page."""
    plan = plan_from_file(HERE / "tank.toml")
    page.parent.mkdir(parents=True, exist_ok=True)
    book = os.path.relpath(BOOK, page.parent.resolve()).replace(os.sep, "/")
    page.write_text(report.plan_page(plan, book=book, how_to_build=HOW_TO_BUILD), encoding="utf-8")
    sys.stdout.write(report.plan_text(plan))
    sys.stdout.write(f"\nThe same as a page, with plots and every working: {page}\n")
    sys.stdout.write(f"Its numbers link to the book. {HOW_TO_BUILD}\n")


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:2]))
