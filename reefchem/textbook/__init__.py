"""A Sphinx extension for textbooks that compute: relations, worked examples, exercises.

Nothing in it knows a subject. A book lists ``reefchem.textbook`` among its extensions and says
in its configuration where its records, examples, exercises and published values are:

``textbook_records``
    ``module:function`` that returns the relations by name.
``textbook_derivations``
    ``module:function`` that returns the derivations of a relation.
``textbook_examples``, ``textbook_exercises``, ``textbook_published``
    Folders, from the book's source folder.
``textbook_units``
    Lists of units among which a reader may choose.
``textbook_sources_page``
    The page with the bibliography.
``textbook_require_checks``
    Stop the build when a relation has no check by a number of somebody else.

Directives: ``worked-example``, ``exercise``, ``relation``, ``all-relations``,
``relation-index``, ``derivation``, ``figure-from``, ``comparison``, ``traceability``,
``misprints``, ``symbols``. Roles: ``value``, ``rel``, ``chem``. The words of a book are Sphinx's
own ``glossary`` and ``term``.
"""

from __future__ import annotations

import warnings
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import RangeWarning
from reefchem.textbook.accessible import mend_pages
from reefchem.textbook.catalogue import load
from reefchem.textbook.comparison import Comparison
from reefchem.textbook.derivation import DerivationDirective
from reefchem.textbook.entries import note_entries
from reefchem.textbook.epub import TextbookEpub
from reefchem.textbook.exercise import ExerciseDirective
from reefchem.textbook.figure import FigureFrom
from reefchem.textbook.live import written
from reefchem.textbook.mathml import visit_block, visit_inline
from reefchem.textbook.relation import AllRelations, RelationDirective, RelationIndex
from reefchem.textbook.roles import ChemistryRole, RelationRole, ValueRole
from reefchem.textbook.tables import Misprints, Symbols, Traceability
from reefchem.textbook.worked_example import WorkedExample

if TYPE_CHECKING:
    from sphinx.application import Sphinx

__all__ = ["setup"]

STATIC = Path(__file__).parent / "static"


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the extension with Sphinx."""
    for name, default in {
        "textbook_records": "reefchem.core.record:records",
        "textbook_derivations": "reefchem.derive.derivation:derive",
        "textbook_examples": "examples",
        "textbook_exercises": "exercises",
        "textbook_published": "published",
        "textbook_units": [],
        "textbook_sources_page": "sources",
        "textbook_require_checks": True,
    }.items():
        app.add_config_value(name, default, "env")
    app.add_config_value("textbook_entries", {}, "env")  # made by note_entries
    for name, directive in {
        "worked-example": WorkedExample,
        "exercise": ExerciseDirective,
        "relation": RelationDirective,
        "all-relations": AllRelations,
        "relation-index": RelationIndex,
        "derivation": DerivationDirective,
        "figure-from": FigureFrom,
        "comparison": Comparison,
        "traceability": Traceability,
        "misprints": Misprints,
        "symbols": Symbols,
    }.items():
        app.add_directive(name, directive)
    for name, role in {"value": ValueRole, "rel": RelationRole, "chem": ChemistryRole}.items():
        app.add_role(name, role())
    app.add_html_math_renderer("mathml", (visit_inline, None), (visit_block, None))
    app.add_builder(TextbookEpub, override=True)
    app.connect("config-inited", note_entries)
    app.connect("builder-inited", _prepare)
    app.connect("build-finished", mend_pages)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}


def _prepare(app: Sphinx) -> None:
    """Check everything, then write the script that the pages share."""
    book: Any = app
    with warnings.catch_warnings():  # a printed value may lie outside a source's range
        warnings.simplefilter("ignore", RangeWarning)
        book.textbook_catalogue = load(app)
    if app.builder.format != "html":
        return
    made = Path(app.doctreedir) / "textbook-static"
    made.mkdir(parents=True, exist_ok=True)
    script = written(book.textbook_catalogue.live_records)
    (made / "textbook-relations.js").write_text(script, encoding="utf-8")
    app.config.html_static_path[:0] = [str(STATIC), str(made)]
    app.add_css_file("textbook.css")
    if app.builder.name == "epub":
        return
    app.add_js_file("textbook-relations.js", loading_method="defer")
    app.add_js_file("textbook.js", loading_method="defer")
