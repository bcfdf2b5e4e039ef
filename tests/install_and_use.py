"""Install what a release ships in an empty environment, and use and test it from there.

``python tests/install_and_use.py dist`` takes the wheel and the source distribution of a folder,
each into an environment of its own with its base dependencies alone, and works in a folder where
nothing of the project lies. The wheel gets the newest dependencies that ``.constraints`` names, the
source distribution the oldest that are promised. ``--python 3.13`` takes the wheel into another
Python instead, from the path or from pyenv; one that is not here is said to be missing.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
CONSTRAINTS = ROOT / ".constraints"
LARGEST_WHEEL = 1_200_000
"""Bytes. An eighth is the font of the formulas; the rest is code and printed values."""

OLDEST = "3.11"
"""The Python of ``lowest.txt``; the oldest dependencies were never made for a new one."""

FIRST_USE = """
import reefchem, sys
from reefchem.seawater import seawater_density
from reefchem.carbonate import carbonate_system

# UNESCO 44, p. 23: 1023.343 at 25 degrees of the scale of 1968.
assert abs(seawater_density(35.0, 25.0 / 1.00024) - 1023.343) < 5e-4
state = carbonate_system(salinity=35.0, temperature=25.0, total_alkalinity=2300.0, dic=2000.0)
assert 8.0 < state.ph_total < 8.1, state.ph_total
assert not {"numpy", "sympy", "pint"} & sys.modules.keys()
print(reefchem.__file__)
"""


@dataclass(frozen=True)
class Step:
    """A command of the new environment, and what must come of it."""

    command: str
    said: str
    code: int = 0


STEPS = (
    Step("reefchem --version", r"reefchem, version \d+\.\d+\.\d+"),
    Step("reefchem --help", "(?s)plan.*work.*export.*check"),
    Step("reefchem work seawater_density salinity=35 temperature=25", r"= 1023\.34 kg/m³"),
    Step("reefchem work seawater_densty", "Error: ", code=1),
    Step(
        "reefchem check value seawater_density salinity=35 temperature=25 --result 1023.3", "agrees"
    ),
    Step(
        "reefchem check value seawater_density salinity=35 temperature=25 --result 1024.3",
        "differs",
        code=1,
    ),
    Step("reefchem export vectors all.json --schema", r"all\.json: \d{4,} vectors"),
    Step("reefchem export vectors printed.json --published", r"printed\.json: \d{3,} vectors"),
    Step("reefchem export javascript module", r"\d{3} relations"),
    Step("reefchem plan nothing.toml", "Error: ", code=1),
    Step("python -m reefchem --help", "Usage"),
)

TESTED = (
    "tests/test_published.py",
    "tests/test_examples.py",
    "tests/tank/test_robust.py",
    "tests/tank/test_uptake_fit.py",
)
"""What needs pytest, Hypothesis and the extra for plans, but no library to compare with."""


class Faulty(Exception):  # noqa: N818 - a sentence, not an error of the tool
    """What a release must not do."""


class Environment:
    """A virtual environment with one distribution in it, and an empty folder to work in."""

    def __init__(self, place: Path, python: str, constraints: Path) -> None:
        self.place, self.constraints = place, constraints
        self.work = place / "work"
        self.work.mkdir(parents=True)
        subprocess.run([python, "-m", "venv", place / "venv"], check=True)

    def run(self, *arguments: object) -> subprocess.CompletedProcess[str]:
        """Run a program of the environment in the empty folder."""
        program, *rest = map(str, arguments)
        return subprocess.run(
            [str(self.place / "venv" / "bin" / program), *rest],
            cwd=self.work,
            capture_output=True,
            text=True,
            check=False,
            env={"PATH": "/usr/bin:/bin", **pip_settings()},
        )

    def must(self, *arguments: object) -> str:
        """Run a program that must succeed, and return what it said."""
        made = self.run(*arguments)
        if made.returncode:
            raise Faulty(
                f"{' '.join(map(str, arguments))[:99]}\n{made.stdout[-3000:]}{made.stderr}"
            )
        return made.stdout

    def install(self, *what: object) -> None:
        """Install with pip, under the constraints."""
        self.must("python", "-m", "pip", "install", "-q", "-c", self.constraints, *what)


def pip_settings() -> dict[str, str]:
    """Return how pip is set up here, and where its cache is."""
    known = {"HOME", "REQUESTS_CA_BUNDLE", "SSL_CERT_FILE"}
    return {k: v for k, v in os.environ.items() if k.startswith("PIP_") or k in known}


def use(environment: Environment) -> None:
    """Use the package as somebody who has just installed it."""
    place = environment.must("python", "-I", "-c", FIRST_USE).strip()
    if not place.startswith(str(environment.place)):
        raise Faulty(f"another package was used: {place}")
    for step in STEPS:
        made = environment.run(*step.command.split())
        text = made.stdout + made.stderr
        if made.returncode != step.code or not re.search(step.said, text) or "Traceback" in text:
            raise Faulty(f"{step.command}: code {made.returncode}\n{text[-3000:]}")


def test(environment: Environment, source: Path) -> str:
    """Run tests of the source distribution, without its package, and return the closing line."""
    with tarfile.open(source) as archive:
        archive.extractall(environment.place / "source", filter="data")
    (unpacked,) = (environment.place / "source").iterdir()
    shutil.rmtree(unpacked / "reefchem")
    said = environment.must(
        "python", "-m", "pytest", "-q", "-p", "no:cacheprovider", "--rootdir", unpacked,
        "-c", unpacked / "pyproject.toml", *(unpacked / path for path in TESTED),
    )  # fmt: skip
    return said.strip().splitlines()[-1]


def interpreter(wanted: str) -> str | None:
    """Return an interpreter of this version, from the path or from pyenv, or None."""
    versions = Path.home() / ".pyenv" / "versions"
    for found in (f"python{wanted}", *sorted(versions.glob(f"{wanted}.*/bin/python"))):
        tried = subprocess.run(
            ["sh", "-c", '"$0" -c "import venv"', str(found)], capture_output=True, check=False
        )
        if tried.returncode == 0:
            return str(found)
    return None


def main() -> None:
    """Install, use and test; end with status 1 when something is wrong."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("dist", type=Path, help="folder with a wheel and a source distribution")
    parser.add_argument("--python", action="append", help="as 3.13; may be given again")
    chosen = parser.parse_args()
    (wheel,), (source,) = (
        chosen.dist.resolve().glob("*.whl"),
        chosen.dist.resolve().glob("*.tar.gz"),
    )
    size = wheel.stat().st_size
    print(f"{wheel.name}: {size} bytes")  # noqa: T201 - the tool's answer
    faults = 0
    if size > LARGEST_WHEEL:
        faults += 1
        print(f"FAILED: more than {LARGEST_WHEEL} bytes")  # noqa: T201
    own = f"3.{sys.version_info.minor}"
    newest = [
        (wheel, version, f"py{version.replace('.', '')}") for version in chosen.python or [own]
    ]
    oldest = [] if chosen.python or own != OLDEST else [(source, own, "lowest")]
    for what, version, name in newest + oldest:
        start = time.monotonic()
        python = sys.executable if version == own else interpreter(version)
        told = f"{what.name}, Python {version}, {name}.txt"
        if python is None:
            print(f"{told}: no such Python is here")  # noqa: T201
            continue
        with tempfile.TemporaryDirectory() as folder:
            try:
                environment = Environment(Path(folder), python, CONSTRAINTS / f"{name}.txt")
                environment.install(what)
                use(environment)
                environment.install(f"{what}[plan]", "pytest", "hypothesis")
                tests = test(environment, source)
                print(f"{told}: {tests}; {time.monotonic() - start:.0f} s")  # noqa: T201
            except Faulty as fault:
                faults += 1
                print(f"{told}: FAILED: {fault}")  # noqa: T201
    sys.exit(min(faults, 1))


if __name__ == "__main__":
    main()
