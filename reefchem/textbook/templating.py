"""Templates of the engine, and the pages they may link to."""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from docutils import nodes
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup, escape
from sphinx.util.docutils import SphinxDirective

from reefchem.formula.digits import concise, prose_number
from reefchem.formula.units import plain_unit
from reefchem.textbook.entries import entry_address, relative

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from reefchem.textbook.catalogue import Catalogue

T = TypeVar("T")

__all__ = ["ENGINE", "TextbookDirective", "rendered"]


ENGINE = tuple(
    path
    for kind in ("*.py", "templates/*.html")
    for path in sorted(Path(__file__).parent.glob(kind))
)
"""What a page is made with, beside what it is made from."""


@cache
def _environment() -> Environment:
    made = Environment(
        loader=PackageLoader("reefchem.textbook"),
        autoescape=select_autoescape(default=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    filters: dict[str, Any] = {
        "unit": plain_unit,
        "markup": Markup,
        "sentence": _sentence,
        "bound": _bound,
        "prose": prose_number,
        "tolerance": _tolerance,
        "with_unit": _with_unit,
    }
    made.filters.update(filters)
    return made


def _tolerance(value: float) -> str:
    return concise(value, 3)


def _with_unit(number: str, unit: str) -> str:
    return f"{prose_number(number)} {plain_unit(unit)}".strip()


def _bound(value: float) -> str:
    if value in {float("inf"), -float("inf")}:
        return "any"
    return prose_number(concise(value, 10))


_MINUS = re.compile(r"(?<![\w-])-(?=\d)|(?<=[\d)] )-(?= [\d(])")


def _sentence(text: str) -> Markup:
    """Return a sentence with what stands in backticks set as code, and true minus signs."""
    pieces = str(escape(text)).split("`")
    pieces[::2] = [_MINUS.sub("−", piece) for piece in pieces[::2]]
    pieces[1::2] = [f"<code>{piece}</code>" for piece in pieces[1::2]]
    return Markup("".join(pieces))  # noqa: S704 - escaped


def rendered(template: str, **values: Any) -> str:
    """Return a template of the engine filled with values."""
    return _environment().get_template(template).render(**values)


class TextbookDirective(SphinxDirective):
    """A directive that fills a template from the catalogue."""

    has_content = False

    @property
    def catalogue(self) -> Catalogue:
        """Everything the book is made from."""
        made: Catalogue = self.env.app.textbook_catalogue  # type: ignore[attr-defined]  # set by setup
        return made

    def found(self, kind: str, table: Mapping[str, T]) -> T:
        """Return what the argument of the directive names.

        Raises
        ------
        DirectiveError
            When there is no such entry; the message says what a similar name would be.
        """
        name = self.arguments[0]
        if name not in table:
            raise self.unknown(kind, name, table)
        return table[name]

    def unknown(self, kind: str, name: str, table: Iterable[str]) -> Exception:
        """Return the error for a name that is not known."""
        near = ", ".join(get_close_matches(name, list(table))) or "none with a similar name"
        error: Exception = self.error(f"no {kind} is called {name!r}; there is {near}")
        return error

    def links(self) -> dict[str, str]:
        """Return the addresses that templates use."""
        config, page = self.config, self.env.docname
        return {
            "sources": relative(self.env.app, page, config.textbook_sources_page),
        }

    def entry(self, relation: str) -> str:
        """Return the address of the entry of a relation."""
        record = self.catalogue.records[relation]
        return entry_address(self.env.app, self.env.docname, record)

    def html(self, template: str, **values: Any) -> list[nodes.Node]:
        """Return a filled template as a node of the page."""
        self.depend_on(*ENGINE)
        text = rendered(
            template,
            links=self.links(),
            entry=self.entry,
            cited=self.catalogue.citation,
            **values,
        )
        return [nodes.raw("", text, format="html")]

    def depend_on(self, *paths: Any) -> None:
        """Read the page again when one of these files changes."""
        for path in paths:
            self.env.note_dependency(str(path))
