"""Titrating to one fixed pH: what is seen, what is missed, and how far off the reading is.

The pH is on the total scale, so that the acid which sulfate takes up is counted with the free
acid. Reading and alkalinity are per kilogram of sample.
"""

from __future__ import annotations

from reefchem.core.constants import LN10
from reefchem.core.functions import Num, exp, log, sqrt
from reefchem.core.record import POSITIVE, arg, relation

__all__ = [
    "alkalinity_from_acid",
    "alkalinity_from_one_addition",
    "endpoint_error",
    "equivalence_ph",
    "indicator_ph",
    "seawater_pk",
    "titrated_share",
]

_PK1 = arg("1", r"\mathrm{p}K_1", typical=(5.75, 6.05), possible=(0.0, 14.0))
_ENDPOINT = arg("1", r"\mathrm{pH}_\mathrm{e}", typical=(3.5, 5.5), possible=(0.0, 14.0))
_DIC = arg("umol/kg", r"C_T", typical=(10.0, 4500.0))
_DILUTION = arg("1", "d", typical=(0.0, 0.1))


@relation(
    unit="1",
    symbol=r"\mathrm{p}K",
    source="dickson1981",
    at="zero level pK 4.5 at zero ionic strength; the shift is an assumption of this book",
    pk_pure=arg("1", r"\mathrm{p}K^\circ", typical=(3.0, 7.0), possible=(-5.0, 16.0)),
    shift=arg("1", "s", title="shift by the salt", typical=(0.0, 0.3), possible=(-2.0, 2.0)),
)
def seawater_pk(pk_pure: Num, shift: Num = 0.15) -> Num:
    """Return the pK of a weak organic acid in seawater from its pK at zero ionic strength.

    The shift stands for the salt. 0.15 is an order of magnitude for a carboxylic acid: for the
    acid and salt at hand it may be 0.05 or 0.25.
    """
    return pk_pure - shift


@relation(
    unit="1",
    symbol="f",
    source="dickson1981",
    at="mass action, between two pH",
    start_ph=arg("1", r"\mathrm{pH}_0", typical=(7.5, 8.6), possible=(0.0, 14.0)),
    endpoint_ph=_ENDPOINT,
    pk=arg("1", r"\mathrm{p}K", typical=(3.0, 9.5), possible=(-5.0, 16.0)),
)
def titrated_share(start_ph: Num, endpoint_ph: Num, pk: Num) -> Num:
    """Return the share of a weak acid that takes up a proton between two pH.

    For a base with one proton to take up; a base with several is the sum over its steps.

    Examples
    --------
    Acetate and formate at pH 4.5:

    >>> round(titrated_share(8.2, 4.5, 4.61), 2), round(titrated_share(8.2, 4.5, 3.60), 2)
    (0.56, 0.11)
    """
    base_before = 1 / (1 + exp(LN10 * (pk - start_ph)))
    base_after = 1 / (1 + exp(LN10 * (pk - endpoint_ph)))
    return base_before - base_after


@relation(
    unit="umol/kg",
    symbol=r"A_\mathrm{r}",
    source="dickson2007",
    at="SOP 3b, acid at the equivalence point over sample",
    acid_mass=arg("g", "m", typical=(0.0, 2.5)),
    acid_concentration=arg("mol/kg", "C", typical=(0.05, 0.5)),
    sample_mass=arg("g", "m_0", typical=(5.0, 250.0), possible=(1e-9, float("inf"))),
)
def alkalinity_from_acid(acid_mass: Num, acid_concentration: Num, sample_mass: Num) -> Num:
    """Return the reading of a titration: acid used, for each kilogram of sample.

    Examples
    --------
    >>> round(alkalinity_from_acid(1.6333333, 0.3, 200.0), 2)
    2450.0
    """
    return 1e6 * acid_concentration * acid_mass / sample_mass


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_{\mathrm{eq}}",
    source="dickson1981",
    at="the proton condition at the equivalence point, carbonic acid alone",
    dic=_DIC,
    pk1=_PK1,
)
def equivalence_ph(dic: Num, pk1: Num) -> Num:
    """Return the pH at which exactly the alkalinity has been titrated.

    There the free acid equals the bicarbonate that is left. `dic` is the carbon still dissolved:
    all of it in a closed vessel, what the air holds in one that was shaken open.

    Examples
    --------
    >>> round(equivalence_ph(2000.0, 5.847), 2), round(equivalence_ph(12.0, 5.847), 2)
    (4.28, 5.46)
    """
    k1 = exp(-LN10 * pk1)
    C = 1e-6 * dic
    h = (sqrt(k1 * k1 + 4 * k1 * C) - k1) / 2
    return -log(h) / LN10


@relation(
    unit="umol/kg",
    symbol=r"\Delta A",
    source="dickson1981",
    at="the proton condition, carbonic acid and sulfate",
    endpoint_ph=_ENDPOINT,
    dic=_DIC,
    pk1=_PK1,
    dilution=_DILUTION,
)
def endpoint_error(endpoint_ph: Num, dic: Num, pk1: Num, dilution: Num = 0.0) -> Num:
    """Return the reading of a titration that stops at a pH, minus the alkalinity.

    Negative when it stops early, with bicarbonate left over; positive when it stops late, with
    free acid added for nothing. `dic` is the carbon still dissolved at the end, for each
    kilogram of sample; `dilution` is the mass of acid over that of the sample.

    Examples
    --------
    Closed, and with the carbon dioxide shaken out:

    >>> round(endpoint_error(4.5, 2000.0, 5.847), 1), round(endpoint_error(4.5, 12.0, 5.847), 1)
    (-54.5, 31.1)
    """
    k1 = exp(-LN10 * pk1)
    h = exp(-LN10 * endpoint_ph)
    bicarbonate_left = dic * k1 / (k1 + h)
    acid_over = 1e6 * (1 + dilution) * h
    return acid_over - bicarbonate_left


@relation(
    unit="umol/kg",
    symbol=r"A_T",
    source="anderson1946",
    at="the method: one addition of acid, then one pH",
    reading=arg(
        "umol/kg", r"A_\mathrm{a}", title="acid added for each kilogram", typical=(1500.0, 6000.0)
    ),
    ph_after=arg(
        "1", r"\mathrm{pH}", title="pH after the acid", typical=(3.3, 4.5), possible=(0.0, 14.0)
    ),
    dic=_DIC,
    pk1=_PK1,
    dilution=_DILUTION,
)
def alkalinity_from_one_addition(
    reading: Num, ph_after: Num, dic: Num, pk1: Num, dilution: Num = 0.0
) -> Num:
    """Return the alkalinity from one fixed addition of acid and the pH after it.

    A photometer that reads the colour of an indicator in a vial with a fixed dose of acid works
    like this. `reading` is the acid added for each kilogram of sample.

    Examples
    --------
    >>> round(alkalinity_from_one_addition(2800.0, 3.5, 12.0, 5.847), 1)
    2483.8
    """
    return reading - endpoint_error(ph_after, dic, pk1, dilution)


@relation(
    unit="1",
    symbol=r"\mathrm{pH}",
    source="clayton1993",
    at="the pH from the ratio of the two forms of an indicator",
    ratio=arg(
        "1",
        "R",
        title="basic over acidic colour",
        typical=(0.05, 20.0),
        possible=POSITIVE,
    ),
    indicator_pk=arg("1", r"\mathrm{p}K_\mathrm{i}", typical=(3.5, 8.5), possible=(0.0, 14.0)),
)
def indicator_ph(ratio: Num, indicator_pk: Num) -> Num:
    """Return the pH at which an indicator shows a ratio of its basic to its acidic colour.

    Examples
    --------
    >>> round(indicator_ph(1.0, 4.6), 2)
    4.6
    """
    return indicator_pk + log(ratio) / LN10
