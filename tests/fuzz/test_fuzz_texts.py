"""Formulas, units, descriptions, analyses, claims and answers of any kind end in a plain error."""

from __future__ import annotations

import contextlib
import math
import subprocess
import warnings

import pytest
from fuzz.damage import ABSURD, TANK, damaged, pieces_of, rows_of
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.atoms import ATOMIC_WEIGHTS, charge_of, molar_mass
from reefchem.core.errors import DomainError, RangeWarning, UnitError
from reefchem.core.quantity import conversion, quantity
from reefchem.export.answers import from_command, from_csv
from reefchem.export.claim import check_claim
from reefchem.export.vectors import vectors
from reefchem.seawater.analysis import AnalysisError, analysis_from_text, read_analysis
from reefchem.tank.description import DescriptionError, read_description

FORMULA = [*ATOMIC_WEIGHTS, *"0123456789()[]·.*^+-", "H2O", "SO4", "Xx", " ", "99999"]
UNIT = [
    *("m", "mol", "kg", "mL", "dKH", "degC", "degF", "dB", "µ", "percent", "e", "delta_degC"),
    *(
        "*",
        "**",
        "/",
        "//",
        "^",
        "(",
        ")",
        "·",
        " ",
        " per ",
        "-",
        ".",
        "%",
        "²",
        "⁻",
        "_",
        "=",
        ",",
    ),
    *("0", "1", "9", "1e9", "1e999", "999999999", "0.5", "lambda", "inf", "nan", "None", "import"),
]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("fuzz")


@given(pieces_of(FORMULA))
def test_any_formula_has_a_mass_and_a_charge_or_is_refused(formula):
    with contextlib.suppress(DomainError):
        assert 1 <= molar_mass(formula) < 1e9
        assert abs(charge_of(formula)) <= 9


@given(pieces_of(UNIT, 12), st.sampled_from(["mg/L", "degC", "1", "dKH", "umol/kg"]))
def test_any_unit_is_read_and_converted_or_refused(unit, wanted):
    with contextlib.suppress(UnitError):
        written = quantity(1.0, unit)
        assert written.magnitude == 1.0
        factor, offset = conversion(written, wanted, "a test")
        assert not math.isnan(factor + offset)


@given(data=st.data())
def test_a_damaged_description_is_read_or_its_faults_are_told(folder, data):
    path = folder / "tank.toml"
    path.write_bytes(data.draw(st.one_of(damaged(TANK), st.binary(max_size=200))))
    faults = ()
    try:
        assert read_description(path).stocks is not None
    except DescriptionError as error:
        faults = error.faults
    assert all(str(fault).isprintable() for fault in faults)


ANALYSIS = b"""# invented
substance,value,unit,uncertainty
sodium,10950,mg/L,2 %
calcium,431,mg/L,8
alkalinity,8.1,dKH,0.2
iodine,<5,ug/L,
"""


@given(data=st.data())
def test_every_row_of_a_damaged_analysis_is_read_or_told(folder, data):
    raw = data.draw(st.one_of(damaged(ANALYSIS), st.binary(max_size=200)))
    path = folder / "water.csv"
    path.write_bytes(raw)
    try:
        rows, faults = read_analysis(path), ()
    except AnalysisError as error:
        rows, faults = error.measured, error.faults
    kept, named = {row.line for row in rows}, {fault.line for fault in faults}
    assert not kept & named
    assert any("no row is read" in fault.reason for fault in faults) or rows_of(raw) <= kept | named


@given(pieces_of(["calcium", "Ca", ",", ";", "431", "mg/L", '"', "<", "%", "\n", "-", "1e9"], 20))
def test_any_cells_of_an_analysis_are_read_or_told(text):
    with contextlib.suppress(AnalysisError):
        analysis_from_text("substance,value,unit,uncertainty\n" + text)


NUMBER = [
    "1023.3",
    "1",
    "-",
    "+",
    ".",
    ",",
    "e",
    "E",
    "999",
    " ",
    "kg/m**3",
    "%",
    "nan",
    "inf",
    "_",
]


@given(pieces_of(NUMBER, 6), st.one_of(st.none(), pieces_of(NUMBER, 4)))
def test_any_claim_is_judged_or_refused(claimed, within):
    with warnings.catch_warnings(), contextlib.suppress(DomainError, UnitError, TypeError):
        warnings.simplefilter("ignore", RangeWarning)
        claim = check_claim(
            "seawater_density", {"salinity": 35.0, "temperature": 25.0}, claimed, within
        )
        assert str(claim)


ASKED = vectors(["german_degrees"])
RESULTS = ("id,value\n" + "".join(f"{v.id},1.5\n" for v in ASKED)).encode()


@given(data=st.data())
def test_a_damaged_table_of_results_is_judged_or_refused(folder, data):
    path = folder / "results.csv"
    path.write_bytes(data.draw(damaged(RESULTS)))
    with contextlib.suppress(DomainError):
        assert from_csv(path, ASKED).text()


ANSWERS = "".join(f'{{"id": "{v.id}", "value": 1.5}}\n' for v in ASKED).encode()
DEEP = st.sampled_from([b'{"id":' * 3_000, b"[" * 10_000, b'{"id": [], "value": {}}', b"null"])


@given(raw=st.one_of(damaged(ANSWERS), DEEP, st.sampled_from(ABSURD)))
def test_any_answers_of_a_program_are_judged_or_refused(raw):
    def run(*_, **__):
        return subprocess.CompletedProcess([], 0, raw.decode("utf-8", "replace"), "")

    with pytest.MonkeyPatch.context() as patch, contextlib.suppress(DomainError):
        patch.setattr("reefchem.export.answers.subprocess.run", run)
        assert from_command("a program", ASKED).text()
