"""A word that leads to the glossary shows its entry when a pointer rests on it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from docutils import nodes
from sphinx.addnodes import pending_xref

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sphinx.application import Sphinx
    from sphinx.environment import BuildEnvironment

__all__ = ["entries", "setup"]

GLOSSARY = "glossary"


def entries(glossary: nodes.document) -> Iterator[tuple[str, str]]:
    """Yield the id of each term with the words of its entry, without the links to chapters."""
    for item in glossary.findall(nodes.definition_list_item):
        (definition,) = item.findall(nodes.definition)
        words = definition.deepcopy()
        for link in [*words.findall(pending_xref), *words.findall(nodes.reference)]:
            link.parent.remove(link)
        said = " ".join(words.astext().replace(" ()", "").split())
        for term in item.findall(nodes.term):
            for name in term["ids"]:
                yield name, said


def note_terms(app: Sphinx, env: BuildEnvironment) -> None:
    """Read the glossary once, when all pages have been read."""
    book: Any = app
    book.terms_of_glossary = dict(entries(env.get_doctree(GLOSSARY)))


def title_terms(app: Sphinx, doctree: nodes.document, docname: str) -> None:
    """Give every link to the glossary in a page the words of its entry."""
    if docname == GLOSSARY:
        return
    book: Any = app
    known: dict[str, str] = book.terms_of_glossary
    for link in doctree.findall(nodes.reference):
        said = known.get(link.get("refuri", "").partition("#")[2])
        if said:
            link["reftitle"] = said


def setup(app: Sphinx) -> dict[str, Any]:
    """Title the links when a page is complete."""
    app.connect("env-updated", note_terms)
    app.connect("doctree-resolved", title_terms)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
