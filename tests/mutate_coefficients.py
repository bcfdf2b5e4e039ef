"""Change every published number a little, and see whether some check notices.

Each fitted number, constant, atomic weight and mole fraction, and each number that stands in a
body, is moved up and down by one unit in its last printed digit, or by 1e-4 of itself if that is
more; a fitted number also changes its sign. What follows from it when the package is imported is
worked out anew. Then the published values, worked examples and tests that reach it are run (see
`mutation_bench`) until one fails. What survives is listed, unless `EXPLAINED` says why.

Run it from the project's folder, with names of modules or of numbers in them, or without::

    python tests/mutate_coefficients.py
    python tests/mutate_coefficients.py reefchem.core.atoms reefchem.seawater.density.Bigg1967

With ``-v`` each change is listed with the check that noticed it; with ``--own`` only published
values of relations of the module, and the tests named after it, are run; and where files of tests
are given beside the names, those alone.
The exit status is 1 when something survives that is not explained, or is explained and noticed.
"""

from __future__ import annotations

import ast
import gc
import importlib
import re
import sys
from collections import Counter
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache, partial
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import TYPE_CHECKING, Any

import mutation_bench
from mutation_bench import ROOT, TESTS, Bench

from reefchem.core import quantity
from reefchem.core.atoms import atoms_in
from reefchem.core.fit import Fit
from reefchem.core.record import calculations, records

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator, MutableMapping

FOLDERS = ("core", "seawater", "conversion", "carbonate", "dosing", "tank")
ATOMS, COMPOSITION = "reefchem.core.atoms", "reefchem.seawater.reference_composition"
TABLES = {(ATOMS, "ATOMIC_WEIGHTS"), (COMPOSITION, "MOLE_FRACTIONS")}
TECHNICAL = ("reefchem.core", "reefchem.carbonate.solver")
"""Modules whose numbers steer a computation, and which nobody published; but see `PUBLISHED`."""

PUBLISHED = (ATOMS, "reefchem.core.constants", "reefchem.core.quantity")
NUMBER = re.compile(r"-?[0-9][0-9_.]*(?:e[+-]?[0-9]+)?")

EXPLAINED: dict[str, str] = {
    "reefchem.carbonate.state.HALF_STEP": (
        "half a difference of 0.01 K; what is left of the third derivative is below any tolerance"
    ),
    "reefchem.dosing.solubility.Bates1956.concentration_slope": (
        "a table of three digits, from memory: they leave open 1e-3 of a slope of -7.5e-3"
    ),
}
"""Why no check can tell, by the name of a number: what the source itself leaves open."""


@dataclass(frozen=True)
class Mutant:
    """One number of one module.

    Attributes
    ----------
    kind
        ``"fit"``, ``"constant"``, ``"table"``, ``"instance"`` (a fit with one number replaced)
        or ``"body"``.
    home
        The class of a fit, the name of a table or of an instance, or the code of a body.
    """

    module: str
    name: str
    text: str = field(compare=False)
    kind: str = field(default="constant", compare=False)
    home: Any = field(default=None, compare=False)

    def __str__(self) -> str:
        return f"{self.module}.{self.name} = {self.text}"

    @property
    def step(self) -> float:
        """One unit in the last digit, or 1e-4 of the number."""
        number = Decimal(self.text)
        unit = Decimal((0, (1,), int(number.as_tuple().exponent)))
        return float(max(unit, abs(number) * Decimal("1e-4")))

    def moves(self) -> dict[str, Callable[[float], float]]:
        """Return the changes to make, by name."""
        step = self.step
        found: dict[str, Callable[[float], float]] = {
            "up": lambda number: number + step,
            "down": lambda number: number - step,
        }
        if self.kind in {"fit", "instance"} and float(self.text):
            found["sign"] = lambda number: -number
        return found

    def apply(self, move: Callable[[float], float]) -> None:
        """Move the number wherever it is used, and what follows from it. It is not undone."""
        own = importlib.import_module(self.module)
        last = self.name.rpartition(".")[2]
        if self.kind == "fit":
            for home in instances(self.home):
                put(home, last, move(getattr(home, last)))
        elif self.kind == "instance":
            put(getattr(own, self.home), last, move(getattr(getattr(own, self.home), last)))
        elif self.kind == "table":
            table: MutableMapping[str, Any] = getattr(own, self.home)
            old = table[last]
            table[last] = (move(old[0]), *old[1:]) if isinstance(old, tuple) else move(old)
            anew({"molar_mass", self.home})
        elif self.kind == "body":
            replace_code(self.home, with_number(self.home, float(self.text), move))
        else:
            old = getattr(own, self.name)
            spread(self.name, old, move(old))
            anew({self.name})
        if self.module in {ATOMS, "reefchem.core.quantity"}:
            units = quantity._registry.__wrapped__()
            quantity._registry = lambda: units

    def reached(self) -> set[Hashable]:
        """Return what a check must reach to be able to notice."""
        last = self.name.rpartition(".")[2]
        if self.kind == "fit":
            return {(kind, last) for kind in [self.home, *self.home.__subclasses__()]}
        if self.kind == "instance":
            own = vars(importlib.import_module(self.module))
            return {(type(own[self.home]), last)}
        if self.kind == "body":
            return {self.home}
        if self.module == ATOMS:
            made = {n for s in statements() if last in s.elements for n in s.names}
            told = {
                c for c in users(frozenset({self.home})) if c.co_filename.startswith(str(TESTS))
            }
            return {("weight", last), *told, *users(frozenset(followers(made)))}
        return set(users(frozenset(followers({self.home or self.name}))))


def put(home: object, name: str, number: float) -> None:
    """Set an attribute, also of a frozen fit."""
    if isinstance(home, Fit):
        object.__setattr__(home, name, number)
    else:
        setattr(home, name, number)


def instances(fit: type[Fit]) -> list[object]:
    """Return the class of a fit and every fit of that class that a relation holds."""
    own = getattr(fit, "__annotations__", {})
    heirs = [kind for kind in fit.__subclasses__() if not own.keys() & kind.__annotations__.keys()]
    return [fit, *(found for found in our_fits() if type(found) in {fit, *heirs})]


@cache
def our_fits() -> list[Fit]:
    """Return every fit that is there."""
    return [found for found in gc.get_objects() if isinstance(found, Fit)]


@cache
def our_modules() -> list[ModuleType]:
    """Return the modules of the package and of its tests."""
    found = [m for m in list(sys.modules.values()) if isinstance(m, ModuleType)]
    own = tuple(str(ROOT / name) for name in ("reefchem", "tests"))
    return [m for m in found if (getattr(m, "__file__", None) or "").startswith(own)]


@cache
def our_functions() -> list[FunctionType]:
    """Return the functions of the package and of its tests."""
    kinds = (o for o in gc.get_objects() if type(o) is FunctionType)
    return [f for f in kinds if f.__code__.co_filename.startswith(mutation_bench.OURS)]


def spread(name: str, old: object, new: object) -> None:
    """Put a new value of a constant wherever the old one was imported or became a default."""
    for module in our_modules():
        if vars(module).get(name) is old:
            setattr(module, name, new)
    for function in our_functions():
        if old in (known := function.__kwdefaults__ or {}).values():
            known.update({k: new for k, value in known.items() if value is old})
        if any(value is old for value in function.__defaults__ or ()):
            given = function.__defaults__ or ()
            function.__defaults__ = tuple(new if value is old else value for value in given)
    for record in (records() | calculations()).values():
        for argument in record.arguments.values():
            argument.possible = tuple(new if b is old else b for b in argument.possible)
            argument.bounds = tuple(new if b is old else b for b in argument.bounds)
        space = record.function.__globals__
        space.update({key: new for key, value in space.items() if value is old})


@dataclass(frozen=True)
class Statement:
    """An assignment of a module outside its functions, which is done when it is imported."""

    module: str
    names: tuple[str, ...]
    uses: frozenset[str]
    text: str = field(compare=False)

    @property
    def elements(self) -> set[str]:
        """The elements of the formulas whose molar mass it asks for."""
        formulas = re.findall(r'molar_mass\("([^"]+)"\)', self.text)
        return {element for formula in formulas for element in atoms_in(formula)}


@cache
def statements() -> list[Statement]:
    """Return the assignments of the package that work something out, in the order of imports."""
    found = []
    for name, module in list(sys.modules.items()):
        path = getattr(module, "__file__", None)
        if not name.startswith("reefchem.") or not path:
            continue
        text = Path(path).read_text(encoding="utf-8")
        for node in ast.parse(text).body:
            if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
                continue
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            names = tuple(n.id for t in targets for n in ast.walk(t) if isinstance(n, ast.Name))
            uses = {n.id for n in ast.walk(node.value) if isinstance(n, ast.Name)}
            uses |= {n.attr for n in ast.walk(node.value) if isinstance(n, ast.Attribute)}
            segment = ast.get_source_segment(text, node) or ""
            if not segment.startswith("_imported"):
                found.append(Statement(name, names, frozenset(uses), segment))
    return found


def anew(moved: set[str]) -> None:
    """Work out again what follows from names that have moved."""
    waiting, known = list(statements()), set(moved)
    changed = True
    while changed:
        changed = False
        for statement in list(waiting):
            if statement.uses & known and set(statement.names).isdisjoint(known):
                waiting.remove(statement)
                redo(statement)
                known |= set(statement.names)
                changed = True


def redo(statement: Statement) -> None:
    """Do an assignment again and hand its new values to those who imported the old ones."""
    module = sys.modules[statement.module]
    before = {name: vars(module).get(name) for name in statement.names}
    exec(compile(statement.text, str(module.__file__), "exec"), vars(module))  # noqa: S102
    for name, old in before.items():
        new = vars(module)[name]
        if isinstance(old, float | int | tuple | dict | Fit) and old != new:
            spread(name, old, new)
        else:
            setattr(module, name, old)


def followers(names: set[str]) -> set[str]:
    """Return names and what is worked out from them at import."""
    known = set(names)
    while more := {n for s in statements() if s.uses & known for n in s.names} - known:
        known |= more
    return known


@cache
def users(names: frozenset[str]) -> frozenset[CodeType]:
    """Return the code of the functions that read one of the names."""
    values = [vars(m)[name] for m in our_modules() for name in names if name in vars(m)]
    reading = {
        f.__code__
        for f in our_functions()
        if mentioned(f.__code__) & names or any(d is v for d in defaults(f) for v in values)
    }
    guarded = (records() | calculations()).values()
    bounding = {
        record.function.__code__
        for record in guarded
        if any(b is v for a in record.arguments.values() for b in a.possible for v in values)
    }
    return frozenset(reading | bounding)


def defaults(function: FunctionType) -> list[object]:
    """Return what the arguments of a function are where nobody gives them."""
    return [*(function.__defaults__ or ()), *(function.__kwdefaults__ or {}).values()]


def mentioned(code: CodeType) -> set[str]:
    """Return the names that a function reads, those inside it too."""
    inner = [c for c in code.co_consts if isinstance(c, CodeType)]
    return set(code.co_names).union(*map(mentioned, inner))


def with_number(code: CodeType, number: float, move: Callable[[float], float]) -> CodeType:
    """Return the code with one of its numbers moved."""
    made = []
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            made.append(with_number(constant, number, move))
        elif type(constant) is float and constant == number:
            made.append(move(constant))
        else:
            made.append(constant)
    return code.replace(co_consts=tuple(made))


def replace_code(old: CodeType, new: CodeType) -> None:
    """Give every function with some code another one."""
    for function in our_functions():
        if function.__code__ is old:
            function.__code__ = new


def mutants(module: str) -> list[Mutant]:
    """Return the numbers of a module that are written as a literal."""
    loaded = importlib.import_module(module)
    text = Path(str(loaded.__file__)).read_text(encoding="utf-8")
    found: list[Mutant] = []
    for node in ast.parse(text).body:
        if isinstance(node, ast.ClassDef):
            kind = vars(loaded).get(node.name)
            if isinstance(kind, type) and issubclass(kind, Fit):
                found += [
                    Mutant(module, f"{node.name}.{name}", number, "fit", kind)
                    for name, number in literals(node.body, text)
                ]
        elif isinstance(node, ast.FunctionDef):
            found += in_body(loaded, node)
        else:
            found += [
                Mutant(module, name, number)
                for name, number in literals([node], text)
                if name.isupper() and name[0] != "_" and "." in number
            ]
            found += of_table(module, node, text) + of_instance(loaded, node, text)
    return found


def literals(body: list[ast.stmt], text: str) -> Iterator[tuple[str, str]]:
    """Go through name and text of each number that is assigned as a literal."""
    for node in body:
        targets = getattr(node, "targets", None) or [getattr(node, "target", None)]
        value = getattr(node, "value", None)
        number = NUMBER.fullmatch(ast.get_source_segment(text, value) or "") if value else None
        if number and isinstance(targets[0], ast.Name):
            yield targets[0].id, number[0].replace("_", "")


def of_table(module: str, node: ast.stmt, text: str) -> list[Mutant]:
    """Return the numbers of a table by their key; of a pair, the first."""
    name = getattr(getattr(node, "target", None), "id", "")
    table = getattr(node, "value", None)
    if (module, name) not in TABLES or not isinstance(table, ast.Dict):
        return []
    found = []
    for key, value in zip(table.keys, table.values, strict=True):
        number = value.elts[0] if isinstance(value, ast.Tuple) else value
        digits = ast.get_source_segment(text, number) or ""
        if isinstance(key, ast.Constant):
            found.append(Mutant(module, str(key.value), digits, "table", name))
    return found


def of_instance(module: ModuleType, node: ast.stmt, text: str) -> list[Mutant]:
    """Return the numbers that replace one of a fit, where a fit is made for a whole module."""
    value = getattr(node, "value", None)
    if not isinstance(node, ast.Assign) or not isinstance(value, ast.Call):
        return []
    name = getattr(node.targets[0], "id", "")
    if not isinstance(vars(module).get(name), Fit):
        return []
    return [
        Mutant(module.__name__, f"{name}.{given.arg}", digits[0], "instance", name)
        for given in value.keywords
        for digits in NUMBER.finditer(ast.get_source_segment(text, given.value) or "")
    ]


def in_body(module: ModuleType, node: ast.FunctionDef) -> list[Mutant]:
    """Return the numbers with a decimal part or two figures that stand in a function."""
    function = vars(module).get(node.name)
    function = getattr(function, "__wrapped__", function)
    if not isinstance(function, FunctionType):
        return []
    numbers = [
        n.value
        for statement in node.body
        for n in ast.walk(statement)
        if isinstance(n, ast.Constant) and type(n.value) is float
    ]
    telling = {n for n in numbers if len(Decimal(repr(n)).normalize().as_tuple().digits) > 1}
    return [
        Mutant(module.__name__, f"{node.name}.{n!r}", repr(n), "body", function.__code__)
        for n in sorted(telling)
        if not any(n in arg for arg in bounds(node))
    ]


def bounds(node: ast.FunctionDef) -> list[set[float]]:
    """Return the numbers of each call that bounds something: they are nobody's measurement."""
    names = {"arg", "find_root", "newton", "vouched"}
    calls = [c for c in ast.walk(node) if isinstance(c, ast.Call)]
    return [
        {n.value for n in ast.walk(c) if isinstance(n, ast.Constant) and type(n.value) is float}
        for c in calls
        if getattr(c.func, "id", "") in names
    ]


def modules() -> list[str]:
    """Return the modules of the package that may hold a number."""
    records(), calculations()
    found = (name for name in sys.modules if name.startswith("reefchem."))
    ours = (name for name in found if name.split(".")[1] in FOLDERS)
    return sorted(n for n in ours if n in PUBLISHED or not n.startswith(TECHNICAL))


def chosen(names: list[str]) -> list[Mutant]:
    """Return the numbers of the modules, or the numbers, that are named; without names, all."""
    every = [mutant for module in modules() for mutant in mutants(module)]
    dotted = tuple(f"{name}." for name in names)
    return [m for m in every if f"{m.module}.{m.name}.".startswith(dotted or "reefchem.")]


def checks(found: list[Mutant]) -> list[Path]:
    """Return the files of checks; for some modules only those that name a relation of them."""
    everywhere = [TESTS / "test_published.py", TESTS / "test_examples.py"]
    files = sorted(path for folder in FOLDERS for path in (TESTS / folder).glob("test_*.py"))
    topics = {mutant.module for mutant in found}
    if "--own" in sys.argv:
        own = {f"{m.split('.')[-2]}/test_{m.split('.')[-1]}.py" for m in topics}
        return everywhere[:1] + [p for p in files if f"{p.parent.name}/{p.name}" in own]
    if len(topics) > 5:
        return everywhere + files
    pattern = re.compile(rf"\b(?:{'|'.join(sorted(names_of(topics)))})\b")
    return everywhere + [p for p in files if pattern.search(p.read_text(encoding="utf-8"))]


def names_of(topics: set[str]) -> set[str]:
    """Return the names of modules and of what they describe."""
    described = (records() | calculations()).values()
    return {r.name for r in described if r.module in topics} | {m.split(".")[-1] for m in topics}


def judge(found: list[Mutant], bench: Bench) -> int:
    """Print what was noticed and what survived; return the exit status."""
    our_modules(), our_functions(), our_fits(), statements()  # once, and not in each fork
    tally: Counter[str] = Counter()
    for mutant in found:
        checks_of_it = bench.reaching(mutant.reached())
        said = {
            name: bench.noticed_by(partial(mutant.apply, move), checks_of_it)
            for name, move in mutant.moves().items()
        }
        unseen = [name for name, check in said.items() if not check]
        why = EXPLAINED.get(f"{mutant.module}.{mutant.name}")
        tally["all"] += 1
        tally["noticed"] += not unseen
        if unseen:
            tally["open"] += why is None
            print(f"survives: {mutant} {unseen} of {len(checks_of_it)} checks; {why or '?'}")  # noqa: T201
        elif why:
            tally["open"] += 1
            print(f"noticed, so take it off the list: {mutant} by {said['up']}")  # noqa: T201
        for name, check in said.items():
            tally[f"a {'published value' if 'test_published' in check else 'test'}"] += bool(check)
            if "-v" in sys.argv:
                print(f"  {mutant} {name}: {check}")  # noqa: T201
        sys.stdout.flush()
    share = 100 * tally["noticed"] / max(tally["all"], 1)
    print(f"{tally['noticed']} of {tally['all']} noticed ({share:.1f} %)")  # noqa: T201
    print({k: v for k, v in tally.items() if k.startswith("a ")})  # noqa: T201
    return 1 if tally["open"] else 0


def main(names: list[str]) -> int:
    """Change the numbers that are named, or all, and return the exit status."""
    files = [Path(name) for name in names if name.endswith(".py")]
    found = chosen([name for name in names if not name.endswith(".py")])
    own = names_of({mutant.module for mutant in found}) if "--own" in sys.argv else ()
    return mutation_bench.run(partial(judge, found), files or checks(found), own)


if __name__ == "__main__":
    sys.exit(main([name for name in sys.argv[1:] if name[0] != "-"]))
