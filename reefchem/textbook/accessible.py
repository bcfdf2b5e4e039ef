"""What theme and Sphinx leave undone for readers with a screen reader, put right in each page."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sphinx.application import Sphinx

__all__ = ["mend_pages", "mended"]

MENDS = {
    # A caption in the side bar is a heading, and a heading has a level.
    '<p class="caption" role="heading">': '<p class="caption" role="heading" aria-level="2">',
    # Two landmarks of one kind need names.
    '<aside class="sidebar-drawer">': '<aside class="sidebar-drawer" aria-label="Contents">',
    '<aside class="toc-drawer">': '<aside class="toc-drawer" aria-label="On this page">',
    '<aside class="toc-drawer no-toc">': '<aside class="toc-drawer no-toc" aria-label="Nothing">',
    # The page of the search has a heading only after something was sought.
    '<div id="search-results"></div>': '<h1>Search</h1>\n<div id="search-results"> </div>',
    # Code that is wider than a phone scrolls, also by keyboard.
    "<pre>": '<pre tabindex="0">',
    # Roles of lists and of entries in a bibliography, which are deprecated or do not fit.
    '<div role="list" class="citation-list">': '<div class="citation-list">',
    ' role="doc-biblioentry"': "",
}


_DOUBLE = re.compile(r'href="#document-[^"#]*#')
"""Where all pages are one, a link to a place on a page is a link to the place."""


def mended(page: str) -> str:
    """Return the text of a page with the mends made."""
    for found, better in MENDS.items():
        page = page.replace(found, better)
    return _DOUBLE.sub('href="#', page)


def mend_pages(app: Sphinx, error: Exception | None) -> None:
    """Mend the pages that were written; a page that was mended before stays as it is."""
    if error is not None or app.builder.name not in {"html", "dirhtml", "singlehtml"}:
        return
    for path in Path(app.outdir).rglob("*.html"):
        if "_static" in path.relative_to(app.outdir).parts:
            continue
        text = path.read_text(encoding="utf-8")
        better = mended(text)
        if better != text:
            path.write_text(better, encoding="utf-8")
