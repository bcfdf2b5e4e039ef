"""The carbonate system from any two of alkalinity, DIC, pH, pCO2 and carbonate."""

from __future__ import annotations

from reefchem.carbonate.constants import Choices, Constants, choices
from reefchem.carbonate.solver import (
    Solutes,
    carbon_from_carbonate,
    carbon_from_co2,
    carbon_from_dic,
    other_alkalinity,
    solve_carbonate,
    solve_co2,
    solve_dic,
)
from reefchem.carbonate.state import MICRO, CarbonateState
from reefchem.core.blocks import BLOCK
from reefchem.core.constants import LN10
from reefchem.core.errors import DomainError, NoRootError
from reefchem.core.functions import Num, exp, log, sqrt, where
from reefchem.core.record import arg, calculation

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    Solve = Callable[[Num, Num, Solutes], tuple[Num, Num, Num]]

__all__ = ["carbonate_system"]

MOST = 1e6
"""Largest content or pressure taken for one of water: a mole per kilogram, an atmosphere."""


@calculation(
    source="dickson2007",
    at="chapter 2, and chapter 5 for the constants",
    salinity=arg("1", "S", typical=(20.0, 40.0), possible=(0.0, 100.0)),
    temperature=arg("degC", "t", typical=(15.0, 32.0), possible=(-5.0, 60.0)),
    total_alkalinity=arg("umol/kg", "A_T", typical=(1500.0, 4500.0), possible=(-MOST, MOST)),
    dic=arg("umol/kg", "C_T", typical=(1300.0, 4200.0), possible=(0.0, MOST)),
    ph_total=arg("1", r"\mathrm{pH}_T", typical=(7.5, 8.6), possible=(0.0, 14.0)),
    pco2=arg("uatm", r"p_{\mathrm{CO_2}}", typical=(150.0, 2000.0), possible=(0.0, MOST)),
    carbonate=arg("umol/kg", r"[\mathrm{CO_3^{2-}}]", typical=(50.0, 700.0), possible=(0.0, MOST)),
    phosphate=arg("umol/kg", "P_T", typical=(0.0, 20.0), possible=(0.0, MOST)),
    silicate=arg("umol/kg", r"\mathrm{Si}_T", typical=(0.0, 100.0), possible=(0.0, MOST)),
    ammonium=arg("umol/kg", "N_T", typical=(0.0, 100.0), possible=(0.0, MOST)),
    calcium=arg("umol/kg", r"\mathrm{Ca}_T", typical=(8000.0, 13000.0), possible=(0.0, MOST)),
    total_boron=arg("umol/kg", "B_T", typical=(200.0, 900.0), possible=(0.0, MOST)),
)
def carbonate_system(
    *,
    salinity: Num,
    temperature: Num,
    total_alkalinity: Num = None,
    dic: Num = None,
    ph_total: Num = None,
    pco2: Num = None,
    carbonate: Num = None,
    phosphate: Num = 0.0,
    silicate: Num = 0.0,
    ammonium: Num = 0.0,
    calcium: Num = None,
    total_boron: Num = None,
    boron: str = "uppstrom1974",
    carbonic: str = "lueker2000",
    fluoride: str = "perez1987",
    conversion: str = "handbook",
) -> CarbonateState:
    """Return the state of the carbonate system from two measurements.

    Parameters
    ----------
    salinity, temperature
        Practical salinity and temperature of the water; floats, or arrays that broadcast.
    total_alkalinity, dic, ph_total, pco2, carbonate
        Exactly two of them.
    phosphate, silicate, ammonium
        Totals, which take part in alkalinity; `ammonium` is what a test for it sees, ammonia
        included.
    calcium, total_boron
        As measured. Without them, those of seawater of this salinity.
    boron
        Which ratio of boron to salinity: ``"uppstrom1974"`` or ``"lee2010"``.
    carbonic
        Whose K1 and K2: ``"lueker2000"``, ``"roy1993"``, ``"dickson1987"``, ``"millero2010"``,
        ``"waters2014"`` or ``"sulpis2020"``.
    fluoride
        Whose KF: ``"perez1987"`` or ``"dickson1979"``.
    conversion
        How constants reach the total scale: ``"handbook"`` or ``"exact"``; see `constants`.

    Returns
    -------
    CarbonateState
        Frozen; everything else is computed when it is asked for.

    Raises
    ------
    DomainError
        When the two cannot go together; the message says what would. In an array such an element
        is NaN, since the other elements have an answer.
    TypeError
        When not exactly two of the five are given.

    Warns
    -----
    RangeWarning
        When salinity or temperature is outside the range of one of the constants.

    Notes
    -----
    Alkalinity and carbonate together can have two answers. The one at lower pH is given; the
    other lies near pH 10 or above.

    Examples
    --------
    >>> state = carbonate_system(
    ...     salinity=35.0, temperature=25.0, total_alkalinity=2300.0, dic=2000.0
    ... )
    >>> round(state.ph_total, 4), round(state.pco2, 1), round(state.omega_aragonite, 3)
    (8.0458, 397.1, 3.386)
    """
    with_ammonium = type(ammonium) is not float or ammonium != 0.0
    chosen = choices(carbonic, boron, fluoride, conversion, ammonium=with_ammonium)
    five = (total_alkalinity, dic, ph_total, pco2, carbonate)
    given = (
        (total_alkalinity is not None)
        + 2 * (dic is not None)
        + 4 * (ph_total is not None)
        + 8 * (pco2 is not None)
        + 16 * (carbonate is not None)
    )
    pair = _PAIRS.get(given)
    if pair is None:
        got = [name for name, value in zip(_FIVE, five, strict=True) if value is not None]
        msg = f"carbonate_system takes two of {', '.join(_FIVE)}; it got {', '.join(got) or 'none'}"
        raise TypeError(msg)
    first, second, solve = pair
    x, y = five[first], five[second]
    if type(salinity) is float and type(temperature) is float:
        low, high = chosen.temperatures
        least, most = chosen.salinities
        if not (low <= temperature <= high and least <= salinity <= most):
            _warn(chosen, salinity, temperature)
        constants = Constants(temperature, salinity, chosen)
        if type(x) is type(y) is type(phosphate) is type(silicate) is type(ammonium) is float and (
            total_boron is None or type(total_boron) is float
        ):
            boron_content = (
                chosen.boron_total(salinity) if total_boron is None else MICRO * total_boron
            )
            solutes = Solutes(
                constants, boron_content, MICRO * phosphate, MICRO * silicate, MICRO * ammonium
            )
            try:
                h, carbon, alkalinity = solve(x, y, solutes)
            except NoRootError as error:
                told = f"{_FIVE[first]} is {x:.10g} and {_FIVE[second]} is {y:.10g}"
                msg = f"carbonate_system: {told}; no pH gives water with both"
                raise DomainError(msg) from error
            carbon = carbon / MICRO if dic is None else dic
            alkalinity = alkalinity / MICRO if total_alkalinity is None else total_alkalinity
            if not (h > 0.0 and 0.0 <= carbon <= MOST and -MOST <= alkalinity <= MOST):
                _refuse((_FIVE[first], _FIVE[second]), x, y, solutes, carbon, alkalinity)
            ph = -log(h) / LN10 if ph_total is None else ph_total
            inputs = (
                salinity,
                temperature,
                alkalinity,
                carbon,
                ph,
                phosphate,
                silicate,
                ammonium,
                total_boron,
                calcium,
            )
            return CarbonateState(inputs, chosen, constants)
    else:
        constants = None
        _warn(chosen, salinity, temperature)
    return _arrays(
        (_FIVE[first], _FIVE[second]),
        solve,
        (x, y, salinity, temperature, phosphate, silicate, ammonium, total_boron),
        calcium,
        chosen,
        constants,
    )


# -- the ten pairs: (x, y, solutes) -> H, DIC, alkalinity in mol/kg; NaN where there is no answer --


def _alkalinity_dic(a: Num, c: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    return solve_dic(MICRO * a, MICRO * c, solutes), None, None


def _alkalinity_ph(a: Num, ph: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    h, k = exp(-LN10 * ph), solutes.k
    own = MICRO * a - other_alkalinity(h, solutes)[0]
    return h, own / carbon_from_dic(h, 1.0, k)[0], None


def _alkalinity_pco2(a: Num, pco2: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    k = solutes.k
    co2 = _co2(pco2, k)
    h = solve_co2(MICRO * a, co2, solutes)
    return h, _dic_from_co2(h, co2, k), None


def _alkalinity_carbonate(a: Num, carbonate: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    content = MICRO * where(carbonate > 0.0, carbonate, float("nan"))
    h = solve_carbonate(MICRO * a, content, solutes)
    return h, _dic_from_carbonate(h, content, solutes.k), None


def _dic_ph(c: Num, ph: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    h = exp(-LN10 * ph)
    return h, None, _alkalinity(h, MICRO * c, solutes)


def _dic_pco2(c: Num, pco2: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    # (C/[CO2] - 1) H² - K1 H - K1 K2 = 0
    k = solutes.k
    ionised = MICRO * c - _co2(pco2, k)
    a = where((ionised > 0.0) & (pco2 > 0.0), ionised, float("nan"))
    b = k.k1 * _co2(pco2, k)
    h = (b + sqrt(b * b + 4.0 * a * b * k.k2)) / (2.0 * a)
    return h, None, _alkalinity(h, MICRO * c, solutes)


def _dic_carbonate(c: Num, carbonate: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    # H² / (K1 K2) + H / K2 + 1 - C/[CO3] = 0, solved without a difference of like numbers
    k = solutes.k
    content = where((c > carbonate) & (carbonate > 0.0), carbonate, float("nan"))
    ratio = (c - content) / content
    h = 2.0 * k.k2 * ratio / (1.0 + sqrt(1.0 + 4.0 * k.k2 / k.k1 * ratio))
    return h, None, _alkalinity(h, MICRO * c, solutes)


def _ph_pco2(ph: Num, pco2: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    h, k = exp(-LN10 * ph), solutes.k
    co2 = _co2(pco2, k)
    alkalinity = carbon_from_co2(h, co2, k)[0] + other_alkalinity(h, solutes)[0]
    return h, _dic_from_co2(h, co2, k), alkalinity


def _ph_carbonate(ph: Num, carbonate: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    h, k = exp(-LN10 * ph), solutes.k
    content = MICRO * carbonate
    alkalinity = carbon_from_carbonate(h, content, k)[0] + other_alkalinity(h, solutes)[0]
    return h, _dic_from_carbonate(h, content, k), alkalinity


def _pco2_carbonate(pco2: Num, carbonate: Num, solutes: Solutes) -> tuple[Num, Num, Num]:
    k = solutes.k
    content = MICRO * where((pco2 > 0.0) & (carbonate > 0.0), carbonate, float("nan"))
    co2 = _co2(pco2, k)
    h = sqrt(k.k1 * k.k2 * co2 / content)
    dic = _dic_from_carbonate(h, content, k)
    return h, dic, _alkalinity(h, dic, solutes)


_FIVE = ("total_alkalinity", "dic", "ph_total", "pco2", "carbonate")

_PAIRS: dict[int, tuple[int, int, Solve]] = {
    (1 << first) + (1 << second): (first, second, solve)
    for first, second, solve in (
        (0, 1, _alkalinity_dic),
        (0, 2, _alkalinity_ph),
        (0, 3, _alkalinity_pco2),
        (0, 4, _alkalinity_carbonate),
        (1, 2, _dic_ph),
        (1, 3, _dic_pco2),
        (1, 4, _dic_carbonate),
        (2, 3, _ph_pco2),
        (2, 4, _ph_carbonate),
        (3, 4, _pco2_carbonate),
    )
}
"""Places in `_FIVE` and what solves them, by the sum of two to the power of the places."""


def _co2(pco2: Num, k: Constants) -> Num:
    return MICRO * pco2 * k.fugacity_factor * k.k0


def _dic_from_co2(h: Num, co2: Num, k: Constants) -> Num:
    return co2 * (1.0 + k.k1 / h * (1.0 + k.k2 / h))


def _dic_from_carbonate(h: Num, carbonate: Num, k: Constants) -> Num:
    return carbonate * (1.0 + h / k.k2 * (1.0 + h / k.k1))


def _alkalinity(h: Num, dic: Num, solutes: Solutes) -> Num:
    return carbon_from_dic(h, dic, solutes.k)[0] + other_alkalinity(h, solutes)[0]


# -- arrays ------------------------------------------------------------------------------------


def _arrays(
    names: tuple[str, ...],
    solve: Solve,
    values: tuple[Num, ...],
    calcium: Num,
    chosen: Choices,
    constants: Constants | None,
) -> CarbonateState:
    import numpy as np  # noqa: PLC0415 - an array is at hand

    arrays = [value for value in values if isinstance(value, np.ndarray)]
    shape = np.broadcast_shapes(*(array.shape for array in arrays))
    flat = [
        np.broadcast_to(value, shape).reshape(-1) if isinstance(value, np.ndarray) else value
        for value in values
    ]
    size = int(np.prod(shape))
    given = dict(zip(names, flat, strict=False))
    kept = {
        name: np.empty(size)
        for name in ("total_alkalinity", "dic", "ph_total")
        if name not in given
    }
    with np.errstate(all="ignore"):
        for start in range(0, size, BLOCK):
            piece = slice(start, min(start + BLOCK, size))
            x, y, s, t, phosphate, silicate, ammonium, boron = (
                value[piece] if isinstance(value, np.ndarray) else value for value in flat
            )
            k = constants or Constants(t, s, chosen)
            total = chosen.boron_total(s) if boron is None else MICRO * boron
            solutes = Solutes(k, total, MICRO * phosphate, MICRO * silicate, MICRO * ammonium)
            h, carbon, alkalinity = solve(x, y, solutes)
            # H, carbon or both may be one number for the whole piece.
            good = np.full(piece.stop - piece.start, True) & (h > 0.0)
            if carbon is not None:
                carbon = carbon / MICRO
                good &= (carbon >= 0.0) & (carbon <= MOST)
            if alkalinity is not None:
                alkalinity = alkalinity / MICRO
                good &= (alkalinity >= -MOST) & (alkalinity <= MOST)
            found: dict[str, Any] = {"dic": carbon, "total_alkalinity": alkalinity}
            found["ph_total"] = -np.log(h) / LN10 if "ph_total" in kept else None
            for name, whole in kept.items():
                whole[piece] = found[name] if good.all() else np.where(good, found[name], np.nan)
    three = {
        name: (
            kept[name].reshape(shape)
            if name in kept
            else np.broadcast_to(values[names.index(name)], shape)
        )
        for name in ("total_alkalinity", "dic", "ph_total")
    }
    _, _, salinity, temperature, phosphate, silicate, ammonium, boron = values
    inputs = (
        salinity,
        temperature,
        three["total_alkalinity"],
        three["dic"],
        three["ph_total"],
        phosphate,
        silicate,
        ammonium,
        boron,
        calcium,
    )
    return CarbonateState(inputs, chosen, constants)


# -- what is said when something is wrong --------------------------------------------------------


def _warn(chosen: Choices, salinity: Num, temperature: Num) -> None:
    from reefchem.carbonate.refusal import warn_of_range  # noqa: PLC0415 - rare

    warn_of_range(chosen, salinity, temperature)


def _refuse(
    names: tuple[str, ...], x: float, y: float, solutes: Solutes, dic: float, alkalinity: float
) -> None:
    """Raise what explains why two values cannot go together; return when one of them is NaN."""
    if x != x or y != y or solutes.k.k1 != solutes.k.k1 or solutes.boron != solutes.boron:
        return
    for total in (solutes.phosphate, solutes.silicate, solutes.ammonium):
        if total != total:
            return
    from reefchem.carbonate.refusal import refusal  # noqa: PLC0415 - rare

    raise DomainError(refusal(names, x, y, solutes, dic, alkalinity))
