"""The little book on exposure, built once."""

from __future__ import annotations

import pytest
from book_building import build_book
from textbook_second import SECOND


@pytest.fixture(scope="session")
def second_book(tmp_path_factory):
    """Return the folder of the built pages."""
    folder = tmp_path_factory.mktemp("second")
    return build_book(SECOND, folder / "pages", folder / "doctrees")
