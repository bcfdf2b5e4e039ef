"""The command line: plans and workings out, plain errors instead of tracebacks."""

from __future__ import annotations

import json
import os
import random
import re
import subprocess
import sys
from importlib.metadata import version

import pytest
from click.testing import CliRunner

from reefchem.cli import COMMANDS, main
from reefchem.export.vectors import vectors
from reefchem.tank.description import FIELDS
from reefchem.tank.log import COLUMNS, KINDS
from reefchem.tank.quantities import AMOUNTS, READINGS


@pytest.fixture
def demo(root):
    return root / "demo" / "tank.toml"


def run(*arguments):
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def test_a_plan_is_printed_and_the_code_is_0(demo):
    result = run("plan", demo)
    assert result.exit_code == 0
    order = [result.output.index(title) for title in ("TODAY", "WHY", "HOW SURE", "CAUTIONS")]
    assert order == sorted(order)


def test_a_plan_can_be_written_as_a_page(demo, tmp_path):
    page = tmp_path / "deep" / "plan.html"
    result = run("plan", demo, "--html", page, "--book", "https://example.org/book/")
    assert result.exit_code == 0
    assert 'href="https://example.org/book/relations.html#daily_dose"' in page.read_text("utf-8")


def test_json_is_all_that_is_printed(demo):
    result = run("plan", demo, "--json")
    assert json.loads(result.stdout)["format"] == "reefchem plan 1"


def test_the_workings_can_be_printed_too(demo):
    output = run("plan", demo, "--working").output
    assert "v = n·V / p" in output
    assert "volume: tank.toml, tank.volume" in output


def test_a_fault_in_the_log_gives_code_1_and_its_place(demo, tmp_path):
    text = demo.read_text("utf-8")
    (tmp_path / "tank.toml").write_text(text, encoding="utf-8")
    log = (demo.parent / "log.csv").read_text("utf-8").replace(",7.2,dKH", ",72,dKH", 1)
    (tmp_path / "log.csv").write_text(log, encoding="utf-8")
    result = run("plan", tmp_path / "tank.toml")
    assert result.exit_code == 1
    line = 1 + next(i for i, row in enumerate(log.splitlines()) if ",72,dKH" in row)
    assert f"log.csv, line {line}, column value: alkalinity is 72 dKH" in result.output
    assert "Traceback" not in result.output


@pytest.mark.parametrize("name", ["nowhere.toml", "."])
def test_a_file_that_cannot_be_read_gives_code_1(name):
    result = run("plan", name)
    assert result.exit_code == 1
    assert "cannot be read" in result.output


NUMBER = re.compile(rb"(?<=[ ,\"])\d+(\.\d+)?(?=[ ,\"%])")
PUT_IN = [b"0", b"3", b"12", b"60", b"100", b"999", b"0.0001", b"1e308", b"-1", b"x", b"\xff", b'"']


@pytest.mark.parametrize("seed", range(24))
def test_damaged_files_end_in_a_plan_or_in_plain_words(demo, tmp_path, seed):
    """Two numbers of the description and two of the log are overwritten, some with rubbish."""
    draw = random.Random(seed)  # noqa: S311 - no secret is made
    for name in ("tank.toml", "log.csv"):
        raw = (demo.parent / name).read_bytes()
        for _ in range(2):
            first, last = draw.choice([m.span() for m in NUMBER.finditer(raw)])
            raw = raw[:first] + draw.choice(PUT_IN) + raw[last:]
        (tmp_path / name).write_bytes(raw)
    result = run("plan", tmp_path / "tank.toml", "--json")
    assert result.exit_code in {0, 1}
    assert result.exception is None or isinstance(result.exception, SystemExit)
    if result.exit_code == 1:
        assert result.output.startswith("Error: ")


def test_no_file_is_a_usage_error():
    assert run("plan").exit_code == 2


def test_a_page_that_cannot_be_written_gives_code_1(demo, tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    result = run("plan", demo, "--html", tmp_path / "file" / "plan.html")
    assert result.exit_code == 1
    assert "cannot be written" in result.output


def test_the_fields_of_both_files_are_explained():
    output = run("plan", "--fields").output
    for table, keys in FIELDS.items():
        label = "[[stock]]" if table == "stock" else f"[{table}]"
        assert all(f"  {label} {key}: {field.meaning}" in output for key, field in keys.items())
    assert all(f"  {name}: " in output for name in [*COLUMNS, *KINDS, *READINGS])
    for measure in [*READINGS.values(), *AMOUNTS.values()]:
        assert measure.units() in output


def test_the_working_of_a_relation_is_printed():
    result = run("work", "daily_dose", "need=0.2", "volume=180", "potency=0.9")
    assert result.exit_code == 0
    assert "= 0.2·180 / 0.9" in result.output
    assert "= 40.0000 mL/d" in result.output


def test_an_input_may_have_a_unit_of_its_own():
    result = run("work", "daily_dose", "need=1 dKH/day", "volume=180", "potency=0.9 meq/mL")
    assert "need = 0.3566" in result.output, "what has none is in the unit that is recorded"
    with_all = run("work", "daily_dose", "need=1 dKH/day", "volume=180L", "potency=0.9 meq/mL")
    assert with_all.output == result.output


def test_a_relation_says_what_it_takes():
    assert "volume in L, typical 20 to 1000" in run("work", "daily_dose").output


@pytest.mark.parametrize(
    "arguments",
    [
        ("daily_dos",),
        ("daily_dose", "need"),
        ("daily_dose", "need=x"),
        ("daily_dose", "need=0.2"),
        ("daily_dose", "need=0.2", "volume=1", "potency=1", "colour=3"),
        ("daily_dose", "need=0.2 foo/bar", "volume=1", "potency=1"),
        ("daily_dose", "need=0.2", "volume=-1", "potency=1"),
        ("daily_dose", "need=0.2", "volume=1", "potency=0"),
        ("daily_dose", "need=0.2 (", "volume=1", "potency=1"),
    ],
)
def test_a_slip_gives_code_1_and_one_plain_message(arguments):
    result = run("work", *arguments)
    assert result.exit_code == 1
    assert result.output.startswith("Error: ")
    assert isinstance(result.exception, SystemExit)


def test_a_working_as_json_has_all_digits_units_and_source():
    result = run("work", "calcium_used", "alkalinity_used=0.35665", "--json")
    data = json.loads(result.stdout)
    assert data["value"] == pytest.approx(0.35665 / 2 * 40.078, rel=1e-15)
    assert (data["unit"], data["source"]) == ("mg/L", "prohaska2022")
    assert data["inputs"] == {"alkalinity_used": {"value": 0.35665, "unit": "meq/L"}}
    assert data["notes"] == []


def test_what_is_outside_a_range_is_noted_in_the_json():
    result = run("work", "seawater_density", "salinity=35", "temperature=60", "--json")
    assert "the source covers -2 to 40 degC" in json.loads(result.stdout)["notes"][0]
    assert result.stderr == ""


def test_a_record_can_be_had_as_json():
    data = json.loads(run("work", "seawater_density", "--json").stdout)
    assert data["arguments"]["temperature"]["valid"] == [-2.0, 40.0]


def test_a_claim_judged_as_json_keeps_the_exit_code():
    call = ("check", "value", "seawater_density", "salinity=35", "temperature=25")
    wrong = run(*call, "--result", "1024.3", "--json")
    assert (wrong.exit_code, json.loads(wrong.stdout)["agrees"]) == (1, False)
    right = run(*call, "--result", "1023.3", "--json")
    assert (right.exit_code, json.loads(right.stdout)["agrees"]) == (0, True)


def test_results_judged_as_json_name_what_differs(tmp_path):
    asked = [v for v in vectors(["nitrate_from_nitrogen"]) if v.expected and v.expected.value]
    lines = ["id,value", *(f"{vector.id},{2 * vector.expected.value}" for vector in asked)]
    (tmp_path / "mine.csv").write_text("\n".join(lines), encoding="utf-8")
    given = ("check", "results", tmp_path / "mine.csv", "--relation", "nitrate_from_nitrogen")
    result = run(*given, "--json", "--most", 2)
    data = json.loads(result.stdout)
    assert result.exit_code == 1
    assert data["differ"] == data["vectors"] > 2
    assert len(data["differing"]) == 2
    worst = data["differing"][0]
    assert worst["answer"] == 2 * worst["expected"]["value"]


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_each_shell_can_complete_the_command(shell):
    setting = {"_REEFCHEM_COMPLETE": f"{shell}_source"}
    result = CliRunner().invoke(main, [], env=setting, prog_name="reefchem")
    assert "_REEFCHEM_COMPLETE" in result.output


def test_help_loads_nothing_heavy():
    code = (
        "import sys; from click.testing import CliRunner; from reefchem.cli import main;"
        "r = CliRunner().invoke(main, ['--help']); assert 'plan' in r.output;"
        "print([m for m in ('numpy', 'sympy', 'pint', 'scipy', 'matplotlib') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_every_command_that_is_installed_has_help():
    for name in main.list_commands(None):
        assert name in COMMANDS
        assert run(name, "--help").exit_code == 0


@pytest.mark.parametrize("option", ["-h", "--help"])
def test_help_tells_the_exit_codes_and_how_to_complete(option):
    output = run(option).output
    assert "Exit codes: 0 all is done; 1" in output
    assert "_REEFCHEM_COMPLETE=bash_source reefchem" in output


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_shell_is_told_how_to_complete(shell):
    words = {"COMP_WORDS": "reefchem pl", "COMP_CWORD": "1" if shell != "fish" else "pl"}
    done = subprocess.run(
        [sys.executable, "-m", "reefchem"],
        env={**os.environ, **words, "_REEFCHEM_COMPLETE": f"{shell}_complete"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert "plan" in done.stdout


def test_the_version_is_that_of_the_package():
    assert run("--version").output.split()[-1] == version("reefchem")


@pytest.mark.parametrize(
    "arguments",
    [
        ("plans",),
        ("plan", "--colour"),
        ("work",),
        ("work", "daily_dose", "--digits", "0"),
        ("check", "x"),
    ],
)
def test_a_wrong_call_gives_code_2_and_how_to_call_it(arguments):
    result = run(*arguments)
    assert result.exit_code == 2
    assert not result.stdout
    assert "Usage: " in result.stderr
    assert "Error: " in result.stderr


def test_what_is_wrong_is_said_on_the_standard_error_only(tmp_path):
    for arguments in (("plan", tmp_path / "nowhere.toml"), ("work", "daily_dose", "need=x")):
        result = run(*arguments)
        assert not result.stdout
        assert result.stderr.startswith(("Error: ", "Usage: "))


def test_a_terminal_without_the_signs_gets_the_answer_all_the_same():
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "reefchem",
            "work",
            "daily_dose",
            "need=0.2",
            "volume=180",
            "potency=0.9",
        ],
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert "40.0000 mL/d" in done.stdout


def test_who_stops_reading_early_sees_no_traceback(demo):
    command = f"{sys.executable} -m reefchem plan {demo} --working | head -n 1"
    done = subprocess.run(["sh", "-c", command], capture_output=True, text=True, check=True)
    assert done.stdout == "The lamp room tank\n"
    assert "Traceback" not in done.stderr
