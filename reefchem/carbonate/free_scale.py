"""The constants of a titration for a salinity and temperature, on the free scale."""

from __future__ import annotations

from reefchem.carbonate.borate import boric_kb_dickson1990
from reefchem.carbonate.carbonic import carbonic_k1_lueker2000, carbonic_k2_lueker2000
from reefchem.carbonate.fluoride import fluoride_kf_dickson1979
from reefchem.carbonate.phosphate import (
    phosphate_k1p_yao1995,
    phosphate_k2p_yao1995,
    phosphate_k3p_yao1995,
)
from reefchem.carbonate.sulfate import bisulfate_ks_dickson1990
from reefchem.carbonate.titration import TitrationConstants
from reefchem.carbonate.water import water_kw_millero1995
from reefchem.seawater.composition import sulfate_morris1966

__all__ = ["titration_constants"]


def titration_constants(salinity: float, temperature: float) -> TitrationConstants:
    """Return the constants of a titration of seawater, on the free scale.

    Constants of the total scale are divided by ``1 + S_T / K_S`` for each proton. Those of acetic
    and formic acid, known to about 0.1 in pK only, are taken to be on the total scale.

    Examples
    --------
    >>> round(titration_constants(35.0, 25.0).beta_s, 2)
    9.97
    """
    t, s = temperature, salinity
    ks = bisulfate_ks_dickson1990(t, s)
    scale = 1 + sulfate_morris1966(s) / ks
    k1 = carbonic_k1_lueker2000(t, s) / scale
    k2p = phosphate_k2p_yao1995(t, s) / scale
    return TitrationConstants(
        k1=k1,
        k1k2=k1 * carbonic_k2_lueker2000(t, s) / scale,
        kb=boric_kb_dickson1990(t, s) / scale,
        kw=water_kw_millero1995(t, s) / scale,
        beta_s=1 / ks,
        beta_f=1 / fluoride_kf_dickson1979(t, s),
        beta_p=scale / phosphate_k1p_yao1995(t, s),
        k2p=k2p,
        k2pk3p=k2p * phosphate_k3p_yao1995(t, s) / scale,
        k_acetic=TitrationConstants.k_acetic / scale,
        k_formic=TitrationConstants.k_formic / scale,
    )
