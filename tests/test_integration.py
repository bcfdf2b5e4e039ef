"""The integrator's page: every block of it runs, in Python, at a terminal and in JavaScript."""

from __future__ import annotations

import doctest
import json
import re
import shlex
import subprocess

import pytest
from absent import node
from click.testing import CliRunner
from conftest import ROOT

from reefchem.cli import main
from reefchem.export.javascript import module_source

PAGE = (ROOT / "book" / "parts" / "using_the_package.md").read_text(encoding="utf-8")
FLAGS = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE


def blocks(language):
    return re.findall(rf"^```{language}\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


def calls():
    """Return each command at the prompt with what it prints."""
    found = []
    for block in blocks("console"):
        for call in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, printed = call.partition("\n")
            found.append((command, printed))
    return found


def test_every_block_is_of_a_language_that_is_run():
    named = set(re.findall(r"^```(\w+)$", PAGE, re.MULTILINE))
    assert named == {"python", "console", "shell", "javascript"}


def test_the_python_runs_and_prints_what_the_page_says():
    text = "\n".join(blocks("python"))
    test = doctest.DocTestParser().get_doctest(text, {}, "using_the_package", None, 0)
    told = []
    doctest.DocTestRunner(optionflags=FLAGS).run(test, out=told.append)
    assert len(test.examples) > 30
    assert not told, "".join(told)


@pytest.mark.parametrize(("command", "printed"), calls(), ids=[c for c, _ in calls()])
def test_a_command_prints_what_the_page_says(command, printed, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    program, *arguments = shlex.split(command)
    assert program == "reefchem"
    made = CliRunner().invoke(main, arguments)
    assert isinstance(made.exception, SystemExit | None)
    assert doctest.OutputChecker().check_output(printed, made.output, FLAGS), made.output


def test_the_lines_for_each_shell_are_those_that_click_answers():
    (block,) = blocks("shell")
    shells = re.findall(r"_REEFCHEM_COMPLETE=(\w+)_source", block)
    assert shells == ["bash", "zsh", "fish"]
    for shell in shells:
        made = CliRunner().invoke(
            main, [], prog_name="reefchem", env={"_REEFCHEM_COMPLETE": f"{shell}_source"}
        )
        assert made.exit_code == 0
        assert f"_REEFCHEM_COMPLETE={shell}_complete" in made.output


def test_the_javascript_gives_what_the_page_says(tmp_path):
    (block,) = blocks("javascript")
    (tmp_path / "reefchem.mjs").write_text(module_source(), encoding="utf-8")
    expected = []
    lines = []
    for line in block.splitlines():
        expression, _, comment = line.partition(";")
        said = comment.strip().removeprefix("// ")
        if said[:1].isdigit() or said[:1] == '"':
            expected.append(json.loads(said))
            lines.append(f"console.log(JSON.stringify({expression}));")
        else:
            lines.append(line)
    (tmp_path / "page.mjs").write_text("\n".join(lines), encoding="utf-8")
    made = subprocess.run(
        [node(), tmp_path / "page.mjs"], capture_output=True, text=True, check=True
    )
    answers = [json.loads(line) for line in made.stdout.splitlines()]
    assert len(expected) == 4
    for answer, said in zip(answers, expected, strict=True):
        assert answer == (said if isinstance(said, str) else pytest.approx(said, rel=1e-12))
