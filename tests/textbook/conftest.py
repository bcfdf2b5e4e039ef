"""The little book on exposure, built once."""

from __future__ import annotations

from pathlib import Path

import pytest
from conftest import build_book

SECOND = Path(__file__).parent / "second_book"


@pytest.fixture(scope="session")
def second_book(tmp_path_factory):
    """Return the folder of the built pages."""
    folder = tmp_path_factory.mktemp("second")
    return build_book(SECOND, folder / "pages", folder / "doctrees")
