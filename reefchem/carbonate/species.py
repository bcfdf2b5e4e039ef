"""Who holds the protons: shares of an acid and its bases at a hydrogen ion content."""

from __future__ import annotations

from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = ["bicarbonate_share", "borate_share", "carbonate_share", "co2_share"]

HYDROGEN = arg("mol/kg", "h", typical=(1e-9, 1e-7))
K1 = arg("mol/kg", "K_1", typical=(8e-7, 1.8e-6))
K2 = arg("mol/kg", "K_2", typical=(5e-10, 1.6e-9))
LAWS = "chapter 2, laws of mass action"


@relation(
    unit="1",
    symbol=r"\alpha_0",
    source="dickson2007",
    at=LAWS,
    hydrogen=HYDROGEN,
    k1=K1,
    k2=K2,
)
def co2_share(hydrogen: Num, k1: Num, k2: Num) -> Num:
    """Return the share of dissolved carbon dioxide in DIC.

    Examples
    --------
    >>> round(co2_share(1e-8, 1.4e-6, 1.1e-9), 5)
    0.00639
    """
    return hydrogen * hydrogen / (hydrogen * hydrogen + k1 * hydrogen + k1 * k2)


@relation(
    unit="1",
    symbol=r"\alpha_1",
    source="dickson2007",
    at=LAWS,
    hydrogen=HYDROGEN,
    k1=K1,
    k2=K2,
)
def bicarbonate_share(hydrogen: Num, k1: Num, k2: Num) -> Num:
    """Return the share of bicarbonate in DIC.

    Examples
    --------
    >>> round(bicarbonate_share(1e-8, 1.4e-6, 1.1e-9), 4)
    0.8951
    """
    return k1 * hydrogen / (hydrogen * hydrogen + k1 * hydrogen + k1 * k2)


@relation(
    unit="1",
    symbol=r"\alpha_2",
    source="dickson2007",
    at=LAWS,
    hydrogen=HYDROGEN,
    k1=K1,
    k2=K2,
)
def carbonate_share(hydrogen: Num, k1: Num, k2: Num) -> Num:
    """Return the share of carbonate in DIC.

    Examples
    --------
    >>> round(carbonate_share(1e-8, 1.4e-6, 1.1e-9), 4)
    0.0985
    """
    return k1 * k2 / (hydrogen * hydrogen + k1 * hydrogen + k1 * k2)


@relation(
    unit="1",
    symbol=r"\beta",
    source="dickson2007",
    at=LAWS,
    hydrogen=HYDROGEN,
    kb=arg("mol/kg", "K_B", typical=(1e-9, 3.5e-9)),
)
def borate_share(hydrogen: Num, kb: Num) -> Num:
    """Return the share of borate in total boron.

    Examples
    --------
    >>> round(borate_share(1e-8, 2.5e-9), 6)
    0.2
    """
    return kb / (kb + hydrogen)
