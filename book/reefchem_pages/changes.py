"""The changelog: fragments of ``changes/`` by kind, as a directive and for a release.

``{unreleased}`` shows the fragments that lie there. ``python book/reefchem_pages/changes.py`` moves
them into ``changes.md``, under the version that ``pyproject.toml`` has.
"""

from __future__ import annotations

import tomllib
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sphinx.application import Sphinx

__all__ = ["KINDS", "collected", "release", "setup"]

KINDS = {
    "numbers": "Numbers",
    "added": "Added",
    "changed": "Changed",
    "fixed": "Fixed",
    "deprecated": "Deprecated",
    "removed": "Removed",
}
"""Heading by the last part but one of a fragment's name: ``<topic>.<kind>.md``."""

BOOK = Path(__file__).parent.parent
MARK = "<!-- releases: the newest first -->"


def collected(folder: Path) -> str:
    """Return the fragments of a folder as MyST, one list for each kind.

    What became of numbers is said in any case.

    Raises
    ------
    ValueError
        When a file is not named ``<topic>.<kind>.md``, or is empty.
    """
    by_kind: dict[str, list[str]] = {kind: [] for kind in KINDS}
    for path in sorted(folder.iterdir()):
        kind = path.name.removesuffix(".md").rpartition(".")[2]
        text = path.read_text(encoding="utf-8").strip()
        if path.suffix != ".md" or kind not in KINDS or not text:
            msg = f"{path.name}: a fragment is called <topic>.<kind>.md, kinds {', '.join(KINDS)}"
            raise ValueError(msg)
        by_kind[kind].append("- " + text.replace("\n", "\n  "))
    by_kind["numbers"] = by_kind["numbers"] or ["No result has changed."]
    return "\n\n".join(
        f"### {KINDS[kind]}\n\n" + "\n".join(texts) for kind, texts in by_kind.items() if texts
    )


def release(book: Path, version: str, day: date) -> None:
    """Move the fragments into ``changes.md``, under a version and a day."""
    page = book / "changes.md"
    before, mark, after = page.read_text(encoding="utf-8").partition(MARK)
    if not mark:
        msg = f"{page.name} has no line {MARK}"
        raise ValueError(msg)
    new = f"\n\n## {version}, {day.isoformat()}\n\n{collected(book / 'changes')}"
    page.write_text(f"{before}{mark}{new}{after}", encoding="utf-8")
    for path in (book / "changes").iterdir():
        path.unlink()


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directive."""
    from docutils import nodes  # noqa: PLC0415 - a release needs no Sphinx
    from docutils.statemachine import StringList  # noqa: PLC0415
    from sphinx.util.docutils import SphinxDirective  # noqa: PLC0415

    class Unreleased(SphinxDirective):
        """What has changed since the last release."""

        def run(self) -> list[nodes.Node]:
            """Return the lists."""
            folder = Path(self.env.srcdir) / "changes"
            for path in folder.iterdir():
                self.env.note_dependency(str(path))
            box = nodes.section()
            text = StringList(collected(folder).split("\n"), str(folder))
            self.state.nested_parse(text, self.content_offset, box, match_titles=True)
            return list(box.children)

    app.add_directive("unreleased", Unreleased)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}


if __name__ == "__main__":
    project = tomllib.loads((BOOK.parent / "pyproject.toml").read_text(encoding="utf-8"))
    release(BOOK, project["project"]["version"], datetime.now(UTC).date())
