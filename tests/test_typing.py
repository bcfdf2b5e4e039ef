"""Types as a user's checker sees them: public names are found, and mistakes in calls too."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

GOOD = """
from pathlib import Path

import reefchem
from reefchem.carbonate import carbonate_system
from reefchem.core.fit import Fit
from reefchem.core.quantity import quantity
from reefchem.derive import derive
from reefchem.examples import read_examples, run
from reefchem.formula import work
from reefchem.seawater import seawater_density
from reefchem.uncertainty import uncertainty

class Line(Fit):
    slope: float = 1.0

text: str = work(seawater_density, salinity=35.0, temperature=25.0).text()
unit: str = reefchem.describe(seawater_density).unit
changed: Line = Line(slope=2.0)
proofs: int = len(derive(seawater_density))
state = carbonate_system(total_alkalinity=2300.0, dic=2000.0, salinity=35.0, temperature=25.0)
name: str = type(state).__name__
spread: float = uncertainty(seawater_density, salinity=(35.0, 0.5), temperature=25.0).standard
agrees: bool = all(run(example).agrees for example in read_examples(Path("book/examples")).values())
density = seawater_density(35.0, quantity(25.0, "degC"))
"""

BAD = {
    "a missing argument": ("seawater_density(35.0)", "call-arg"),
    "an argument that is none": ("seawater_density(35.0, depth=25.0)", "call-arg"),
    "an option by position": ("seawater_density(35.0, 25.0, None)", "call-arg"),
    "a name that is not there": ("reefchem.seawater.seawater_densty", "attr-defined"),
    "a misspelt fitted number": ("Line(slop=2.0)", "call-arg"),
    "a frozen fit": ("Line().slope = 2.0", "misc"),
    "text for a unit": ("reefchem.describe(seawater_density).unit + 1", "operator"),
}
HEAD = """
import reefchem
from reefchem.core.fit import Fit
from reefchem.seawater import seawater_density

class Line(Fit):
    slope: float = 1.0

"""


def checked(code, tmp_path):
    path = tmp_path / "user.py"
    path.write_text(code, encoding="utf-8")
    cache = tmp_path.parent / "mypy"
    return subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--cache-dir", cache, "--config-file=", path],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        check=False,
    )


def test_the_package_says_that_it_is_typed():
    assert files("reefchem").joinpath("py.typed").is_file()


def test_a_users_program_has_the_types_it_expects(tmp_path):
    made = checked(GOOD, tmp_path)
    assert made.returncode == 0, made.stdout


def test_mistakes_in_a_users_program_are_found(tmp_path):
    lines = HEAD + "\n".join(line for line, _ in BAD.values()) + "\n"
    made = checked(lines, tmp_path)
    first = HEAD.count("\n") + 1
    for number, (what, (_, code)) in enumerate(BAD.items(), first):
        found = [line for line in made.stdout.splitlines() if line.startswith(f"user.py:{number}:")]
        assert any(f"[{code}]" in line for line in found), f"{what}: {found}"


def test_every_public_name_has_a_type_for_any_checker(tmp_path):
    """Pyright counts what it cannot know without guessing; the score is to be 100 %."""
    pytest.importorskip("pyright")
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    made = subprocess.run(
        [sys.executable, "-m", "pyright", "--verifytypes", "reefchem", "--ignoreexternal"],
        capture_output=True,
        text=True,
        cwd=tmp_path,  # where it is installed, not where its source lies
        check=False,
        env={**os.environ, "PATH": path},
    )
    (known,) = re.findall(r'Symbols exported by "reefchem": (\d+)', made.stdout)
    assert int(known) > 3000, made.stdout
    assert "Type completeness score: 100%" in made.stdout, made.stdout
