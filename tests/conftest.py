"""What several test files share."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import settings

from reefchem.core import record

ROOT = Path(__file__).resolve().parent.parent
PUBLISHED = ROOT / "shared" / "published"
EXAMPLES = ROOT / "book" / "examples"

settings.register_profile("default", derandomize=True, deadline=None, max_examples=60)
settings.register_profile("deep", deadline=None, max_examples=5000)
settings.load_profile("default")


@pytest.fixture(scope="session")
def root() -> Path:
    return ROOT


@pytest.fixture
def own_relations(monkeypatch):
    """Forget the relations that a test defines when it ends."""
    for known in ("_relations", "_calculations"):
        monkeypatch.setattr(record, known, dict(getattr(record, known)))
