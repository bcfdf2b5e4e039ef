"""``{how-to-cite}``: what to write in a list of sources, from the version that made the pages."""

from __future__ import annotations

from importlib.metadata import metadata
from textwrap import fill
from typing import TYPE_CHECKING, Any

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

if TYPE_CHECKING:
    from sphinx.application import Sphinx

HANGING: dict[str, Any] = {"subsequent_indent": "    ", "break_on_hyphens": False}

__all__ = ["bibtex", "in_words", "setup"]


def in_words(author: str, year: str) -> str:
    """Return the project as a line in a list of sources."""
    about = metadata("reefchem")
    return f"{author} ({year}). {about['Name']}: {about['Summary']} Version {about['Version']}."


def bibtex(author: str, year: str) -> str:
    """Return the project as an entry for BibTeX."""
    about = metadata("reefchem")
    fields = {
        "author": f"{{{author}}}",
        "title": f"{{{about['Name']}}}: {about['Summary'].rstrip('.')}",
        "version": about["Version"],
        "year": year,
        "note": "Python package and book",
    }
    lines = (fill(f"  {name} = {{{text}}},", 78, **HANGING) for name, text in fields.items())
    return "\n".join(("@software{reefchem,", *lines, "}"))


class HowToCite(SphinxDirective):
    """A sentence and a block of BibTeX."""

    def run(self) -> list[nodes.Node]:
        """Return both."""
        author = self.config.author
        year = self.config.copyright.partition(",")[0]
        block = nodes.literal_block(text := bibtex(author, year), text)
        block["language"] = "bibtex"
        sentence = in_words(author, year)
        return [nodes.block_quote("", nodes.paragraph("", sentence)), block]


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directive."""
    app.add_directive("how-to-cite", HowToCite)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
