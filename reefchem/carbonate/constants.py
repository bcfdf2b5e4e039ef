"""One set of constants for a calculation: chosen by name, brought to the total scale.

Two conventions are in use, and they differ by 0.0003 in pH at most. The Handbook of 2007 takes
0.015 off the logarithms of the constants of water, phosphate and silicate to bring them from the
seawater scale to the total scale. ``conversion="exact"`` computes that step for each salinity and
temperature instead, as some programs do.
"""

from __future__ import annotations

from reefchem.carbonate import carbonic, fluoride, phosphate, silicate, water
from reefchem.carbonate.ammonium import ammonium_k_clegg1995
from reefchem.carbonate.borate import boric_kb_dickson1990
from reefchem.carbonate.gas import co2_fugacity_factor_weiss1974, co2_solubility_weiss1974
from reefchem.carbonate.ph_scales import hydrogen_activity_takahashi1982
from reefchem.carbonate.solubility import aragonite_ksp_mucci1983, calcite_ksp_mucci1983
from reefchem.carbonate.sulfate import bisulfate_ks_dickson1990
from reefchem.carbonate.totals import BORON
from reefchem.core.errors import DomainError
from reefchem.core.functions import Num
from reefchem.core.record import describe
from reefchem.seawater.composition import (
    calcium_riley1967,
    fluoride_riley1965,
    sulfate_morris1966,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

__all__ = ["CARBONIC", "CONVERSION", "FLUORIDE", "Choices", "Constants", "choices"]

CARBONIC: dict[str, tuple[Callable[..., Any], Callable[..., Any], str]] = {
    "lueker2000": (carbonic.carbonic_k1_lueker2000, carbonic.carbonic_k2_lueker2000, "total"),
    "roy1993": (carbonic.carbonic_k1_roy1993, carbonic.carbonic_k2_roy1993, "total"),
    "dickson1987": (
        carbonic.carbonic_k1_dickson1987,
        carbonic.carbonic_k2_dickson1987,
        "seawater",
    ),
    "millero2010": (
        carbonic.carbonic_k1_millero2010,
        carbonic.carbonic_k2_millero2010,
        "seawater",
    ),
    "waters2014": (carbonic.carbonic_k1_waters2014, carbonic.carbonic_k2_waters2014, "total"),
    "sulpis2020": (carbonic.carbonic_k1_sulpis2020, carbonic.carbonic_k2_sulpis2020, "total"),
}
"""K1, K2 and their pH scale by the name of the choice; the first is the default."""

FLUORIDE: dict[str, tuple[Callable[..., Any], str]] = {
    "perez1987": (fluoride.fluoride_kf_perez1987, "total"),
    "dickson1979": (fluoride.fluoride_kf_dickson1979, "free"),
}
"""KF and its pH scale by the name of the choice; the first is the default."""

CONVERSION = ("handbook", "exact")
"""How constants known on the seawater scale reach the total scale; the first is the default."""

_kb = describe(boric_kb_dickson1990).kernel
_ks = describe(bisulfate_ks_dickson1990).kernel
_kw = describe(water.water_kw_millero1995).kernel
_k0 = describe(co2_solubility_weiss1974).kernel
_fugacity = describe(co2_fugacity_factor_weiss1974).kernel
_aragonite = describe(aragonite_ksp_mucci1983).kernel
_calcite = describe(calcite_ksp_mucci1983).kernel
_k1p = describe(phosphate.phosphate_k1p_yao1995).kernel
_k2p = describe(phosphate.phosphate_k2p_yao1995).kernel
_k3p = describe(phosphate.phosphate_k3p_yao1995).kernel
_ksi = describe(silicate.silicate_ksi_yao1995).kernel
_ammonium = describe(ammonium_k_clegg1995).kernel
_activity = describe(hydrogen_activity_takahashi1982).kernel
_sulfate = describe(sulfate_morris1966).kernel
_fluoride = describe(fluoride_riley1965).kernel

_WATER = (describe(water.water_kw_millero1995).options["fit"], water.KW_SEAWATER_SCALE)


class Choices:
    """What a calculation was asked to use, resolved once.

    Attributes
    ----------
    carbonic, boron, fluoride, conversion : str
        The names of the choices.
    relations : tuple
        The relations with a range that the set rests on.
    temperatures, salinities : tuple of float
        The range that all of them share.
    """

    __slots__ = (
        "boron",
        "boron_total",
        "carbonic",
        "carbonic_scale",
        "conversion",
        "exact",
        "fluoride",
        "fluoride_scale",
        "k1",
        "k2",
        "kf",
        "relations",
        "salinities",
        "temperatures",
    )

    def __init__(
        self, carbonic: str, boron: str, fluoride: str, conversion: str, *, ammonium: bool
    ) -> None:
        for name, value, known in (
            ("carbonic", carbonic, CARBONIC),
            ("boron", boron, BORON),
            ("fluoride", fluoride, FLUORIDE),
            ("conversion", conversion, CONVERSION),
        ):
            if value not in known:
                msg = f"carbonate_system: {name} is {value!r}; it is one of {', '.join(known)}"
                raise DomainError(msg)
        self.carbonic: str = carbonic
        self.boron: str = boron
        self.fluoride: str = fluoride
        self.conversion: str = conversion
        self.exact: bool = conversion == "exact"
        self.carbonic_scale: str
        self.fluoride_scale: str
        k1, k2, self.carbonic_scale = CARBONIC[carbonic]
        kf, self.fluoride_scale = FLUORIDE[fluoride]
        self.k1: Callable[..., Any] = describe(k1).kernel
        self.k2: Callable[..., Any] = describe(k2).kernel
        self.kf: Callable[..., Any] = describe(kf).kernel
        self.boron_total: Callable[..., Any] = describe(BORON[boron]).kernel
        self.relations: tuple[Callable[..., Any], ...] = (
            k1,
            k2,
            kf,
            boric_kb_dickson1990,
            bisulfate_ks_dickson1990,
            co2_solubility_weiss1974,
            aragonite_ksp_mucci1983,
        )
        if ammonium:
            self.relations += (ammonium_k_clegg1995,)
        self.temperatures: tuple[float, float] = self._shared("temperature")
        self.salinities: tuple[float, float] = self._shared("salinity")

    def __reduce__(self) -> tuple[Callable[..., Choices], tuple[str | bool, ...]]:
        """Pickle the names; functions are looked up again."""
        ammonium = ammonium_k_clegg1995 in self.relations
        return _chosen, (self.carbonic, self.boron, self.fluoride, self.conversion, ammonium)

    def _shared(self, name: str) -> tuple[float, float]:
        ranges = [describe(relation).arguments[name].valid for relation in self.relations]
        known = [span for span in ranges if span is not None]
        return max(low for low, _ in known), min(high for _, high in known)


_made: dict[tuple[str, str, str, str, bool], Choices] = {}


def choices(
    carbonic: str, boron: str, fluoride: str, conversion: str, *, ammonium: bool = False
) -> Choices:
    """Return the resolved choices, made once for each combination.

    Raises
    ------
    DomainError
        When a name is not known.
    """
    return _chosen(carbonic, boron, fluoride, conversion, ammonium)


def _chosen(*key: *tuple[str, str, str, str, bool]) -> Choices:
    found = _made.get(key)
    if found is None:
        *names, ammonium = key
        found = _made[key] = Choices(*names, ammonium=ammonium)
    return found


class Constants:
    """All constants at one salinity and temperature (floats, or arrays of one shape).

    Those of the acid-base systems are on the total scale. Each is computed when it is first asked
    for, and kept.

    Attributes
    ----------
    k1, k2, kb, kw, ks, kf
        Carbonic and boric acid, water; hydrogen sulfate and fluoride with the factor that lets
        them be used with hydrogen ion on the total scale.
    kn
        Ammonium.
    free
        Hydrogen ion on the total scale over that on the free scale.
    seawater
        Hydrogen ion on the seawater scale over that on the total scale.
    sulfate, fluoride
        Totals in mol/kg.
    """

    # Every constant is filled in by `__getattr__`, from `_ON_DEMAND`.

    def __init__(self, temperature: Num, salinity: Num, chosen: Choices) -> None:
        self.temperature: Num = temperature
        self.salinity: Num = salinity
        self.chosen: Choices = chosen

    def __getattr__(self, name: str) -> Any:
        compute = _ON_DEMAND.get(name)
        if compute is None:
            raise AttributeError(name)
        value = compute(self)
        setattr(self, name, value)
        return value


def _nutrient(kernel: Callable[..., Any], original: Any) -> Callable[[Constants], Any]:
    def compute(k: Constants) -> Any:
        if k.chosen.exact:
            return kernel(k.temperature, k.salinity, fit=original) / k.seawater
        return kernel(k.temperature, k.salinity)

    return compute


def _carbonic(which: str) -> Callable[[Constants], Any]:
    def compute(k: Constants) -> Any:
        value = getattr(k.chosen, which)(k.temperature, k.salinity)
        return value / k.seawater if k.chosen.carbonic_scale == "seawater" else value

    return compute


def _hydrogen_fluoride(k: Constants) -> Any:
    value = k.chosen.kf(k.temperature, k.salinity)
    return value if k.chosen.fluoride_scale == "total" else value * k.free


def _water_product(k: Constants) -> Any:
    value = _kw(k.temperature, k.salinity, fit=_WATER[k.chosen.exact])
    return value / k.seawater if k.chosen.exact else value


_ON_DEMAND: dict[str, Callable[[Constants], Any]] = {
    "sulfate": lambda k: _sulfate(k.salinity),
    "fluoride": lambda k: _fluoride(k.salinity),
    "ks_free": lambda k: _ks(k.temperature, k.salinity),
    "free": lambda k: 1.0 + k.sulfate / k.ks_free,
    "ks": lambda k: k.ks_free * k.free,
    "kf": _hydrogen_fluoride,
    "seawater": lambda k: 1.0 + k.fluoride / k.kf,
    "k1": _carbonic("k1"),
    "k2": _carbonic("k2"),
    "kb": lambda k: _kb(k.temperature, k.salinity),
    "kw": _water_product,
    "k0": lambda k: _k0(k.temperature, k.salinity),
    "fugacity_factor": lambda k: _fugacity(k.temperature),
    "aragonite": lambda k: _aragonite(k.temperature, k.salinity),
    "calcite": lambda k: _calcite(k.temperature, k.salinity),
    "calcium": lambda k: describe(calcium_riley1967).kernel(k.salinity),
    "activity": lambda k: _activity(k.temperature, k.salinity),
    "k1p": _nutrient(_k1p, phosphate.K1P_SEAWATER_SCALE),
    "k2p": _nutrient(_k2p, phosphate.K2P_SEAWATER_SCALE),
    "k3p": _nutrient(_k3p, phosphate.K3P_SEAWATER_SCALE),
    "kn": lambda k: _ammonium(k.temperature, k.salinity),
    "ksi": _nutrient(_ksi, silicate.KSI_SEAWATER_SCALE),
}
