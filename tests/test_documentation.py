"""What is written beside the code: it runs, it is complete, it is spelt, it names no machine."""

from __future__ import annotations

import ast
import doctest
import importlib
import re
import subprocess
import sys
import tomllib
from itertools import chain
from pathlib import Path

import pytest
from conftest import ROOT

import reefchem
from reefchem.core.record import calculations, records

PACKAGE = Path(reefchem.__file__).parent
MODULES = sorted(
    ".".join(("reefchem", *path.relative_to(PACKAGE).with_suffix("").parts)).removesuffix(
        ".__init__"
    )
    for path in PACKAGE.rglob("*.py")
    if path.name != "__main__.py"
)
DESCRIBED = records() | calculations()

OURS = ("reefchem", "book", "tests", "demo", "shared", ".ci", ".constraints")
WRITTEN = {".py", ".md", ".toml", ".txt", ".bib", ".js", ".css", ".html", ".csv", ".yaml", ".yml"}


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_the_docstrings_run(name):
    module = importlib.import_module(name)
    flags = doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS
    finder = doctest.DocTestFinder(exclude_empty=True)
    runner = doctest.DocTestRunner(optionflags=flags)
    told = []
    # A relation is a function written around its body; the finder asks where the body stands.
    for test in finder.find(module, name, globs=dict(vars(module))):
        runner.run(test, out=told.append)
    for value in vars(module).values():
        record = getattr(value, "__relation__", None)
        if record is not None and record.module == name:
            for test in finder.find(record.kernel, record.name, module, globs=dict(vars(module))):
                runner.run(test, out=told.append)
    assert runner.failures == 0, "".join(told)


def test_the_examples_of_relations_are_found():
    from reefchem.seawater import density  # noqa: PLC0415 - the module is the test

    kernel = density.pure_water_density.__wrapped__
    found = doctest.DocTestFinder().find(kernel, "pure_water_density", density)
    assert sum(len(test.examples) for test in found) >= 1


@pytest.mark.parametrize("record", DESCRIBED.values(), ids=DESCRIBED.keys())
def test_the_docstring_of_a_relation_describes_what_it_takes(record):
    text = record.kernel.__doc__
    assert text.startswith("Return ")
    if "Parameters\n" in text:
        section = text.partition("Parameters\n")[2].partition("\n\n    Returns")[0]
        named = set(re.findall(r"^    (\w+(?:, \w+)*)(?: : .*)?$", section, re.MULTILINE))
        names = {name for group in named for name in group.split(", ")}
        taken = {*record.arguments, *record.options}
        assert names & taken, "the section names none of the arguments"


@pytest.mark.parametrize(
    "path", sorted(PACKAGE.rglob("*.py")), ids=lambda p: str(p.relative_to(PACKAGE))
)
def test_every_public_class_and_function_says_what_it_is_for(path):
    tree = ast.parse(path.read_text(encoding="utf-8"))
    assert ast.get_docstring(tree), "the module has no docstring"
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            assert ast.get_docstring(node), f"{node.name} has no docstring"


def written():
    """Return every text file that the project would give away."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    if listed.returncode == 0 and listed.stdout:
        paths = [ROOT / line for line in listed.stdout.splitlines()]
    else:  # a source distribution is no repository
        paths = [path for part in OURS for path in (ROOT / part).rglob("*")]
        paths += [path for path in ROOT.iterdir() if path.is_file()]
    return [path for path in paths if path.suffix in WRITTEN and path.is_file()]


FORBIDDEN = {
    "a path of one machine": r"/(?:home|Users|root|tmp|work)/\w",
    "an address of one machine": r"\b(?:localhost|127\.0\.0\.1|192\.168\.\d+\.\d+)\b",
    "a registry": r"(?:index-url|extra-index|--registry|simple/\s|artifactory|nexus)",
    "unfinished work": r"\b(?:TODO|FIXME|XXX|lorem ipsum)\b",
}
MAY = {
    "tests/test_documentation.py": set(FORBIDDEN),
}


@pytest.mark.parametrize("what", FORBIDDEN)
def test_nothing_that_is_given_away_holds(what):
    pattern = re.compile(FORBIDDEN[what])
    found = [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:80]}"
        for path in written()
        if what not in MAY.get(str(path.relative_to(ROOT)), ())
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if pattern.search(line)
    ]
    assert not found, "\n".join(found)


def test_the_words_are_spelt():
    paths = [
        str(path.relative_to(ROOT)) for path in written() if path.suffix in {".py", ".md", ".toml"}
    ]
    made = subprocess.run(
        [sys.executable, "-m", "codespell_lib", "--toml", "pyproject.toml", *paths],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode == 0, made.stdout + made.stderr


README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_code_of_the_readme_runs():
    told = []
    flags = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE
    test = doctest.DocTestParser().get_doctest(README, {}, "README.md", "README.md", 0)
    runner = doctest.DocTestRunner(optionflags=flags)
    runner.run(test, out=told.append)
    assert runner.tries >= 10
    assert runner.failures == 0, "".join(told)


def blocks(language):
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def test_the_readme_has_one_command_for_the_job_and_one_for_the_tests():
    job, tests = blocks("sh")
    for command in (job, tests):
        assert command.count("\n") == 1
        assert "pip install" in command
        assert (ROOT / re.search(r"-c (\S+)", command)[1]).is_file()
    assert job.strip().endswith("-m demo")
    assert "-m pytest" in tests


def commands():
    return [
        line[2:] for block in blocks("console") for line in block.splitlines() if line[:2] == "$ "
    ]


@pytest.mark.parametrize("command", [c for c in commands() if c.startswith("reefchem ")])
def test_every_command_of_the_readme_exists(command):
    from click.testing import CliRunner  # noqa: PLC0415 - the command line is loaded here only

    from reefchem.cli import main  # noqa: PLC0415

    words = command.split()[1:]
    depth = 2 if words[0] in {"export", "check"} and not words[1].startswith("-") else 1
    result = CliRunner().invoke(main, [*words[:depth], "--help"])
    assert result.exit_code == 0, result.output
    options = [word for word in words if word.startswith("--")]
    assert all(option in result.output for option in options)


def test_every_file_that_the_readme_names_is_there():
    named = re.findall(r"\]\(([^)#:]+)\)", README) + re.findall(r"`python (\S+\.py)", README)
    assert named
    missing = [name for name in named if not (ROOT / name).exists()]
    assert not missing


def test_every_file_and_folder_that_developers_are_sent_to_is_there():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = re.findall(r"`((?:reefchem|tests|book|shared|\.ci)/[\w./-]*)`", text)
    named += re.findall(r"python (\S+\.py)", text)
    named += [f"reefchem/{name}" for name in re.findall(r"^  (\w+/) ", text, re.MULTILINE)]
    assert len(named) > 20
    missing = [name for name in named if not (ROOT / name).exists()]
    assert not missing


def test_the_readme_cites_the_version_that_this_is():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert f"Version {project['version']}." in README
    assert f"version = {{{project['version']}}}" in README


def test_the_constraints_name_all_that_an_extra_asks_for():
    """A clone that pins must pin everything, or what it gets changes from day to day."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = [*project["dependencies"], *chain(*project["optional-dependencies"].values())]
    names = {re.match(r"[\w.-]+", line)[0].lower().replace("_", "-") for line in asked}
    for path in sorted((ROOT / ".constraints").glob("py3*.txt")):
        pinned = {line.partition("==")[0] for line in path.read_text(encoding="utf-8").split()}
        assert names - {"reefchem"} <= pinned, path.name
