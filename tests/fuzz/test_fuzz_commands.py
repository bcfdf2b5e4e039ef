"""The command line never ends in a traceback, whatever it is given."""

from __future__ import annotations

import pytest
from click.testing import CliRunner
from fuzz.damage import ABSURD, LOG, TANK, damaged, pieces_of
from hypothesis import given
from hypothesis import strategies as st

from reefchem.cli import main

INPUT = [
    *("salinity", "temperature", "=", "35", "25", " degC", " degF", " K", " mL", " ", "-", "--"),
    *("e9", "1e999", "nan", ",", ".", "**9", "(", ")", '"', "--digits", "--json", "\udcff", "\x00"),
]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("fuzz")


def run(*arguments):
    """Return the result of a command after judging how it ended."""
    result = CliRunner().invoke(main, [str(argument) for argument in arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit), arguments
    assert result.exit_code in {0, 1, 2}
    assert "Traceback" not in result.output
    return result


@given(data=st.data())
def test_a_plan_of_damaged_files_is_a_plan_or_a_plain_error(folder, data):
    for name, whole in (("tank.toml", TANK), ("log.csv", LOG)):
        kept = data.draw(st.one_of(st.just(whole), damaged(whole)), label=name)
        (folder / name).write_bytes(kept)
    result = run("plan", folder / "tank.toml")
    assert result.exit_code != 2
    assert (result.exit_code == 1) == result.stderr.startswith("Error: ")
    assert bool(result.stdout) == (result.exit_code == 0)


@given(description=st.sampled_from(ABSURD), log=st.binary(max_size=60))
def test_a_plan_of_rubbish_is_a_plain_error(folder, description, log):
    (folder / "tank.toml").write_bytes(description)
    (folder / "log.csv").write_bytes(log)
    assert run("plan", folder / "tank.toml").exit_code == 1


@given(st.lists(pieces_of(INPUT, 5), max_size=4))
def test_any_inputs_of_a_working_give_a_working_or_a_plain_error(inputs):
    result = run("work", "seawater_density", *inputs)
    assert result.exit_code == 0 or result.stderr


@given(st.lists(pieces_of(INPUT, 5), max_size=4), pieces_of(INPUT, 3))
def test_any_claim_gives_a_judgement_or_a_plain_error(inputs, claimed):
    run("check", "value", "seawater_density", *inputs, "--result", claimed)


@given(st.lists(st.text(max_size=20), max_size=4))
def test_any_words_end_in_help_or_a_plain_error(words):
    run(*words)
