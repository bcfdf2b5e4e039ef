"""The pH scales of seawater: total, seawater, free, and NBS (nominal).

They differ in what counts as hydrogen ion. The free scale counts the free ion. The total scale
adds what sulfate holds, the seawater scale also what fluoride holds. The NBS scale is that of
dilute buffers, an activity and not a concentration; in seawater its relation to the others
depends on the electrode, so that its step here is nominal: say ±0.02 to 0.05.
"""

from __future__ import annotations

from reefchem.carbonate.fluoride import fluoride_kf_perez1987
from reefchem.carbonate.sulfate import bisulfate_ks_dickson1990
from reefchem.core.constants import LN10
from reefchem.core.errors import DomainError
from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin, log
from reefchem.core.record import arg, relation
from reefchem.seawater.composition import fluoride_riley1965, sulfate_morris1966

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.core.record import Argument

__all__ = [
    "PH_SCALES",
    "convert_ph",
    "hydrogen_activity_takahashi1982",
    "hydrogen_ion",
    "ph_free_from_total",
    "ph_nbs_from_total",
    "ph_seawater_from_total",
    "ph_total_from_free",
    "ph_total_from_nbs",
    "ph_total_from_seawater",
    "tris_ph_delvalls1998",
]

PH_SCALES = ("total", "seawater", "free", "nbs")
"""The names that `convert_ph` knows."""

HANDBOOK = "chapter 2, definition of the pH scales"
TEMPERATURE = arg("degC", "t", typical=(9.0, 33.0))
SALINITY = arg("1", "S", typical=(10.0, 40.0))


def _ph(scale: str) -> Argument:
    return arg("1", rf"\mathrm{{pH}}_{{{scale}}}", typical=(7.0, 9.0), possible=(0.0, 14.0))


class Takahashi1982(Fit):
    """Fitted numbers as printed."""

    a0: float = 1.2948
    a1: float = -0.002036
    b0: float = 0.0004607
    b1: float = -0.000001475


class DelValls1998(Fit):
    """Fitted numbers as reprinted by Millero (2007), equation 45."""

    a0: float = 11911.08
    a1: float = -18.2499
    a2: float = -0.039336
    b0: float = -366.27059
    b1: float = 0.53993607
    b2: float = 0.00016329
    c0: float = 64.52243
    c1: float = -0.084041
    d: float = -0.11149858


@relation(
    unit="mol/kg",
    symbol=r"[\mathrm{H}^+]",
    source="dickson2007",
    at=HANDBOOK,
    ph=arg("1", r"\mathrm{pH}", typical=(7.0, 9.0), possible=(0.0, 14.0)),
)
def hydrogen_ion(ph: Num) -> Num:
    """Return the hydrogen ion content that a pH stands for, on the scale of that pH.

    Examples
    --------
    >>> round(hydrogen_ion(8.0) * 1e9, 6)
    10.0
    """
    return exp(-LN10 * ph)


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_F",
    source="dickson2007",
    at=HANDBOOK,
    ph_total=_ph("T"),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def ph_free_from_total(ph_total: Num, salinity: Num, temperature: Num) -> Num:
    """Return the pH on the free scale of one on the total scale.

    Examples
    --------
    >>> round(ph_free_from_total(8.1, 35.0, 25.0), 4)
    8.2077
    """
    K_S = bisulfate_ks_dickson1990(temperature, salinity)
    return ph_total + log(1.0 + sulfate_morris1966(salinity) / K_S) / LN10


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="dickson2007",
    at=HANDBOOK,
    ph_free=_ph("F"),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def ph_total_from_free(ph_free: Num, salinity: Num, temperature: Num) -> Num:
    """Return the pH on the total scale of one on the free scale.

    Examples
    --------
    >>> round(ph_total_from_free(8.2077, 35.0, 25.0), 4)
    8.1
    """
    K_S = bisulfate_ks_dickson1990(temperature, salinity)
    return ph_free - log(1.0 + sulfate_morris1966(salinity) / K_S) / LN10


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_{SWS}",
    source="dickson2007",
    at=HANDBOOK,
    ph_total=_ph("T"),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def ph_seawater_from_total(ph_total: Num, salinity: Num, temperature: Num) -> Num:
    """Return the pH on the seawater scale of one on the total scale.

    Notes
    -----
    With the constant of fluoride of Perez and Fraga on the total scale, as in the Handbook. Taken
    as one on the free scale, it makes the step 0.0101 instead of 0.0129 (S 35, 25 °C).

    Examples
    --------
    >>> round(ph_seawater_from_total(8.1, 35.0, 25.0), 4)
    8.0871
    """
    K_F = fluoride_kf_perez1987(temperature, salinity)
    return ph_total - log(1.0 + fluoride_riley1965(salinity) / K_F) / LN10


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="dickson2007",
    at=HANDBOOK,
    ph_seawater=_ph("SWS"),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def ph_total_from_seawater(ph_seawater: Num, salinity: Num, temperature: Num) -> Num:
    """Return the pH on the total scale of one on the seawater scale.

    Examples
    --------
    >>> round(ph_total_from_seawater(8.0871, 35.0, 25.0), 4)
    8.1
    """
    K_F = fluoride_kf_perez1987(temperature, salinity)
    return ph_seawater + log(1.0 + fluoride_riley1965(salinity) / K_F) / LN10


@relation(
    unit="1",
    symbol="f_H",
    source="takahashi1982",
    at="p. 80",
    temperature=arg("degC", "t", typical=(0.0, 40.0)),
    salinity=arg("1", "S", typical=(20.0, 42.0)),
)
def hydrogen_activity_takahashi1982(
    temperature: Num, salinity: Num, *, fit: Takahashi1982 = Takahashi1982()
) -> Num:
    """Return the ratio of NBS hydrogen ion activity to hydrogen ion content, seawater scale.

    Examples
    --------
    >>> round(hydrogen_activity_takahashi1982(25.0, 35.0), 4)
    0.7134
    """
    T = kelvin(temperature)
    return fit.a0 + fit.a1 * T + (fit.b0 + fit.b1 * T) * salinity * salinity


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_{NBS}",
    source="takahashi1982",
    at="p. 80; nominal, an electrode may differ by 0.02 to 0.05",
    ph_total=_ph("T"),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def ph_nbs_from_total(ph_total: Num, salinity: Num, temperature: Num) -> Num:
    """Return the nominal pH on the NBS scale of one on the total scale.

    What a meter would show that was set with dilute buffers, if its electrode were ideal.

    Examples
    --------
    >>> round(ph_nbs_from_total(8.1, 35.0, 25.0), 3)
    8.234
    """
    f_H = hydrogen_activity_takahashi1982(temperature, salinity)
    return ph_seawater_from_total(ph_total, salinity, temperature) - log(f_H) / LN10


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="takahashi1982",
    at="p. 80; nominal, an electrode may differ by 0.02 to 0.05",
    ph_nbs=_ph("NBS"),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def ph_total_from_nbs(ph_nbs: Num, salinity: Num, temperature: Num) -> Num:
    """Return the pH on the total scale of a nominal one on the NBS scale.

    The NBS reading comes from a meter that was set with dilute buffers.

    Examples
    --------
    >>> round(ph_total_from_nbs(8.2, 35.0, 25.0), 3)
    8.066
    """
    f_H = hydrogen_activity_takahashi1982(temperature, salinity)
    ph_seawater = ph_nbs + log(f_H) / LN10
    return ph_total_from_seawater(ph_seawater, salinity, temperature)


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="delvalls1998",
    at="eq. 18, as reprinted by Millero (2007), eq. 45",
    temperature=arg("degC", "t", typical=(0.0, 45.0)),
    salinity=arg("1", "S", typical=(20.0, 40.0)),
)
def tris_ph_delvalls1998(
    temperature: Num, salinity: Num, *, fit: DelValls1998 = DelValls1998()
) -> Num:
    """Return the pH of an equimolal tris buffer in artificial seawater, total scale.

    The buffer that sets a pH electrode for seawater: 0.04 mol of tris and of its salt in a
    kilogram of water.

    Examples
    --------
    >>> round(tris_ph_delvalls1998(25.0, 35.0), 3)
    8.094
    """
    T = kelvin(temperature)
    return (
        (fit.a0 + salinity * (fit.a1 + salinity * fit.a2)) / T
        + fit.b0
        + salinity * (fit.b1 + salinity * fit.b2)
        + (fit.c0 + fit.c1 * salinity) * log(T)
        + fit.d * T
    )


def convert_ph(ph: Num, salinity: Num, temperature: Num, *, from_scale: str, to_scale: str) -> Num:
    """Return a pH on another scale.

    Parameters
    ----------
    ph
        The reading; any shape.
    salinity, temperature
        Practical salinity and temperature of the water in which it was read.
    from_scale, to_scale
        One of ``"total"``, ``"seawater"``, ``"free"`` and ``"nbs"`` (nominal).

    Raises
    ------
    DomainError
        When a scale is none of these.

    Examples
    --------
    >>> round(convert_ph(8.2, 35.0, 25.0, from_scale="nbs", to_scale="free"), 3)
    8.174
    """
    for name, scale in (("from_scale", from_scale), ("to_scale", to_scale)):
        if scale not in PH_SCALES:
            msg = f"convert_ph: {name} is {scale!r}; it is one of {', '.join(PH_SCALES)}"
            raise DomainError(msg)
    if from_scale == to_scale:
        return ph
    total = ph if from_scale == "total" else _TO_TOTAL[from_scale](ph, salinity, temperature)
    if to_scale == "total":
        return total
    return _FROM_TOTAL[to_scale](total, salinity, temperature)


_TO_TOTAL = {
    "seawater": ph_total_from_seawater,
    "free": ph_total_from_free,
    "nbs": ph_total_from_nbs,
}

_FROM_TOTAL = {
    "seawater": ph_seawater_from_total,
    "free": ph_free_from_total,
    "nbs": ph_nbs_from_total,
}
