"""Limewater and the calcium reactor: balances of a loop."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Rational, Symbol, solve

from reefchem.derive.derivation import derivation
from reefchem.derive.reactions import balanced, exact_mass, solved
from reefchem.dosing.lime import lime_mass, limewater_limit, reactor_carbon_dioxide, reactor_drip
from reefchem.dosing.solubility import limewater_alkalinity, limewater_concentration

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["limewater_from_its_reaction"]


def equivalents_of_lime() -> Stages:
    """Return the acid that a mole of lime takes up."""
    numbers = balanced(("Ca(OH)2", "H+"), ("Ca^2+", "H2O"))
    per_mole = Rational(numbers["H+"], numbers["Ca(OH)2"])
    yield "Ca(OH)₂ + n H⁺ → Ca²⁺ + 2 H₂O balances for one n, the equivalents in a mole:", per_mole
    return per_mole


@derivation(limewater_alkalinity, title="The alkalinity of limewater")
def limewater_from_its_reaction(temperature: Any) -> Stages:
    """Count the acid that a mole of lime takes up."""
    per_mole = yield from equivalents_of_lime()
    c = Symbol("c", positive=True)
    yield "With c moles in a litre, in meq/L:", 1000 * per_mole * c
    return 1000 * per_mole * concentration(temperature)


@derivation(limewater_limit, title="What evaporation lets limewater do")
def limit_from_evaporation(evaporation: Any, volume: Any, temperature: Any) -> Stages:
    """Put limewater where water has gone."""
    per_mole = yield from equivalents_of_lime()
    a, c = Symbol("a", positive=True), Symbol("c", positive=True)
    law = Eq(a * volume, evaporation * 1000 * per_mole * c)
    yield "In a day the tank gains what its evaporation made room for:", law
    (found,) = solve(law, a)
    yield "So:", Eq(a, found)
    return found.subs(c, concentration(temperature))


@derivation(lime_mass, title="Lime for a container")
def lime_weighed(volume: Any, temperature: Any) -> Stages:
    """Weigh the moles."""
    c = Symbol("c", positive=True)
    yield "Moles in the container:", volume * c
    return volume * concentration(temperature) * exact_mass("Ca(OH)2")


@derivation(reactor_drip, title="The drip rate of a calcium reactor")
def drip_from_a_loop(
    daily_uptake: Any, volume: Any, effluent_alkalinity: Any, alkalinity: Any
) -> Stages:
    """Balance the alkalinity of the tank."""
    q = Symbol("q", positive=True)
    law = Eq(q * effluent_alkalinity, q * alkalinity + daily_uptake * volume)
    yield "What drips in replaces what flows to the reactor and what corals use:", law
    (found,) = solve(law, q)
    yield "So:", Eq(q, found)
    return found


@derivation(reactor_carbon_dioxide, title="Carbon dioxide that a reactor uses")
def gas_from_two_balances(
    effluent_dic: Any, dic: Any, effluent_alkalinity: Any, alkalinity: Any
) -> Stages:
    """Solve the balances of carbon and alkalinity for the gas."""
    extents = {"x": {"alkalinity": 2, "C": 1}, "y": {"C": 1}}
    demands = {"alkalinity": effluent_alkalinity - alkalinity, "C": effluent_dic - dic}
    shown, found = solved(extents, demands)
    yield "A litre dissolves x of CaCO₃ and takes y of CO₂ (rows: alkalinity, carbon):", shown
    yield "So the gas is", Eq(Symbol("y"), found["y"])
    return found["y"]


def concentration(temperature: Any) -> Any:
    """Return the concentration that the relation takes from its source, with exact numbers."""
    fit = limewater_concentration.__relation__.fits["fit"]  # type: ignore[attr-defined]
    numbers = {name: Rational(repr(getattr(fit, name))) for name in fit.names()}
    return numbers["concentration"] * (1 + numbers["concentration_slope"] * (temperature - 25))
