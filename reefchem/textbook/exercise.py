"""The directive ``exercise``: a question with drawn numbers, an answer to type, the solution."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from reefchem.core.record import describe
from reefchem.formula.digits import prose_number, significant
from reefchem.formula.units import plain_unit
from reefchem.textbook.live import unit_choices
from reefchem.textbook.steps import step_views
from reefchem.textbook.templating import TextbookDirective
from reefchem.textbook.worked_example import code_behind, input_views, steps_data

if TYPE_CHECKING:
    from collections.abc import Sequence

    from docutils import nodes

    from reefchem.examples.exercise import Exercise

__all__ = ["ExerciseDirective"]

LEVELS = {1: "warm-up", 2: "practice", 3: "harder"}


class ExerciseDirective(TextbookDirective):
    """Show an exercise of the exercises folder; the argument is its id."""

    required_arguments = 1

    def run(self) -> Sequence[nodes.Node]:
        """Return the exercise as part of the page."""
        exercise = self.found("exercise", self.catalogue.exercises)
        name = exercise.id
        steps, outcomes = exercise.drawn(), exercise.solved()
        records = [outcome.record for outcome in outcomes]
        self.depend_on(self.catalogue.exercises_folder / f"{name}.toml", *code_behind(records))
        answer_units = unit_choices(exercise.unit, self.config.textbook_units, records[-1].unit)
        data = {
            "id": f"exercise-{name}",
            "digits": 5,
            **steps_data(steps, outcomes, ()),
            "question": exercise.question,
            "seed": exercise.seed,
            "within": exercise.within,
            "draws": _draws(exercise),
            "answerUnits": answer_units,
            "answer": {
                "unit": plain_unit(exercise.unit),
                "factor": answer_units[0]["factor"],
                "offset": answer_units[0]["offset"],
            },
        }
        return self.html(
            "exercise.html",
            exercise=exercise,
            level=LEVELS[exercise.level],
            asked=exercise.asked(),
            inputs=input_views(steps, outcomes),
            steps=step_views(outcomes, steps, 5),
            answer=prose_number(significant(exercise.answer(), 5)),
            unit=exercise.unit,
            data=json.dumps(data, ensure_ascii=False).replace("</", r"<\/"),
        )


def _draws(exercise: Exercise) -> list[dict[str, Any]]:
    for step in exercise.steps:
        describe(step.relation)
    return [
        {
            "key": f"{step}.{argument}",
            "argument": argument,
            "low": str(draw.low),
            "step": str(draw.step),
            "count": draw.count,
            "places": max(
                0, -int(draw.step.as_tuple().exponent), -int(draw.low.as_tuple().exponent)
            ),
        }
        for (step, argument), draw in exercise.draws.items()
    ]
