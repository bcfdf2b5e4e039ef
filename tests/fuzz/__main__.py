"""``python -m tests.fuzz [MINUTES]``: feed rubbish to every reader of user text, ten minutes long.

The tests in this folder run with new random examples, round after round. It ends at once with the
example when one fails; Hypothesis keeps it, so that the next run tries it first.
"""

from __future__ import annotations

import random
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).parent


def main(minutes: float = 10.0) -> int:
    """Run rounds until the time is over; return 0 when none failed."""
    end = time.monotonic() + 60 * minutes
    rounds = 0
    while time.monotonic() < end:
        rounds += 1
        seed = random.SystemRandom().randrange(2**32)
        print(f"round {rounds}, seed {seed}, {(end - time.monotonic()) / 60:.1f} minutes left")  # noqa: T201
        done = subprocess.run(
            [
                sys.executable,
                *("-m", "pytest", "-q", "-x", str(HERE)),
                *("--hypothesis-profile", "fuzz", "--hypothesis-seed", str(seed)),
            ],
            check=False,
            cwd=HERE.parent.parent,
        )
        if done.returncode:
            return done.returncode
    return 0


if __name__ == "__main__":
    sys.exit(main(*map(float, sys.argv[1:2])))
