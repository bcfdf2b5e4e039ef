"""Three ways a keeper tests alkalinity, simulated: drops and a colour, a photometer, an electrode.

Each takes the water as it is and gives the reading, so that one can see what the method adds.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from reefchem.carbonate.free_scale import titration_constants
from reefchem.carbonate.titration import acid_to_reach, titratable_alkalinity, titration_ph
from reefchem.core.constants import LN10
from reefchem.core.errors import DomainError
from reefchem.core.functions import exp, log
from reefchem.core.record import arg, calculation, describe
from reefchem.core.result import Result
from reefchem.seawater.composition import boron_uppstrom1974, fluoride_riley1965, sulfate_morris1966

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = [
    "DropReading",
    "ElectrodeReading",
    "PhotometerReading",
    "drop_kit",
    "electrode_endpoint",
    "photometer",
]

_CONCENTRATED = 10.0
"""mol/kg of the acid in a photometer's reagent."""

_WATER = {
    "total_alkalinity": arg("umol/kg", r"A_T", typical=(1500.0, 5000.0)),
    "dic": arg("umol/kg", r"C_T", typical=(10.0, 4500.0)),
    "salinity": arg("1", "S", typical=(20.0, 45.0)),
    "temperature": arg("degC", "t", typical=(10.0, 35.0)),
    "total_phosphate": arg("umol/kg", r"P_T", typical=(0.0, 20.0)),
    "acetate": arg("umol/kg", r"\mathrm{Ac}_T", typical=(0.0, 1000.0)),
    "formate": arg("umol/kg", r"\mathrm{Fo}_T", typical=(0.0, 1000.0)),
}
_ENDPOINT = arg("1", r"\mathrm{pH}_\mathrm{e}", typical=(3.5, 5.5), possible=(0.0, 14.0))
_STRENGTH = arg("mol/kg", "C", typical=(0.01, 0.5), possible=(1e-6, 10.0))


@dataclass(frozen=True)
class DropReading(Result):
    """What a drop kit shows.

    Attributes
    ----------
    drops
        Drops until the colour has changed; a whole number.
    step
        Alkalinity that one drop stands for.
    reading
        Drops times step.
    without_steps
        What the same acid and end point would read if acid could be added in any amount.
    ph_before, ph_after
        pH (total scale) with the last drop still missing, and with it.
    """

    drops: Any
    step: Any
    reading: Any
    without_steps: Any
    ph_before: Any
    ph_after: Any
    UNITS: ClassVar[Mapping[str, str]] = {
        "step": "umol/kg",
        "reading": "umol/kg",
        "without_steps": "umol/kg",
    }


@dataclass(frozen=True)
class PhotometerReading(Result):
    """What a photometer makes of one fixed addition of acid and indicator.

    Attributes
    ----------
    ph_after
        pH (total scale) in the vial.
    ratio
        Basic over acidic form of the indicator at that pH.
    reading
        Alkalinity that the instrument works out from the ratio it sees.
    """

    ph_after: Any
    ratio: Any
    reading: Any
    UNITS: ClassVar[Mapping[str, str]] = {"reading": "umol/kg"}


@dataclass(frozen=True)
class ElectrodeReading(Result):
    """What a titration to a displayed pH reads.

    Attributes
    ----------
    ph_true
        pH (total scale) at which it stopped.
    reading
        Acid used, for each kilogram of sample.
    """

    ph_true: Any
    reading: Any
    UNITS: ClassVar[Mapping[str, str]] = {"reading": "umol/kg"}


@calculation(
    source="dickson1981",
    at="the balance, to an end point, in whole drops",
    **_WATER,
    endpoint_ph=_ENDPOINT,
    sample_mass=arg("g", "m_0", typical=(2.0, 50.0), possible=(1e-9, float("inf"))),
    drop_mass=arg("g", r"m_\mathrm{d}", typical=(0.01, 0.06), possible=(1e-9, float("inf"))),
    acid_concentration=_STRENGTH,
)
def drop_kit(
    total_alkalinity: Any,
    dic: Any,
    *,
    salinity: float,
    temperature: float,
    endpoint_ph: float,
    sample_mass: float,
    drop_mass: float,
    acid_concentration: float,
    total_phosphate: Any = 0.0,
    acetate: Any = 0.0,
    formate: Any = 0.0,
) -> DropReading:
    """Return what a drop kit with an indicator end point shows.

    Parameters
    ----------
    total_alkalinity
        Of the sample, by Dickson's definition (acetate counts, formate does not).
    dic
        Carbon still dissolved at the end: all of it in a still vial, about what air holds after
        hard shaking.
    endpoint_ph
        pH, total scale, at which the colour counts as changed.
    sample_mass, drop_mass, acid_concentration
        Of the kit.

    Examples
    --------
    >>> shown = drop_kit(2790.0, 2420.0, salinity=35.0, temperature=25.0, endpoint_ph=4.5,
    ...                  sample_mass=5.0, drop_mass=0.04, acid_concentration=0.0218)
    >>> int(shown.drops), round(shown.step, 1)
    (16, 174.4)
    """
    water = _Water(salinity, temperature, dic, total_phosphate, acetate, formate)
    needed = water.acid(endpoint_ph, sample_mass, acid_concentration, total_alkalinity)
    if not _all_positive(needed):
        msg = (
            f"drop_kit: total_alkalinity is {total_alkalinity}; with it the water is below pH "
            f"{endpoint_ph:g} and the colour has changed before the first drop"
        )
        raise DomainError(msg)
    drops = -((-needed / drop_mass) // 1)
    step = 1e6 * acid_concentration * drop_mass / sample_mass
    before, after = (
        water.ph(count * drop_mass, sample_mass, acid_concentration, total_alkalinity)
        for count in (drops - 1, drops)
    )
    return DropReading(
        drops=drops,
        step=step,
        reading=drops * step,
        without_steps=1e6 * acid_concentration * needed / sample_mass,
        ph_before=before,
        ph_after=after,
    )


@calculation(
    source="anderson1946",
    at="the method: one addition of acid, then one pH",
    **_WATER,
    acid_added=arg("umol/kg", r"A_\mathrm{a}", typical=(2000.0, 6000.0)),
    assumed_dic=arg("umol/kg", r"C'_T", typical=(0.0, 4500.0)),
    indicator_pk=arg("1", r"\mathrm{p}K_\mathrm{i}", typical=(3.5, 7.0), possible=(0.0, 14.0)),
    ratio_error=arg("1", "e", typical=(-0.1, 0.1), possible=(-0.99, 10.0)),
)
def photometer(
    total_alkalinity: Any,
    dic: Any,
    *,
    salinity: float,
    temperature: float,
    acid_added: float,
    assumed_dic: float,
    indicator_pk: float,
    ratio_error: Any = 0.0,
    total_phosphate: Any = 0.0,
    acetate: Any = 0.0,
    formate: Any = 0.0,
) -> PhotometerReading:
    """Return what a photometer reads after one fixed addition of acid and indicator.

    The acid is taken to be of 10 mol/kg, so that it hardly dilutes the sample.

    Parameters
    ----------
    total_alkalinity, dic
        Of the sample; `dic` is the carbon still dissolved when the colour is read.
    acid_added
        For each kilogram of sample.
    assumed_dic
        Carbon that the instrument's conversion takes to be dissolved.
    indicator_pk
        pH, total scale, at which half of the indicator is basic.
    ratio_error
        Relative error of the ratio of the two colours: a scratch, a fingerprint, a cloudy vial.
    """
    water = _Water(salinity, temperature, dic, total_phosphate, acetate, formate)
    acid = acid_added * 1e-3 / _CONCENTRATED
    ph_after = water.ph(acid, 1e3, _CONCENTRATED, total_alkalinity)
    ratio = exp(LN10 * (ph_after - indicator_pk))
    ph_seen = ph_after + log(1 + ratio_error) / LN10
    assumed = _Water(salinity, temperature, assumed_dic, 0.0, 0.0, 0.0)
    return PhotometerReading(ph_after, ratio, acid_added + assumed.left(ph_seen, acid / 1e3))


@calculation(
    source="dickson1981",
    at="the balance, to an end point",
    **_WATER,
    endpoint_ph=_ENDPOINT,
    ph_offset=arg("1", r"\Delta\mathrm{pH}", typical=(-0.2, 0.2), possible=(-5.0, 5.0)),
    sample_mass=arg("g", "m_0", typical=(5.0, 250.0), possible=(1e-9, float("inf"))),
    acid_concentration=_STRENGTH,
)
def electrode_endpoint(
    total_alkalinity: Any,
    dic: Any,
    *,
    salinity: float,
    temperature: float,
    endpoint_ph: Any,
    acid_concentration: float,
    sample_mass: float = 100.0,
    ph_offset: Any = 0.0,
    total_phosphate: Any = 0.0,
    acetate: Any = 0.0,
    formate: Any = 0.0,
) -> ElectrodeReading:
    """Return the reading of a titration that stops when a pH meter displays a value.

    Parameters
    ----------
    endpoint_ph
        Displayed pH at which it stops.
    ph_offset
        What the meter displays too much, scale and calibration taken together.
    """
    water = _Water(salinity, temperature, dic, total_phosphate, acetate, formate)
    ph_true = endpoint_ph - ph_offset
    acid = water.acid(ph_true, sample_mass, acid_concentration, total_alkalinity)
    return ElectrodeReading(ph_true, 1e6 * acid_concentration * acid / sample_mass)


def _all_positive(value: Any) -> bool:
    """Return whether no value is zero or below; NaN passes."""
    below = value <= 0.0
    return not (below if isinstance(below, bool) else below.any())


class _Water:
    """A sample with its constants, in pH of the total scale."""

    def __init__(
        self,
        salinity: float,
        temperature: float,
        dic: Any,
        total_phosphate: Any,
        acetate: Any,
        formate: Any,
    ) -> None:
        self._constants = titration_constants(salinity, temperature)
        sulfate = sulfate_morris1966(salinity)
        self._totals = (
            dic,
            1e6 * boron_uppstrom1974(salinity),
            1e6 * sulfate,
            1e6 * fluoride_riley1965(salinity),
            total_phosphate,
            acetate,
            formate,
        )
        self._free_minus_total = log(1 + sulfate * self._constants.beta_s) / LN10

    def acid(self, ph: Any, sample: float, strength: float, alkalinity: Any) -> Any:
        """Return the acid that brings the sample to a pH."""
        return describe(acid_to_reach).kernel(
            ph + self._free_minus_total,
            sample,
            strength,
            alkalinity,
            *self._totals,
            constants=self._constants,
        )

    def ph(self, acid: Any, sample: float, strength: float, alkalinity: Any) -> Any:
        """Return the pH after an addition of acid."""
        free = describe(titration_ph).kernel(
            acid, sample, strength, alkalinity, *self._totals, constants=self._constants
        )
        return free - self._free_minus_total

    def left(self, ph: Any, dilution: Any) -> Any:
        """Return the alkalinity that is left at a pH, for each kilogram of sample."""
        free = ph + self._free_minus_total
        h = exp(-LN10 * free)
        bases = describe(titratable_alkalinity).kernel(
            free, *self._totals, constants=self._constants
        )
        return bases - 1e6 * (1 + dilution) * (h - self._constants.kw / h)
