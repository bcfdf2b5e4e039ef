"""The steps between pH scales, from what each scale counts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Symbol, expand, log, solve, symbols

from reefchem.carbonate.fluoride import fluoride_kf_perez1987
from reefchem.carbonate.ph_scales import (
    hydrogen_activity_takahashi1982,
    ph_free_from_total,
    ph_nbs_from_total,
    ph_seawater_from_total,
    ph_total_from_free,
    ph_total_from_nbs,
    ph_total_from_seawater,
)
from reefchem.carbonate.sulfate import bisulfate_ks_dickson1990
from reefchem.derive.carbonate import content
from reefchem.derive.derivation import derivation, written_out
from reefchem.seawater.composition import fluoride_riley1965, sulfate_morris1966

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "free_from_what_sulfate_holds",
    "nbs_from_activity",
    "seawater_from_what_fluoride_holds",
    "total_from_activity",
    "total_from_what_fluoride_holds",
    "total_from_what_sulfate_holds",
]


def _log10(x: Any) -> Any:
    return log(x) / log(10)


def _hydrogen(scale: str) -> Any:
    return Symbol(rf"[\mathrm{{H^+}}]_{{{scale}}}", positive=True)


def _sulfate(salinity: Any, temperature: Any) -> tuple[list[Any], Any, Any]:
    """Return the laws, [H]_T over [H]_F, and the same with the relations written out."""
    total, free = _hydrogen("T"), _hydrogen("F")
    k, s = symbols("K_S S_T", positive=True)
    law = Eq(total, free * (1 + s / k))
    (found,) = solve(law, total)
    ratio = expand(found / free)
    written = ratio.subs(
        {
            s: written_out(sulfate_morris1966, salinity=salinity),
            k: written_out(bisulfate_ks_dickson1990, temperature=temperature, salinity=salinity),
        }
    )
    return [law], ratio, written


SULFATE = (
    "The total scale counts the free hydrogen ion and what sulfate holds. Nearly all sulfate is "
    "free of protons in seawater, so its total stands for it:"
)
FLUORIDE = (
    "The seawater scale adds what fluoride holds; its constant is on the total scale, and nearly "
    "all fluoride is free of protons:"
)


@derivation(ph_free_from_total, title="From the total to the free scale")
def free_from_what_sulfate_holds(ph_total: Any, salinity: Any, temperature: Any) -> Stages:
    """Take off what sulfate holds."""
    laws, ratio, written = _sulfate(salinity, temperature)
    yield SULFATE, laws
    yield (
        "A pH is minus a logarithm, so that the step is the logarithm of the ratio:",
        _log10(ratio),
    )
    return ph_total + _log10(written)


@derivation(ph_total_from_free, title="From the free to the total scale")
def total_from_what_sulfate_holds(ph_free: Any, salinity: Any, temperature: Any) -> Stages:
    """Add what sulfate holds."""
    laws, ratio, written = _sulfate(salinity, temperature)
    yield SULFATE, laws
    yield "More hydrogen ion is a lower pH:", -_log10(ratio)
    return ph_free - _log10(written)


def _fluoride(salinity: Any, temperature: Any) -> tuple[list[Any], Any, Any]:
    """Return the laws, [H]_SWS over [H]_T, and the same with the relations written out."""
    sws, total, hf = _hydrogen("SWS"), _hydrogen("T"), content("HF")
    k, f = symbols("K_F F_T", positive=True)
    laws = [Eq(sws, total + hf), Eq(k, total * f / hf)]
    (found,) = solve(laws, [sws, hf], dict=True)
    ratio = expand(found[sws] / total)
    written = ratio.subs(
        {
            f: written_out(fluoride_riley1965, salinity=salinity),
            k: written_out(fluoride_kf_perez1987, temperature=temperature, salinity=salinity),
        }
    )
    return laws, ratio, written


@derivation(ph_seawater_from_total, title="From the total to the seawater scale")
def seawater_from_what_fluoride_holds(ph_total: Any, salinity: Any, temperature: Any) -> Stages:
    """Add what fluoride holds."""
    laws, ratio, written = _fluoride(salinity, temperature)
    yield FLUORIDE, laws
    yield "More hydrogen ion is a lower pH:", -_log10(ratio)
    return ph_total - _log10(written)


@derivation(ph_total_from_seawater, title="From the seawater to the total scale")
def total_from_what_fluoride_holds(ph_seawater: Any, salinity: Any, temperature: Any) -> Stages:
    """Take off what fluoride holds."""
    laws, ratio, written = _fluoride(salinity, temperature)
    yield FLUORIDE, laws
    yield "Less hydrogen ion is a higher pH:", _log10(ratio)
    return ph_seawater + _log10(written)


def _activity(salinity: Any, temperature: Any) -> Any:
    return written_out(hydrogen_activity_takahashi1982, temperature=temperature, salinity=salinity)


ACTIVITY = (
    "The NBS scale is one of activity. A measured ratio joins it to the hydrogen ion content on "
    "the seawater scale:"
)


@derivation(ph_nbs_from_total, title="From the total to the NBS scale")
def nbs_from_activity(ph_total: Any, salinity: Any, temperature: Any) -> Stages:
    """Go over the seawater scale to activity."""
    a, f = symbols("a_H f_H", positive=True)
    h = _hydrogen("SWS")
    yield ACTIVITY, Eq(a, f * h)
    _, ratio, written = _fluoride(salinity, temperature)
    yield "Over the seawater scale, then:", [-_log10(ratio), -_log10(f)]
    return ph_total - _log10(written) - _log10(_activity(salinity, temperature))


@derivation(ph_total_from_nbs, title="From the NBS to the total scale")
def total_from_activity(ph_nbs: Any, salinity: Any, temperature: Any) -> Stages:
    """Go from activity over the seawater scale."""
    a, f = symbols("a_H f_H", positive=True)
    h = _hydrogen("SWS")
    yield ACTIVITY, Eq(h, a / f)
    _, ratio, written = _fluoride(salinity, temperature)
    yield "To the total scale, then:", [_log10(f), _log10(ratio)]
    return ph_nbs + _log10(_activity(salinity, temperature)) + _log10(written)
