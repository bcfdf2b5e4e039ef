"""What a test needs beside Python, where it is not here."""

from __future__ import annotations

import os
import shutil
from typing import NoReturn

import pytest


def absent(why: str) -> NoReturn:
    """Skip the test, or fail it where CI is set: what CI promises must not pass by skipping."""
    if os.environ.get("CI"):
        pytest.fail(f"CI is set, but {why}")
    pytest.skip(why)


def node() -> str:
    """Return the path of Node, which runs JavaScript; see `absent` where there is none."""
    return shutil.which("node") or absent("there is no Node to run JavaScript")
