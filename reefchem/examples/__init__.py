"""Worked examples and published values: read, run, judged."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.examples.exercise import *
    from reefchem.examples.model import *
    from reefchem.examples.published import *
    from reefchem.examples.runner import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "exercise": ("Draw", "Exercise", "read_exercise", "read_exercises"),
            "model": ("Example", "Expected", "Given", "Step", "read_example", "read_examples"),
            "published": ("PublishedValue", "published", "published_values"),
            "runner": ("Outcome", "StepOutcome", "in_unit", "run", "run_steps"),
        },
    )
