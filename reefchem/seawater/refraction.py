"""Refractive index of seawater, by two equations that were fitted to different measurements.

Both are linear in salinity, so that going back from the index to the salinity is a closed form.
The index is that of seawater relative to air, as instruments measure it.
"""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation
from reefchem.core.vouch import vouched

__all__ = [
    "refractive_index",
    "refractive_index_quan1995",
    "salinity_from_refractive_index",
    "salinity_from_refractive_index_quan1995",
]

SODIUM_D = 589.3
"""Wavelength of the yellow light of sodium, in nm, for which instruments are marked."""


class MillardSeaver1990(Fit):
    """Fitted numbers without pressure, in printed order: a of pure water, b of salt."""

    a0: float = 1.3280657
    a1: float = -4.5536802e-3
    a2: float = 2.5471707e-3
    a3: float = 7.501966e-6
    a4: float = 2.802632e-6
    a5: float = -5.2883907e-6
    a6: float = -3.0738272e-6
    a7: float = 3.0124687e-8
    a8: float = -2.0883178e-10
    a9: float = 1.0508621e-5
    a10: float = 2.1282248e-7
    a11: float = -1.705881e-9
    b0: float = 1.9029121e-4
    b1: float = 2.4239607e-6
    b2: float = -7.3960297e-7
    b3: float = 8.9818478e-9
    b4: float = 1.2078804e-10
    b5: float = -3.589495e-7


class QuanFry1995(Fit):
    """Fitted numbers of equation 3 as printed."""

    n0: float = 1.31405
    n1: float = 1.779e-4
    n2: float = -1.05e-6
    n3: float = 1.6e-8
    n4: float = -2.02e-6
    n5: float = 15.868
    n6: float = 0.01155
    n7: float = -0.00423
    n8: float = -4382.0
    n9: float = 1.1455e6


MILLARD_SEAVER = MillardSeaver1990()
QUAN_FRY = QuanFry1995()


@relation(
    unit="1",
    symbol="n",
    source="millard1990",
    at="regions I and II, the terms at the pressure of the air",
    salinity=arg("1", "S", valid=(0.0, 43.0)),
    temperature=arg("degC", "t", valid=(0.0, 30.0)),
    wavelength=arg("nm", r"\lambda", valid=(500.0, 700.0)),
)
def refractive_index(
    salinity: Num,
    temperature: Num,
    *,
    wavelength: Num = SODIUM_D,
    fit: MillardSeaver1990 = MILLARD_SEAVER,
) -> Num:
    """Return the refractive index of seawater.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    temperature
        Temperature of the water; broadcast against `salinity`.
    wavelength
        Of the light, in air; the yellow light of sodium when nothing is said.
    fit
        Fitted numbers.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments; relative to air.

    Notes
    -----
    The digits were read in transcriptions. Some of these give the last term of pure water, of t³
    times the wavelength, as -1.705881e-10. With that the index of pure water is off by 2.4e-5 at
    30 °C; -1.705881e-9 gives the handbook value of water at 20 °C and the table of Austin and
    Halikas (1976). The term of t⁴ also appears as -2.0863178e-10, which changes nothing that an
    instrument shows. The stated accuracy is 4e-7 for pure water, and the salt terms scatter by
    4.7e-6, which is 0.03 in salinity.

    Examples
    --------
    >>> round(refractive_index(35.0, 20.0), 5)
    1.33938
    """
    L = wavelength / 1000
    n_w, n_S = _millard_seaver(temperature, L, fit)
    return n_w + n_S * salinity


def _millard_seaver(t: Num, L: Num, fit: MillardSeaver1990) -> tuple[Num, Num]:
    """Return the index of pure water, and what each unit of salinity adds; L in micrometres."""
    LL = L * L
    n_w = (
        fit.a0
        + fit.a1 * LL
        + fit.a2 / LL
        + fit.a3 / (LL * LL)
        + fit.a4 / (LL * LL * LL)
        + t * (fit.a5 + t * (fit.a6 + t * (fit.a7 + t * fit.a8)))
        + t * L * (fit.a9 + t * (fit.a10 + t * fit.a11))
    )
    n_S = fit.b0 + fit.b1 / LL + t * (fit.b2 + t * (fit.b3 + t * fit.b4)) + fit.b5 * t * L
    return n_w, n_S


@relation(
    unit="1",
    symbol="S",
    source="millard1990",
    at="regions I and II, the terms at the pressure of the air, solved for the salinity",
    refractive_index=arg("1", "n", typical=(1.3385, 1.3405), possible=(1.0, float("inf"))),
    temperature=arg("degC", "t", valid=(0.0, 30.0)),
    wavelength=arg("nm", r"\lambda", valid=(500.0, 700.0)),
)
def salinity_from_refractive_index(
    refractive_index: Num,
    temperature: Num,
    *,
    wavelength: Num = SODIUM_D,
    fit: MillardSeaver1990 = MILLARD_SEAVER,
) -> Num:
    """Return the practical salinity of seawater from its refractive index.

    Parameters
    ----------
    refractive_index
        Relative to air; any shape.
    temperature
        Temperature of the water; broadcast against `refractive_index`.
    wavelength
        Of the light, in air.
    fit
        Fitted numbers.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Warns
    -----
    RangeWarning
        Also when the salinity is outside 0 to 43, for which the equation was fitted.

    Notes
    -----
    An answer below zero is that of no water. It is given as it comes, with a warning, so that a
    device can be seen to be out.

    Examples
    --------
    >>> round(salinity_from_refractive_index(1.33938, 20.0), 1)
    35.0
    """
    L = wavelength / 1000
    n_w, n_S = _millard_seaver(temperature, L, fit)
    S = (refractive_index - n_w) / n_S
    return vouched(S, 0.0, 43.0, what="salinity_from_refractive_index: the salinity")


@relation(
    unit="1",
    symbol="n",
    source="quan1995",
    at="eq. 3",
    salinity=arg("1", "S", valid=(0.0, 35.0)),
    temperature=arg("degC", "t", valid=(0.0, 30.0)),
    wavelength=arg("nm", r"\lambda", valid=(400.0, 700.0)),
)
def refractive_index_quan1995(
    salinity: Num,
    temperature: Num,
    *,
    wavelength: Num = SODIUM_D,
    fit: QuanFry1995 = QUAN_FRY,
) -> Num:
    """Return the refractive index of seawater by a shorter fit to other measurements.

    It lies about 2e-5 above `refractive_index`, which is 0.11 in salinity, and tells how sure
    that one is.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    temperature
        Temperature of the water; broadcast against `salinity`.
    wavelength
        Of the light, in air.
    fit
        Fitted numbers.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments; relative to air.

    Notes
    -----
    Against the table of Austin and Halikas (1976) it scatters by 2.0e-5 (root of the mean
    square) and by 5.8e-5 at most. It was fitted up to salinity 35 and is widely used up to 40.

    Examples
    --------
    >>> round(refractive_index_quan1995(35.0, 20.0), 6)
    1.339406
    """
    n_w, n_S = _quan_fry(temperature, wavelength, fit)
    return n_w + n_S * salinity


def _quan_fry(t: Num, L: Num, fit: QuanFry1995) -> tuple[Num, Num]:
    """Return the index of pure water, and what each unit of salinity adds; L in nanometres."""
    n_w = (
        fit.n0
        + fit.n4 * t * t
        + (fit.n5 + fit.n7 * t) / L
        + fit.n8 / (L * L)
        + fit.n9 / (L * L * L)
    )
    n_S = fit.n1 + t * (fit.n2 + t * fit.n3) + fit.n6 / L
    return n_w, n_S


@relation(
    unit="1",
    symbol="S",
    source="quan1995",
    at="eq. 3, solved for the salinity",
    refractive_index=arg("1", "n", typical=(1.3385, 1.3405), possible=(1.0, float("inf"))),
    temperature=arg("degC", "t", valid=(0.0, 30.0)),
    wavelength=arg("nm", r"\lambda", valid=(400.0, 700.0)),
)
def salinity_from_refractive_index_quan1995(
    refractive_index: Num,
    temperature: Num,
    *,
    wavelength: Num = SODIUM_D,
    fit: QuanFry1995 = QUAN_FRY,
) -> Num:
    """Return the practical salinity of seawater from its refractive index, by the shorter fit.

    Parameters
    ----------
    refractive_index
        Relative to air; any shape.
    temperature
        Temperature of the water; broadcast against `refractive_index`.
    wavelength
        Of the light, in air.
    fit
        Fitted numbers.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Warns
    -----
    RangeWarning
        Also when the salinity is outside 0 to 35, for which the equation was fitted.

    Examples
    --------
    >>> round(salinity_from_refractive_index_quan1995(1.337952, 25.0), 2)
    30.0
    """
    n_w, n_S = _quan_fry(temperature, wavelength, fit)
    S = (refractive_index - n_w) / n_S
    return vouched(S, 0.0, 35.0, what="salinity_from_refractive_index_quan1995: the salinity")
