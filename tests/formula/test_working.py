import pytest

from reefchem.core.errors import DomainError
from reefchem.core.quantity import quantity
from reefchem.formula import work
from reefchem.formula.equation import equation
from reefchem.formula.latex import latex_printer
from reefchem.formula.substituted import Slot, numbers, readable, substituted
from reefchem.seawater import salinity_from_density, seawater_density
from reefchem.textbook.mathml import to_mathml


def test_every_named_quantity_is_computed_on_the_way():
    worked = work(seawater_density, salinity=35.0, temperature=25.0)
    text = worked.text()
    assert "t_68 = 1.00024·25 = 25.0060" in text
    assert "ρ = 997.046 + 0.759229·35" in text
    assert worked.value == seawater_density(35.0, 25.0)
    assert "pure_water_density: Return the density of pure water" in text, (
        "the part that was called"
    )
    assert "Millero and Poisson (1981), eq. 6" in text


def test_a_root_shows_its_residual_with_the_numbers():
    text = work(salinity_from_density, density=1023.0, temperature=25.0).text()
    assert "S = the S for which ρ(S, 25) − 1023 = 0" in text
    assert "= 34.5484" in text


def test_the_latex_can_be_set():
    latex = work(seawater_density, salinity=35.0, temperature=-1.5).latex()
    assert r"\left( -1.5 \right)" in latex
    assert to_mathml(latex, block=True).startswith("<math")


def test_the_html_holds_formula_result_and_source():
    html = work(seawater_density, salinity=35.0, temperature=25.0).html()
    assert "<strong>1023.34 kg/m³</strong>" in html
    assert "eq. 6" in html


def test_inputs_that_are_missing_or_unknown_are_named():
    with pytest.raises(
        TypeError,
        match=r": heat is not taken, temperature is missing\. It takes salinity, temperature$",
    ):
        work(seawater_density, salinity=35.0, heat=25.0)


def test_a_converted_input_is_told_without_the_noise_of_its_conversion():
    warm = work(seawater_density, salinity=35.0, temperature=quantity(77.0, "degF"))
    assert "  temperature = 25 °C\n" in warm.text()
    exact = work(seawater_density, salinity=35.0, temperature=25.0123456789)
    assert "  temperature = 25.0123456789 °C\n" in exact.text()


def test_impossible_inputs_are_refused():
    with pytest.raises(DomainError, match="salinity is -1"):
        work(seawater_density, salinity=-1.0, temperature=25.0)


def test_each_place_knows_what_it_stands_for():
    traced = equation(seawater_density.__relation__)
    slots = []
    lines = substituted(traced, latex_printer, lambda slot: slots.append(slot) or "N")
    assert [line.name for line in lines][-1] == ""
    assert {slot.kind for slot in slots} == {"argument", "named", "call"}
    assert Slot("named", "t68", tight=True) in slots, "it is raised to powers"
    values = numbers(traced, {"salinity": 35.0, "temperature": 25.0})
    assert {(slot.kind, slot.key) for slot in slots} <= values.keys()
    assert readable("argument", 0.1 + 0.2) == "0.3"
    assert readable("named", 25.006) == "25.006"
