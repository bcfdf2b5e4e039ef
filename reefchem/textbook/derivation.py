"""The directive ``derivation``: the stages that lead to a relation, to unfold."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from sphinx.util import import_object

from reefchem.textbook.templating import TextbookDirective

if TYPE_CHECKING:
    from collections.abc import Sequence

    from docutils import nodes

__all__ = ["DerivationDirective"]


class DerivationDirective(TextbookDirective):
    """Show the derivations of a relation; the argument is the relation's name."""

    required_arguments = 1

    def run(self) -> Sequence[nodes.Node]:
        """Return each derivation as a part of the page that unfolds."""
        name = self.found("relation", self.catalogue.records).name
        found = import_object(self.config.textbook_derivations.replace(":", "."))(name)
        if not found:
            msg = f"{name} has no derivation"
            raise self.error(msg)
        # SymPy takes long to load, and a page that is up to date shows no derivation again.
        from reefchem.textbook.closed_form import formula, formula_of_result  # noqa: PLC0415

        made: list[nodes.Node] = []
        for number, derivation in enumerate(found, 1):
            module = sys.modules[derivation.body.__module__]
            self.depend_on(str(module.__file__))
            stages = [
                {"text": stage.text, "formulas": [formula(e) for e in stage.expressions]}
                for stage in derivation.stages
            ]
            made += self.html(
                "derivation.html",
                anchor=f"derivation-{name}" + (f"-{number}" if number > 1 else ""),
                name=name,
                title=derivation.title,
                body=derivation.name,
                stages=stages,
                result=formula_of_result(derivation.result),
                residual=derivation.is_residual,
            )
        return made
