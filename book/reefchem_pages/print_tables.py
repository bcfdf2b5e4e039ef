"""Directives of this book that compute the tables for printing, so that no number in them is typed.

``{hydrometer-table} 20/4 °C`` lists what glass of that scale shows, by salinity and temperature;
``{alkalinity-table}`` sets the units of alkalinity side by side; ``{dose-table}`` lists what a salt
has to weigh for one step of what it is dosed for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from reefchem.conversion import (
    alkalinity_as_bicarbonate,
    alkalinity_as_calcium_carbonate,
    alkalinity_from_german_degrees,
    french_degrees,
    per_kilogram,
)
from reefchem.core.atoms import molar_mass
from reefchem.dosing import salt_mass, salts
from reefchem.seawater import hydrometer_reading
from reefchem_pages.computed_table import ComputedTable

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sphinx.application import Sphinx

__all__ = ["DOSES", "SCALES", "alkalinity_rows", "dose_rows", "hydrometer_rows", "setup"]

SCALES: dict[str, tuple[float, float]] = {
    "60/60 °F": (140 / 9, 140 / 9),
    "20/20 °C": (20.0, 20.0),
    "25/25 °C": (25.0, 25.0),
    "20/4 °C": (20.0, 4.0),
    "25/4 °C": (25.0, 4.0),
}
"""Temperatures in °C of the sample and of the water it is compared with, by the mark."""

SALINITIES = (30, 31, 32, 33, 34, 35, 36, 37, 38)
TEMPERATURES = (18, 20, 22, 23, 24, 25, 26, 27, 28, 30)

DOSES: tuple[tuple[str, float, str, tuple[str, ...]], ...] = (
    ("Ca^2+", 10.0, "calcium", ("CaCl2", "CaCl2·2H2O", "CaCl2·6H2O")),
    ("Mg^2+", 10.0, "magnesium", ("MgCl2·6H2O", "MgSO4·7H2O")),
    ("K+", 10.0, "potassium", ("KCl", "K2SO4")),
    ("Sr^2+", 1.0, "strontium", ("SrCl2·6H2O",)),
    ("NO3-", 1.0, "nitrate", ("KNO3", "NaNO3", "Ca(NO3)2·4H2O")),
)
"""Ion, step in mg/L, its name, and the salts that bring it."""

BASES = ("NaHCO3", "Na2CO3", "NaOH", "Ca(OH)2", "Ca(HCOO)2", "Ca(CH3COO)2·H2O")
"""Salts that are dosed for alkalinity."""

HUNDRED = 100.0
"""Litres of tank that a mass in the table is for."""


def hydrometer_rows(sample: float, reference: float) -> Iterator[tuple[str, ...]]:
    """Yield a row for each temperature: what glass of this scale shows at each salinity."""
    for celsius in TEMPERATURES:
        shown = (
            hydrometer_reading(
                float(salinity),
                float(celsius),
                calibration_temperature=sample,
                reference_temperature=reference,
            )
            for salinity in SALINITIES
        )
        yield (f"{celsius} °C", *(f"{reading:.4f}" for reading in shown))


def alkalinity_rows() -> Iterator[tuple[str, ...]]:
    """Yield a row for each half degree: the same alkalinity in all units."""
    for half in range(10, 29):
        degrees = half / 2
        meq = alkalinity_from_german_degrees(degrees)
        yield (
            f"{degrees:.1f}",
            f"{meq:.2f}",
            f"{alkalinity_as_calcium_carbonate(meq):.0f}",
            f"{alkalinity_as_bicarbonate(meq):.0f}",
            f"{french_degrees(meq):.1f}",
            f"{per_kilogram(1000 * meq, 35.0, 25.0):.0f}",
        )


def dose_rows() -> Iterator[tuple[str, ...]]:
    """Yield a row for each salt: what a step takes in 100 L, and what comes along."""
    degree = alkalinity_from_german_degrees(1.0)
    for formula in BASES:
        salt = salts[formula]
        equivalents = float(salt.alkalinity_after_oxidation)
        grams = salt_mass(degree, HUNDRED, salt.molar_mass, equivalents)
        moles = degree / equivalents
        yield (
            "1 dKH of alkalinity",
            *_salt(formula),
            f"{grams:#.3g}",
            _company(formula, "", moles),
        )
    for ion, step, name, formulas in DOSES:
        for formula in formulas:
            salt = salts[formula]
            moles = step / molar_mass(ion) / salt.ions[ion]
            grams = moles * salt.molar_mass * HUNDRED / 1000
            yield (
                f"{step:g} mg/L of {name}",
                *_salt(formula),
                f"{grams:#.3g}",
                _company(formula, ion, moles),
            )


def _salt(formula: str) -> tuple[str, str]:
    return f"{{chem}}`{formula}`", salts[formula].name


def _company(formula: str, wanted: str, moles: float) -> str:
    """Return the ions that come along with some millimoles in a litre, in mg/L."""
    carried = {"HCO3-", "CO3^2-", "OH-", "HCOO-", "CH3COO-", wanted}
    return ", ".join(
        f"{moles * count * molar_mass(ion):#.2g} {{chem}}`{ion}`".replace(". ", " ")
        for ion, count in salts[formula].ions.items()
        if ion not in carried
    )


class HydrometerTable(ComputedTable):
    """What glass of a scale shows."""

    required_arguments = 1
    final_argument_whitespace = True
    LABEL = "Readings of a hydrometer"
    HEAD = ("salinity", *(str(salinity) for salinity in SALINITIES))

    def rows(self) -> Iterator[tuple[str, ...]]:
        """Return a row for each temperature."""
        scale = self.arguments[0]
        if scale not in SCALES:
            msg = f"no scale is marked {scale!r}; there are {', '.join(SCALES)}"
            raise self.error(msg)
        return hydrometer_rows(*SCALES[scale])


class AlkalinityTable(ComputedTable):
    """Units of alkalinity side by side."""

    LABEL = "Units of alkalinity"
    HEAD = (
        "dKH",
        "meq/L",
        "mg/L {chem}`CaCO3`",
        "mg/L {chem}`HCO3-`",
        "French degrees",
        "µmol/kg",
    )

    def rows(self) -> Iterator[tuple[str, ...]]:
        """Return a row for each half degree."""
        return alkalinity_rows()


class DoseTable(ComputedTable):
    """What a salt has to weigh."""

    LABEL = "Mass of salts"
    HEAD = ("for", "salt", "name", "g", "comes along, mg/L")
    WORDS = frozenset({"for", "salt", "name"})

    def rows(self) -> Iterator[tuple[str, ...]]:
        """Return a row for each salt."""
        return dose_rows()


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directives."""
    app.add_directive("hydrometer-table", HydrometerTable)
    app.add_directive("alkalinity-table", AlkalinityTable)
    app.add_directive("dose-table", DoseTable)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
