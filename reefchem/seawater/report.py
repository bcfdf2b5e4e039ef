"""A water analysis against seawater of the same salinity, and against itself.

Against seawater: every substance over what the reference composition has at that salinity, which
is the same as its ratio to chlorinity over that of seawater. Against itself: positive and negative
charge must be equal, the salts must add up to the salinity, and two rows that speak of the same
atoms must agree. Where they do not, by more than their uncertainty allows, some of those numbers
are not true, whatever the tank is like.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError
from reefchem.core.quantity import DEGREE
from reefchem.seawater.analysis import SUBSTANCES
from reefchem.seawater.composition import chlorinity_from_halides, reference_salinity
from reefchem.seawater.density import seawater_density
from reefchem.seawater.minor_elements import minor_elements
from reefchem.seawater.reference_composition import SPECIES, composition

if TYPE_CHECKING:
    from collections.abc import Sequence

    from reefchem.seawater.analysis import Measured

__all__ = ["Contradiction", "Line", "WaterReport", "water_report"]

COVERAGE = 2.0
"""Standard uncertainties that a difference may have before it is called a contradiction."""

NEEDED = ("sodium", "magnesium", "calcium", "potassium", "chloride", "sulfate", "alkalinity")
"""Without one of these a charge balance says nothing: each is more than the balance can miss."""


@dataclass(frozen=True)
class Line:
    """One substance beside seawater.

    Attributes
    ----------
    measured
        The row of the analysis.
    amount, uncertainty
        mol/kg of seawater, and its standard uncertainty (NaN where none was given).
    natural
        mol/kg in reference seawater of the same salinity, or NaN where no source gives one.
    source
        Where `natural` comes from.
    """

    measured: Measured
    amount: float
    uncertainty: float
    natural: float
    source: str

    @property
    def ratio(self) -> float:
        """Measured over natural; NaN where there is no natural value or only a limit."""
        return math.nan if self.measured.below else self.amount / self.natural

    @property
    def ratio_uncertainty(self) -> float:
        """Standard uncertainty of the ratio, from that of the measurement alone."""
        return self.uncertainty / self.natural


@dataclass(frozen=True)
class Contradiction:
    """Numbers that cannot all be true.

    Attributes
    ----------
    names
        The substances that take part.
    text
        What does not fit.
    difference, uncertainty, unit
        How far it is off, and the standard uncertainty of that.
    """

    names: tuple[str, ...]
    text: str
    difference: float
    uncertainty: float
    unit: str


@dataclass(frozen=True)
class WaterReport:
    """An analysis judged.

    Attributes
    ----------
    salinity, temperature
        Of the sample, as given.
    lines
        Every row beside seawater, in the order of the analysis.
    charge, charge_uncertainty
        Cations less anions and alkalinity, meq/kg; NaN when `missing` is not empty.
    missing
        What the charge balance would need.
    without_uncertainty
        Rows that take part in a balance and have no uncertainty; they count as exact there, so
        the uncertainty of the balance is too small.
    chlorinity
        g/kg from chloride and bromide, or NaN.
    contradictions
        Sets of numbers that cannot all be true.
    """

    salinity: float
    temperature: float
    lines: tuple[Line, ...]
    charge: float
    charge_uncertainty: float
    missing: tuple[str, ...]
    without_uncertainty: tuple[str, ...]
    chlorinity: float
    contradictions: tuple[Contradiction, ...]

    def line(self, name: str) -> Line:
        """Return the line of a substance by its name."""
        for line in self.lines:
            if line.measured.substance.name == name:
                return line
        msg = f"water_report: the analysis has no row for {name}"
        raise DomainError(msg)


def water_report(
    rows: Sequence[Measured],
    *,
    salinity: float,
    salinity_uncertainty: float,
    temperature: float,
) -> WaterReport:
    """Return an analysis beside seawater of the same salinity, and what contradicts itself.

    Parameters
    ----------
    rows
        As `analysis_from_text` and `read_analysis` give them.
    salinity, salinity_uncertainty
        Of the sample, measured by other means (a refractometer, a conductivity), and its standard
        uncertainty.
    temperature
        Of the sample when its volume was measured, in the laboratory usually 20 or 25.

    Returns
    -------
    WaterReport
        Lines, charge balance, and contradictions; a contradiction is a difference of more than
        `COVERAGE` standard uncertainties.
    """
    if not rows:
        msg = "water_report: there are no rows"
        raise DomainError(msg)
    if not salinity_uncertainty >= 0 or math.isinf(salinity_uncertainty):
        msg = f"water_report: salinity_uncertainty is {salinity_uncertainty:g}; 0 or more"
        raise DomainError(msg)
    litre = seawater_density(salinity, temperature) / 1000
    natural = _natural(salinity, litre)
    lines = tuple(_line(row, litre, natural) for row in rows)
    counted = _one_each(lines)
    missing = tuple(name for name in NEEDED if name not in counted)
    charge, doubt = _charge(counted) if not missing else (math.nan, math.nan)
    halides = [counted.get("chloride"), counted.get("bromide")]
    silver = (
        chlorinity_from_halides(halides[0].amount, halides[1].amount if halides[1] else 0.0)
        if halides[0]
        else math.nan
    )
    contradictions = [
        *_doubles(lines),
        *_charge_contradiction(counted, charge, doubt),
        *_salt_contradiction(counted, missing, salinity, salinity_uncertainty),
    ]
    bare = tuple(
        name for name, line in counted.items() if name in NEEDED and math.isnan(line.uncertainty)
    )
    return WaterReport(
        salinity, temperature, lines, charge, doubt, missing, bare, silver, tuple(contradictions)
    )


def _natural(salinity: float, litre: float) -> dict[str, tuple[float, str]]:
    """Return mol/kg and source by what is counted."""
    water = composition(salinity)
    found = {name: (amount, "millero2008") for name, amount in water.amounts.items()}
    found["boron"] = (water.elements["B"], "millero2008")
    found["alkalinity"] = (water.alkalinity, "millero2008")
    for symbol, element in minor_elements().items():
        if element.content is not None:
            share = salinity / 35 if element.conservative else 1.0
            amount = element.content * share / 1000 / molar_mass(symbol) / litre
            found[SUBSTANCES[symbol.lower()].key] = (amount, element.source)
    return found


def _line(row: Measured, litre: float, natural: dict[str, tuple[float, str]]) -> Line:
    convert = _alkalinity if row.substance.name == "alkalinity" else type(row).amount
    amount = convert(row, row.value, litre)
    doubt = convert(row, row.uncertainty, litre)
    return Line(row, amount, doubt, *natural.get(row.substance.key, (math.nan, "")))


def _alkalinity(row: Measured, value: float, litre: float) -> float:
    """Return mol/kg of acid of an alkalinity in the row's unit."""
    if row.unit == "umol/kg":
        return value / 1e6
    if row.unit == "meq/L":
        return value / 1000 / litre
    if row.unit == "dKH":
        return 2 * DEGREE * value / molar_mass("CaO") / 1000 / litre
    return 2 * value / molar_mass("CaCO3") / 1000 / litre


def _one_each(lines: tuple[Line, ...]) -> dict[str, Line]:
    """Return the first line for each thing that is counted; limits take no part."""
    counted: dict[str, Line] = {}
    for line in lines:
        if not line.measured.below:
            counted.setdefault(line.measured.substance.key, line)
    return counted


def _charge(counted: dict[str, Line]) -> tuple[float, float]:
    charges = [
        (line.measured.substance.charge, line.amount, line.uncertainty) for line in counted.values()
    ]
    total = math.fsum(charge * amount for charge, amount, _ in charges)
    variance = math.fsum((z * u) ** 2 for z, _, u in charges if not math.isnan(u))
    return 1000 * total, 1000 * math.sqrt(variance)


def _charge_contradiction(
    counted: dict[str, Line], charge: float, doubt: float
) -> list[Contradiction]:
    if math.isnan(charge) or abs(charge) <= COVERAGE * doubt:
        return []
    side = "cations" if charge > 0 else "anions"
    names = tuple(n for n, line in counted.items() if line.measured.substance.charge)
    text = f"positive and negative charge differ: there are too many {side}"
    return [Contradiction(names, text, charge, doubt, "meq/kg")]


def _salt_contradiction(
    counted: dict[str, Line], missing: tuple[str, ...], salinity: float, doubt: float
) -> list[Contradiction]:
    """Compare the mass of the major ions with the salt of the salinity."""
    if missing:
        return []
    water = composition(salinity)
    grams = {name: molar_mass(SPECIES[name]) for name in SPECIES if name in counted}
    found = math.fsum(grams[n] * counted[n].amount for n in grams)
    same = math.fsum(grams[n] * getattr(water, n) for n in grams)
    expected = reference_salinity(salinity)
    spread = math.fsum(
        (grams[n] * counted[n].uncertainty) ** 2
        for n in grams
        if not math.isnan(counted[n].uncertainty)
    )
    total_doubt = math.sqrt(spread + (reference_salinity(doubt)) ** 2)
    difference = found - same
    if abs(difference) <= COVERAGE * total_doubt:
        return []
    text = (
        f"the ions add up to {found + expected - same:.2f} g/kg of salt, the salinity says "
        f"{expected:.2f}"
    )
    return [Contradiction(("salinity", *grams), text, difference, total_doubt, "g/kg")]


def _doubles(lines: tuple[Line, ...]) -> list[Contradiction]:
    """Compare rows that speak of the same atoms, as sulfur and sulfate."""
    found = []
    first: dict[str, Line] = {}
    for line in lines:
        if line.measured.below:
            continue
        other = first.setdefault(line.measured.substance.key, line)
        if other is line:
            continue
        known = [u for u in (line.uncertainty, other.uncertainty) if not math.isnan(u)]
        doubt = math.sqrt(math.fsum(u * u for u in known))
        difference = line.amount - other.amount
        if abs(difference) > COVERAGE * doubt + 1e-3 * abs(other.amount):
            names = (other.measured.substance.name, line.measured.substance.name)
            text = f"{names[0]} and {names[1]} count the same atoms and differ"
            found.append(Contradiction(names, text, 1000 * difference, 1000 * doubt, "mmol/kg"))
    return found
