"""``python -m tests.fuzz [MINUTES]``: feed rubbish to every reader of user text, ten minutes long.

The tests in this folder run with new random examples, round after round. When one fails, it ends
at once with the example and with the line that tries it again.
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
        left = (end - time.monotonic()) / 60
        sys.stdout.write(f"round {rounds}, seed {seed}, {left:.1f} minutes left\n")
        sys.stdout.flush()
        done = subprocess.run(
            [
                sys.executable,
                *("-m", "pytest", "-q", "-x", str(HERE)),
                *("--hypothesis-profile", "rubbish", "--hypothesis-seed", str(seed)),
            ],
            check=False,
            cwd=HERE.parent.parent,
        )
        if done.returncode:
            return done.returncode
    return 0


if __name__ == "__main__":
    sys.exit(main(*map(float, sys.argv[1:2])))
