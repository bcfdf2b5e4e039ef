"""The carbonate system against a program of another author, against itself, and at its edges."""

from __future__ import annotations

import itertools
import math

import numpy as np
import PyCO2SYS
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PyCO2SYS import salts
from PyCO2SYS.equilibria import p1atm

from reefchem import carbonate
from reefchem.carbonate import CarbonateState, alkalinity, carbonate_system, spread
from reefchem.core.errors import DomainError, NoRootError, RangeWarning, UnitError
from reefchem.core.quantity import quantity, registry

pytestmark = pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")

FIVE = ("total_alkalinity", "dic", "ph_total", "pco2", "carbonate")
NUTRIENTS = ("phosphate", "silicate", "ammonium")
PAIRS = list(itertools.combinations(FIVE, 2))
TYPES = {"total_alkalinity": 1, "dic": 2, "ph_total": 3, "pco2": 4, "carbonate": 6}
CARBONIC = {
    "lueker2000": 10,
    "roy1993": 1,
    "dickson1987": 4,
    "millero2010": 14,
    "sulpis2020": 16,
}
EXACT = {"conversion": "exact", "fluoride": "dickson1979"}


def water(size=4000, seed=1):
    """Return waters over S 20-45, t 5-35 and alkalinity 800-6000, from acid to very alkaline."""
    rng = np.random.default_rng(seed)
    salinity, temperature = rng.uniform(20, 45, size), rng.uniform(5, 35, size)
    total = rng.uniform(800, 6000, size)
    return {
        "salinity": salinity,
        "temperature": temperature,
        "total_alkalinity": total,
        "dic": total * rng.uniform(0.72, 1.1, size),
        "phosphate": rng.uniform(0, 20, size),
        "silicate": rng.uniform(0, 100, size),
        "ammonium": rng.uniform(0, 200, size),
    }


def oracle(given, pair, **options):
    """Return what the other program makes of two values, with our totals of boron."""
    return PyCO2SYS.sys(
        par1=given[pair[0]],
        par2=given[pair[1]],
        par1_type=TYPES[pair[0]],
        par2_type=TYPES[pair[1]],
        salinity=given["salinity"],
        temperature=given["temperature"],
        total_phosphate=given["phosphate"],
        total_silicate=given["silicate"],
        total_ammonia=given["ammonium"],
        total_borate=1e6 * boron(given["salinity"]),
        **{"opt_k_carbonic": 10, "opt_k_fluoride": 1, "opt_total_borate": 1} | options,
    )


def boron(salinity):
    # The ratio of Uppström; the other program has it rounded to 0.0004157 S/35.
    return 0.000232 / 10.811 * salinity / 1.80655


@pytest.fixture(scope="module")
def waters():
    given = water()
    state = carbonate_system(**given, **EXACT)
    return given | {name: getattr(state, name) for name in FIVE}


@pytest.mark.parametrize("pair", PAIRS, ids="+".join)
def test_every_pair_equals_the_other_program_where_conventions_are_the_same(waters, pair):
    theirs = oracle(waters, pair)
    common = {k: waters[k] for k in ("salinity", "temperature", *NUTRIENTS)}
    ours = carbonate_system(**common, **{name: waters[name] for name in pair}, **EXACT)
    # Alkalinity and carbonate have two answers; both programs are to give the same one.
    assert np.nanmax(np.abs(ours.ph_total - theirs["pH_total"])) <= 1e-11
    assert not np.isnan(ours.ph_total).any()
    for part, key in (
        ("omega_aragonite", "saturation_aragonite"),
        ("omega_calcite", "saturation_calcite"),
        ("dic", "dic"),
        ("total_alkalinity", "alkalinity"),
        ("pco2", "pCO2"),
        ("fco2", "fCO2"),
        ("co2", "aqueous_CO2"),
        ("bicarbonate", "bicarbonate"),
        ("carbonate", "carbonate"),
        ("borate", "alkalinity_borate"),
        ("hydroxide", "hydroxide"),
        ("hydrogen_sulfate", "HSO4"),
        ("hydrogen_fluoride", "HF"),
        ("hydrogen_free", "hydrogen_free"),
        ("phosphoric_acid", "H3PO4"),
        ("dihydrogen_phosphate", "H2PO4"),
        ("hydrogen_phosphate", "HPO4"),
        ("phosphate_ion", "PO4"),
        ("silicate_ion", "H3SiO4"),
        ("ammonia", "NH3"),
        ("ammonium_ion", "NH4"),
    ):
        assert getattr(ours, part) == pytest.approx(theirs[key], rel=1e-10), part
    for part, key in (("ph_seawater", "pH_sws"), ("ph_free", "pH_free"), ("ph_nbs", "pH_nbs")):
        assert getattr(ours, part) == pytest.approx(theirs[key], abs=1e-11), part


@pytest.mark.parametrize("carbonic", CARBONIC)
def test_every_choice_of_k1_and_k2_equals_the_other_program(waters, carbonic):
    pair = ("total_alkalinity", "dic")
    theirs = oracle(waters, pair, opt_k_carbonic=CARBONIC[carbonic])
    given = {k: waters[k] for k in ("salinity", "temperature", *NUTRIENTS, *pair)}
    ours = carbonate_system(**given, carbonic=carbonic, **EXACT)
    assert ours.ph_total == pytest.approx(theirs["pH_total"], abs=1e-11)
    assert ours.omega_aragonite == pytest.approx(theirs["saturation_aragonite"], rel=1e-10)


def test_the_convention_of_the_handbook_moves_ph_by_a_few_ten_thousandths(waters):
    # Two differences: 0.015 for the exact step of the constants of water, phosphate and silicate,
    # and the constant of fluoride as one on the total scale.
    pair = ("total_alkalinity", "dic")
    theirs = oracle(waters, pair, opt_k_fluoride=2)
    ours = carbonate_system(
        **{k: waters[k] for k in ("salinity", "temperature", *NUTRIENTS, *pair)}
    )
    apart = np.abs(ours.ph_total - theirs["pH_total"])
    assert apart.max() <= 6e-4
    assert apart.max() >= 1e-5, "the conventions differ, or this test compares nothing"
    relative = np.abs(ours.omega_aragonite / theirs["saturation_aragonite"] - 1)
    assert relative.max() <= 2e-3


def handbook(given):
    """Return the constants of the Handbook as the other program takes them."""
    kelvins, salinity = given["temperature"] + 273.15, given["salinity"]
    step = np.exp(-0.015)
    first, second, third = p1atm.kH3PO4_SWS_YM95(kelvins, salinity)
    free = 1.0 + salts.sulfate_MR66(salinity) / p1atm.kHSO4_FREE_D90a(kelvins, salinity)
    return {
        "k_fluoride": p1atm.kHF_FREE_PF87(kelvins, salinity) / free,
        "k_water": step * p1atm.kH2O_SWS_M95(kelvins, salinity),
        "k_phosphoric_1": step * first,
        "k_phosphoric_2": step * second,
        "k_phosphoric_3": step * third,
        "k_silicate": step * p1atm.kSi_SWS_YM95(kelvins, salinity),
    }


def test_given_the_constants_of_the_handbook_the_other_program_says_the_same(waters):
    # So the two conventions are all that the default differs in.
    pair = ("total_alkalinity", "dic")
    theirs = oracle(waters, pair, **handbook(waters))
    given = {k: waters[k] for k in ("salinity", "temperature", *NUTRIENTS, *pair)}
    ours = carbonate_system(**given)
    assert ours.ph_total == pytest.approx(theirs["pH_total"], abs=1e-11)
    assert ours.omega_aragonite == pytest.approx(theirs["saturation_aragonite"], rel=1e-10)


def test_the_scale_of_the_fluoride_constant_matters_through_the_exact_step_only(waters):
    pair = ("total_alkalinity", "dic")
    given = {k: waters[k] for k in ("salinity", "temperature", *NUTRIENTS, *pair)}
    constants = handbook(waters)
    del constants["k_fluoride"]
    theirs = oracle(waters, pair, opt_k_fluoride=2, **constants)["pH_total"]
    assert np.abs(carbonate_system(**given).ph_total - theirs).max() <= 1e-5
    theirs = oracle(waters, pair, opt_k_fluoride=2)["pH_total"]
    exact = carbonate_system(**given, conversion="exact").ph_total
    assert 1e-4 <= np.abs(exact - theirs).max() <= 4.5e-4


@pytest.mark.parametrize(
    ("part", "key"),
    [
        ("revelle_factor", "revelle_factor"),
        ("gamma_dic", "gamma_dic"),
        ("beta_dic", "beta_dic"),
        ("omega_dic", "omega_dic"),
        ("gamma_alkalinity", "gamma_alk"),
        ("beta_alkalinity", "beta_alk"),
        ("omega_alkalinity", "omega_alk"),
    ],
)
def test_buffer_factors_equal_the_other_program(waters, part, key):
    pair = ("total_alkalinity", "dic")
    few = {name: value[:300] for name, value in waters.items()}
    theirs = oracle(few, pair)
    ours = carbonate_system(
        **{k: few[k] for k in ("salinity", "temperature", *NUTRIENTS, *pair)},
        **EXACT,
    )
    # Contents are in moles there, in micromoles here.
    scale = 1.0 if part == "revelle_factor" else 1e6
    assert getattr(ours, part) == pytest.approx(scale * theirs[key], rel=1e-9)


@pytest.mark.parametrize("pair", PAIRS, ids="+".join)
@given(
    salinity=st.floats(20.0, 45.0),
    temperature=st.floats(5.0, 35.0),
    total_alkalinity=st.floats(800.0, 6000.0),
    ph=st.floats(6.5, 9.0),
    phosphate=st.floats(0.0, 20.0),
    silicate=st.floats(0.0, 100.0),
    ammonium=st.floats(0.0, 200.0),
)
def test_every_pair_recovers_every_other(
    pair, salinity, temperature, total_alkalinity, ph, phosphate, silicate, ammonium
):
    common = {
        "salinity": salinity,
        "temperature": temperature,
        "phosphate": phosphate,
        "silicate": silicate,
        "ammonium": ammonium,
    }
    try:
        first = carbonate_system(total_alkalinity=total_alkalinity, ph_total=ph, **common)
    except DomainError:
        return  # at this pH borate alone is more than this alkalinity
    if (
        "carbonate" in pair
        and "total_alkalinity" in pair
        and first.bicarbonate < 1.5 * (first.hydroxide + first.borate)
    ):
        return  # the other of two answers
    again = carbonate_system(**{name: getattr(first, name) for name in pair}, **common)
    assert again.ph_total == pytest.approx(first.ph_total, abs=1e-9)
    for name in FIVE:
        assert getattr(again, name) == pytest.approx(getattr(first, name), rel=1e-7), name


def test_a_search_that_finds_nothing_is_told_in_terms_of_the_water():
    with pytest.raises(DomainError, match=r"carbonate_system: .* no pH gives water with both"):
        carbonate_system(
            salinity=35.0, temperature=25.0, total_boron=0.0, total_alkalinity=0.0, carbonate=1e-312
        )


@given(
    values=st.tuples(*[st.floats(allow_nan=False, allow_infinity=False)] * 2),
    pair=st.sampled_from(PAIRS),
    salinity=st.floats(0.0, 100.0),
    temperature=st.floats(-5.0, 60.0),
    total_boron=st.floats(0.0, 5000.0),
)
def test_no_input_hangs_or_gives_a_silent_nonsense_value(
    values, pair, salinity, temperature, total_boron
):
    given = dict(zip(pair, values, strict=True))
    state, refusal = None, ""
    try:
        state = carbonate_system(
            salinity=salinity, temperature=temperature, total_boron=total_boron, **given
        )
    except DomainError as error:
        refusal = str(error)
    if state is None:
        assert refusal.startswith("carbonate_system: ")
        assert (
            "possible" in refusal
            or "or more" in refusal
            or "must be" in refusal
            or "no pH" in refusal
            or "no finite result" in refusal
        )
        return
    assert 0.0 <= state.dic <= 1e6
    assert math.isfinite(state.ph_total)
    sum_of_carbon = state.co2 + state.bicarbonate + state.carbonate
    assert sum_of_carbon == pytest.approx(state.dic, rel=1e-9, abs=1e-9)
    balance = alkalinity.alkalinity_from_species(
        state.bicarbonate,
        state.carbonate,
        state.borate,
        state.hydroxide,
        hydrogen_free=state.hydrogen_free,
        hydrogen_sulfate=state.hydrogen_sulfate,
        hydrogen_fluoride=state.hydrogen_fluoride,
    )
    size = state.dic + state.hydroxide + state.hydrogen_free + state.total_boron + 1e4
    assert abs(balance - state.total_alkalinity) <= 1e-8 * size


WIDE = {
    "total_alkalinity": st.floats(-3e4, 3e4),
    "dic": st.floats(0.0, 3e4),
    "ph_total": st.floats(2.0, 12.0),
    "pco2": st.floats(0.0, 1e5),
    "carbonate": st.floats(0.0, 1e4),
}


@given(data=st.data(), pair=st.sampled_from(PAIRS))
def test_an_array_says_what_single_numbers_say_far_outside_seawater(data, pair):
    given = {name: data.draw(WIDE[name], label=name) for name in pair}
    try:
        one = carbonate_system(salinity=35.0, temperature=25.0, **given).bicarbonate
    except DomainError:
        one = math.nan
    many = carbonate_system(
        salinity=35.0, temperature=25.0, **{k: np.array([v, v]) for k, v in given.items()}
    ).bicarbonate
    assert many == pytest.approx([one, one], rel=1e-8, abs=1e-9, nan_ok=True)


def test_ph_rises_with_alkalinity_and_falls_with_carbon():
    a = np.linspace(-500.0, 9000.0, 4001)
    up = carbonate_system(salinity=35.0, temperature=25.0, total_alkalinity=a, dic=2000.0)
    assert (np.diff(up.ph_total) > 0).all()
    c = np.linspace(0.0, 9000.0, 4001)
    down = carbonate_system(salinity=35.0, temperature=25.0, total_alkalinity=2300.0, dic=c)
    assert (np.diff(down.ph_total) < 0).all()
    p = np.linspace(10.0, 50000.0, 4001)
    air = carbonate_system(salinity=35.0, temperature=25.0, total_alkalinity=2300.0, pco2=p)
    assert (np.diff(air.ph_total) < 0).all()


def counted(state):
    """Return alkalinity and carbon of a state, added up over its species."""
    total = alkalinity.alkalinity_from_species(
        state.bicarbonate,
        state.carbonate,
        state.borate,
        state.hydroxide,
        hydrogen_free=state.hydrogen_free,
        hydrogen_sulfate=state.hydrogen_sulfate,
        hydrogen_fluoride=state.hydrogen_fluoride,
    )
    return total, state.co2 + state.bicarbonate + state.carbonate


@given(
    one=st.tuples(st.floats(1500.0, 5000.0), st.floats(7.2, 8.8)),
    other=st.tuples(st.floats(1500.0, 5000.0), st.floats(7.2, 8.8)),
    share=st.floats(0.0, 1.0),
)
def test_mixing_averages_alkalinity_and_carbon_and_ph_lies_between(one, other, share):
    water = {"salinity": 35.0, "temperature": 25.0}
    first, second = (
        carbonate_system(total_alkalinity=a, ph_total=ph, **water) for a, ph in (one, other)
    )
    sums = [
        share * x + (1.0 - share) * y for x, y in zip(counted(first), counted(second), strict=True)
    ]
    mixed = carbonate_system(total_alkalinity=sums[0], dic=sums[1], **water)
    assert counted(mixed) == pytest.approx(sums, rel=1e-9)
    low, high = sorted((first.ph_total, second.ph_total))
    assert low - 1e-9 <= mixed.ph_total <= high + 1e-9


@given(
    ph=st.floats(3.0, 11.0),
    salinity=st.floats(20.0, 45.0),
    temperature=st.floats(5.0, 35.0),
)
def test_the_most_of_carbon_goes_over_at_each_pk(ph, salinity, temperature):
    state = carbonate_system(salinity=salinity, temperature=temperature, ph_total=ph, dic=2000.0)
    k = state.constants
    assert (state.co2 > state.bicarbonate) == (ph < -math.log10(k.k1))
    assert (state.bicarbonate > state.carbonate) == (ph < -math.log10(k.k2))
    assert (state.boric_acid > state.borate) == (ph < -math.log10(k.kb))
    assert (state.co2 > state.carbonate) == (ph < -math.log10(k.k1 * k.k2) / 2)


def test_sensitivities_are_the_slopes_of_the_state():
    base = {
        "salinity": 34.0,
        "temperature": 26.0,
        "phosphate": 3.0,
        "silicate": 20.0,
        "ammonium": 50.0,
    }
    state = carbonate_system(total_alkalinity=2600.0, dic=2250.0, **base)

    def slope(part, name, step):
        two = []
        for sign in (1, -1):
            given = {"total_alkalinity": 2600.0, "dic": 2250.0, **base}
            given[name] += sign * step
            two.append(getattr(carbonate_system(**given), part))
        return (two[0] - two[1]) / (2 * step)

    for sensitivity, part, name, step in (
        ("d_ph_d_alkalinity", "ph_total", "total_alkalinity", 0.1),
        ("d_ph_d_dic", "ph_total", "dic", 0.1),
        ("d_omega_aragonite_d_alkalinity", "omega_aragonite", "total_alkalinity", 0.1),
        ("d_omega_aragonite_d_dic", "omega_aragonite", "dic", 0.1),
        ("d_pco2_d_alkalinity", "pco2", "total_alkalinity", 0.1),
        ("d_ph_d_temperature", "ph_total", "temperature", 0.02),
        ("d_omega_aragonite_d_temperature", "omega_aragonite", "temperature", 0.02),
    ):
        expected = slope(part, name, step)
        assert getattr(state, sensitivity) == pytest.approx(expected, rel=1e-6), sensitivity
    revelle = slope("pco2", "dic", 0.1) * state.dic / state.pco2
    assert state.revelle_factor == pytest.approx(revelle, rel=1e-6)


@given(
    total_alkalinity=st.floats(2000.0, 4000.0),
    dic=st.floats(1800.0, 3000.0),
    salinity=st.floats(20.0, 40.0),
    temperature=st.floats(9.0, 33.0),
)
def test_the_relations_for_single_answers_agree_with_the_system(
    total_alkalinity, dic, salinity, temperature
):
    water = {"salinity": salinity, "temperature": temperature}
    state = carbonate_system(total_alkalinity=total_alkalinity, dic=dic, **water)
    ph, pco2 = state.ph_total, state.pco2
    close = {"rel": 1e-10}
    assert alkalinity.ph_from_alkalinity_and_dic(total_alkalinity, dic, **water) == pytest.approx(
        ph, abs=1e-10
    )
    assert alkalinity.ph_from_alkalinity_and_pco2(total_alkalinity, pco2, **water) == pytest.approx(
        ph, abs=1e-10
    )
    assert alkalinity.alkalinity_from_ph_and_dic(ph, dic, **water) == pytest.approx(
        total_alkalinity, **close
    )
    assert alkalinity.alkalinity_from_ph_and_pco2(ph, pco2, **water) == pytest.approx(
        total_alkalinity, **close
    )
    assert alkalinity.dic_from_alkalinity_and_ph(total_alkalinity, ph, **water) == pytest.approx(
        dic, **close
    )
    assert alkalinity.pco2_from_alkalinity_and_ph(total_alkalinity, ph, **water) == pytest.approx(
        pco2, **close
    )
    assert alkalinity.pco2_from_ph_and_dic(ph, dic, **water) == pytest.approx(pco2, **close)
    assert alkalinity.carbonate_from_alkalinity_and_ph(
        total_alkalinity, ph, **water
    ) == pytest.approx(state.carbonate, **close)
    assert alkalinity.noncarbon_alkalinity(ph, **water) == pytest.approx(
        total_alkalinity - state.carbonate_alkalinity, rel=1e-8
    )
    assert carbonate.omega_aragonite(
        state.calcium, state.carbonate, temperature, salinity
    ) == pytest.approx(state.omega_aragonite, **close)
    assert carbonate.omega_calcite(
        state.calcium, state.carbonate, temperature, salinity
    ) == pytest.approx(state.omega_calcite, **close)
    for scale in ("free", "seawater", "nbs"):
        converted = carbonate.convert_ph(
            ph, salinity, temperature, from_scale="total", to_scale=scale
        )
        assert converted == pytest.approx(getattr(state, f"ph_{scale}"), abs=1e-12)


@pytest.mark.parametrize("part", sorted(CarbonateState.UNITS))
def test_a_long_array_is_made_of_the_same_numbers_as_single_states(part):
    size = 20001
    rng = np.random.default_rng(7)
    given = {
        "salinity": rng.uniform(30, 37, size),
        "temperature": rng.uniform(15, 30, size),
        "total_alkalinity": rng.uniform(2000, 4000, size),
        "ph_total": rng.uniform(7.8, 8.3, size),
        "phosphate": rng.uniform(0, 5, size),
        "silicate": rng.uniform(0, 50, size),
        "ammonium": rng.uniform(0, 50, size),
    }
    many = np.broadcast_to(getattr(carbonate_system(**given), part), (size,))
    for place in (0, 9000, size - 1):
        one = carbonate_system(**{k: float(v[place]) for k, v in given.items()})
        rel = 1e-6 if "temperature" in part and part.startswith("d_") else 1e-10
        assert many[place] == pytest.approx(getattr(one, part), rel=rel)


def test_shapes_broadcast():
    state = carbonate_system(
        salinity=np.array([[34.0], [35.0]]),
        temperature=25.0,
        total_alkalinity=np.array([2300.0, 2400.0, 2500.0]),
        dic=2000.0,
    )
    assert state.ph_total.shape == (2, 3)
    assert state.omega_aragonite.shape == (2, 3)
    assert np.broadcast_to(state.total_alkalinity, (2, 3)).shape == (2, 3)


@pytest.mark.parametrize("pair", PAIRS, ids="+".join)
def test_each_input_may_be_the_only_array(pair):
    given = {"total_alkalinity": 2300.0, "dic": 2000.0, "ph_total": 8.05, "pco2": 400.0}
    given = {"carbonate": 200.0, **given}
    single = {"salinity": 35.0, "temperature": 25.0} | {name: given[name] for name in pair}
    other = {"phosphate": 2.0, "silicate": 20.0, "ammonium": 30.0}
    other |= {"total_boron": 420.0, "calcium": 1.1e4, "salinity": 34.0, "temperature": 24.0}
    other |= {name: 1.01 * given[name] for name in pair}
    for name, value in other.items():
        usual = single.get(name, {"total_boron": 400.0, "calcium": 1e4}.get(name, 0.0))
        many = carbonate_system(**single | {name: np.array([usual, value])})
        for place, number in enumerate((usual, value)):
            one = carbonate_system(**single | {name: number})
            for part in ("ph_total", "dic", "total_alkalinity", "omega_aragonite", "beta_dic"):
                found = np.broadcast_to(getattr(many, part), 2)[place]
                assert found == pytest.approx(getattr(one, part), rel=1e-12), (name, part)


def test_constants_of_a_long_array_may_be_looked_at_before_its_parts():
    salinity = np.linspace(30.0, 36.0, 20001)
    state = carbonate_system(salinity=salinity, temperature=25.0, ph_total=8.1, dic=2000.0)
    k1 = state.constants.k1
    assert k1.shape == salinity.shape
    ratio = 10.0**-8.1 / k1
    assert state.co2 / state.bicarbonate == pytest.approx(ratio, rel=1e-12)


def test_quantities_come_back_as_quantities():
    state = carbonate_system(
        salinity=35.0,
        temperature=quantity(77.0, "degF"),
        total_alkalinity=quantity(2.3, "mmol/kg"),
        dic=quantity(2000.0, "umol/kg"),
    )
    bare = carbonate_system(salinity=35.0, temperature=25.0, total_alkalinity=2300.0, dic=2000.0)
    for name, unit in CarbonateState.UNITS.items():
        found = getattr(state, name)
        assert found.units == registry().Unit("" if unit == "1" else unit), name
        assert found.magnitude == pytest.approx(getattr(bare, name), rel=1e-9), name


def test_a_quantity_beside_a_bare_number_is_refused():
    with pytest.raises(UnitError, match="dic needs a unit"):
        carbonate_system(
            salinity=35.0,
            temperature=quantity(25.0, "degC"),
            total_alkalinity=quantity(2300.0, "umol/kg"),
            dic=2000.0,
        )


def test_scalars_stay_plain_floats():
    state = carbonate_system(salinity=35, temperature=25, total_alkalinity=2300, dic=2000)
    assert {type(value) for value in state.as_dict().values()} == {float}


@pytest.mark.parametrize(
    ("given", "message"),
    [
        (
            {"total_alkalinity": 100.0, "ph_total": 9.0},
            r"no dic can meet it\. \d+\.?\d* umol/kg or",
        ),
        ({"dic": 10.0, "pco2": 900.0}, r"a pco2 above 0 and below 353\.\d+ uatm is possible"),
        ({"dic": 100.0, "carbonate": 100.0}, r"a carbonate above 0 and below 100 umol/kg"),
        ({"pco2": 0.0, "carbonate": 100.0}, r"both must be above 0"),
        (
            {"total_alkalinity": 100.0, "carbonate": 900.0},
            r"an alkalinity of 2\d+\.?\d* umol/kg or",
        ),
        ({"total_alkalinity": 100.0, "carbonate": 0.0}, r"water without carbonate has no pH"),
        ({"ph_total": 14.0, "pco2": 1e6}, r"would need a dic of .*; 0 to 1e\+06"),
        ({"pco2": -1.0, "ph_total": 8.0}, r"pco2 is -1 uatm; 0 to 1000000 is possible"),
        ({"dic": -1.0, "ph_total": 8.0}, r"dic is -1 umol/kg; 0 to 1000000 is possible"),
    ],
)
def test_impossible_combinations_say_what_would_be_possible(given, message):
    with pytest.raises(DomainError, match=message):
        carbonate_system(salinity=35.0, temperature=25.0, **given)


def test_an_impossible_element_of_an_array_is_nan_beside_the_others():
    state = carbonate_system(
        salinity=35.0,
        temperature=25.0,
        total_alkalinity=np.array([100.0, 2300.0]),
        carbonate=np.array([900.0, 200.0]),
    )
    assert np.isnan(state.ph_total[0])
    assert np.isnan(state.omega_aragonite[0])
    assert state.ph_total[1] == pytest.approx(8.0, abs=0.1)


@pytest.mark.parametrize("kind", [float, lambda x: np.array([x])])
def test_the_least_and_the_most_that_is_possible_has_an_answer(kind):
    water = {"salinity": 35.0, "temperature": 25.0}
    for total, dic in ((2300.0, 0.0), (1e6, 1e6), (-1e6, 2000.0), (-1e6, 0.0)):
        state = carbonate_system(**water, total_alkalinity=kind(total), dic=kind(dic))
        assert math.isfinite(np.ravel(state.ph_total)[0]), (total, dic)
    for dic in (0.0, 0.5, 1e6):
        state = carbonate_system(**water, ph_total=kind(7.0), dic=kind(dic))
        assert math.isfinite(np.ravel(state.total_alkalinity)[0]), dic


def test_nan_passes_through():
    for pair in PAIRS:
        given = {"total_alkalinity": 2300.0, "dic": 2000.0, "ph_total": 8.0, "pco2": 400.0}
        given["carbonate"] = 200.0
        for bad in pair:
            values = {name: math.nan if name == bad else given[name] for name in pair}
            state = carbonate_system(salinity=35.0, temperature=25.0, **values)
            assert math.isnan(state.omega_aragonite), (pair, bad)


@pytest.mark.parametrize("given", [(), ("dic",), FIVE[:3]])
def test_other_than_two_of_the_five_is_refused_with_those_that_came(given):
    said = f"takes two of {', '.join(FIVE)}; it got {', '.join(given) or 'none'}$"
    with pytest.raises(TypeError, match=said):
        carbonate_system(salinity=35.0, temperature=25.0, **dict.fromkeys(given, 8.0))


@pytest.mark.filterwarnings("error")
def test_water_outside_a_source_is_said_once_with_every_constant_it_concerns():
    with pytest.warns(RangeWarning) as caught:
        carbonate_system(salinity=42.0, temperature=25.0, ph_total=8.0, dic=2000.0)
    assert len(caught) == 1
    text = str(caught[0].message)
    assert "salinity is 42, fluoride_kf_perez1987 covers 10 to 40" in text
    assert "lueker" not in text
    assert caught[0].filename == __file__
    carbonate_system(salinity=35.0, temperature=25.0, ph_total=8.0, dic=2000.0)


def test_ammonium_narrows_the_range_only_where_there_is_some():
    water = {"salinity": 42.0, "temperature": 25.0, "ph_total": 8.0, "dic": 2000.0}
    with pytest.warns(RangeWarning, match="ammonium_k_clegg1995 covers 0 to 40"):
        carbonate_system(**water, ammonium=10.0)
    with pytest.warns(RangeWarning) as caught:
        carbonate_system(**water)
    assert "ammonium" not in str(caught[0].message)


def test_a_state_is_frozen():
    state = carbonate_system(salinity=35.0, temperature=25.0, ph_total=8.0, dic=2000.0)
    with pytest.raises(AttributeError, match="frozen"):
        state.ph_total = 7.0
    with pytest.raises(AttributeError):
        state.other = 7.0


def test_measured_calcium_and_boron_are_used_as_given():
    given = {"salinity": 35.0, "temperature": 25.0, "total_alkalinity": 2300.0, "dic": 2000.0}
    twice = carbonate_system(**given, calcium=20000.0)
    once = carbonate_system(**given, calcium=10000.0)
    assert twice.omega_aragonite == pytest.approx(2 * once.omega_aragonite, rel=1e-12)
    boron = carbonate_system(**given, total_boron=1e6 * 0.1336e-3 * 35.0 / 10.811)
    assert boron.ph_total == pytest.approx(
        carbonate_system(**given, boron="lee2010").ph_total, abs=1e-12
    )


def test_the_spread_over_constants_is_that_of_single_states():
    given = {"salinity": 35.0, "temperature": 25.0, "total_alkalinity": 2300.0, "dic": 2000.0}
    found = spread(**given)
    values = [
        carbonate_system(**given, carbonic=name).ph_total for name in (*CARBONIC, "waters2014")
    ]
    assert found.range("ph_total") == (min(values), max(values))
    assert 0.005 < max(values) - min(values) < 0.04
    with pytest.raises(AttributeError, match="no part 'ph'"):
        found.range("ph")
    with pytest.raises(TypeError, match="leave it out"):
        spread(**given, carbonic="roy1993")
    arrays = spread(**{**given, "dic": np.array([1900.0, 2000.0])})
    low, high = arrays.range("omega_aragonite")
    assert (low < high).all()


def test_a_single_relation_refuses_what_no_ph_can_meet():
    with pytest.raises(NoRootError):
        alkalinity.ph_from_alkalinity_and_dic(1e6, 1.0, 35.0, 25.0)


@given(
    total_alkalinity=st.floats(1500.0, 5000.0),
    ph=st.floats(7.5, 8.8),
    salinity=st.floats(20.0, 40.0),
    temperature=st.floats(9.0, 33.0),
)
def test_the_relation_for_the_revelle_factor_lacks_only_sulfate_and_fluoride(
    total_alkalinity, ph, salinity, temperature
):
    state = carbonate_system(
        salinity=salinity, temperature=temperature, total_alkalinity=total_alkalinity, ph_total=ph
    )
    k = state.constants
    found = carbonate.revelle_factor(
        10.0**-ph, state.dic, state.total_boron, k.k1, k.k2, k.kb, k.kw
    )
    assert found == pytest.approx(state.revelle_factor, rel=2e-4)
