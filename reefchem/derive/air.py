"""A tank and its air, from balances of carbon."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Derivative, Eq, Function, cancel, dsolve, solve, symbols

from reefchem.carbonate.air import (
    approach,
    blended_air,
    carbon_exchange_time,
    room_air,
)
from reefchem.derive.derivation import derivation

if TYPE_CHECKING:
    from collections.abc import Generator

    Steps = Generator[tuple[Any, ...], None, Any]

__all__: list[str] = []


@derivation(approach, title="First-order exchange, from a rate in proportion to the gap")
def approach_from_its_rate(start: Any, end: Any, duration: Any, time_constant: Any) -> Steps:
    """Solve the differential equation with its start."""
    t = symbols("t", positive=True)
    y = Function("y")
    law = Eq(Derivative(y(t), t), (end - y(t)) / time_constant)
    yield "The rate is the gap over a time.", law
    solution: Any = dsolve(law.doit(), y(t), ics={y(0): start})
    yield "The solution that begins at the start:", solution
    return solution.rhs.subs(t, duration)


@derivation(room_air, title="Carbon dioxide of a room at rest")
def room_from_mass_balance(outdoor: Any, emission: Any, fresh_air: Any) -> Steps:
    """Set what comes in equal to what goes out."""
    x = symbols("x", positive=True)
    balance = Eq(fresh_air * outdoor / 10**6 + emission / 1000, fresh_air * x / 10**6)
    text = "In a mixed room at rest, what fresh air and breath bring leaves with the air (m³/h)."
    yield text, balance
    (found,) = solve(balance, x)
    yield "So", Eq(x, found)
    return found


@derivation(blended_air, title="The air that a tank feels")
def blend_from_two_surfaces(room: Any, line: Any, share: Any) -> Steps:
    """Find the one air in which the flux is that of two surfaces together."""
    k, x, water = symbols("k x x_w", positive=True)
    both = k * (1 - share) * (room - water) + k * share * (line - water)
    one = k * (x - water)
    yield "Two surfaces side by side, each with a flux in proportion to its gap.", both
    (found,) = solve(Eq(one, both), x)
    yield "One air with the same flux for any water:", Eq(x, found)
    return found


@derivation(carbon_exchange_time, title="Why pH takes so much longer than oxygen")
def carbon_time_from_linear_chemistry(gas_time: Any, dic_per_co2: Any) -> Steps:
    """Linearise the chemistry around the balance and compare rates."""
    t = symbols("t", positive=True)
    gap = Function("c")
    law = Eq(dic_per_co2 * Derivative(gap(t), t), -gap(t) / gas_time)
    text = (
        "Carbon moves at the rate of the gap c of dissolved CO2 over the time of the gas. Near the "
        "balance the carbon of the tank changes by that many times as much as the gap itself."
    )
    yield text, law
    solution: Any = dsolve(law.doit(), gap(t))
    yield "The gap falls as an exponential:", solution
    return cancel(-solution.rhs / solution.rhs.diff(t))
