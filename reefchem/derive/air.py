"""A tank and its air, from balances of carbon."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Derivative, Eq, Function, cancel, dsolve, solve, symbols

from reefchem.carbonate.air import (
    approach,
    blended_air,
    carbon_buffering,
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


@derivation(carbon_buffering, title="Carbon that goes with carbon dioxide at constant alkalinity")
def buffering_from_implicit_derivative(
    hydrogen: Any, carbon: Any, boron: Any, k1: Any, k2: Any, kb: Any, kw: Any
) -> Steps:
    """Write carbon and alkalinity in CO2 and H, and hold the alkalinity."""
    c, h = symbols("[CO_2] H", positive=True)
    total = c * (1 + k1 / h + k1 * k2 / h**2)
    alkalinity = c * (k1 / h + 2 * k1 * k2 / h**2) + boron * kb / (kb + h) + kw / h - h
    yield "Dissolved inorganic carbon and alkalinity, by mass action.", [total, alkalinity]
    slope = -alkalinity.diff(c) / alkalinity.diff(h)
    text = "How hydrogen ion must follow carbon dioxide so that the alkalinity stays:"
    yield text, Eq(Derivative(h, c), slope)
    gain = total.diff(c) + total.diff(h) * slope
    gain = total.diff(c) + total.diff(h) * slope
    yield "So carbon changes with carbon dioxide by", gain
    b, x, carbonic, weights = symbols("[HCO_3^-] [CO_3^{2-}] A_C S", positive=True)
    closed = (total - carbonic**2 / weights) / c
    text = "In terms of carbonate alkalinity and of a sum S of contents with weights:"
    weighed = b + 4 * x + boron * kb * h / (kb + h) ** 2 + kw / h + h
    yield text, [closed, Eq(carbonic, b + 2 * x), Eq(weights, weighed)]
    species = {b: c * k1 / h, x: c * k1 * k2 / h**2}
    written_out = closed.subs({carbonic: b + 2 * x, weights: weighed}).subs(species)
    if cancel(gain - written_out) != 0:
        msg = "the closed form is not the derivative"
        raise ArithmeticError(msg)
    co2 = carbon * hydrogen**2 / (hydrogen**2 + k1 * hydrogen + k1 * k2)
    kept = closed.subs(total, carbon).subs({carbonic: b + 2 * x, weights: weighed})
    return kept.subs(species).subs({h: hydrogen, c: co2})
