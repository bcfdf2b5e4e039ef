"""How hard the water resists a change of its carbon dioxide, for pages and single answers.

The state of `carbonate_system` has this and the other buffer factors with all acids; the relation
here keeps to carbon, boron and water, which make up all but a few parts in ten thousand.
"""

from __future__ import annotations

from reefchem.carbonate.species import bicarbonate_share, borate_share, carbonate_share
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = ["revelle_factor"]

PER_MOLE = 1e6
"""Micromoles in a mole."""


@relation(
    unit="1",
    symbol="R",
    source="egleston2010",
    at="table 1, Revelle factor as DIC over the buffer factor of DIC",
    hydrogen=arg("mol/kg", "h", typical=(1e-9, 1e-7), possible=(1e-15, 10.0)),
    dic=arg("umol/kg", "C_T", typical=(1500.0, 4000.0)),
    total_boron=arg("umol/kg", "B_T", typical=(200.0, 900.0)),
    k1=arg("mol/kg", "K_1", typical=(8e-7, 1.8e-6)),
    k2=arg("mol/kg", "K_2", typical=(5e-10, 1.6e-9)),
    kb=arg("mol/kg", "K_B", typical=(1e-9, 3.5e-9)),
    kw=arg("mol**2/kg**2", "K_W", typical=(1e-14, 1.2e-13)),
)
def revelle_factor(
    hydrogen: Num, dic: Num, total_boron: Num, k1: Num, k2: Num, kb: Num, kw: Num
) -> Num:
    """Return by how many per cent CO2 rises when DIC rises by one, alkalinity held.

    Examples
    --------
    >>> round(revelle_factor(9e-9, 2000.0, 416.0, 1.42e-6, 1.08e-9, 2.53e-9, 6.06e-14), 2)
    9.6
    """
    alpha_1 = bicarbonate_share(hydrogen, k1, k2)
    alpha_2 = carbonate_share(hydrogen, k1, k2)
    beta = borate_share(hydrogen, kb)
    n = alpha_1 + 2.0 * alpha_2
    carbon = dic * (alpha_1 + 4.0 * alpha_2 - n * n)
    others = total_boron * beta * (1.0 - beta) + PER_MOLE * (kw / hydrogen + hydrogen)
    return 1.0 + dic * n * n / (carbon + others)
