"""Imports go one way, and nothing heavy is loaded by those who do not use it."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from importlib.metadata import packages_distributions
from itertools import chain
from pathlib import Path

import pytest

import reefchem

PACKAGE = Path(reefchem.__file__).parent

SCIENCE = ("core", "seawater", "conversion", "carbonate", "dosing", "tank")
READERS = (*SCIENCE, "formula", "uncertainty", "derive", "examples")
MAY_IMPORT = {
    **{part: SCIENCE[: index + 1] for index, part in enumerate(SCIENCE)},
    "formula": ("core", "formula"),
    "tank": (*SCIENCE, "formula"),  # a plan writes its numbers as the workings do
    "uncertainty": (*SCIENCE, "formula", "uncertainty"),
    "derive": (*SCIENCE, "formula", "derive"),
    "examples": (*SCIENCE, "formula", "examples"),
    "export": (*READERS, "export"),
    "textbook": (*READERS, "export", "textbook"),
    "report": (*READERS, "export", "report"),
    "commands": (*READERS, "export", "report", "commands"),
}
"""What each part of the package may lean on. One that is missing here is not part of the design."""

SYMPY = {"derive", "export", "uncertainty", "textbook"}
SPHINX = {"sphinx", "docutils", "myst_parser", "sphinxcontrib", "pybtex"}
LIGHT = (*SCIENCE, "formula")


def modules():
    return sorted(PACKAGE.rglob("*.py"))


def part_of(path):
    inside = path.relative_to(PACKAGE).parts
    return inside[0] if len(inside) > 1 else ""


def name_of(path):
    return ".".join(("reefchem", *path.relative_to(PACKAGE).with_suffix("").parts))


def imported(tree, package):
    """Yield the full name of each module that is imported, and whether at module level."""
    inner = {
        id(node)
        for outer in ast.walk(tree)
        if isinstance(outer, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
        for node in ast.walk(outer)
    }
    typing = {
        id(node)
        for block in ast.walk(tree)
        if isinstance(block, ast.If) and getattr(block.test, "id", "") == "TYPE_CHECKING"
        for statement in block.body
        for node in ast.walk(statement)
    }
    for node in ast.walk(tree):
        at_module = id(node) not in inner and id(node) not in typing
        if isinstance(node, ast.Import):
            yield from ((alias.name, at_module) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(package.split(".")[: -node.level or None]) if node.level else ""
            module = ".".join(filter(None, [base, node.module]))
            yield module, at_module
            if module == "reefchem":
                yield from ((f"reefchem.{alias.name}", at_module) for alias in node.names)


def imports_of(path):
    return list(imported(ast.parse(path.read_text(encoding="utf-8")), name_of(path)))


def test_the_reader_of_imports_sees_all_of_them():
    tree = ast.parse(
        "import a, b.c\nfrom reefchem import tank\nfrom . import near\n"
        "if TYPE_CHECKING:\n    import d\nelse:\n    import e\n"
        "def f():\n    from g.h import i\n"
    )
    assert set(imported(tree, "reefchem.core.x")) == {
        ("a", True),
        ("b.c", True),
        ("reefchem", True),
        ("reefchem.tank", True),
        ("reefchem.core", True),
        ("d", False),
        ("e", True),
        ("g.h", False),
    }


def test_every_part_of_the_package_has_its_place():
    parts = {part_of(path) for path in modules()} - {""}
    assert parts <= MAY_IMPORT.keys()


@pytest.mark.parametrize("path", [p for p in modules() if part_of(p)], ids=name_of)
def test_imports_go_one_way(path):
    part = part_of(path)
    for name, _ in imports_of(path):
        top, _, rest = name.partition(".")
        if top == "reefchem" and rest:
            assert rest.split(".")[0] in MAY_IMPORT[part], f"{part} does not lean on {name}"


@pytest.mark.parametrize("path", modules(), ids=name_of)
def test_heavy_libraries_stay_where_they_are_used(path):
    part = part_of(path)
    for name, at_module in imports_of(path):
        top = name.partition(".")[0]
        if top == "sympy" and at_module:
            assert part in SYMPY or path.name == "symbolic.py"
        if top in {"numpy", "pint", "scipy", "pandas", "matplotlib", "jinja2"}:
            assert not at_module or part not in {*LIGHT, ""}, f"{name} is loaded by all"
        if top in SPHINX:
            assert part == "textbook"


def test_every_library_that_is_imported_is_asked_for():
    """Or a fresh clone fails where this machine has by chance what is missing."""
    root = PACKAGE.parent
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = [*project["dependencies"], *chain(*project["optional-dependencies"].values())]
    wanted = {re.match(r"[\w.-]+", line)[0].lower().replace("_", "-") for line in asked}
    shipped = packages_distributions()
    made_up = {"shapes"}  # by a test of the core
    places = chain(root.glob("*/"), root.glob("tests/**/*"), root.glob("book/*"))
    own = {path.stem for path in places} | made_up
    missing = {}
    for path in chain(*(root.glob(f"{part}/**/*.py") for part in ("reefchem", "tests", "book"))):
        for name, _ in imported(ast.parse(path.read_text(encoding="utf-8")), "none"):
            top = name.partition(".")[0]
            if not top or top in sys.stdlib_module_names or top in own:
                continue
            homes = {home.lower().replace("_", "-") for home in shipped.get(top, [top])}
            if not homes & wanted:
                missing[top] = path.relative_to(root)
    assert not missing


def loaded(code):
    """Return the names of the modules that are loaded after some code in a fresh interpreter."""
    script = f"import sys\n{code}\nprint(' '.join(sys.modules))"
    made = subprocess.run(
        [sys.executable, "-I", "-c", script], capture_output=True, text=True, check=True
    )
    return {name.partition(".")[0] for name in made.stdout.split()} | set(made.stdout.split())


@pytest.fixture(scope="module")
def bare():
    return loaded("")


@pytest.mark.parametrize(
    "code",
    [
        "import reefchem",
        "from reefchem.seawater import seawater_density; seawater_density(35.0, 25.0)",
        "from reefchem.seawater import salinity_from_density; salinity_from_density(1023.0, 25.0)",
        "from reefchem.seawater import seawater_density; seawater_density(35, 25)",
        (
            "from reefchem.carbonate import carbonate_system as system;"
            " system(total_alkalinity=2300.0, dic=2000.0, salinity=35.0, temperature=25.0).ph_total"
        ),
    ],
    ids=["import", "density", "salinity", "integers", "carbonate system"],
)
def test_a_scalar_answer_loads_nothing_heavy(bare, code):
    more = loaded(code) - bare
    assert "reefchem" in more
    assert not more & {"numpy", "sympy", "pint", "scipy", "sphinx", "matplotlib", "click"}


def test_a_scalar_density_loads_neither_dataclasses_nor_inspect(bare):
    code = "from reefchem.seawater import seawater_density; seawater_density(35.0, 25.0)"
    more = loaded(code) - bare
    assert not more & {"dataclasses", "inspect", "typing", "pathlib", "warnings"}


def test_import_loads_almost_nothing(bare):
    mine = {name for name in loaded("import reefchem") - bare if name.startswith("reefchem")}
    assert mine == {"reefchem", "reefchem.core", "reefchem.core.lazy"}
