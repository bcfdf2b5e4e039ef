"""A titration as a table: simulated, and evaluated for the alkalinity.

Two ways to evaluate: Gran's straight line through the points past the equivalence point, and
non-linear least squares through all of them (which needs SciPy). Both find what the electrode is
off by, so a calibration of the electrode is not needed; both need the totals of the other acids.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from reefchem.carbonate.titration import (
    TitrationConstants,
    electrode_emf,
    ph_from_emf,
    titratable_alkalinity,
    titration_ph,
)
from reefchem.core.constants import LN10
from reefchem.core.errors import DomainError
from reefchem.core.functions import exp, log
from reefchem.core.record import arg, calculation, describe
from reefchem.core.result import Result

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["Titrated", "TitrationCurve", "alkalinity_from_titration", "titration_curve"]

_CURVE_PH = 3.6
"""Gran's line is drawn through points of a lower pH, where bicarbonate is nearly gone."""

_CARBON_PH = (5.2, 6.8)
"""Between these the pH leans most on the dissolved carbon."""

_MOST = 60

_VOLUME = arg("mL", "V", typical=(0.0, 3.0))
_GIVEN = {
    "sample_volume": arg("mL", "V_0", typical=(5.0, 250.0), possible=(1e-6, float("inf"))),
    "acid_concentration": arg("mol/kg", "C", typical=(0.05, 0.5), possible=(1e-6, 10.0)),
    "acid_density": arg("kg/L", r"\rho_\mathrm{a}", typical=(0.99, 1.05), possible=(0.5, 2.0)),
    "sample_density": arg("kg/L", r"\rho_0", typical=(1.0, 1.05), possible=(0.5, 2.0)),
    "total_boron": arg("umol/kg", r"B_T", typical=(300.0, 600.0)),
    "total_sulfate": arg("umol/kg", r"S_T", typical=(20000.0, 35000.0)),
    "total_fluoride": arg("umol/kg", r"F_T", typical=(0.0, 100.0)),
    "total_phosphate": arg("umol/kg", r"P_T", typical=(0.0, 20.0)),
    "acetate": arg("umol/kg", r"\mathrm{Ac}_T", typical=(0.0, 1000.0)),
    "formate": arg("umol/kg", r"\mathrm{Fo}_T", typical=(0.0, 1000.0)),
    "temperature": arg("degC", "t", typical=(5.0, 40.0)),
}
_STANDARD_EMF = arg("V", "E^0", typical=(0.3, 0.5), possible=(-5.0, 5.0))


@dataclass(frozen=True)
class TitrationCurve(Result):
    """A simulated titration; arrays of one length.

    Attributes
    ----------
    volume
        Acid added.
    ph_free
        pH on the free scale.
    emf
        What an electrode of the given standard emf reads.
    """

    volume: Any
    ph_free: Any
    emf: Any
    UNITS: ClassVar[Mapping[str, str]] = {"volume": "mL", "emf": "V"}


@dataclass(frozen=True)
class Titrated(Result):
    """What a titration says.

    Attributes
    ----------
    total_alkalinity
        By Dickson's definition.
    dic
        Dissolved inorganic carbon; as given, when it was given.
    ph_offset
        What the electrode reads too much.
    standard_error
        Of the alkalinity, from the scatter of the points alone.
    scatter
        Root mean square of measured minus fitted pH.
    points
        How many points were used for the alkalinity.
    """

    total_alkalinity: float
    dic: float
    ph_offset: float
    standard_error: float
    scatter: float
    points: int
    UNITS: ClassVar[Mapping[str, str]] = {
        "total_alkalinity": "umol/kg",
        "dic": "umol/kg",
        "standard_error": "umol/kg",
    }


@calculation(
    source="dickson1981",
    at="tables 1 and 4",
    volumes=_VOLUME,
    **_GIVEN,
    total_alkalinity=arg("umol/kg", r"A_T", typical=(1000.0, 5000.0)),
    dic=arg("umol/kg", r"C_T", typical=(900.0, 4500.0)),
    standard_emf=_STANDARD_EMF,
)
def titration_curve(
    volumes: Any,
    *,
    sample_volume: float,
    acid_concentration: float,
    acid_density: float,
    sample_density: float,
    total_alkalinity: float,
    dic: float,
    total_boron: float,
    total_sulfate: float,
    total_fluoride: float,
    total_phosphate: float = 0.0,
    acetate: float = 0.0,
    formate: float = 0.0,
    temperature: float = 25.0,
    standard_emf: float = 0.4,
    constants: TitrationConstants = TitrationConstants(),
) -> TitrationCurve:
    """Return pH and emf against the volume of acid, with no gas lost.

    Parameters
    ----------
    volumes
        Acid added in all at each point; a float or an array.
    sample_volume, sample_density, acid_concentration, acid_density
        Sample and acid. With both densities 1 kg/L the volumes are grams.
    total_alkalinity, dic, total_boron, total_sulfate, total_fluoride
        Of the sample before the acid.
    total_phosphate, acetate, formate
        Of the sample; often nothing.
    temperature, standard_emf
        For the emf alone.
    constants
        On the free scale; `titration_constants` gives them for a salinity and temperature.

    Examples
    --------
    >>> curve = titration_curve(
    ...     1.6, sample_volume=200.0, acid_concentration=0.3, acid_density=1.0, sample_density=1.0,
    ...     total_alkalinity=2450.0, dic=2200.0, total_boron=420.0, total_sulfate=28240.0,
    ...     total_fluoride=70.0,
    ... )
    >>> round(curve.ph_free, 6)
    4.601818
    """
    ph_free = describe(titration_ph).kernel(
        volumes * acid_density,
        sample_volume * sample_density,
        acid_concentration,
        total_alkalinity,
        dic,
        total_boron,
        total_sulfate,
        total_fluoride,
        total_phosphate,
        acetate,
        formate,
        constants=constants,
    )
    emf = describe(electrode_emf).kernel(ph_free, temperature, standard_emf)
    return TitrationCurve(volumes, ph_free, emf)


@calculation(
    source="dickson1981",
    at="the procedure, with the pH offset in place of the acid factor",
    volumes=_VOLUME,
    ph_or_emf=arg("1", r"\mathrm{pH}", typical=(3.0, 8.5), possible=(-5.0, 16.0)),
    **_GIVEN,
    dic=arg("umol/kg", r"C_T", typical=(900.0, 4500.0)),
    standard_emf=_STANDARD_EMF,
)
def alkalinity_from_titration(
    volumes: Any,
    ph_or_emf: Any,
    *,
    sample_volume: float,
    acid_concentration: float,
    acid_density: float,
    sample_density: float,
    total_boron: float,
    total_sulfate: float,
    total_fluoride: float,
    total_phosphate: float = 0.0,
    acetate: float = 0.0,
    formate: float = 0.0,
    dic: float | None = None,
    temperature: float = 25.0,
    standard_emf: float = 0.4,
    reading: str = "ph",
    method: str = "least_squares",
    constants: TitrationConstants = TitrationConstants(),
) -> Titrated:
    """Return alkalinity, carbon and electrode offset from a titration table.

    Parameters
    ----------
    volumes, ph_or_emf
        Arrays of one length, in any order: acid added in all, and what the electrode said.
    sample_volume, sample_density, acid_concentration, acid_density
        Sample and acid. With both densities 1 kg/L the volumes are grams.
    total_boron, total_sulfate, total_fluoride, total_phosphate, acetate, formate
        Of the sample before the acid.
    dic
        Carbon still dissolved, where it is known: 0 after thorough purging. Otherwise it is
        fitted, which needs points above the equivalence point and a closed vessel.
    temperature, standard_emf
        For `reading` ``"emf"``; a guess of the standard emf is enough, since the offset is found.
    reading
        ``"ph"``, or ``"emf"`` in volts.
    method
        ``"least_squares"`` through all points with equal errors in pH, or ``"gran"``.
    constants
        On the free scale; `titration_constants` gives them for a salinity and temperature.

    Raises
    ------
    DomainError
        When there are too few points, or none past the equivalence point.
    """
    import numpy as np  # noqa: PLC0415 - a table is an array

    volume, said = np.asarray(volumes, dtype=float), np.asarray(ph_or_emf, dtype=float)
    if volume.ndim != 1 or volume.shape != said.shape:
        msg = (
            f"alkalinity_from_titration: volumes has shape {volume.shape} and ph_or_emf "
            f"{said.shape}; two arrays of one length are expected"
        )
        raise DomainError(msg)
    if reading not in ("ph", "emf") or method not in ("gran", "least_squares"):
        msg = (
            f"alkalinity_from_titration: reading is {reading!r} and method {method!r}; "
            "'ph' or 'emf', and 'gran' or 'least_squares' are known"
        )
        raise DomainError(msg)
    if not (np.isfinite(volume).all() and np.isfinite(said).all()):
        msg = "alkalinity_from_titration: volumes and ph_or_emf hold NaN; leave such points out"
        raise DomainError(msg)
    ph = describe(ph_from_emf).kernel(said, temperature, standard_emf) if reading == "emf" else said
    others = (total_boron, total_sulfate, total_fluoride, total_phosphate, acetate, formate)
    table = _Table(
        acid=volume * acid_density,
        sample=sample_volume * sample_density,
        concentration=acid_concentration,
        ph=ph,
        bases=lambda ph, dic: describe(titratable_alkalinity).kernel(
            ph, dic, *others, constants=constants
        ),
        predicted=lambda acid, alkalinity, dic: describe(titration_ph).kernel(
            acid,
            sample_volume * sample_density,
            acid_concentration,
            alkalinity,
            dic,
            *others,
            constants=constants,
        ),
        kw=constants.kw,
    )
    if method == "gran":
        return _gran(table, dic)
    return _least_squares(table, dic)


@dataclass(frozen=True)
class _Table:
    """The points, and the two directions of the acid-base balance with all else put in."""

    acid: Any
    sample: float
    concentration: float
    ph: Any
    bases: Callable[[Any, float], Any]
    predicted: Callable[[Any, float, float], Any]
    kw: float

    def added(self) -> Any:
        """Acid added for each kilogram of sample, in µmol."""
        return 1e6 * self.concentration * self.acid / self.sample

    def over(self, ph: Any) -> Any:
        """Free acid in the mixture for each kilogram of sample, in µmol."""
        h = exp(-LN10 * ph)
        return 1e6 * (1 + self.acid / self.sample) * (h - self.kw / h)


def _gran(table: _Table, known_dic: float | None) -> Titrated:
    """Fit acid over against acid added; where the line meets zero lies the alkalinity.

    The carbon left in the last points, and the offset, come from the line before: a few rounds.
    """
    import numpy as np  # noqa: PLC0415 - a table is an array

    added = table.added()
    offset, dic = 0.0, known_dic or 0.0
    for _ in range(_MOST):
        ph = table.ph - offset
        late = ph < _CURVE_PH
        if late.sum() < 3:
            msg = (
                f"alkalinity_from_titration: {late.sum()} points have a pH below {_CURVE_PH}; "
                "3 or more are needed past the equivalence point"
            )
            raise DomainError(msg)
        excess = (table.over(ph) - table.bases(ph, dic))[late]
        x = added[late]
        slope, level = np.polyfit(x, excess, 1)
        alkalinity = -level / slope
        new_dic = dic
        if known_dic is None:
            early = (ph > _CARBON_PH[0]) & (ph < _CARBON_PH[1])
            if not early.any():
                msg = (
                    "alkalinity_from_titration: no point lies between pH "
                    f"{_CARBON_PH[0]} and {_CARBON_PH[1]}; give dic, or such points"
                )
                raise DomainError(msg)
            without = table.bases(ph, 0.0)
            each = table.bases(ph, 1.0) - without
            carbon = (alkalinity - added + table.over(ph) - without) / each
            new_dic = float(carbon[early].mean())
        step = float(log(float(slope))) / LN10
        change = abs(step) + abs(new_dic - dic) / 1e6
        offset, dic = offset - step, new_dic
        if change < 1e-12:
            break
    else:
        msg = "alkalinity_from_titration: Gran's line does not settle; look at the points"
        raise DomainError(msg)
    rest = excess - (slope * x + level)
    freedom = max(len(x) - 2, 1)
    error = np.sqrt((rest**2).sum() / freedom)
    spread = ((x - x.mean()) ** 2).sum()
    standard = error / abs(slope) * np.sqrt(1 / len(x) + (alkalinity - x.mean()) ** 2 / spread)
    fitted = table.predicted(table.acid[late], float(alkalinity), dic) + offset
    scatter = np.sqrt(((table.ph[late] - fitted) ** 2).mean())
    return Titrated(
        float(alkalinity), dic, offset, float(standard), float(scatter), int(late.sum())
    )


def _least_squares(table: _Table, known_dic: float | None) -> Titrated:
    import numpy as np  # noqa: PLC0415 - a table is an array
    from scipy.optimize import least_squares  # noqa: PLC0415 - an optional extra

    start = _gran(table, known_dic)
    if known_dic is None:
        unknowns = np.array([start.total_alkalinity, start.dic, start.ph_offset])
        scale = np.array([1000.0, 1000.0, 0.01])
    else:
        unknowns = np.array([start.total_alkalinity, start.ph_offset])
        scale = np.array([1000.0, 0.01])

    def deviations(x: Any) -> Any:
        dic = max(float(x[1]), 0.0) if known_dic is None else known_dic
        return table.ph - x[-1] - table.predicted(table.acid, float(x[0]), dic)

    if len(table.ph) <= len(unknowns):
        msg = f"alkalinity_from_titration: {len(table.ph)} points for {len(unknowns)} unknowns"
        raise DomainError(msg)
    found = least_squares(deviations, unknowns, x_scale=scale, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    squares = float((found.fun**2).sum())
    jacobian: Any = found.jac
    covariance = np.linalg.inv(jacobian.T @ jacobian) * squares / (len(table.ph) - len(unknowns))
    return Titrated(
        total_alkalinity=float(found.x[0]),
        dic=float(found.x[1]) if known_dic is None else known_dic,
        ph_offset=float(found.x[-1]),
        standard_error=float(np.sqrt(covariance[0, 0])),
        scatter=float(np.sqrt(squares / len(table.ph))),
        points=len(table.ph),
    )
