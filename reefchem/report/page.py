"""A plan as one HTML page that needs nothing else: no script, no font, no network."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reefchem.core.sources import citation
from reefchem.formula import work
from reefchem.formula.digits import exact_text, significant
from reefchem.formula.units import plain_unit
from reefchem.report.data import relation_link
from reefchem.report.plots import alkalinity_plot, balance_plot
from reefchem.tank.planning.text import shown

if TYPE_CHECKING:
    from reefchem.tank.plan import Plan
    from reefchem.tank.planning.figures import Figure
    from reefchem.tank.planning.text import Line

__all__ = ["plan_page"]

TEMPLATES = Path(__file__).parent / "templates"


def plan_page(plan: Plan, *, book: str, how_to_build: str = "") -> str:
    """Return a plan as an HTML page.

    Parameters
    ----------
    plan
        The plan.
    book
        Where the book is, for the links of the numbers; relative to the page.
    how_to_build
        A line that says how the book is made, when the links lead to a local one.
    """
    from jinja2 import Environment, FileSystemLoader, StrictUndefined  # noqa: PLC0415 - the extra `plan`

    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    told: set[str] = set()
    sections = [
        {
            "id": section.id,
            "title": section.title,
            "lines": [_line(line, plan, book, told) for line in section.lines],
        }
        for section in plan.sections
        if section.lines
    ]
    on_the_way = [_figure(f, book) for f in plan.figures.values() if f.id not in told]
    plots = {"sure": [alkalinity_plot(plan)], "behind": [balance_plot(plan)]}
    return environment.get_template("plan.html").render(
        texts=plan.description.texts,
        sections=sections,
        cautions=plan.cautions,
        plots=plots,
        on_the_way=on_the_way,
        book=book.rstrip("/"),
        how_to_build=how_to_build,
        last=plan.estimate.readings[-1].entry.when,
        files=(plan.description.path.name, plan.log.file),
    )


def _line(line: Line, plan: Plan, book: str, told: set[str]) -> dict[str, Any]:
    pieces = [
        piece
        if isinstance(piece, str)
        else {
            "text": shown(piece),
            "label": piece.label,
            "href": relation_link(book, piece.relation),
        }
        for piece in line.pieces
    ]
    names = dict.fromkeys(figure.id for figure in line.figures)
    fresh = [plan.figures[name] for name in names if name not in told]
    told.update(figure.id for figure in fresh)
    return {"pieces": pieces, "figures": [_figure(figure, book) for figure in fresh]}


def _figure(figure: Figure, book: str) -> dict[str, Any]:
    numbers: dict[str, Any] = {name: given.value for name, given in figure.inputs.items()}
    worked = work(figure.record.function, digits=max(4, figure.digits), **numbers)
    arguments = figure.record.arguments
    return {
        "id": figure.id,
        "label": figure.label,
        "text": shown(figure),
        "relation": figure.relation,
        "href": relation_link(book, figure.relation),
        "math": _mathml(worked.latex()),
        "source": f"{citation(figure.record.source)}, {figure.record.at}",
        "inputs": [
            {
                "name": figure.record.title(name),
                "symbol": _mathml(arguments[name].symbol, display=False),
                "value": exact_text(given.value)
                if len(exact_text(given.value)) < 9
                else significant(given.value, 6),
                "unit": plain_unit(arguments[name].unit),
                "origin": given.origin,
                "figure": given.figure,
            }
            for name, given in figure.inputs.items()
        ],
        "converted": _converted(figure),
        "converted_href": relation_link(book, figure.shown.relation)
        if figure.shown.relation
        else "",
    }


def _converted(figure: Figure) -> str:
    """Say how the result becomes what the keeper reads, when the units differ."""
    if not figure.shown.relation:
        return ""
    return (
        f"{significant(figure.value, 6)} {plain_unit(figure.unit)} is "
        f"{significant(figure.shown.value, 5)} {figure.shown.unit}"
    )


def _mathml(latex: str, *, display: bool = True) -> Any:
    from markupsafe import Markup  # noqa: PLC0415 - the extra `plan`
    from math_core import LatexToMathML  # noqa: PLC0415 - the extra `plan`

    shortened = re.sub(r"(?<![\d.])(\d+\.\d{6})\d{3,}(?![\d])", r"\1\\text{…}", latex)
    made = LatexToMathML().convert_with_local_state(shortened, displaystyle=display)
    return Markup(made)  # noqa: S704 - made from our own formulas and numbers
