"""Change every published coefficient a little, and see whether some check notices.

Each fitted number, constant and atomic weight is moved, up and then down, by one unit in its last
printed digit or by 1e-4 of itself, whichever is larger. Then the published values that lean on it
are compared again, and, where these do not notice, the test files that name a relation of its
module are run until one fails. What survives, one way or the other, is listed.

Run it from the project's folder, with names of modules, with names of fits in them, or without::

    python tests/mutate_coefficients.py
    python tests/mutate_coefficients.py reefchem.core.atoms reefchem.seawater.density.Bigg1967

The exit status is 1 when something survives.
"""

from __future__ import annotations

import ast
import contextlib
import gc
import importlib
import io
import os
import re
import sys
import warnings
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from reefchem.core.atoms import ATOMIC_WEIGHTS
from reefchem.core.fit import Fit
from reefchem.core.record import calculations, records
from reefchem.examples import published_values
from reefchem.formula.javascript import needed

TESTS = Path(__file__).resolve().parent
ROOT = TESTS.parent
CONSTANTS = ("reefchem.core.constants", "reefchem.core.quantity")


@dataclass(frozen=True)
class Mutant:
    """One number of one module."""

    module: str
    name: str
    text: str = field(compare=False)
    fit: type[Fit] | None = field(default=None, compare=False)

    def __str__(self) -> str:
        return f"{self.module}.{self.name} = {self.text}"

    @property
    def step(self) -> float:
        """One unit in the last digit, or 1e-4 of the number."""
        number = Decimal(self.text)
        unit = Decimal((0, (1,), int(number.as_tuple().exponent)))
        return float(max(unit, abs(number) * Decimal("1e-4")))

    @contextlib.contextmanager
    def moved(self, sign: int):
        """Move the number inside the context, wherever it is used."""
        if self.module == "reefchem.core.atoms":
            weight, uncertainty = ATOMIC_WEIGHTS[self.name]
            ATOMIC_WEIGHTS[self.name] = (weight + sign * self.step, uncertainty)
            yield
            ATOMIC_WEIGHTS[self.name] = (weight, uncertainty)
            return
        name = self.name.rpartition(".")[2]
        homes = instances(self.fit) if self.fit else holders(self.module, name)
        old = [getattr(home, name) for home in homes]
        for home, number in zip(homes, old, strict=True):
            put(home, name, number + sign * self.step)
        yield
        for home, number in zip(homes, old, strict=True):
            put(home, name, number)


def put(home: object, name: str, number: float) -> None:
    """Set an attribute, also of a frozen fit."""
    if isinstance(home, Fit):
        object.__setattr__(home, name, number)
    else:
        setattr(home, name, number)


@cache
def instances(fit: type[Fit]) -> list[object]:
    """Return the class of a fit and every fit of that class that a relation holds."""
    return [fit, *(found for found in gc.get_objects() if type(found) is fit)]


def holders(module: str, name: str) -> list[object]:
    """Return the modules that hold a constant under its name, its own first."""
    own = importlib.import_module(module)
    value = getattr(own, name)
    others = [
        other
        for key, other in list(sys.modules.items())
        if key.startswith("reefchem.") and other is not own and vars(other).get(name) is value
    ]
    return [own, *others]


def mutants(module: str) -> list[Mutant]:
    """Return the numbers of a module that are written as a literal."""
    loaded = importlib.import_module(module)
    if module == "reefchem.core.atoms":
        return [Mutant(module, name, repr(weight)) for name, (weight, _) in ATOMIC_WEIGHTS.items()]
    text = Path(loaded.__file__).read_text(encoding="utf-8")
    found = []
    for node in ast.parse(text).body:
        if isinstance(node, ast.ClassDef):
            kind = vars(loaded).get(node.name)
            if isinstance(kind, type) and issubclass(kind, Fit):
                found += [
                    Mutant(module, f"{node.name}.{name}", number, kind)
                    for name, number in literals(node.body, text)
                ]
        else:
            public = [(n, t) for n, t in literals([node], text) if n.isupper() and n[0] != "_"]
            found += [Mutant(module, name, number) for name, number in public if "." in number]
    return found


def literals(body: list[ast.stmt], text: str) -> list[tuple[str, str]]:
    """Return name and text of each number that is assigned as a literal."""
    found = []
    for node in body:
        targets = getattr(node, "targets", None) or [getattr(node, "target", None)]
        number = re.fullmatch(
            r"-?[0-9][0-9_.]*(?:e[+-]?[0-9]+)?",
            (ast.get_source_segment(text, node.value) or "")
            if getattr(node, "value", None)
            else "",
        )
        if number and isinstance(targets[0], ast.Name):
            found.append((targets[0].id, number[0].replace("_", "")))
    return found


@cache
def leaning_on(module: str) -> frozenset[str]:
    """Return the relations that are of a module, or call one that is."""
    names = {r.name for r in records().values() if any(p.module == module for p in needed([r]))}
    return frozenset(names | calculations().keys())


@cache
def values():
    """Return the published values that agree as the package stands."""
    return [value for value in published_values(ROOT / "shared" / "published") if value.agrees()]


def by_published(mutant: Mutant) -> bool:
    """Return whether a published value no longer agrees."""
    everything = mutant.module in {*CONSTANTS, "reefchem.core.atoms"}
    names = leaning_on(mutant.module)
    return any(not v.agrees() for v in values() if everything or v.relation in names)


@cache
def files_for(module: str) -> tuple[Path, ...]:
    """Return the test files that name a relation of a module, its own file first."""
    _, *parts, topic = module.split(".")
    own = TESTS.joinpath(*parts) / f"test_{topic}.py"
    names = {r.name for r in (records() | calculations()).values() if r.module == module}
    names |= {topic} if module.startswith("reefchem.core") else set()
    pattern = re.compile(rf"\b(?:{'|'.join(sorted(names)) or '(?!)'})\b")
    folders = (path for path in TESTS.glob("*/test_*.py"))
    named = [path for path in folders if pattern.search(path.read_text(encoding="utf-8"))]
    ordered = sorted(named, key=lambda p: (p != own, p.parent != own.parent, p.name))
    return tuple(ordered)


def passes(path: Path) -> bool:
    """Return whether all tests of a file pass."""
    arguments = ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", str(path)]
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        return pytest.main(arguments) == pytest.ExitCode.OK


passes_as_it_stands = cache(passes)


def noticed(mutant: Mutant, sign: int) -> bool:
    """Return whether a check notices that a number is moved up, or down."""
    with mutant.moved(sign):
        if by_published(mutant):
            return True
    for path in files_for(mutant.module):
        if passes_as_it_stands(path):
            with mutant.moved(sign):
                if not passes(path):
                    return True
    return False


def modules() -> list[str]:
    """Return the modules that hold relations, and those of constants and weights."""
    described = (records() | calculations()).values()
    return sorted({record.module for record in described} | {*CONSTANTS, "reefchem.core.atoms"})


def dotted(names: tuple[str, ...]) -> tuple[str, ...]:
    """Return names with a full stop behind, so that a name is no beginning of another."""
    return tuple(f"{name}." for name in names)


def main(names: list[str]) -> int:
    """Print what was noticed and what survived; return the exit status."""
    os.chdir(ROOT)
    warnings.simplefilter("ignore")
    alive, count = [], 0
    for module in modules():
        chosen = tuple(names or [module])
        here = [m for m in mutants(module) if f"{module}.{m.name}.".startswith(dotted(chosen))]
        if not here:
            continue
        survivors = [m for m in here if not (noticed(m, 1) and noticed(m, -1))]
        count += len(here)
        alive += survivors
        print(f"{module}: {len(here) - len(survivors)} of {len(here)}", flush=True)  # noqa: T201
        for mutant in survivors:
            print(f"  survives: {mutant} (step {mutant.step:g})", flush=True)  # noqa: T201
    share = 100 * (count - len(alive)) / count if count else 0.0
    print(f"{count - len(alive)} of {count} noticed ({share:.1f} %)")  # noqa: T201
    return 1 if alive else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
