"""What a test needs beside Python, where it is not here."""

from __future__ import annotations

import os
from typing import NoReturn

import pytest


def absent(why: str) -> NoReturn:
    """Skip the test, or fail it where CI is set: what CI promises must not pass by skipping."""
    if os.environ.get("CI"):
        pytest.fail(f"CI is set, but {why}")
    pytest.skip(why)
