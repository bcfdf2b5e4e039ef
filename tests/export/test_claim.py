"""One claimed number: agreement by its digits, and the slip that led to a wrong one."""

import pytest

from reefchem.core.errors import DomainError
from reefchem.core.quantity import quantity
from reefchem.core.record import describe
from reefchem.export.claim import check_claim
from reefchem.export.mistakes import slips
from reefchem.seawater import salinity_from_specific_gravity, seawater_density

SEA = {"salinity": 35.0, "temperature": 25.0}


def names(claim):
    return [slip.name for slip in claim.slips]


@pytest.mark.parametrize(
    ("claimed", "agrees"), [("1023.3", True), ("1023.4", False), ("1023", True)]
)
def test_half_a_unit_of_the_last_digit_agrees(claimed, agrees):
    assert check_claim("seawater_density", SEA, claimed).agrees is agrees


def test_the_claim_and_the_inputs_may_have_units_of_their_own():
    inputs = {"salinity": 35.0, "temperature": quantity(77.0, "degF")}
    assert check_claim("seawater_density", inputs, "1.0233 g/mL").agrees


def test_another_tolerance_can_be_asked_for():
    assert check_claim("seawater_density", SEA, "1030", within="1 %").agrees
    assert not check_claim("seawater_density", SEA, "1030", within="0.5 %").agrees
    assert check_claim("seawater_density", SEA, "1030", within="10").agrees
    with pytest.raises(DomainError, match="within is '-1'"):
        check_claim("seawater_density", SEA, "1030", within="-1")


def test_a_wrong_reference_temperature_is_recognised():
    record = describe(salinity_from_specific_gravity)
    inputs = {"specific_gravity": 1.0264, "temperature": 25.0, "reference_temperature": 25.0}
    wrong = record.function(**{**inputs, "reference_temperature": 15.5556})
    claim = check_claim(record.name, inputs, f"{wrong:.2f}")
    assert "reference temperature" in names(claim)
    assert "60 °F" in str(claim)


def test_per_kilogram_for_per_litre_is_recognised():
    # 8 dKH is 2.853 meq/L, and a litre of seawater at 35 and 25 °C weighs 1.02334 kg
    record = describe("per_litre")
    inputs = dict.fromkeys(record.arguments) | {"salinity": 35.0, "temperature": 25.0}
    (amount,) = [name for name in inputs if inputs[name] is None]
    inputs[amount] = 2300.0
    claim = check_claim("per_litre", inputs, "2300.0")
    assert names(claim)[0].startswith("per "), claim


def test_a_hydrate_is_recognised():
    claim = check_claim("calcium_chloride_for_hydrogencarbonate", {"mass": 84.0}, "55.49")
    assert names(claim) == ["hydrate"]
    assert "CaCl2 was weighed for CaCl2·2H2O" in str(claim)


@pytest.mark.parametrize(
    ("relation", "argument", "claimed", "slip"),
    [
        ("nitrate_from_nitrogen", "nitrogen", "10.000", "N for NO3"),
        ("nitrate_from_nitrogen", "nitrogen", "2.2590", "direction"),
        ("phosphate_from_phosphorus", "phosphorus", "10.000", "P for PO4"),
    ],
)
def test_the_element_for_the_ion_is_recognised(relation, argument, claimed, slip):
    assert slip in names(check_claim(relation, {argument: 10.0}, claimed))


def test_a_ph_scale_is_recognised():
    # total to free is about 0.11 at salinity 35 and 25 °C (Dickson et al. 2007, chapter 2)
    inputs = {"ph_total": 8.05, **SEA}
    claim = check_claim("ph_free_from_total", inputs, "8.0500")
    assert "pH scale" in names(claim)


@pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")
def test_fahrenheit_is_recognised():
    wrong = describe(seawater_density).kernel(35.0, (25.0 - 32) / 1.8)
    assert names(check_claim("seawater_density", SEA, f"{wrong:.3f}")) == ["temperature unit"]


def test_a_wrong_number_without_a_usual_reason_gets_none():
    claim = check_claim("seawater_density", SEA, "1031.77")
    assert claim.slips == ()
    assert "differs by 8.429 kg/m³ (0.82 %)" in str(claim)


def test_no_slip_leads_to_the_right_number_itself():
    claim = check_claim("seawater_density", SEA, "1023.341")
    assert claim.agrees
    assert not claim.slips
    assert list(slips(describe(seawater_density), SEA, 1023.341))


@pytest.mark.parametrize(
    ("relation", "inputs", "claimed", "error", "said"),
    [
        ("no_such_thing", {}, "1", KeyError, "no relation is called"),
        ("seawater_density", {"salinity": 35.0}, "1", TypeError, "missing"),
        ("seawater_density", SEA | {"salinity": -1.0}, "1", DomainError, "salinity is -1"),
        ("seawater_density", SEA, "much", DomainError, "'much' is not a number"),
    ],
)
def test_what_cannot_be_judged_is_refused(relation, inputs, claimed, error, said):
    with pytest.raises(error, match=said):
        check_claim(relation, inputs, claimed)
