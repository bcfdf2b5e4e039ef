"""A plan as text for a terminal."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Any

from reefchem.formula import work
from reefchem.tank.planning.reasons import date_text
from reefchem.tank.planning.text import shown

if TYPE_CHECKING:
    from reefchem.tank.plan import Plan
    from reefchem.tank.planning.figures import Figure

__all__ = ["plan_text"]


def plan_text(plan: Plan, *, width: int = 80, working: bool = False) -> str:
    """Return a plan as text.

    Parameters
    ----------
    plan
        The plan.
    width
        Of a line, in characters.
    working
        Whether each number is worked out below, formula and inputs included.
    """
    texts = plan.description.texts
    blocks = [texts["tank.name"]]
    if texts["tank.note"]:
        blocks[0] += "\n" + textwrap.fill(texts["tank.note"], width)
    last = plan.estimate.readings[-1].entry.when
    blocks[0] += f"\nAs of the last reading of alkalinity, {date_text(last)}."
    for section in plan.sections:
        if not section.lines:
            continue
        numbered = section.id == "today"
        lines = [
            _item(line.text(), width, f"{index}. " if numbered else "- ")
            for index, line in enumerate(section.lines, 1)
        ]
        if numbered:
            lines.append("Before you open a bottle, read the cautions below.")
        blocks.append("\n".join([section.title.upper(), *lines]))
    cautions = [_item(caution, width, "! ") for caution in plan.cautions]
    blocks.append("\n".join(["CAUTIONS", *cautions]))
    blocks.append(_numbers(plan, working=working))
    return "\n\n".join(blocks) + "\n"


def _item(text: str, width: int, mark: str) -> str:
    return textwrap.fill(
        text, width, initial_indent=mark, subsequent_indent=" " * len(mark)
    ).replace("\u00a0", " ")


def _numbers(plan: Plan, *, working: bool) -> str:
    figures = list(plan.figures.values())
    if working:
        return "\n\n".join(["EVERY NUMBER, WORKED OUT", *map(_worked_out, figures)])
    label = max(len(figure.label) for figure in figures)
    lines = [
        f"{figure.label:<{label}}  {shown(figure).replace(chr(160), ' '):<22}  {figure.relation}"
        for figure in figures
    ]
    return "\n".join(["WHERE EACH NUMBER COMES FROM (number, relation)", *lines])


def _worked_out(figure: Figure) -> str:
    inputs: dict[str, Any] = {name: given.value for name, given in figure.inputs.items()}
    lines = [f"{figure.label}: {shown(figure)}".replace("\u00a0", " ")]
    lines += textwrap.indent(work(figure.record.function, **inputs).text(), "  ").splitlines()
    lines += [
        f"  {name.replace('_', ' ')}: {given.origin}" for name, given in figure.inputs.items()
    ]
    return "\n".join(lines)
