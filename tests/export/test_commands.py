import csv
import json
import re
import subprocess

import chromium
import pytest
from absent import node
from click.testing import CliRunner

from reefchem.carbonate import carbonate_system
from reefchem.cli import main
from reefchem.export.vectors import vectors
from reefchem.seawater import seawater_density


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


def test_a_spreadsheet_fills_a_table_and_has_it_judged(tmp_path):
    file = tmp_path / "density.csv"
    said("export", "vectors", str(file), "--relation", "seawater_density")
    with file.open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    assert list(rows[0]) == ["id", "salinity (1)", "temperature (°C)", "part", "unit", "value"]
    known = {vector.id: vector for vector in vectors(["seawater_density"])}
    for row in rows:
        computed = known[row["id"]].computed
        row["value"] = "" if computed is None else repr(computed)
    with file.open("w", encoding="utf-8", newline="") as lines:
        writer = csv.DictWriter(lines, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)
    assert "agree" in said("check", "results", str(file))


def test_a_table_of_several_relations_is_refused(tmp_path):
    message = said("export", "vectors", str(tmp_path / "all.csv"), status=1)
    assert "a table holds one relation" in message


def test_the_parts_of_a_calculation_are_listed():
    inputs = ("S=35", "t=25C", "total_alkalinity=2300", "dic=2000")
    text = said("work", "carbonate_system", *inputs)
    assert "omega_aragonite                 = 3.38554\n" in text
    assert (
        said("work", "carbonate_system.ph_total", *inputs).splitlines()[1] == "  ph_total = 8.04579"
    )
    assert "boron" in said("work", "carbonate_system", *inputs, "boron=mine", status=1)
    data = json.loads(said("work", "carbonate_system", *inputs, "--json"))
    assert data["parts"]["pco2"]["unit"] == "uatm"
    assert "It gives sodium, magnesium" in said("work", "composition")
    assert "  salinity_from_density: " in said("work", "sal from density", status=1)


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
    text = f"import * as rc from {json.dumps(module.as_uri())};\n{source}"
    done = subprocess.run(
        [node(), "--input-type=module", "-e", text], capture_output=True, text=True, check=False
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
        ("rc.seawater_density([35, 36], 25)", "TypeError", "salinity is an object; a number is"),
        ("rc.seawater_density({salinity: 35, heat: 2})", "TypeError", "not heat"),
        ("rc.seawater_density(1, 2, 3)", "TypeError", "temperature; 3 values are given"),
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


STATE = "{salinity: 35, temperature: 25, "


def test_the_module_solves_the_carbonate_system(module):
    # Python's own values of this water are in tests/carbonate; here they must be the same
    done = in_node(
        module,
        f"const one = rc.carbonate_system({STATE}total_alkalinity: 2300, dic: 2000}});"
        f"const back = rc.carbonate_system({STATE}ph_total: one.ph_total, pco2: one.pco2}});"
        "console.log(Math.abs(back.dic - 2000) < 1e-8, Object.isFrozen(one), one.ph_total);",
    )
    dic, frozen, ph = done.stdout.split()
    assert (dic, frozen) == ("true", "true")
    state = carbonate_system(salinity=35.0, temperature=25.0, total_alkalinity=2300.0, dic=2000.0)
    assert float(ph) == pytest.approx(state.ph_total, rel=1e-13)


@pytest.mark.parametrize(
    ("inputs", "name", "message"),
    [
        ("dic: 2000", "TypeError", "takes two of total_alkalinity"),
        ("dic: 2000, pco2: 1, ph_total: 8", "TypeError", "it got dic, ph_total, pco2"),
        ("dic: -1, ph_total: 8", "DomainError", "dic is -1; 0 to 1000000 is possible"),
        ("dic: 2000, carbonate: 2500", "DomainError", "below 2000 umol/kg"),
        ("dic: 2000, ph_total: 8, boron: 'mine'", "DomainError", "one of uppstrom1974, lee2010"),
        ("dic: 2000, pH: 8", "TypeError", "not pH"),
    ],
)
def test_the_module_refuses_what_cannot_go_together(module, inputs, name, message):
    call = f"rc.carbonate_system({STATE}{inputs}}})"
    done = in_node(module, f"try {{ {call} }} catch (e) {{ console.log(e.name, e.message) }}")
    assert done.stdout.startswith(name)
    assert message in done.stdout


def test_the_module_speaks_of_ranges_on_the_way_to_a_result(module):
    # 1015 kg/m³ at 60 °C is a salinity that the equation of density does not cover
    done = in_node(
        module, "rc.onRangeWarning((m) => console.log(m)); rc.salinity_from_density(1015, 60)"
    )
    asked, found = done.stdout.splitlines()
    assert asked.startswith("salinity_from_density: temperature is 60 degC; the source covers")
    assert "seawater_density: salinity is 43.3" in found


def test_nan_passes_through_the_carbonate_system(module):
    text = f"console.log(rc.carbonate_system({STATE}dic: NaN, ph_total: 8}}).pco2)"
    assert in_node(module, text).stdout == "NaN\n"


def test_every_function_of_the_module_is_declared_and_no_other(module):
    names = re.findall(
        r"^export (?:const|function|class) (\w+)", module.read_text("utf-8"), re.MULTILINE
    )
    types = module.with_name("reefchem.d.mts").read_text("utf-8")
    declared = re.findall(r"^export (?:const|function|class) (\w+)", types, re.MULTILINE)
    assert set(names) == set(declared)
    assert "  /** Saturation state of aragonite; pure number */" in types
    assert 'boron?: "uppstrom1974" | "lee2010"' in types


def test_the_module_runs_in_a_browser_without_a_network(browser, module, tmp_path):
    page = tmp_path / "page.html"
    text = module.read_text("utf-8")
    page.write_text(
        "<!doctype html><meta charset=utf-8><title>t</title><output></output>"
        f"<script type=module>{text}\n"
        "document.querySelector('output').textContent = JSON.stringify([seawater_density(35, 25),"
        f" carbonate_system({STATE}total_alkalinity: 2300, dic: 2000}}).omega_aragonite])</script>",
        encoding="utf-8",
    )
    state = carbonate_system(salinity=35.0, temperature=25.0, total_alkalinity=2300.0, dic=2000.0)
    with chromium.opened(browser, page) as opened:
        opened.wait_for_function("document.querySelector('output').textContent")
        shown = json.loads(opened.locator("output").text_content())
    assert shown == pytest.approx([seawater_density(35.0, 25.0), state.omega_aragonite], rel=1e-12)
