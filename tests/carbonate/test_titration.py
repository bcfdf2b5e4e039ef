"""Titrations: Dickson's printed tables, both directions, and what three kinds of test read."""

from __future__ import annotations

import tomllib

import numpy as np
import pytest
from conftest import PUBLISHED
from hypothesis import given
from hypothesis import strategies as st
from PyCO2SYS import sys as co2sys

from reefchem.carbonate import (
    TitrationConstants,
    acid_for_balance,
    acid_to_reach,
    alkalinity_from_acid,
    alkalinity_from_one_addition,
    alkalinity_from_titration,
    carbonate_system,
    drop_kit,
    electrode_emf,
    electrode_endpoint,
    endpoint_error,
    equivalence_ph,
    indicator_ph,
    ph_from_emf,
    photometer,
    seawater_pk,
    titratable_alkalinity,
    titrated_share,
    titration_constants,
    titration_curve,
    titration_ph,
)
from reefchem.core.errors import DomainError
from reefchem.examples import published

ROWS = published("dickson1981", PUBLISHED)
DICKSON = {
    "sample_volume": 200.0,
    "acid_concentration": 0.3,
    "acid_density": 1.0,
    "sample_density": 1.0,
    "total_boron": 420.0,
    "total_sulfate": 28240.0,
    "total_fluoride": 70.0,
}
TANK = {"salinity": 35.0, "temperature": 25.0}


def table(number):
    """Return volumes and pH of one printed table, without its misprinted rows."""
    rows = [row for row in ROWS if row.at.startswith(f"table {number},")]
    return (
        np.array([row.inputs["acid_mass"] for row in rows]),
        np.array([row.value for row in rows]),
    )


def errata():
    data = tomllib.loads((PUBLISHED / "errata.toml").read_text(encoding="utf-8"))
    return [entry for entry in data["erratum"] if entry["source"] == "dickson1981"]


# -- published ------------------------------------------------------------------------------------


def test_all_rows_but_three_of_two_tables_are_checked():
    assert len(ROWS) + len(errata()) == 102
    assert len(errata()) == 3


@pytest.mark.parametrize("row", errata(), ids=lambda row: row["at"])
def test_a_misprinted_row_disagrees_as_printed_and_agrees_as_corrected(row):
    inputs = {name: float(text) for name, text in row["inputs"].items()}
    computed = titration_ph(**inputs)
    assert abs(computed - float(row["printed"])) > 5e-6
    assert computed == pytest.approx(float(row["should_be"]), abs=5e-7)


@pytest.mark.parametrize(("number", "phosphate"), [(1, 0.0), (4, 10.0)])
@pytest.mark.parametrize("method", ["gran", "least_squares"])
def test_the_printed_table_gives_back_its_alkalinity_and_carbon(number, phosphate, method):
    # The paper computes its tables for 2450 and 2200 umol/kg; pH has six decimals.
    found = alkalinity_from_titration(
        *table(number), **DICKSON, total_phosphate=phosphate, method=method
    )
    assert found.total_alkalinity == pytest.approx(2450.0, abs=0.001)
    assert found.dic == pytest.approx(2200.0, abs=0.001)
    assert found.ph_offset == pytest.approx(0.0, abs=1e-6)
    assert found.scatter < 5e-7


# The scale of hydrogen ion at 25 °C: 59.16 mV for a unit of pH (CODATA constants, by hand).
def test_a_unit_of_ph_is_59_millivolts():
    step = electrode_emf(4.0, 25.0, 0.4) - electrode_emf(5.0, 25.0, 0.4)
    assert step == pytest.approx(0.05916, abs=5e-6)


# -- oracles --------------------------------------------------------------------------------------


@pytest.mark.parametrize("salinity", [25.0, 35.0, 42.0])
@pytest.mark.parametrize("temperature", [12.0, 25.0, 32.0])
def test_the_untitrated_sample_has_the_ph_of_an_independent_program(salinity, temperature):
    constants = titration_constants(salinity, temperature)
    oracle = co2sys(
        par1=2450.0,
        par2=2200.0,
        par1_type=1,
        par2_type=2,
        salinity=salinity,
        temperature=temperature,
        opt_k_carbonic=10,
        opt_k_bisulfate=1,
        opt_k_fluoride=1,
        opt_total_borate=1,
        total_phosphate=5.0,
    )
    ours = titration_ph(
        0.0,
        200.0,
        0.3,
        2450.0,
        2200.0,
        float(oracle["total_borate"]),
        float(oracle["total_sulfate"]),
        float(oracle["total_fluoride"]),
        5.0,
        constants=constants,
    )
    # The constant of water is the Handbook's here and an exact conversion there: 3e-4 at most.
    assert ours == pytest.approx(float(oracle["pH_free"]), abs=3e-4)


@pytest.mark.parametrize("salinity", [25.0, 35.0])
@pytest.mark.parametrize("temperature", [15.0, 25.0])
def test_constants_on_the_free_scale_are_those_of_an_independent_program(salinity, temperature):
    k = titration_constants(salinity, temperature)
    oracle = co2sys(
        salinity=salinity,
        temperature=temperature,
        opt_pH_scale=3,
        opt_k_carbonic=10,
        opt_k_bisulfate=1,
        opt_k_fluoride=1,
    )
    k1, k2 = oracle["k_carbonic_1"], oracle["k_carbonic_2"]
    assert k.k1 == pytest.approx(k1, rel=1e-9)
    assert k.k1k2 == pytest.approx(k1 * k2, rel=1e-9)
    assert k.kb == pytest.approx(oracle["k_borate"], rel=1e-9)
    assert k.beta_s == pytest.approx(1 / oracle["k_bisulfate"], rel=1e-9)
    assert k.beta_f == pytest.approx(1 / oracle["k_fluoride"], rel=1e-9)
    # The Handbook takes 0.015 off the logarithm where the program converts between scales.
    p1, p2, p3 = (oracle[f"k_phosphoric_{n}"] for n in (1, 2, 3))
    assert k.kw == pytest.approx(oracle["k_water"], rel=0.012)
    assert k.beta_p == pytest.approx(1 / p1, rel=0.012)
    assert k.k2p == pytest.approx(p2, rel=0.012)
    assert k.k2pk3p == pytest.approx(p2 * p3, rel=0.024)


def test_organic_acids_have_their_pk_less_the_shift():
    # pK 4.76 and 3.75 less 0.15, to three digits.
    assert TitrationConstants.k_acetic == pytest.approx(10**-4.61, abs=0.005e-5)
    assert TitrationConstants.k_formic == pytest.approx(10**-3.60, abs=0.005e-4)
    scale = titration_constants(35.0, 25.0).k_acetic / TitrationConstants.k_acetic
    assert titration_constants(35.0, 25.0).k_formic == pytest.approx(2.51e-4 * scale)
    assert -np.log10(scale) == pytest.approx(0.1077, abs=5e-5)


def test_acid_takes_alkalinity_one_for_one():
    # Halfway, the mixture is water of less alkalinity: an independent program must agree.
    oracle = co2sys(
        par1=2450.0 - 1000.0,
        par2=2200.0,
        par1_type=1,
        par2_type=2,
        salinity=35.0,
        temperature=25.0,
        opt_k_carbonic=10,
        opt_k_bisulfate=1,
        opt_k_fluoride=1,
        opt_total_borate=1,
    )
    strong = acid_to_reach(
        float(oracle["pH_free"]),
        1e3,
        10.0,
        2450.0,
        2200.0,
        float(oracle["total_borate"]),
        float(oracle["total_sulfate"]),
        float(oracle["total_fluoride"]),
        constants=titration_constants(35.0, 25.0),
    )
    assert 1e6 * 10.0 * strong / 1e3 == pytest.approx(1000.0, abs=0.3)


# -- properties -----------------------------------------------------------------------------------

SAMPLE = (420.0, 28240.0, 70.0, 5.0, 100.0, 50.0)


@given(
    acid=st.floats(0.0, 3.0),
    alkalinity=st.floats(500.0, 6000.0),
    carbon=st.floats(0.0, 6000.0),
)
def test_acid_and_ph_are_each_others_inverse(acid, alkalinity, carbon):
    ph = titration_ph(acid, 200.0, 0.3, alkalinity, carbon, *SAMPLE)
    again = acid_to_reach(ph, 200.0, 0.3, alkalinity, carbon, *SAMPLE)
    assert again == pytest.approx(acid, abs=1e-9)


@given(acid=st.floats(0.0, 3.0), more=st.floats(1e-4, 1.0))
def test_ph_falls_with_every_drop(acid, more):
    rest = (200.0, 0.3, 2450.0, 2200.0, *SAMPLE)
    assert titration_ph(acid + more, *rest) < titration_ph(acid, *rest)


@given(ph=st.floats(2.5, 9.0))
def test_bases_hold_more_at_higher_ph(ph):
    held = [titratable_alkalinity(p, 2200.0, *SAMPLE) for p in (ph, ph + 0.1)]
    assert held[0] < held[1]


def test_the_balance_closes_by_hand():
    # 200 g with 2450 umol/kg are 490 umol; acid of 0.3 mol/kg has 300 umol in a gram.
    assert acid_for_balance(200.0, 0.3, 2450.0, 0.0, 0.0) == pytest.approx(490 / 300)
    assert alkalinity_from_acid(490 / 300, 0.3, 200.0) == pytest.approx(2450.0)


@given(emf=st.floats(-0.3, 0.4), temperature=st.floats(5.0, 40.0))
def test_emf_and_ph_are_each_others_inverse(emf, temperature):
    ph = ph_from_emf(emf, temperature, 0.41)
    assert electrode_emf(ph, temperature, 0.41) == pytest.approx(emf, abs=1e-12)


def test_the_curve_is_the_relation_and_the_electrode():
    curve = titration_curve(
        np.array([0.0, 0.8, 1.6]), **DICKSON, total_alkalinity=2450.0, dic=2200.0
    )
    assert curve.ph_free == pytest.approx([8.065650, 6.117655, 4.601818], abs=5e-7)
    assert curve.emf == pytest.approx(0.4 - 0.05915935 * curve.ph_free, abs=1e-6)
    assert curve.quantity("emf").units == "volt"


# -- evaluating a table ---------------------------------------------------------------------------


@pytest.mark.parametrize("method", ["gran", "least_squares"])
def test_an_electrode_that_reads_wrong_is_found_out(method):
    volumes, ph = table(1)
    found = alkalinity_from_titration(volumes, ph + 0.08, **DICKSON, method=method)
    assert found.total_alkalinity == pytest.approx(2450.0, abs=0.001)
    assert found.ph_offset == pytest.approx(0.08, abs=1e-6)


@pytest.mark.parametrize("method", ["gran", "least_squares"])
def test_emf_with_a_guessed_standard_serves_as_well(method):
    volumes, ph = table(1)
    emf = np.array([electrode_emf(p, 25.0, 0.4123) for p in ph])
    found = alkalinity_from_titration(volumes, emf, **DICKSON, reading="emf", method=method)
    assert found.total_alkalinity == pytest.approx(2450.0, abs=0.001)


def test_points_may_come_in_any_order():
    volumes, ph = table(1)
    found = alkalinity_from_titration(volumes[::-1], ph[::-1], **DICKSON, method="gran")
    straight = alkalinity_from_titration(volumes, ph, **DICKSON, method="gran")
    assert found.total_alkalinity == pytest.approx(straight.total_alkalinity, abs=1e-8)


def test_noise_of_the_electrode_shows_in_the_standard_error():
    volumes, ph = table(1)
    draws = np.random.default_rng(1981).normal(0.0, 0.002, (40, len(ph)))
    found = [alkalinity_from_titration(volumes, ph + draw, **DICKSON) for draw in draws]
    spread = np.std([f.total_alkalinity for f in found], ddof=1)
    stated = np.mean([f.standard_error for f in found])
    assert spread == pytest.approx(stated, rel=0.35)
    assert np.mean([f.total_alkalinity for f in found]) == pytest.approx(2450.0, abs=4 * stated)


def test_a_plain_gran_line_reads_low_because_of_bicarbonate_and_sulfate():
    # The plain line, free acid against acid, fitted here with NumPy alone.
    volumes, ph = table(1)
    late = ph < 3.6
    slope, level = np.polyfit(volumes[late], ((200.0 + volumes) * 10**-ph)[late], 1)
    plain = -level / slope * 0.3 / 200.0 * 1e6
    assert 2440.0 < plain < 2449.0


def test_a_purged_sample_needs_no_points_above_the_equivalence():
    volumes = np.linspace(1.7, 2.4, 12)
    curve = titration_curve(volumes, **DICKSON, total_alkalinity=2450.0, dic=0.0)
    found = alkalinity_from_titration(volumes, curve.ph_free, **DICKSON, dic=0.0)
    assert found.total_alkalinity == pytest.approx(2450.0, abs=0.01)
    assert found.dic == 0.0


def test_forgotten_phosphate_spoils_the_fit():
    volumes, ph = table(4)
    found = alkalinity_from_titration(volumes, ph, **DICKSON)
    assert found.scatter > 1e-4


@pytest.mark.parametrize(
    ("change", "text"),
    [
        ({"volumes": np.array([0.1, 0.2])}, "one length"),
        ({"reading": "mV"}, "'ph' or 'emf'"),
        ({"method": "eye"}, "'gran' or 'least_squares'"),
    ],
)
def test_a_table_that_cannot_be_read_is_refused(change, text):
    volumes, ph = table(1)
    given_table = {"volumes": volumes, "ph_or_emf": ph, **DICKSON} | change
    with pytest.raises(DomainError, match=text):
        alkalinity_from_titration(**given_table)


def test_a_titration_that_stopped_early_is_refused():
    volumes, ph = table(1)
    with pytest.raises(DomainError, match="past the equivalence point"):
        alkalinity_from_titration(volumes[:30], ph[:30], **DICKSON)


def test_a_table_without_the_middle_is_refused_unless_carbon_is_known():
    volumes, ph = table(1)
    late = ph < 5.0
    with pytest.raises(DomainError, match="give dic"):
        alkalinity_from_titration(volumes[late], ph[late], **DICKSON)
    found = alkalinity_from_titration(volumes[late], ph[late], **DICKSON, dic=2200.0)
    assert found.total_alkalinity == pytest.approx(2450.0, abs=0.001)


def test_missing_readings_are_refused():
    volumes, ph = table(1)
    with pytest.raises(DomainError, match="leave such points out"):
        alkalinity_from_titration(volumes, np.where(ph < 4, np.nan, ph), **DICKSON)


# -- end points -----------------------------------------------------------------------------------


def test_acetate_counts_for_half_and_formate_for_a_tenth_at_ph_4_5():
    # Order of magnitude: pK 4.76 and 3.75 at zero ionic strength, 0.15 lower in seawater.
    assert titrated_share(8.2, 4.5, seawater_pk(4.76)) == pytest.approx(0.56, abs=0.005)
    assert titrated_share(8.2, 4.5, seawater_pk(3.75)) == pytest.approx(0.11, abs=0.005)


@given(start=st.floats(7.0, 9.0), endpoint=st.floats(3.0, 6.0), pk=st.floats(0.0, 14.0))
def test_a_share_is_between_nothing_and_all(start, endpoint, pk):
    assert 0.0 <= titrated_share(start, endpoint, pk) <= 1.0


@given(dic=st.floats(1.0, 5000.0), pk1=st.floats(5.7, 6.1))
def test_there_is_no_error_at_the_equivalence_point(dic, pk1):
    assert endpoint_error(equivalence_ph(dic, pk1), dic, pk1) == pytest.approx(0.0, abs=1e-8)


@given(dic=st.floats(10.0, 4500.0), alkalinity=st.floats(1500.0, 4500.0), ph=st.floats(3.6, 5.0))
def test_the_short_formula_agrees_with_the_whole_balance(dic, alkalinity, ph):
    whole = electrode_endpoint(
        alkalinity, dic, **TANK, endpoint_ph=ph, acid_concentration=5.0
    ).reading
    short = alkalinity + endpoint_error(ph, dic, 5.8472)
    # The short one leaves out borate (0.1 umol/kg at pH 5) and fluoride, which takes up 0.023 of
    # the acid: 68 umol/kg times the association constant of 423 kg/mol, less the 22 % in sulfate.
    assert whole == pytest.approx(short, abs=0.6 + 0.025 * 1e6 * 10**-ph)


def test_one_addition_undoes_the_error():
    reading = 2450.0 + endpoint_error(3.7, 20.0, 5.85)
    assert alkalinity_from_one_addition(reading, 3.7, 20.0, 5.85) == pytest.approx(2450.0)


def test_an_indicator_shows_its_pk_at_equal_colours():
    assert indicator_ph(1.0, 4.4) == 4.4
    assert indicator_ph(10.0, 4.4) == pytest.approx(5.4)


# -- three kinds of test --------------------------------------------------------------------------

KIT = {**TANK, "sample_mass": 5.0, "drop_mass": 0.04, "acid_concentration": 0.0218}


@given(
    alkalinity=st.floats(1500.0, 5000.0),
    dic=st.floats(10.0, 4500.0),
    endpoint=st.floats(4.0, 5.0),
)
def test_the_colour_changes_with_the_last_drop(alkalinity, dic, endpoint):
    shown = drop_kit(alkalinity, dic, endpoint_ph=endpoint, **KIT)
    assert shown.drops == int(shown.drops)
    assert shown.ph_after <= endpoint + 1e-9 < shown.ph_before + 2e-9
    assert 0.0 <= shown.reading - shown.without_steps < shown.step * (1 + 1e-9)


def test_a_drop_kit_takes_arrays():
    shown = drop_kit(np.array([2400.0, 2790.0]), 2100.0, endpoint_ph=4.5, **KIT)
    single = drop_kit(2790.0, 2100.0, endpoint_ph=4.5, **KIT)
    assert shown.reading[1] == pytest.approx(single.reading)


def test_a_colour_that_has_changed_before_the_first_drop_is_refused():
    with pytest.raises(DomainError, match="before the first drop"):
        drop_kit(0.0, 2100.0, endpoint_ph=4.5, **KIT)


def test_shaking_the_vial_turns_an_early_end_point_into_a_late_one():
    still = drop_kit(2790.0, 2420.0, endpoint_ph=4.5, **KIT)
    shaken = drop_kit(2790.0, 12.0, endpoint_ph=4.5, **KIT)
    assert still.without_steps < 2790.0 < shaken.without_steps


@pytest.mark.parametrize(("salt", "seen"), [("formate", 0.11), ("acetate", 0.56)])
def test_a_kit_sees_a_share_of_an_organic_salt(salt, seen):
    # Formate is not alkalinity by definition, acetate is: what is added comes on top for acetate.
    added = 200.0
    by_definition = added if salt == "acetate" else 0.0
    common = {**TANK, "endpoint_ph": 4.5, "acid_concentration": 5.0}
    plain = electrode_endpoint(2450.0, 2100.0, **common).reading
    salted = electrode_endpoint(2450.0 + by_definition, 2100.0, **common, **{salt: added}).reading
    assert (salted - plain) / added == pytest.approx(seen, abs=0.01)


def test_phosphate_of_a_tank_is_below_what_a_kit_can_tell():
    common = {**TANK, "endpoint_ph": 4.5, "acid_concentration": 0.1}
    plain = electrode_endpoint(2450.0, 2100.0, **common).reading
    fed = electrode_endpoint(2450.0, 2100.0, total_phosphate=5.0, **common).reading
    assert abs(fed - plain) < 1.0


def test_a_photometer_reads_right_when_its_assumptions_hold():
    common = {**TANK, "acid_added": 3200.0, "indicator_pk": 4.4}
    right = photometer(2790.0, 15.0, assumed_dic=15.0, **common)
    assert right.reading == pytest.approx(2790.0, abs=1e-6)
    assert right.ph_after == pytest.approx(indicator_ph(right.ratio, 4.4))
    gas_kept = photometer(2790.0, 2400.0, assumed_dic=15.0, **common)
    assert gas_kept.reading < right.reading


def test_a_fingerprint_on_the_vial_reads_as_alkalinity():
    common = {**TANK, "acid_added": 3200.0, "indicator_pk": 4.4, "assumed_dic": 15.0}
    clean, smudged = (photometer(2790.0, 15.0, ratio_error=e, **common) for e in (0.0, 0.05))
    # By hand: d(reading) = 2.303 H d(pH) + small terms, and d(pH) = log10(1.05).
    h = 1e6 * 10**-clean.ph_after
    assert smudged.reading - clean.reading == pytest.approx(h * (1 - 1 / 1.05), rel=0.02)


def test_a_ph_meter_that_reads_high_stops_late():
    common = {**TANK, "endpoint_ph": 4.5, "acid_concentration": 0.1}
    true, off = (electrode_endpoint(2790.0, 2420.0, ph_offset=o, **common) for o in (0.0, 0.1))
    assert off.ph_true == pytest.approx(4.4)
    assert off.reading > true.reading


def test_constants_are_frozen_and_hold_the_digits_of_the_paper():
    with pytest.raises(AttributeError, match="frozen"):
        TitrationConstants().k1 = 1.0
    assert TitrationConstants().k2pk3p == 1.32e-15


def test_a_titration_with_no_acid_has_the_ph_of_the_carbonate_system():
    state = carbonate_system(**TANK, total_alkalinity=2790.0, dic=2420.0)
    start = drop_kit(2790.0, 2420.0, endpoint_ph=state.ph_total - 0.001, **KIT)
    assert start.drops == 1
    assert start.ph_before == pytest.approx(state.ph_total, abs=2e-5)
