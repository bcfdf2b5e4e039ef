"""The titration of seawater, from mass action and the proton balance."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Add, Eq, exp, factor, log, solve, sqrt, symbols

from reefchem.carbonate.endpoint import (
    alkalinity_from_one_addition,
    endpoint_error,
    equivalence_ph,
    titrated_share,
)
from reefchem.carbonate.titration import acid_for_balance, titratable_alkalinity
from reefchem.derive.derivation import derivation

if TYPE_CHECKING:
    from collections.abc import Generator

    Steps = Generator[tuple[Any, ...], None, Any]

__all__: list[str] = []


@derivation(
    titrated_share, title="The share of a weak acid that takes up a proton, from mass action"
)
def share_from_mass_action(start_ph: Any, endpoint_ph: Any, pk: Any) -> Steps:
    """Take the basic share at two pH and subtract."""
    h, k, acid, base, total = symbols(r"H K [\mathrm{HX}] [\mathrm{X}] X_T", positive=True)
    laws = [Eq(k, h * base / acid), Eq(total, acid + base)]
    yield "Mass action, and the balance of the acid and its base.", laws
    (found,) = solve(laws, [acid, base], dict=True)
    share = found[base] / total
    yield "So the basic share of the total is", share
    before = share.subs({k: exp(-log(10) * pk), h: exp(-log(10) * start_ph)})
    after = share.subs({k: exp(-log(10) * pk), h: exp(-log(10) * endpoint_ph)})
    text = (
        "What was base at the start and is acid at the end has taken up a proton. With K and "
        "H as powers of ten:"
    )
    yield text, before - after
    return before - after


@derivation(equivalence_ph, title="The pH of the equivalence point")
def equivalence_from_proton_condition(dic: Any, pk1: Any) -> Steps:
    """Free acid equals bicarbonate left; solve the quadratic."""
    h, k, c, bicarbonate, co2 = symbols(
        r"H K_1 C [\mathrm{HCO_3^-}] [\mathrm{CO_2}]", positive=True
    )
    laws = [Eq(k, h * bicarbonate / co2), Eq(c, co2 + bicarbonate)]
    yield "Near the end point carbonate and borate are gone; carbon is CO2 or bicarbonate.", laws
    (found,) = solve(laws, [co2, bicarbonate], dict=True)
    condition: Any = Eq(h, found[bicarbonate])
    text = (
        "At the equivalence point as much acid was added as there was alkalinity: protons "
        "that found no base are as many as bases that found no proton."
    )
    yield text, condition
    root = (sqrt(k * k + 4 * k * c) - k) / 2
    residue = (condition.lhs * (k + h) - c * k).subs(h, root).expand()
    if residue != 0:
        msg = "the root does not satisfy the proton condition"
        raise ArithmeticError(msg)
    yield "The positive root of this quadratic equation:", Eq(h, root)
    return -log(root.subs({k: exp(-log(10) * pk1), c: dic / 10**6})) / log(10)


@derivation(endpoint_error, title="The error of an end point, from the proton balance")
def endpoint_error_from_proton_balance(
    endpoint_ph: Any, dic: Any, pk1: Any, dilution: Any
) -> Steps:
    """Balance the protons of a titration that stops at a pH."""
    h, k, c, alkalinity, reading, d, left = symbols("H K_1 C A A_r d L", positive=True)
    text = (
        "For each kilogram of sample: protons added are the alkalinity, less the bases that "
        "are left, plus the protons that stay free in the diluted sample (free acid and, on "
        "the total scale, hydrogen sulfate)."
    )
    yield text, Eq(reading, alkalinity - left + (1 + d) * h)
    (error,) = solve(Eq(reading, alkalinity - left + (1 + d) * h), reading)
    error = error - alkalinity
    yield "The reading minus the alkalinity:", error
    share = k / (k + h)
    yield "Near the end point the base that is left is bicarbonate:", Eq(left, c * share)
    put_in = {h: 10**6 * exp(-log(10) * endpoint_ph), d: dilution}
    left_over = (dic * share).subs({k: exp(-log(10) * pk1), h: exp(-log(10) * endpoint_ph)})
    return error.subs(left, left_over).subs(put_in)


@derivation(alkalinity_from_one_addition, title="Alkalinity from one addition of acid")
def one_addition_from_proton_balance(
    reading: Any, ph_after: Any, dic: Any, pk1: Any, dilution: Any
) -> Steps:
    """Solve the same balance for the alkalinity."""
    h, k, c, alkalinity, added, d = symbols("H K_1 C A A_a d", positive=True)
    balance = Eq(added, alkalinity - c * k / (k + h) + (1 + d) * h)
    yield "The proton balance with bicarbonate as the base that is left.", balance
    (found,) = solve(balance, alkalinity)
    yield "It is linear in the alkalinity:", Eq(alkalinity, found)
    share = (k / (k + h)).subs({k: exp(-log(10) * pk1), h: exp(-log(10) * ph_after)})
    free = 10**6 * exp(-log(10) * ph_after)
    return reading + dic * share - (1 + dilution) * free


@derivation(
    titratable_alkalinity, title="What the dissolved acids and bases hold, from mass action"
)
def bases_from_mass_action(
    ph_free: Any,
    dic: Any,
    total_boron: Any,
    total_sulfate: Any,
    total_fluoride: Any,
    total_phosphate: Any,
    acetate: Any,
    formate: Any,
    constants: Any,
) -> Steps:
    """Solve each acid's mass action and balance; weigh each species by its protons."""
    k, h = constants, symbols("H", positive=True)
    co2, hco3, co3 = symbols(
        r"[\mathrm{CO_2}] [\mathrm{HCO_3^-}] [\mathrm{CO_3^{2-}}]", positive=True
    )
    carbon = [Eq(k.k1, h * hco3 / co2), Eq(k.k1k2, h * h * co3 / co2), Eq(dic, co2 + hco3 + co3)]
    yield "Carbonic acid: two laws and a balance.", carbon
    (c,) = solve(carbon, [co2, hco3, co3], dict=True)
    acid, base = symbols(r"[\mathrm{HX}] [\mathrm{X}]", positive=True)

    def one_step(total: Any, association: Any) -> tuple[Any, Any]:
        laws = [Eq(association, acid / (h * base)), Eq(total, acid + base)]
        (found,) = solve(laws, [acid, base], dict=True)
        return found[acid], found[base]

    yield (
        "An acid HX with one step, by its association constant β or its constant K = 1/β.",
        [Eq(symbols("beta"), acid / (h * base)), Eq(symbols("X_T"), acid + base)],
    )
    p0, p1, p2, p3 = symbols(
        r"[\mathrm{H_3PO_4}] [\mathrm{H_2PO_4^-}] [\mathrm{HPO_4^{2-}}] [\mathrm{PO_4^{3-}}]",
        positive=True,
    )
    phosphorus = [
        Eq(k.beta_p, p0 / (h * p1)),
        Eq(k.k2p, h * p2 / p1),
        Eq(k.k2pk3p, h * h * p3 / p1),
        Eq(total_phosphate, p0 + p1 + p2 + p3),
    ]
    yield "Phosphoric acid: three laws and a balance.", phosphorus
    (p,) = solve(phosphorus, [p0, p1, p2, p3], dict=True)
    text = (
        "Each species counts the protons between it and the zero level: bicarbonate 1, "
        "carbonate 2, borate 1, hydrogen sulfate and hydrogen fluoride -1, hydrogen phosphate"
        " 1, phosphate 2, phosphoric acid -1, acetate 1, formic acid -1."
    )
    yield text, c[hco3] + 2 * c[co3] + p[p2] + 2 * p[p3] - p[p0]
    held = (
        c[hco3] + 2 * c[co3],
        one_step(total_boron, 1 / k.kb)[1],
        -one_step(total_sulfate, k.beta_s)[0],
        -one_step(total_fluoride, k.beta_f)[0],
        p[p2] + 2 * p[p3] - p[p0],
        one_step(acetate, 1 / k.k_acetic)[1],
        -one_step(formate, 1 / k.k_formic)[0],
    )
    parts: list[Any] = [factor(each) for each in held]
    return Add(*parts).subs(h, exp(-log(10) * ph_free))


@derivation(acid_for_balance, title="How much acid brings a sample to a pH")
def acid_from_dilution(
    sample_mass: Any, acid_concentration: Any, total_alkalinity: Any, bases: Any, free_acid: Any
) -> Steps:
    """Balance the protons of the mixture and solve for the mass of acid."""
    m, c = symbols("m C", positive=True)
    m0, alkalinity = sample_mass, total_alkalinity
    mixture = Eq((m0 * alkalinity - m * c) / (m0 + m), m0 * bases / (m0 + m) - free_acid)
    text = (
        "In the mixture the alkalinity is that of the sample less the acid, in the mass of "
        "both. It is held by what came with the sample, diluted, less the free acid."
    )
    yield text, mixture
    (acid,) = solve(mixture, m)
    yield "The balance is linear in the mass of acid:", Eq(m, acid)
    return acid.subs(c, 10**6 * acid_concentration)
