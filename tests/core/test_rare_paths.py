"""What seldom happens: a full cache, a search without end, a formula of two meanings."""

from __future__ import annotations

import numpy as np
import pytest

from reefchem.core import quantity as units
from reefchem.core import roots
from reefchem.core.atoms import atoms_in, molar_mass
from reefchem.core.errors import DomainError, NoRootError
from reefchem.core.term import Choice, Root, Symbol


def test_a_full_cache_of_conversions_is_emptied_and_answers_the_same(monkeypatch):
    monkeypatch.setattr(units, "_MOST_KEPT", 2)
    for kept in ("_incoming", "_outgoing"):
        monkeypatch.setattr(units, kept, {})
    for _ in range(2):
        for unit, expected in (("kg", 1000.0), ("mg", 1e-3), ("g", 1.0), ("ug", 1e-6)):
            given = units.quantity(1.0, unit)
            assert units.magnitude(given, "g", "here: it") == pytest.approx(expected, rel=1e-12)
            assert units.with_unit(1.0, unit, given) == given
            assert len(units._incoming) <= 2
            assert len(units._outgoing) <= 2


@pytest.mark.parametrize("kind", [float, np.atleast_1d])
def test_a_search_that_does_not_end_in_time_says_so(monkeypatch, kind):
    monkeypatch.setattr(roots, "MOST", 5)

    def residual(x):
        return x * x * x - 1e-9

    if kind is float:
        with pytest.raises(NoRootError, match="side was not found in 5 steps between "):
            roots.find_root(residual, 0.0, 1e6, unknown="side")
    else:
        found = roots.find_root(residual, np.array([0.0]), 1e6, unknown="side")
        assert np.isnan(found).all()


def test_two_conditions_that_both_hold_are_a_choice():
    x = Symbol("x", "x")
    first, second = x > 1.0, x < 2.0
    both = first & second
    assert isinstance(both, Choice)
    assert both.condition is first
    assert both.then is second
    assert both.otherwise.value == 0


@pytest.mark.parametrize("formula", ["Ca2+", "SO42-", "Mg2+", "PO43-"])
def test_a_charge_that_could_be_a_count_is_refused(formula):
    with pytest.raises(DomainError, match="could be read in two ways"):
        molar_mass(formula)


@pytest.mark.parametrize(("formula", "long"), [("", 0), ("H" * 201, 201)])
def test_a_formula_has_a_length(formula, long):
    with pytest.raises(DomainError, match=rf"^a formula of {long} characters; 1 to 200 are"):
        atoms_in(formula)
    assert atoms_in("H" * 200) == {"H": 200}


def test_a_formula_has_a_number_of_atoms():
    assert atoms_in("C99999") == {"C": 99999}
    with pytest.raises(DomainError, match="has 100000 atoms; 1 to 99999 are allowed"):
        atoms_in("C99999H")


def test_a_term_after_a_number_is_seen():
    x = Symbol("a", "a")
    written = roots.find_root(lambda y: y * x - 2.0, 0.0, 9.0, unknown="side", like=(1.0, x))
    assert isinstance(written, Root)
    assert (written.unknown.name, written.unknown.latex) == ("side", "x")


@pytest.mark.parametrize("bounds", [(-1.5e308, 1.5e308), (1.5e308, -1.5e308)])
def test_an_interval_wider_than_the_doubles_is_refused(bounds):
    with pytest.raises(DomainError, match="which is no finite interval"):
        roots.find_root(lambda x: x, *bounds, unknown="side")
