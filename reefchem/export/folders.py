"""Where published values and worked examples lie: in the package, or beside it in a checkout."""

from __future__ import annotations

from pathlib import Path

__all__ = ["examples_folder", "published_folder"]

PACKAGE = Path(__file__).resolve().parent.parent


def published_folder() -> Path | None:
    """Return the folder of published values, or None where none was installed."""
    return _first(PACKAGE / "data" / "published", PACKAGE.parent / "shared" / "published")


def examples_folder() -> Path | None:
    """Return the folder of worked examples, or None where none was installed."""
    return _first(PACKAGE / "data" / "examples", PACKAGE.parent / "book" / "examples")


def _first(*folders: Path) -> Path | None:
    return next((folder for folder in folders if folder.is_dir()), None)
