"""Alkalinity as a bookkeeping of charges: what each process in a tank gives and takes."""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = ["alkalinity_change", "alkalinity_from_nitrate_gain"]


@relation(
    unit="meq/L",
    symbol=r"\Delta A",
    source="wolfgladrow2007",
    at="explicit conservative expression for total alkalinity",
    calcium_carbonate_formed=arg(
        "mmol/L", r"n_\mathrm{CaCO_3}", typical=(0.0, 2.0), possible=EITHER_SIGN
    ),
    ammonium_oxidised=arg(
        "mmol/L", r"n_\mathrm{nit}", title="ammonium oxidised to nitrate", typical=(0.0, 1.0)
    ),
    nitrate_reduced=arg(
        "mmol/L", r"n_\mathrm{den}", title="nitrate reduced to nitrogen gas", typical=(0.0, 1.0)
    ),
    nitrate_assimilated=arg(
        "mmol/L", r"n_\mathrm{NO_3}", title="nitrate taken into tissue", typical=(0.0, 1.0)
    ),
    ammonium_assimilated=arg(
        "mmol/L", r"n_\mathrm{NH_4}", title="ammonium taken into tissue", typical=(0.0, 1.0)
    ),
    phosphate_assimilated=arg(
        "mmol/L", r"n_\mathrm{PO_4}", title="phosphate taken into tissue", typical=(0.0, 0.05)
    ),
)
def alkalinity_change(
    calcium_carbonate_formed: Num = 0.0,
    ammonium_oxidised: Num = 0.0,
    nitrate_reduced: Num = 0.0,
    nitrate_assimilated: Num = 0.0,
    ammonium_assimilated: Num = 0.0,
    phosphate_assimilated: Num = 0.0,
) -> Num:
    """Return how the processes of a tank change its alkalinity.

    Parameters
    ----------
    calcium_carbonate_formed
        By growth or precipitation; negative when it dissolves.
    ammonium_oxidised
        To nitrate, by nitrifying bacteria.
    nitrate_reduced
        To nitrogen gas, by denitrifying bacteria.
    nitrate_assimilated, ammonium_assimilated, phosphate_assimilated
        Taken into tissue.

    Examples
    --------
    >>> alkalinity_change(calcium_carbonate_formed=0.5)
    -1.0
    """
    skeleton = -2 * calcium_carbonate_formed
    bacteria = nitrate_reduced - 2 * ammonium_oxidised
    tissue = nitrate_assimilated - ammonium_assimilated + phosphate_assimilated
    return skeleton + bacteria + tissue


@relation(
    unit="meq/L",
    symbol=r"\Delta A",
    source="wolfgladrow2007",
    at="explicit conservative expression: organic nitrogen to nitrate, one proton for each",
    nitrate_gain=arg(
        "mg/L",
        r"\Delta\rho_\mathrm{NO_3}",
        title="nitrate that has gathered",
        typical=(0.0, 50.0),
        possible=EITHER_SIGN,
    ),
)
def alkalinity_from_nitrate_gain(nitrate_gain: Num) -> Num:
    """Return the change of alkalinity that goes with nitrate out of food.

    Organic nitrogen becomes ammonium (one equivalent gained), then nitrate (two lost). What is
    lost comes back when the nitrate is taken up or becomes nitrogen gas. Nitrate that was dosed
    as a salt changes nothing when it goes in and gives alkalinity when it is taken up.

    Parameters
    ----------
    nitrate_gain
        Nitrate that has gathered, as NO3; negative for nitrate that was used.

    Examples
    --------
    >>> round(alkalinity_from_nitrate_gain(50.0), 4)
    -0.8064
    """
    return -nitrate_gain / molar_mass("NO3-")
