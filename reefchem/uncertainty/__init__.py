"""How sure a result is: uncertainty carried through any relation."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.uncertainty.gradient import *
    from reefchem.uncertainty.nitrate_choices import *
    from reefchem.uncertainty.plan import *
    from reefchem.uncertainty.propagation import *
    from reefchem.uncertainty.years import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "gradient": ("gradient",),
            "nitrate_choices": ("Choice", "ChoiceOutcome", "nitrate_choices"),
            "plan": ("PlanUncertainty", "plan_ahead", "plan_uncertainty"),
            "propagation": ("Propagated", "simulate", "uncertainty"),
            "years": ("YearsAhead", "years_ahead"),
        },
    )
