"""Alkalinity from counting protons, shares from mass action, and the Revelle factor."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import (
    Eq,
    Integer,
    Symbol,
    cancel,
    diff,
    expand,
    factor,
    fraction,
    log,
    solve,
    symbols,
)

from reefchem.carbonate.alkalinity import (
    alkalinity_from_species,
    carbonate_from_alkalinity_and_ph,
    noncarbon_alkalinity,
)
from reefchem.carbonate.buffer import revelle_factor
from reefchem.carbonate.carbonic import carbonic_k2_lueker2000
from reefchem.carbonate.ph_scales import hydrogen_ion
from reefchem.carbonate.species import (
    bicarbonate_share,
    borate_share,
    carbonate_share,
    co2_share,
)
from reefchem.core.atoms import charge_of
from reefchem.derive.derivation import derivation, written_out

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "alkalinity_from_counting_protons",
    "bicarbonate_from_mass_action",
    "borate_from_mass_action",
    "carbonate_from_alkalinity",
    "carbonate_from_mass_action",
    "co2_from_mass_action",
    "content",
    "revelle_from_two_slopes",
]


def content(formula: str) -> Any:
    """Return a symbol for the content of a species, its formula in LaTeX."""
    return Symbol(rf"[\mathrm{{{formula}}}]", positive=True)


ZERO_LEVEL = {
    "bicarbonate": ("HCO3-", "H2CO3"),
    "carbonate": ("CO3^2-", "H2CO3"),
    "borate": ("B(OH)4-", "B(OH)3"),
    "hydroxide": ("OH-", "H2O"),
    "hydrogen_phosphate": ("HPO4^2-", "H2PO4-"),
    "phosphate_ion": ("PO4^3-", "H2PO4-"),
    "silicate_ion": ("SiO(OH)3-", "Si(OH)4"),
    "ammonia": ("NH3", "NH4+"),
    "hydrogen_free": ("H+", "H2O"),
    "hydrogen_sulfate": ("HSO4-", "SO4^2-"),
    "hydrogen_fluoride": ("HF", "F-"),
    "phosphoric_acid": ("H3PO4", "H2PO4-"),
}
"""Each species and the form of the same substance at the zero level of protons (pK 4.5)."""


@derivation(alkalinity_from_species, title="Alkalinity by counting protons")
def alkalinity_from_counting_protons(
    bicarbonate: Any,
    carbonate: Any,
    borate: Any,
    hydroxide: Any,
    hydrogen_phosphate: Any,
    phosphate_ion: Any,
    silicate_ion: Any,
    ammonia: Any,
    hydrogen_free: Any,
    hydrogen_sulfate: Any,
    hydrogen_fluoride: Any,
    phosphoric_acid: Any,
) -> Stages:
    """Count what each species lacks of the protons of the zero level."""
    contents = {
        "bicarbonate": bicarbonate,
        "carbonate": carbonate,
        "borate": borate,
        "hydroxide": hydroxide,
        "hydrogen_phosphate": hydrogen_phosphate,
        "phosphate_ion": phosphate_ion,
        "silicate_ion": silicate_ion,
        "ammonia": ammonia,
        "hydrogen_free": hydrogen_free,
        "hydrogen_sulfate": hydrogen_sulfate,
        "hydrogen_fluoride": hydrogen_fluoride,
        "phosphoric_acid": phosphoric_acid,
    }
    # A proton is all that these pairs exchange besides neutral water, so that the difference of
    # their charges counts it.
    lacking = {
        name: Integer(charge_of(zero) - charge_of(species))
        for name, (species, zero) in ZERO_LEVEL.items()
    }
    yield (
        (
            "Acids weaker than pK 4.5 are at the zero level when they hold their proton, stronger "
            "ones when they have given it away. A species lacks as many protons as its charge is "
            "below that of its zero form; what has one too many counts with the other sign:"
        ),
        [lacking[name] * contents[name] for name in contents],
    )
    total = sum((lacking[name] * contents[name] for name in contents), Integer(0))
    yield "Alkalinity is the protons that all of them lack:", total
    return total


def _mass_action(h: Any, k1: Any, k2: Any) -> tuple[list[Any], dict[Any, Any], tuple[Any, ...]]:
    """Return the laws, their solution and the unknowns: contents of the three forms."""
    co2, hco3, co3 = content("CO_2"), content("HCO_3^-"), content("CO_3^{2-}")
    total = Symbol("C_T", positive=True)
    laws = [
        Eq(k1, h * hco3 / co2),
        Eq(k2, h * co3 / hco3),
        Eq(total, co2 + hco3 + co3),
    ]
    (solution,) = solve(laws, [co2, hco3, co3], dict=True)
    return laws, {name: value / total for name, value in solution.items()}, (co2, hco3, co3)


LAWS = "Two laws of mass action, and carbon is in one of three forms:"


@derivation(co2_share, title="Dissolved CO2's share, from mass action")
def co2_from_mass_action(hydrogen: Any, k1: Any, k2: Any) -> Stages:
    """Solve mass action and the carbon balance for CO2."""
    laws, shares, (co2, _, _) = _mass_action(hydrogen, k1, k2)
    yield LAWS, laws
    return shares[co2]


@derivation(bicarbonate_share, title="Bicarbonate's share, from mass action")
def bicarbonate_from_mass_action(hydrogen: Any, k1: Any, k2: Any) -> Stages:
    """Solve mass action and the carbon balance for bicarbonate."""
    laws, shares, (_, hco3, _) = _mass_action(hydrogen, k1, k2)
    yield LAWS, laws
    return shares[hco3]


@derivation(carbonate_share, title="Carbonate's share, from mass action")
def carbonate_from_mass_action(hydrogen: Any, k1: Any, k2: Any) -> Stages:
    """Solve mass action and the carbon balance for carbonate."""
    laws, shares, (_, _, co3) = _mass_action(hydrogen, k1, k2)
    yield LAWS, laws
    return shares[co3]


@derivation(borate_share, title="Borate's share, from mass action")
def borate_from_mass_action(hydrogen: Any, kb: Any) -> Stages:
    """Solve mass action and the boron balance for borate."""
    acid, base = content("B(OH)_3"), content("B(OH)_4^-")
    total = Symbol("B_T", positive=True)
    laws = [Eq(kb, hydrogen * base / acid), Eq(total, acid + base)]
    yield "The law of mass action, and boron is in one of two forms:", laws
    (solution,) = solve(laws, [acid, base], dict=True)
    return solution[base] / total


@derivation(carbonate_from_alkalinity_and_ph, title="Carbonate from alkalinity and pH, without DIC")
def carbonate_from_alkalinity(
    total_alkalinity: Any, ph_total: Any, salinity: Any, temperature: Any
) -> Stages:
    """Solve carbon's part of alkalinity and the second law of mass action for carbonate."""
    hco3, co3 = content("HCO_3^-"), content("CO_3^{2-}")
    h, k2, other = symbols("h K_2 A_{nc}", positive=True)
    laws = [Eq(total_alkalinity, hco3 + 2 * co3 + other), Eq(k2, h * co3 / hco3)]
    yield (
        "Alkalinity is carbon's and that of all others; and bicarbonate parts with a proton:",
        laws,
    )
    (solution,) = solve(laws, [hco3, co3], dict=True)
    numerator, denominator = fraction(solution[co3])
    found = (numerator / k2) / expand(denominator / k2)
    yield "Solved for carbonate:", Eq(co3, found)
    water = {"salinity": salinity, "temperature": temperature}
    return found.xreplace(
        {
            other: written_out(noncarbon_alkalinity, ph_total=ph_total, **water),
            h: written_out(hydrogen_ion, ph=ph_total),
            k2: written_out(carbonic_k2_lueker2000, **water),
        }
    )


@derivation(revelle_factor, title="The Revelle factor from two slopes")
def revelle_from_two_slopes(
    hydrogen: Any, dic: Any, total_boron: Any, k1: Any, k2: Any, kb: Any, kw: Any
) -> Stages:
    """Let DIC change, hold alkalinity, and see what hydrogen ion and CO2 must do."""
    _, shares, (co2, hco3, co3) = _mass_action(hydrogen, k1, k2)
    a1, a2, b, n = symbols(r"alpha_1 alpha_2 beta n")
    borate = kb / (kb + hydrogen)
    slopes = {
        form: cancel(hydrogen * diff(log(shares[form]), hydrogen)) for form in (co2, hco3, co3)
    }
    proton = cancel(shares[hco3] + 2 * shares[co3])
    steps = [factor(cancel(slopes[form] - proton)) for form in (co2, hco3, co3)]
    yield (
        (
            "Let x be ln h, and n the alkalinity of a mole of carbon. Against x, the logarithm "
            "of a share changes by n, less one for each proton that the form has lost:"
        ),
        [
            Eq(n, a1 + 2 * a2),
            *(
                Eq(Symbol(rf"\frac{{d\ln\alpha_{i}}}{{dx}}"), n + step)
                for i, step in enumerate(steps)
            ),
        ],
    )
    carbon = expand(-(a1 * (n + steps[1]) + 2 * a2 * (n + steps[2])))
    carbon = carbon.subs(a1, n - 2 * a2).expand()
    gained = a1 + 4 * a2 - n**2
    assert expand(carbon - gained.subs(a1, n - 2 * a2)) == 0  # noqa: S101 - a step of the proof
    boron = factor(cancel(-hydrogen * diff(borate, hydrogen) / borate))
    assert cancel(boron - (1 - borate)) == 0  # noqa: S101 - a step of the proof
    water = -hydrogen * diff(10**6 * (kw / hydrogen - hydrogen), hydrogen)
    loss = dic * gained + total_boron * b * (1 - b) + water.expand()
    yield (
        "So alkalinity falls with x by what carbon, boron and water can take up:",
        Eq(Symbol(r"-\frac{\partial A_T}{\partial x}"), loss),
    )
    yield (
        (
            "More DIC brings n of alkalinity for each mole, so that x must rise to lose it again; "
            "and the relative change of CO2 is that of DIC and that of its share:"
        ),
        [
            Eq(Symbol(r"\frac{dx}{dC_T}"), n / loss),
            Eq(Symbol("R"), 1 + dic * n * Symbol(r"\frac{dx}{dC_T}")),
        ],
    )
    first = written_out(bicarbonate_share, hydrogen=hydrogen, k1=k1, k2=k2)
    second = written_out(carbonate_share, hydrogen=hydrogen, k1=k1, k2=k2)
    filled = {
        n: first + 2 * second,
        a1: first,
        a2: second,
        b: written_out(borate_share, hydrogen=hydrogen, kb=kb),
    }
    taken = dic * gained.xreplace(filled) + (
        total_boron * filled[b] * (1 - filled[b]) + 10**6 * (kw / hydrogen + hydrogen)
    )
    return 1 + dic * filled[n] * filled[n] / taken
