"""``{benchmarks}``: the table of speeds that ``tests/benchmarks/run.py --write`` has written."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sphinx.util.docutils import SphinxDirective

from reefchem.formula.digits import significant
from reefchem.formula.plain import plain_number
from reefchem_pages.computed_table import parsed

if TYPE_CHECKING:
    from collections.abc import Mapping

    from docutils import nodes
    from sphinx.application import Sphinx

__all__ = ["setup", "table"]

RESULTS = Path(__file__).parents[2] / "shared" / "benchmarks" / "latest.json"
SCALES = ((1.0, "s"), (1e-3, "ms"), (1e-6, "µs"))


def time_text(seconds: float) -> str:
    """Return a time with the unit that suits it.

    Examples
    --------
    >>> time_text(0.0000123)
    '12.3 µs'
    """
    scale, unit = next((s for s in SCALES if seconds >= s[0]), SCALES[-1])
    return f"{_digits(seconds / scale, 3)} {unit}"


def table(results: Mapping[str, Any]) -> str:
    """Return what was measured, and on what, as MyST."""
    versions = ", ".join(f"{name} {version}" for name, version in results["versions"].items())
    python = results["python"]
    machine = f"{results['cores']} cores of {results['processor']} under {results['system']}"
    lines = [
        f"Measured on {results['day']} on {machine}, with Python {python}, {versions}, by",
        "",
        f"```text\n{results['command']}\n```",
        "",
        "| this package / that | here | there | ratio | is to be at most |",
        "| --- | --- | --- | --- | --- |",
    ]
    for case in results["cases"]:
        memory = case["unit"] == "kB"
        here, there = (
            f"{_digits(case[side], 3)} kB" if memory else time_text(case[side])
            for side in ("here", "there")
        )
        missed = ", missed" if case["ratio"] > case["at_most"] else ""
        name = case["case"].removesuffix(" (kB)")
        ratio = _digits(case["ratio"], 2)
        lines.append(f"| {name} | {here} | {there} | {ratio}{missed} | {case['at_most']:g} |")
    return "\n".join(lines)


def _digits(number: float, count: int) -> str:
    return plain_number(significant(number, count))


class Benchmarks(SphinxDirective):
    """The machine and the table."""

    def run(self) -> list[nodes.Node]:
        """Return them."""
        self.env.note_dependency(str(RESULTS))
        text = table(json.loads(RESULTS.read_text(encoding="utf-8")))
        return parsed(self, text.split("\n"), str(RESULTS))


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directive."""
    app.add_directive("benchmarks", Benchmarks)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
