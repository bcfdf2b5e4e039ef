"""What the page on checking a calculation shows is what the commands print."""

import re
import shlex
import sys

import pytest
from absent import node
from click.testing import CliRunner
from conftest import ROOT

from reefchem.cli import main
from reefchem.export.answers import from_command
from reefchem.export.conformance import loosened
from reefchem.export.vectors import vectors

PAGE = (ROOT / "book" / "parts" / "checking_a_calculation.md").read_text(encoding="utf-8")
SHOWN = re.findall(r"^\$ reefchem (.*)\n((?:(?!\$ |```).*\n)+)", PAGE, re.MULTILINE)


@pytest.mark.parametrize(("call", "output"), SHOWN, ids=[call for call, _ in SHOWN])
def test_a_command_of_the_page_prints_what_stands_there(call, output):
    assert CliRunner().invoke(main, shlex.split(call)).output == output


def test_the_page_shows_several_commands():
    assert len(SHOWN) >= 5


def test_the_program_of_the_page_agrees(tmp_path):
    program = tmp_path / "my_program.mjs"
    program.write_text(re.search(r"```js\n(.*?)```", PAGE, re.DOTALL)[1], encoding="utf-8")
    asked = loosened(vectors(["nitrate_from_nitrogen", "seawater_density"]), 1e-4)
    report = from_command(f"{node()} {program}", asked)
    assert report.agrees, report.text()
    assert {verdict.vector.relation for verdict in report.verdicts} == {"nitrate_from_nitrogen"}


def test_a_share_that_is_no_percentage_is_refused(tmp_path):
    (tmp_path / "nothing.csv").write_text("id,value\n", encoding="utf-8")
    for odd in ("0.1", "much %", "-1 %", "inf %"):
        asked = ["check", "results", str(tmp_path / "nothing.csv"), "--within", odd]
        result = CliRunner().invoke(main, asked)
        assert result.exit_code == 2
        assert "is no percentage" in result.output


def test_python_runs_the_program_that_the_command_names():
    with pytest.raises(Exception, match="ended with status 3"):
        from_command(f"{sys.executable} -c 'raise SystemExit(3)'", vectors(["us_gallons"]))
