"""A sample of ``tests/mutate_coefficients.py``: no digit of the density can change unseen."""

from __future__ import annotations

import subprocess
import sys

from conftest import ROOT
from mutate_coefficients import mutants

from reefchem.core.atoms import molar_mass
from reefchem.seawater import pure_water_density


def test_every_changed_digit_of_the_density_is_noticed():
    fits = ["reefchem.seawater.density.Bigg1967", "reefchem.seawater.density.MilleroPoisson1981"]
    made = subprocess.run(
        [sys.executable, "tests/mutate_coefficients.py", *fits],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode == 0, made.stdout + made.stderr
    assert "15 of 15 noticed (100.0 %)" in made.stdout


def test_a_moved_number_moves_the_results_and_goes_back():
    before = pure_water_density(25.0)
    (first,) = (m for m in mutants("reefchem.seawater.density") if m.name == "Bigg1967.a0")
    with first.moved(1):
        assert pure_water_density(25.0) > before + 0.09
    assert pure_water_density(25.0) == before


def test_a_moved_weight_moves_the_molar_masses_and_goes_back():
    before = molar_mass("CaO")
    (calcium,) = (m for m in mutants("reefchem.core.atoms") if m.name == "Ca")
    with calcium.moved(-1):
        assert molar_mass("CaO") < before
    assert molar_mass("CaO") == before


def test_the_step_is_a_unit_of_the_last_digit_or_a_tenth_of_a_thousandth():
    steps = {m.name: m.step for m in mutants("reefchem.seawater.density")}
    assert abs(steps["Bigg1967.a0"] - 0.0999842594) < 1e-12
    assert abs(steps["MilleroPoisson1981.c0"] - 4.8314e-8) < 1e-18
