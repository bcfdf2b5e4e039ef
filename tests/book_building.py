"""Building a book as the project's checks do."""

from __future__ import annotations

import os
import subprocess
import sys

EPOCH = "1767225600"
"""The date that a build takes for its own, so that two builds give the same bytes."""


def build_book(source, target, doctrees, *options):
    """Build from nothing with warnings as errors; what Sphinx said is in the assertion."""
    command = [sys.executable, "-m", "sphinx", "-q", "-W", "--keep-going", "-n", "-E"]
    done = subprocess.run(
        [*command, "-d", str(doctrees), *options, str(source), str(target)],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "SOURCE_DATE_EPOCH": EPOCH},
    )
    assert done.returncode == 0, done.stderr
    return target
