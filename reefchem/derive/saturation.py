"""Saturation from a keeper's readings, and the carbonate and alkalinity at a saturation."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Rational, log, solve, sqrt, symbols

from reefchem.carbonate.alkalinity import (
    carbonate_from_alkalinity_and_ph,
    noncarbon_alkalinity,
)
from reefchem.carbonate.carbonic import carbonic_k1_lueker2000, carbonic_k2_lueker2000
from reefchem.carbonate.gas import co2_fugacity_factor_weiss1974, co2_solubility_weiss1974
from reefchem.carbonate.saturation import (
    alkalinity_at_omega_aragonite,
    carbonate_at_omega_aragonite,
    omega_aragonite_from_ph_total,
)
from reefchem.carbonate.solubility import aragonite_ksp_mucci1983
from reefchem.conversion.alkalinity import alkalinity_from_german_degrees, per_kilogram
from reefchem.derive.carbonate import content
from reefchem.derive.derivation import derivation, written_out
from reefchem.derive.reactions import exact_mass

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "alkalinity_from_saturation",
    "carbonate_from_saturation",
    "saturation_from_readings",
]

MICRO: Any = Rational(1, 10**6)


@derivation(carbonate_at_omega_aragonite, title="Carbonate at a saturation")
def carbonate_from_saturation(
    saturation: Any, calcium: Any, temperature: Any, salinity: Any
) -> Stages:
    """Solve the definition of the saturation state for carbonate."""
    co3, product = content("CO_3^{2-}"), symbols("K_{ar}", positive=True)
    law = Eq(saturation, MICRO * calcium * MICRO * co3 / product)
    yield "Saturation compares the product of calcium and carbonate with that at equilibrium:", law
    (found,) = solve(law, co3)
    return found.subs(
        product, written_out(aragonite_ksp_mucci1983, temperature=temperature, salinity=salinity)
    )


@derivation(alkalinity_at_omega_aragonite, title="Alkalinity at a saturation, under given air")
def alkalinity_from_saturation(
    saturation: Any, calcium: Any, pco2: Any, salinity: Any, temperature: Any
) -> Stages:
    """Saturation fixes carbonate, the air fixes CO2, and the two fix pH."""
    water = {"salinity": salinity, "temperature": temperature}
    co2, hco3, co3 = content("CO_2"), content("HCO_3^-"), content("CO_3^{2-}")
    h, k1, k2 = symbols("h K_1 K_2", positive=True)
    laws = [Eq(k1, h * hco3 / co2), Eq(k2, h * co3 / hco3)]
    yield "Carbonate follows from the saturation, CO2 from the air. Mass action joins them:", laws
    answers = solve(laws, [h, hco3], dict=True)
    (answer,) = [a for a in answers if a[h].is_positive is not False]
    yield (
        "Solved for hydrogen ion and bicarbonate:",
        [
            Eq(h, answer[h]),
            Eq(hco3, answer[hco3]),
        ],
    )
    dissolved = written_out(co2_solubility_weiss1974, **water) * (
        written_out(co2_fugacity_factor_weiss1974, temperature=temperature) * pco2
    )
    carbonate = written_out(
        carbonate_at_omega_aragonite, saturation=saturation, calcium=calcium, **water
    )
    first = written_out(carbonic_k1_lueker2000, **water)
    second = written_out(carbonic_k2_lueker2000, **water)
    hydrogen = sqrt(first * second * dissolved / carbonate)
    ph = -log(hydrogen) / log(10)
    own = Eq(symbols("A_c"), co3 * (h / k2 + 2))
    yield "Carbon's alkalinity, to which that of boron, water and acids at this pH is added:", own
    other = written_out(noncarbon_alkalinity, ph_total=ph, **water)
    return carbonate * (hydrogen / second + 2) + other


@derivation(omega_aragonite_from_ph_total, title="Saturation from three readings")
def saturation_from_readings(
    alkalinity: Any, calcium: Any, ph_total: Any, salinity: Any, temperature: Any
) -> Stages:
    """Bring the readings to moles in a kilogram and put them into the definition."""
    water = {"salinity": salinity, "temperature": temperature}
    ca, co3 = content("Ca^{2+}"), content("CO_3^{2-}")
    product, a = symbols("K_{ar} A", positive=True)
    law = MICRO * ca * MICRO * co3 / product
    yield "The definition, with contents in µmol/kg:", law
    milliequivalents = written_out(alkalinity_from_german_degrees, degrees=alkalinity)
    moles = calcium / exact_mass("Ca")
    yield (
        "Degrees become milliequivalents and milligrams millimoles, in a litre:",
        [
            milliequivalents,
            moles,
        ],
    )
    per_kg = written_out(per_kilogram, value=a, **water)
    carbonate = written_out(
        carbonate_from_alkalinity_and_ph,
        total_alkalinity=1000 * per_kg.subs(a, milliequivalents),
        ph_total=ph_total,
        **water,
    )
    return law.xreplace(
        {
            ca: 1000 * per_kg.subs(a, moles),
            co3: carbonate,
            product: written_out(aragonite_ksp_mucci1983, **water),
        }
    )
