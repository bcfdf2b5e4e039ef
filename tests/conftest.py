"""What several test files share."""

from __future__ import annotations

import fcntl
import os
from pathlib import Path

import pytest
from book_building import build_book
from chromium import started
from hypothesis import settings

from reefchem.core import record

ROOT = Path(__file__).resolve().parent.parent
PUBLISHED = ROOT / "shared" / "published"
SECOND = ROOT / "tests" / "textbook" / "second_book"
EXAMPLES = ROOT / "book" / "examples"

settings.register_profile("default", derandomize=True, deadline=None, max_examples=60)
settings.register_profile("deep", deadline=None, max_examples=5000)
settings.register_profile("rubbish", derandomize=False, deadline=None, max_examples=100)
settings.load_profile("default")


@pytest.fixture(scope="session")
def root() -> Path:
    return ROOT


@pytest.fixture
def own_relations(monkeypatch):
    """Forget the relations that a test defines when it ends, and none of the package."""
    record.records()  # imports all: what is imported during a test would be forgotten with it
    for known in ("_relations", "_calculations"):
        monkeypatch.setattr(record, known, dict(getattr(record, known)))


@pytest.fixture(scope="session")
def built_book(tmp_path_factory):
    """Return the folder of the book, built once from nothing with warnings as errors."""
    shared = tmp_path_factory.getbasetemp()
    if os.environ.get("PYTEST_XDIST_WORKER"):
        shared = shared.parent  # one build for all workers
    pages = shared / "book"
    with (shared / "book.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (shared / "book.done").exists():
            build_book(ROOT / "book", pages, shared / "book-doctrees")
            (shared / "book.done").touch()
    return pages


@pytest.fixture(scope="session")
def second_book(tmp_path_factory):
    """Return the folder of the little book on exposure, which uses the engine."""
    folder = tmp_path_factory.mktemp("second")
    return build_book(SECOND, folder / "pages", folder / "doctrees")


@pytest.fixture(scope="module")
def browser():
    """Give a browser to a file of tests, and close it before another file starts its own."""
    with started() as browser:
        yield browser
