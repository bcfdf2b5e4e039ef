"""A sample of ``tests/mutate_coefficients.py``: no digit of the density can change unseen."""

from __future__ import annotations

import os
import subprocess
import sys

from conftest import ROOT
from mutate_coefficients import mutants
from mutate_logic import changes, find_code

from reefchem.conversion import alkalinity_from_german_degrees
from reefchem.core import roots
from reefchem.core.atoms import molar_mass
from reefchem.dosing import alkalinity_change
from reefchem.seawater import pure_water_density


def test_every_changed_digit_of_the_density_is_noticed():
    fits = ["reefchem.seawater.density.Bigg1967", "reefchem.seawater.density.MilleroPoisson1981"]
    made = subprocess.run(
        [sys.executable, "tests/mutate_coefficients.py", "--own", *fits],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode == 0, made.stdout + made.stderr
    assert "15 of 15 noticed (100.0 %)" in made.stdout


def in_a_fork(change, work):
    """Return a number worked out after a change that nobody else sees."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        try:
            change()
            os.write(writing, repr(work()).encode())
        finally:
            os._exit(0)
    os.close(writing)
    os.waitpid(child, 0)
    with os.fdopen(reading) as said:
        return float(said.read())


def mutant(module, name):
    (found,) = (m for m in mutants(module) if m.name == name)
    return found


def test_a_moved_number_moves_the_results_and_only_in_the_fork():
    first = mutant("reefchem.seawater.density", "Bigg1967.a0")
    before = pure_water_density(25.0)
    after = in_a_fork(lambda: first.apply(first.moves()["up"]), lambda: pure_water_density(25.0))
    assert after > before + 0.09
    assert pure_water_density(25.0) == before


def test_a_moved_weight_moves_what_was_worked_out_from_it_at_import():
    calcium = mutant("reefchem.core.atoms", "Ca")

    def change():
        calcium.apply(calcium.moves()["down"])

    assert in_a_fork(change, lambda: molar_mass("CaO")) < molar_mass("CaO")
    converted = alkalinity_from_german_degrees(8.0)
    assert in_a_fork(change, lambda: alkalinity_from_german_degrees(8.0)) > converted


def test_the_step_is_a_unit_of_the_last_digit_or_a_tenth_of_a_thousandth():
    steps = {m.name: m.step for m in mutants("reefchem.seawater.density")}
    assert abs(steps["Bigg1967.a0"] - 0.0999842594) < 1e-12
    assert abs(steps["MilleroPoisson1981.c0"] - 4.8314e-8) < 1e-18


def test_a_change_of_logic_is_made_in_the_code_that_runs():
    path = ROOT / "reefchem" / "core" / "roots.py"
    (answer,) = (
        c for c in changes(path) if (c.code.co_name, c.old, c.new) == ("newton", "x", "None")
    )
    assert roots.newton.__code__ is answer.code

    def newton():
        return roots.newton(lambda x: x - 1.5, 1.4, 1.0, 2.0)

    assert in_a_fork(lambda: None, newton) == 1.5
    assert in_a_fork(answer.apply, lambda: float(newton() is None)) == 1.0
    code = find_code(compile(path.read_bytes(), str(path), "exec"), answer.code)
    assert code.co_code == answer.code.co_code


def test_a_changed_default_is_taken_by_whoever_leaves_the_argument_out():
    path = ROOT / "reefchem" / "dosing" / "alkalinity_budget.py"
    here = {c.default: c for c in changes(path) if c.default}
    assert len(here) == 6
    change = here["phosphate_assimilated"]
    assert (change.old, change.new) == ("0.0", "1.0")
    assert alkalinity_change(1.0) == -2.0
    assert in_a_fork(change.apply, lambda: alkalinity_change(1.0)) == -1.0
    assert in_a_fork(change.apply, lambda: alkalinity_change(1)) == -1.0
    told = in_a_fork(change.apply, lambda: alkalinity_change(1.0, phosphate_assimilated=0.0))
    assert told == -2.0
