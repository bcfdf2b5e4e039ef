"""Two-part dosing: what must go in, what is left, from the reactions alone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Abs, Eq, Integer, Piecewise, Symbol, diff, sqrt

from reefchem.derive.derivation import derivation
from reefchem.derive.reactions import balanced, decimal, exact_mass, solved
from reefchem.dosing.calcification import (
    alkalinity_used,
    calcium_carbonate_formed,
    calcium_carbonate_grown,
    calcium_used,
    carbon_dioxide_released,
    magnesium_in_skeleton,
    strontium_in_skeleton,
)
from reefchem.dosing.dose import (
    alkalinity_step,
    days_to_change,
    days_to_change_alkalinity,
    dose_volume,
    potency_from_rise,
    potency_of_solution,
    potency_uncertainty,
    rise_from_dose,
    solute_rise,
)
from reefchem.dosing.residue import (
    chloride_left,
    salinity_gained,
    sodium_chloride_left,
    sodium_chloride_over_time,
    sodium_left,
)
from reefchem.dosing.salt_mass import (
    calcium_chloride_for_carbonate,
    calcium_chloride_for_hydrogencarbonate,
    calcium_chloride_mass,
    salt_mass,
    sodium_carbonate_mass,
    sodium_hydrogencarbonate_mass,
)
from reefchem.seawater.density import seawater_density

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "carbonate_left_behind",
    "left_behind",
    "skeleton_from_its_reaction",
]

CALCIFICATION = ("Ca^2+", "HCO3-"), ("CaCO3", "CO2", "H2O")
"""Reactants and products as a coral makes them."""

CHLORIDE = {"Ca": 1, "Cl": 2}
HYDROGENCARBONATE = {"Na": 1, "alkalinity": 1, "C": 1}
CARBONATE = {"Na": 2, "alkalinity": 2, "C": 1}
GROWTH = {"Ca": -1, "alkalinity": -2, "C": -1}
DISSOCIATION = (
    "CaCl₂ gives one Ca²⁺ and two Cl⁻; {salt}. Let x moles of calcium chloride and y of the "
    "alkalinity salt go into a litre, and z moles of CaCO₃ grow. Calcium and alkalinity end where "
    "they were, and growth takes the alkalinity A (rows: calcium, alkalinity, growth):"
)


def equivalents_per_carbonate() -> int:
    """Return the alkalinity that a mole of CaCO3 takes: its hydrogencarbonate, one each."""
    numbers = balanced(*CALCIFICATION)
    return numbers["HCO3-"] // numbers["CaCO3"]


def carbonate_extent(used: Any) -> Stages:
    """Balance the reaction and return the moles of CaCO3 that take an alkalinity."""
    numbers = balanced(*CALCIFICATION)
    a, b, c, d, e = (Symbol(letter, positive=True) for letter in "abcde")
    yield (
        "a Ca²⁺ + b HCO₃⁻ → c CaCO₃ + d CO₂ + e H₂O balances only for these whole numbers:",
        [
            Eq(letter, number)
            for letter, number in zip((a, b, c, d, e), numbers.values(), strict=True)
        ],
    )
    extent = used / Integer(numbers["HCO3-"])
    yield "Each hydrogencarbonate is one equivalent, so the moles of CaCO₃ are", extent
    return extent


@derivation(calcium_used, title="Calcium that goes with alkalinity into a skeleton")
def skeleton_from_its_reaction(alkalinity_used: Any) -> Stages:
    """Balance the reaction, then weigh the calcium."""
    extent = yield from carbonate_extent(alkalinity_used)
    weight = exact_mass("Ca")
    yield (
        "One calcium in each, with its atomic weight:",
        Eq(Symbol(r"M_\mathrm{Ca}"), decimal("Ca")),
    )
    return extent * weight


@derivation(alkalinity_used, title="Alkalinity that goes with calcium into a skeleton")
def skeleton_inverted(calcium_used: Any) -> Stages:
    """Count the moles of calcium; each has taken two equivalents."""
    extent = calcium_used / exact_mass("Ca")
    M = Symbol(r"M_\mathrm{Ca}", positive=True)
    yield "The moles of calcium are the moles of CaCO₃:", calcium_used / M
    return equivalents_per_carbonate() * extent


@derivation(calcium_carbonate_formed, title="Calcium carbonate from alkalinity")
def carbonate_weighed(alkalinity_used: Any) -> Stages:
    """Balance the reaction, then weigh the carbonate."""
    extent = yield from carbonate_extent(alkalinity_used)
    return extent * exact_mass("CaCO3")


@derivation(calcium_carbonate_grown, title="The skeleton that a tank has grown")
def carbonate_of_a_tank(alkalinity_used: Any, volume: Any) -> Stages:
    """Multiply what a litre gave by the litres."""
    extent = yield from carbonate_extent(alkalinity_used)
    yield "In the whole tank, in grams:", extent * volume / 1000
    return extent * volume * exact_mass("CaCO3") / 1000


@derivation(carbon_dioxide_released, title="Carbon dioxide from calcification")
def carbon_dioxide_weighed(alkalinity_used: Any) -> Stages:
    """Balance the reaction, then weigh the carbon dioxide."""
    extent = yield from carbonate_extent(alkalinity_used)
    return extent * exact_mass("CO2")


@derivation(magnesium_in_skeleton, title="Magnesium in the skeleton")
def magnesium_as_carbonate(alkalinity_used: Any, magnesium_per_calcium: Any) -> Stages:
    """Share the carbonate between calcium and magnesium."""
    shared = yield from shared_carbonate(alkalinity_used, magnesium_per_calcium)
    return shared * exact_mass("Mg")


@derivation(strontium_in_skeleton, title="Strontium in the skeleton")
def strontium_as_carbonate(alkalinity_used: Any, strontium_per_calcium: Any) -> Stages:
    """Share the carbonate between calcium and strontium."""
    shared = yield from shared_carbonate(alkalinity_used, strontium_per_calcium)
    return shared * exact_mass("Sr")


def shared_carbonate(used: Any, ratio: Any) -> Stages:
    """Return the moles of the second metal in a carbonate of two."""
    extent = yield from carbonate_extent(used)
    calcium, other = Symbol("n_1", positive=True), Symbol("n_2", positive=True)
    yield (
        "Two metals share the carbonate, in the ratio that the skeleton has (in mmol/mol):",
        [Eq(calcium + other, extent), Eq(other / calcium, ratio / 1000)],
    )
    found = extent * (ratio / 1000) / (1 + ratio / 1000)
    yield "The second metal has this share of it:", Eq(other, found)
    return found


def left_in_the_water(used: Any, salt: str, change: dict[str, int]) -> Stages:
    """Solve the balance of a litre and return the sodium and chloride that are left."""
    demands = {"Ca": 0, "alkalinity": 0, "growth": used}
    extents = {"x": CHLORIDE, "y": change, "z": GROWTH | {"growth": 2}}
    shown, found = solved(extents, demands)
    yield DISSOCIATION.format(salt=salt), shown
    yield "The solution:", [Eq(Symbol(name), value) for name, value in found.items()]
    sodium = change["Na"] * found["y"]
    chloride = 2 * found["x"]
    yield (
        "Nothing takes sodium or chloride. As many of one as of the other are left: NaCl.",
        [Eq(Symbol(r"n_\mathrm{Na}"), sodium), Eq(Symbol(r"n_\mathrm{Cl}"), chloride)],
    )
    return sodium, chloride


BAKING_SODA = "NaHCO₃ gives one Na⁺ and one equivalent"
SODA_ASH = "Na₂CO₃ gives two Na⁺ and two equivalents"


@derivation(sodium_chloride_left, title="What calcium chloride and baking soda leave behind")
def left_behind(alkalinity_used: Any) -> Stages:
    """Balance calcium, alkalinity and growth in a litre."""
    sodium, _ = yield from left_in_the_water(alkalinity_used, BAKING_SODA, HYDROGENCARBONATE)
    yield "A mole of sodium chloride weighs, in grams:", decimal("NaCl")
    return sodium * exact_mass("NaCl")


@derivation(sodium_chloride_left, title="What calcium chloride and soda ash leave behind")
def carbonate_left_behind(alkalinity_used: Any) -> Stages:
    """Do the same with carbonate: half the moles, twice the sodium in each."""
    _, chloride = yield from left_in_the_water(alkalinity_used, SODA_ASH, CARBONATE)
    return chloride * exact_mass("NaCl")


@derivation(sodium_left, title="Sodium left behind")
def sodium_alone(alkalinity_used: Any) -> Stages:
    """Weigh the sodium of the balance."""
    sodium, _ = yield from left_in_the_water(alkalinity_used, BAKING_SODA, HYDROGENCARBONATE)
    return sodium * exact_mass("Na+")


@derivation(chloride_left, title="Chloride left behind")
def chloride_alone(alkalinity_used: Any) -> Stages:
    """Weigh the chloride of the balance."""
    _, chloride = yield from left_in_the_water(alkalinity_used, BAKING_SODA, HYDROGENCARBONATE)
    return chloride * exact_mass("Cl-")


@derivation(sodium_chloride_over_time, title="Sodium chloride as time goes by")
def gathered(daily_uptake: Any, time: Any) -> Stages:
    """Multiply what a day leaves by the days."""
    sodium, _ = yield from left_in_the_water(daily_uptake * time, BAKING_SODA, HYDROGENCARBONATE)
    yield "In grams for a litre:", sodium * Symbol(r"M_\mathrm{NaCl}") / 1000
    return sodium * exact_mass("NaCl") / 1000


@derivation(salinity_gained, title="From grams in a litre to practical salinity")
def salinity_by_mass(salt: Any, salinity: Any, temperature: Any, fit: Any) -> Stages:
    """Divide by what a litre weighs, then by the salt of a unit of salinity."""
    rho = Symbol("rho", positive=True)
    yield (
        "The density in kg/m³, over 1000, is what a litre weighs. A kilogram gains",
        salt / (rho / 1000),
    )
    yield (
        "Standard seawater has this much salt for each unit of salinity:",
        fit.salt / fit.practical,
    )
    gain = salt / (rho / 1000) / (fit.salt / fit.practical)
    return gain.subs(rho, seawater_density(salinity, temperature))


@derivation(salt_mass, title="The mass of a salt for a rise of alkalinity")
def mass_from_equivalents(
    alkalinity_rise: Any, volume: Any, molar_mass: Any, equivalents: Any, purity: Any
) -> Stages:
    """Solve the definition of alkalinity for the mass."""
    mass = Symbol("m", positive=True)
    added = 1000 * mass * purity / molar_mass * equivalents / volume
    yield "A mass m of the powder adds to each litre, in meq:", Eq(alkalinity_rise, added)
    return alkalinity_rise * volume * molar_mass / (1000 * equivalents * purity)


@derivation(sodium_hydrogencarbonate_mass, title="Baking soda for a rise of alkalinity")
def baking_soda_from_its_ions(alkalinity_rise: Any, volume: Any, purity: Any) -> Stages:
    """Count one equivalent for each mole."""
    moles = yield from moles_for(alkalinity_rise * volume, HYDROGENCARBONATE)
    return moles * exact_mass("NaHCO3") / 1000 / purity


@derivation(sodium_carbonate_mass, title="Soda ash for a rise of alkalinity")
def soda_ash_from_its_ions(alkalinity_rise: Any, volume: Any, purity: Any) -> Stages:
    """Count two equivalents for each mole."""
    moles = yield from moles_for(alkalinity_rise * volume, CARBONATE)
    return moles * exact_mass("Na2CO3") / 1000 / purity


def moles_for(wanted: Any, change: dict[str, int]) -> Stages:
    """Solve for the moles of a salt that bring an alkalinity."""
    shown, found = solved({"y": change}, {"alkalinity": wanted})
    yield "The alkalinity that y millimoles bring to the whole tank:", shown
    yield "So:", Eq(Symbol("y"), found["y"])
    return found["y"]


@derivation(calcium_chloride_mass, title="Calcium chloride for a rise of calcium")
def calcium_chloride_from_its_ions(calcium_rise: Any, volume: Any, purity: Any) -> Stages:
    """Count one calcium for each mole, and two waters in its mass."""
    moles = calcium_rise * volume / exact_mass("Ca")
    M = Symbol(r"M_\mathrm{Ca}", positive=True)
    yield "Millimoles of calcium for the whole tank:", calcium_rise * volume / M
    weight = exact_mass("CaCl2·2H2O")
    yield (
        "The dihydrate weighs, in grams for a mole:",
        Eq(Symbol("M"), decimal("CaCl2·2H2O")),
    )
    return moles * weight / 1000 / purity


@derivation(
    calcium_chloride_for_hydrogencarbonate, title="Calcium chloride that balances baking soda"
)
def pair_with_baking_soda(mass: Any) -> Stages:
    """Ask for the growth that takes both, and nothing over."""
    return (yield from paired(mass, "NaHCO3", HYDROGENCARBONATE))


@derivation(calcium_chloride_for_carbonate, title="Calcium chloride that balances soda ash")
def pair_with_soda_ash(mass: Any) -> Stages:
    """Ask for the growth that takes both, and nothing over."""
    return (yield from paired(mass, "Na2CO3", CARBONATE))


def paired(mass: Any, salt: str, change: dict[str, int]) -> Stages:
    """Solve for the calcium chloride that growth uses up together with an alkalinity salt."""
    moles = Symbol("y", positive=True)
    yield "Moles of the alkalinity salt, with its molar mass:", Eq(moles, mass / Symbol("M"))
    demands = {"Ca": 0, "alkalinity": -change["alkalinity"] * moles}
    shown, found = solved({"x": CHLORIDE, "z": GROWTH}, demands)
    yield "With z moles of growth, nothing is left over of calcium and alkalinity:", shown
    yield "So the moles of calcium chloride are", Eq(Symbol("x"), found["x"])
    return found["x"].subs(moles, mass / exact_mass(salt)) * exact_mass("CaCl2·2H2O")


@derivation(dose_volume, title="The volume of a dose")
def volume_from_potency(alkalinity_rise: Any, volume: Any, potency: Any) -> Stages:
    """Balance what leaves the bottle and what arrives in the tank."""
    dose = Symbol("v", positive=True)
    yield (
        "What leaves the bottle arrives in the tank:",
        Eq(dose * potency, alkalinity_rise * volume),
    )
    return alkalinity_rise * volume / potency


@derivation(potency_from_rise, title="The potency of an unknown bottle")
def potency_from_bottle(alkalinity_rise: Any, volume: Any, dose: Any) -> Stages:
    """Balance the same with the potency unknown."""
    potency = Symbol("p", positive=True)
    yield (
        "What leaves the bottle arrives in the bucket:",
        Eq(dose * potency, alkalinity_rise * volume),
    )
    return alkalinity_rise * volume / dose


@derivation(potency_of_solution, title="Potency from the mass in a litre")
def potency_from_strength(strength: Any, molar_mass: Any, equivalents: Any, purity: Any) -> Stages:
    """Count moles in a litre, then equivalents in a millilitre."""
    moles = strength * purity / molar_mass
    yield "Moles in a litre, which are millimoles in a millilitre:", moles
    return moles * equivalents


@derivation(potency_uncertainty, title="How sure the potency of a bottle is")
def potency_from_three_readings(
    alkalinity_rise: Any,
    volume: Any,
    dose: Any,
    rise_error: Any,
    volume_error: Any,
    dose_error: Any,
) -> Stages:
    """Take the slope along each reading and add the squares."""
    potency = alkalinity_rise * volume / dose
    yield "The potency from the three readings:", potency
    errors = {alkalinity_rise: rise_error, volume: volume_error, dose: dose_error}
    slopes = [diff(potency, reading) for reading in errors]
    yield "How it moves with each of them:", slopes
    parts = [slope * error for slope, error in zip(slopes, errors.values(), strict=True)]
    yield (
        "Independent errors add as squares, each times the square of its slope:",
        [part**2 for part in parts],
    )
    return sqrt(sum(part**2 for part in parts))


@derivation(rise_from_dose, title="The rise that a dose makes")
def rise_from_potency(dose: Any, volume: Any, potency: Any) -> Stages:
    """Balance what leaves the bottle and what arrives in the tank."""
    rise = Symbol("R", real=True)
    yield "What leaves the bottle arrives in the tank:", Eq(dose * potency, rise * volume)
    return dose * potency / volume


@derivation(solute_rise, title="The rise of an ion from a dose")
def rise_from_strength(dose: Any, volume: Any, strength: Any) -> Stages:
    """Balance what leaves the bottle and what arrives in the tank."""
    rise = Symbol("R", real=True)
    yield "What leaves the bottle arrives in the tank:", Eq(dose * strength, rise * volume)
    return dose * strength / volume


def days_within(start: Any, target: Any, most: Any) -> Stages:
    """Return the days that a change takes at its largest rate."""
    change = target - start
    yield (
        "In n days the level can move by n times the bound, up or down:",
        Eq(Abs(change, evaluate=False), Symbol("n") * most, evaluate=False),
    )
    return Piecewise((-change, change < 0), (change, True)) / most


@derivation(days_to_change_alkalinity, title="Days for a change of alkalinity")
def days_for_alkalinity(start: Any, target: Any, most: Any) -> Stages:
    """Divide the distance by the bound."""
    return (yield from days_within(start, target, most))


@derivation(days_to_change, title="Days for a change of anything")
def days_for_anything(start: Any, target: Any, most: Any) -> Stages:
    """Divide the distance by the bound."""
    return (yield from days_within(start, target, most))


@derivation(alkalinity_step, title="The step of a day")
def step_of_a_day(start: Any, target: Any, days: Any) -> Stages:
    """Divide the distance among the days."""
    yield "Equal steps that end at the target:", Eq(start + days * Symbol("s"), target)
    return (target - start) / days
