"""Constants against the numbers their authors printed and against a program of another author."""

from __future__ import annotations

import csv
import math

import numpy as np
import pytest
from conftest import PUBLISHED
from PyCO2SYS import convert, gas, salts, solubility
from PyCO2SYS.equilibria import p1atm

from reefchem import carbonate
from reefchem.carbonate import constants, phosphate, silicate, water
from reefchem.core.errors import DomainError
from reefchem.core.record import describe

S, T = (a.ravel() for a in np.meshgrid(np.linspace(1.0, 45.0, 45), np.linspace(0.0, 40.0, 41)))
TK = T + 273.15
BAR_CM3 = 83.14462618


def p1(name, index):
    return getattr(p1atm, name)(TK, S)[index]


ORACLE = {
    "co2_solubility_weiss1974": lambda: p1atm.kCO2_W74(TK, S),
    "carbonic_k1_lueker2000": lambda: p1("kH2CO3_TOT_LDK00", 0),
    "carbonic_k2_lueker2000": lambda: p1("kH2CO3_TOT_LDK00", 1),
    "carbonic_k1_roy1993": lambda: p1("kH2CO3_TOT_RRV93", 0),
    "carbonic_k2_roy1993": lambda: p1("kH2CO3_TOT_RRV93", 1),
    "carbonic_k1_dickson1987": lambda: p1("kH2CO3_SWS_MCHP73_DM87", 0),
    "carbonic_k2_dickson1987": lambda: p1("kH2CO3_SWS_MCHP73_DM87", 1),
    "carbonic_k1_millero2010": lambda: p1("kH2CO3_SWS_M10", 0),
    "carbonic_k2_millero2010": lambda: p1("kH2CO3_SWS_M10", 1),
    "carbonic_k1_waters2014": lambda: p1("k_H2CO3_TOT_WMW14", 0),
    "carbonic_k2_waters2014": lambda: p1("k_H2CO3_TOT_WMW14", 1),
    "carbonic_k1_sulpis2020": lambda: p1("kH2CO3_TOT_SLH20", 0),
    "carbonic_k2_sulpis2020": lambda: p1("kH2CO3_TOT_SLH20", 1),
    "boric_kb_dickson1990": lambda: p1atm.kBOH3_TOT_D90b(TK, S),
    "bisulfate_ks_dickson1990": lambda: p1atm.kHSO4_FREE_D90a(TK, S),
    "fluoride_kf_perez1987": lambda: p1atm.kHF_FREE_PF87(TK, S),
    "fluoride_kf_dickson1979": lambda: p1atm.kHF_FREE_DR79(TK, S),
    "ammonium_k_clegg1995": lambda: p1atm.kNH3_TOT_CW95(TK, S),
    "aragonite_ksp_mucci1983": lambda: solubility.k_aragonite_M83(TK, S, 0.0, BAR_CM3),
    "calcite_ksp_mucci1983": lambda: solubility.k_calcite_M83(TK, S, 0.0, BAR_CM3),
    "hydrogen_activity_takahashi1982": lambda: convert.fH_TWB82(TK, S),
}

# The Handbook's form for the total scale is the fit on the seawater scale with 0.015 taken off the
# logarithm; on the seawater scale the original is compared.
SEAWATER = {
    "water_kw_millero1995": (water.KW_SEAWATER_SCALE, lambda: p1atm.kH2O_SWS_M95(TK, S)),
    "phosphate_k1p_yao1995": (phosphate.K1P_SEAWATER_SCALE, lambda: p1("kH3PO4_SWS_YM95", 0)),
    "phosphate_k2p_yao1995": (phosphate.K2P_SEAWATER_SCALE, lambda: p1("kH3PO4_SWS_YM95", 1)),
    "phosphate_k3p_yao1995": (phosphate.K3P_SEAWATER_SCALE, lambda: p1("kH3PO4_SWS_YM95", 2)),
    "silicate_ksi_yao1995": (silicate.KSI_SEAWATER_SCALE, lambda: p1atm.kSi_SWS_YM95(TK, S)),
}


@pytest.mark.parametrize("name", ORACLE)
def test_a_constant_equals_the_other_program_over_the_whole_range(name):
    ours = describe(name).kernel(T, S)
    assert ours == pytest.approx(ORACLE[name](), rel=1e-12, abs=0.0)


@pytest.mark.parametrize("name", SEAWATER)
def test_a_fit_on_the_seawater_scale_equals_the_other_program(name):
    fit, oracle = SEAWATER[name]
    ours = describe(name).kernel(T, S, fit=fit)
    assert ours == pytest.approx(oracle(), rel=1e-12, abs=0.0)


@pytest.mark.parametrize("name", SEAWATER)
def test_the_handbook_takes_fifteen_thousandths_off_the_logarithm(name):
    fit, _ = SEAWATER[name]
    kernel = describe(name).kernel
    step = np.log(kernel(T, S) / kernel(T, S, fit=fit))
    assert step == pytest.approx(-0.015, abs=1e-12)


def test_the_fugacity_factor_equals_the_other_program_over_the_whole_range():
    ours = describe("co2_fugacity_factor_weiss1974").kernel(T)
    theirs = gas.fugacity_factor(T, np.full_like(T, 10), BAR_CM3, 0.0)
    assert ours == pytest.approx(theirs, rel=1e-12, abs=0.0)


def test_the_tris_buffer_follows_the_printed_equation_over_the_whole_range():
    # The equation as Millero (2007) prints it, written out once more with decimal arithmetic of
    # its own terms: no library has it.
    theirs = (
        (11911.08 - 18.2499 * S - 0.039336 * S**2) / TK
        - 366.27059
        + 0.53993607 * S
        + 0.00016329 * S**2
        + (64.52243 - 0.084041 * S) * np.log(TK)
        - 0.11149858 * TK
    )
    assert describe("tris_ph_delvalls1998").kernel(T, S) == pytest.approx(theirs, rel=1e-12)


def rows(name):
    text = (PUBLISHED / name).read_text(encoding="utf-8").splitlines()
    return list(csv.reader(line for line in text if not line.startswith("#")))


def weiss_table():
    head, *body = rows("weiss1974_table3.csv")
    return [
        (float(row[0]), float(salinity), printed)
        for row in body
        for salinity, printed in zip(head[1:], row[1:], strict=True)
        if printed
    ]


def test_every_entry_of_the_table_of_weiss_is_met_to_its_last_digit():
    table = weiss_table()
    assert len(table) == 223
    for temperature, salinity, printed in table:
        ours = 100.0 * carbonate.co2_solubility_weiss1974(temperature, salinity)
        assert abs(ours - float(printed)) <= 0.0005 * (1 + 1e-9), (temperature, salinity)


@pytest.mark.parametrize(("column", "rms"), [("pK1", 0.0055), ("pK2", 0.0100)])
def test_the_measurements_of_lueker_are_met_within_the_rms_of_the_paper(column, rms):
    head, *body = rows("lueker2000_table2.csv")
    index = head.index(column)
    name = {"pK1": "carbonic_k1_lueker2000", "pK2": "carbonic_k2_lueker2000"}[column]
    errors = [
        -math.log10(describe(name).kernel(float(row[0]), float(row[1]))) - float(row[index])
        for row in body
        if len(row) > index and row[index]
    ]
    assert len(errors) >= 28
    assert math.sqrt(sum(e * e for e in errors) / len(errors)) <= rms
    assert max(abs(e) for e in errors) <= 3 * rms


def test_totals_equal_the_other_program():
    k = constants.Constants(
        T, S, constants.choices("lueker2000", "uppstrom1974", "perez1987", "handbook")
    )
    assert k.sulfate == pytest.approx(salts.sulfate_MR66(S), rel=1e-12)
    assert k.fluoride == pytest.approx(salts.fluoride_R65(S), rel=1e-12)
    assert k.calcium == pytest.approx(salts.calcium_RT67(S), rel=1e-12)


def test_the_first_law_of_ksp_aragonite_dissolves_more_easily_than_calcite():
    aragonite = describe("aragonite_ksp_mucci1983").kernel(T, S)
    calcite = describe("calcite_ksp_mucci1983").kernel(T, S)
    inside = (S >= 5.0) & (T >= 5.0)
    assert (aragonite > calcite)[inside].all()


@pytest.mark.parametrize(
    ("option", "value"),
    [("carbonic", "x"), ("boron", "x"), ("fluoride", "x"), ("conversion", "x")],
)
def test_an_unknown_choice_is_refused_with_the_known_ones(option, value):
    with pytest.raises(DomainError, match=rf"{option} is 'x'; it is one of "):
        carbonate.carbonate_system(
            salinity=35.0, temperature=25.0, ph_total=8.0, dic=2000.0, **{option: value}
        )
