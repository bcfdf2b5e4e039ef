import json
import shutil
import subprocess

import pytest
from click.testing import CliRunner

from reefchem.cli import main


def said(*arguments, status=0):
    result = CliRunner().invoke(main, arguments)
    assert result.exit_code == status, result.output
    return result.output


def test_a_right_number_ends_with_status_0_and_a_wrong_one_with_1():
    inputs = ("salinity=35", "temperature=77 degF")
    assert "agrees" in said("check", "value", "seawater_density", *inputs, "--result", "1023.3")
    wrong = said("check", "value", "seawater_density", *inputs, "--result", "1024", status=1)
    assert "differs by" in wrong


def test_a_wrong_call_ends_with_status_2():
    said("check", "value", "no_such", "a=1", "--result", "1", status=2)
    said("check", "value", "seawater_density", "salinity=35", "--result", "1", status=2)
    said("check", "function", "no_colon", status=2)
    said("check", "function", "no_module:f", status=2)
    said("check", "program", "no-such-program", status=2)
    said("check", "program", "cat", "--relation", "nonsense", status=2)


def test_a_function_of_a_module_is_checked(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "somebodys_density.py").write_text(
        "def seawater_density(salinity, temperature):\n    return 1000 + 0.7 * salinity\n"
    )
    text = said("check", "function", "somebodys_density:seawater_density", status=1)
    assert "vectors" in text.splitlines()[0]
    assert "explained at relations.html#seawater_density" in text


def test_a_table_from_exported_vectors_agrees(tmp_path):
    file = tmp_path / "vectors.json"
    said("export", "vectors", str(file), "--relation", "seawater_density", "--schema")
    assert (tmp_path / "vectors.schema.json").exists()
    every = json.loads(file.read_text("utf-8"))["vectors"]
    lines = ["id,value", *(f"{vector['id']},{vector.get('computed', '')}" for vector in every)]
    table = tmp_path / "results.csv"
    table.write_text("\n".join(lines))
    assert "agree" in said("check", "results", str(table))


def test_only_published_values_can_be_asked_for(tmp_path):
    file = tmp_path / "vectors.json"
    said("export", "vectors", str(file), "--published")
    kinds = {vector["kind"] for vector in json.loads(file.read_text("utf-8"))["vectors"]}
    assert kinds == {"published", "example"}


def test_the_module_is_written_with_its_types(tmp_path):
    said("export", "javascript", str(tmp_path / "made"))
    types = (tmp_path / "made" / "reefchem.d.mts").read_text("utf-8")
    assert (
        "export function seawater_density(salinity: number, temperature: number): number;" in types
    )
    assert "@param temperature °C; the source covers -2 to 40" in types


@pytest.fixture(scope="module")
def module(tmp_path_factory):
    folder = tmp_path_factory.mktemp("javascript")
    said("export", "javascript", str(folder))
    return folder / "reefchem.mjs"


def in_node(module, source):
    if shutil.which("node") is None:
        pytest.skip("there is no Node to run the module")
    text = f"import * as rc from {json.dumps(module.as_uri())};\n{source}"
    done = subprocess.run(
        ["node", "--input-type=module", "-e", text], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done


def test_the_module_takes_numbers_by_position_or_by_name(module):
    done = in_node(
        module,
        "const named = rc.seawater_density({temperature: 25, salinity: 35});"
        "console.log(rc.seawater_density(35, 25) === named, rc.records.seawater_density.unit)",
    )
    assert done.stdout == "true kg/m**3\n"


@pytest.mark.parametrize(
    ("call", "name", "message"),
    [
        ("rc.seawater_density(-1, 25)", "DomainError", "salinity is -1; 0 or more is possible"),
        ("rc.seawater_density(35, Infinity)", "DomainError", "temperature is Infinity"),
        ("rc.seawater_density(35)", "TypeError", "temperature is missing"),
        ("rc.seawater_density('35', 25)", "TypeError", "salinity is a string"),
        ("rc.seawater_density({salinity: 35, heat: 2})", "TypeError", "not heat"),
        ("rc.seawater_density(1, 2, 3)", "TypeError", "takes salinity, temperature"),
        ("rc.salinity_from_density(5000, 25)", "NoRootError", "no answer satisfies density=5000"),
    ],
)
def test_the_module_refuses_what_cannot_be(module, call, name, message):
    done = in_node(module, f"try {{ {call} }} catch (e) {{ console.log(e.name, e.message) }}")
    assert done.stdout.startswith(name)
    assert message in done.stdout


def test_the_module_warns_outside_a_source_and_can_be_strict(module):
    done = in_node(
        module,
        "rc.onRangeWarning((m) => console.log(m)); rc.seawater_density(35, 60);"
        "rc.strict(); try { rc.seawater_density(35, 60) } catch (e) { console.log(e.name) }",
    )
    warned, refused = done.stdout.splitlines()
    assert "the source covers -2 to 40" in warned
    assert refused == "DomainError"


def test_nan_passes_through_the_module(module):
    assert in_node(module, "console.log(rc.seawater_density(NaN, 25))").stdout == "NaN\n"
