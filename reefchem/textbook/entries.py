"""Where the entry of each relation is: on the page that lists its module.

A page lists modules by ``{all-relations} prefix``; without a prefix it lists all. The places are a
value of the configuration, so that every page is read again when an entry moves.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sphinx.application import Sphinx
    from sphinx.config import Config

    from reefchem.core.record import Record

__all__ = ["entry_address", "entry_page", "listed", "note_entries", "pages_of", "relative"]

_LISTING = re.compile(r"^[`:]{3,}\{all-relations\}[ \t]*([\w.]*)[ \t]*$", re.MULTILINE)


def pages_of(source: Path, config: Config) -> list[tuple[str, Path]]:
    """Return name and file of each page of a book that is written in Markdown."""
    found = []
    for path in sorted(source.rglob("*.md")):
        inside = path.relative_to(source)
        page = inside.with_suffix("").as_posix()
        hidden = any(part.startswith(("_", ".")) for part in inside.parts)
        if not hidden and page not in config.exclude_patterns:
            found.append((page, path))
    return found


def note_entries(app: Sphinx, config: Config) -> None:
    """Write down which page lists which modules, before Sphinx asks what has changed."""
    config.textbook_entries = {
        prefix: page
        for page, path in pages_of(Path(app.srcdir), config)
        for prefix in _LISTING.findall(path.read_text(encoding="utf-8"))
    }


def listed(module: str, prefix: str) -> bool:
    """Return whether a page that lists a prefix lists a module."""
    return not prefix or f"{module}.".startswith(f"{prefix}.")


def entry_page(config: Config, record: Record) -> str | None:
    """Return the page with the entry of a relation, the one that names its module most closely."""
    known: dict[str, str] = config.textbook_entries
    fitting = [prefix for prefix in known if listed(record.module, prefix)]
    return known[max(fitting, key=len)] if fitting else None


def entry_address(app: Any, here: str, record: Record) -> str:
    """Return the address of a relation's entry as seen from a page."""
    page = entry_page(app.config, record) or here
    return f"{relative(app, here, page)}#{record.name}"


def relative(app: Any, here: str, page: str) -> str:
    """Return the address of a page as seen from another; nothing when all are one page."""
    if app.builder.name == "singlehtml":
        return ""
    try:
        return str(app.builder.get_relative_uri(here, page))
    except Exception:  # noqa: BLE001 - builders without pages have no addresses
        return ""
