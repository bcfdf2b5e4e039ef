"""A sample of ``tests/mutate_coefficients.py``: no digit of the density can change unseen."""

from __future__ import annotations

import subprocess
import sys

from conftest import ROOT


def mutate(module):
    return subprocess.run(
        [sys.executable, "tests/mutate_coefficients.py", module],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )


def test_every_changed_digit_of_the_density_is_noticed():
    made = mutate("reefchem.seawater.density")
    assert made.returncode == 0, made.stdout + made.stderr
    assert "(100.0 %)" in made.stdout


def test_the_sample_is_not_empty():
    made = mutate("reefchem.core.constants")
    assert made.returncode == 0, made.stdout + made.stderr
    assert "reefchem.core.constants: " in made.stdout
