"""Roles for prose: a computed number, a link to a relation, a chemical formula."""

from __future__ import annotations

import ast
import re
from typing import TYPE_CHECKING, Any

from docutils import nodes
from sphinx.util.docutils import SphinxRole

from reefchem.core.quantity import quantity
from reefchem.formula.digits import prose_number, significant
from reefchem.formula.units import plain_unit
from reefchem.textbook.entries import entry_address
from reefchem.textbook.worked_example import code_behind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.record import Record

__all__ = ["ChemistryRole", "RelationRole", "ValueRole", "computed_text"]

_CALL = re.compile(r"^(?P<call>\w+\(.*\))(?:\s+in\s+(?P<unit>\S+))?(?:\s+to\s+(?P<digits>\d+))?$")


def computed_text(text: str, records: Mapping[str, Record]) -> tuple[str, Record]:
    """Return the number that ``relation(name=1.5, ...) in unit to digits`` asks for.

    Its record comes with it. Only numbers may be put in; nothing else is evaluated.

    Raises
    ------
    ValueError
        When the text cannot be read, or names no relation.
    """
    match = _CALL.match(" ".join(text.split()))
    if match is None:
        msg = f"{text!r} is not of the form relation(name=number, ...) in unit to digits"
        raise ValueError(msg)
    try:
        call = ast.parse(match["call"], mode="eval").body
        if not isinstance(call, ast.Call) or call.args or not isinstance(call.func, ast.Name):
            msg = "name every argument"
            raise ValueError(msg)
        inputs = {str(word.arg): float(ast.literal_eval(word.value)) for word in call.keywords}
        record = records[call.func.id]
    except (SyntaxError, KeyError, TypeError) as error:
        msg = f"{text!r} cannot be computed: {error}"
        raise ValueError(msg) from error
    value = float(record.function(**inputs))
    if match["unit"] and match["unit"] != record.unit:
        value = float(quantity(value, record.unit).to(match["unit"]).magnitude)
    return significant(value, int(match["digits"] or 4)), record


class ValueRole(SphinxRole):
    """A number that a relation gives, with its unit, computed when the book is built."""

    def run(self) -> tuple[list[nodes.Node], list[nodes.system_message]]:
        """Return the number and its unit as text."""
        catalogue = self.env.app.textbook_catalogue  # type: ignore[attr-defined]  # set by setup
        try:
            number, record = computed_text(self.text, catalogue.records)
        except (ValueError, TypeError) as error:
            message = self.inliner.reporter.error(str(error), line=self.lineno)
            return [self.inliner.problematic(self.rawtext, self.rawtext, message)], [message]
        for path in code_behind([record]):
            self.env.note_dependency(str(path))
        asked = _CALL.match(" ".join(self.text.split()))
        unit = plain_unit((asked and asked["unit"]) or record.unit)
        shown = prose_number(number) + (f"\N{NO-BREAK SPACE}{unit}" if unit else "")
        return [nodes.inline("", shown, classes=["computed"])], []


class RelationRole(SphinxRole):
    """A link to a relation's entry on the page that lists it."""

    def run(self) -> tuple[list[nodes.Node], list[nodes.system_message]]:
        """Return the link."""
        app: Any = self.env.app
        if self.text not in app.textbook_catalogue.records:
            message = self.inliner.reporter.error(
                f"no relation is called {self.text!r}", line=self.lineno
            )
            return [self.inliner.problematic(self.rawtext, self.rawtext, message)], [message]
        record = app.textbook_catalogue.records[self.text]
        address = entry_address(app, self.env.docname, record)
        link = nodes.reference("", "", refuri=address, internal=True)
        link += nodes.literal("", self.text)
        return [link], []


_PIECE = re.compile(r"\^\{?(\d*[+-]|\d+)\}?|(?<=[A-Za-z)\]])(\d+)|([+-])$|->|([^\d^+-]+|\d+|.)")


class ChemistryRole(SphinxRole):
    """A chemical formula with its indices and charge set as chemists do."""

    def run(self) -> tuple[list[nodes.Node], list[nodes.system_message]]:
        """Return the formula as text with raised and lowered parts."""
        made = nodes.inline(classes=["chemistry"])
        for match in _PIECE.finditer(self.text):
            charge, count, last_sign, plain = match[1], match[2], match[3], match[4]
            if match[0] == "->":
                made += nodes.Text("→")
            elif count:
                made += nodes.subscript("", count)
            elif charge or last_sign:
                made += nodes.superscript("", (charge or last_sign).replace("-", "−"))
            else:
                made += nodes.Text(plain)
        return [made], []
