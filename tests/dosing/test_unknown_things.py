"""What is asked for and not there is named, with what is."""

from __future__ import annotations

import pytest

from reefchem.core.errors import DomainError
from reefchem.dosing import StockSolution, salts
from reefchem.dosing.species import COMPONENTS, alkalinity_of, component_mass


def test_an_unknown_component_is_told_the_known_ones():
    with pytest.raises(DomainError, match="component is 'plutonium'; known are ") as said:
        component_mass("plutonium")
    assert str(said.value).partition("known are ")[2].split(", ") == list(COMPONENTS)


def test_an_unknown_ion_is_told_the_known_ones():
    with pytest.raises(DomainError, match=r"species is 'Pu\^4\+'; known are "):
        alkalinity_of({"Pu^4+": 1.0})


def test_a_powder_that_is_not_in_the_solution_makes_none_of_it():
    soda = StockSolution({"NaHCO3": 80.0})
    assert soda.volume_from("NaHCO3", 40.0) == pytest.approx(500.0)
    with pytest.raises(DomainError, match="there is no KCl in it; there is NaHCO3"):
        soda.volume_from("KCl", 40.0)


def test_hazardous_is_what_has_a_signal_word_or_heats_up():
    assert salts["NaOH"].hazardous
    assert not salts["NaHCO3"].hazardous
    assert all(s.hazardous == bool(s.signal or s.heat) for s in salts.values())
