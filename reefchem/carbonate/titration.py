"""A titration of seawater with strong acid: acid against pH, both ways.

Everything in the sample dilutes as acid is added. The pH is on the free scale, since the acid
that hydrogen sulfate and hydrogen fluoride take up is counted by itself.
"""

from __future__ import annotations

from reefchem.core.constants import FARADAY, GAS_CONSTANT, LN10
from reefchem.core.fit import Fit
from reefchem.core.functions import Num, exp, kelvin
from reefchem.core.record import arg, relation
from reefchem.core.roots import find_root

__all__ = [
    "TitrationConstants",
    "acid_for_balance",
    "acid_to_reach",
    "electrode_emf",
    "ph_from_emf",
    "titratable_alkalinity",
    "titration_ph",
]


class TitrationConstants(Fit):
    """Equilibrium constants on the free scale; the defaults are those of Dickson (1981), 25 °C.

    Names follow the paper: `k1k2` is the product of the constants of carbonic acid, `beta_s`,
    `beta_f` and `beta_p` are association constants of hydrogen sulfate, hydrogen fluoride and
    phosphoric acid, `k2p` and `k2pk3p` belong to phosphoric acid. `k_acetic` and `k_formic` are
    not in the paper: thermodynamic pK 4.76 and 3.75, less 0.15 for the salt of seawater, good to
    about 0.1 in pK.
    """

    k1: float = 1.00e-6
    k1k2: float = 8.20e-16
    kb: float = 1.78e-9
    kw: float = 4.32e-14
    beta_s: float = 12.3
    beta_f: float = 408.0
    beta_p: float = 56.8
    k2p: float = 8.00e-7
    k2pk3p: float = 1.32e-15
    k_acetic: float = 2.45e-5
    k_formic: float = 2.51e-4


_PH_FREE = arg("1", r"\mathrm{pH}_F", typical=(3.0, 8.5), possible=(-1.0, 14.0))
_SAMPLE = arg("g", "m_0", typical=(5.0, 250.0), possible=(1e-9, float("inf")))
_ACID = arg("g", "m", typical=(0.0, 2.5))
_STRENGTH = arg("mol/kg", "C", typical=(0.05, 0.5), possible=(1e-6, 10.0))
_ALKALINITY = arg("umol/kg", r"A_T", typical=(1000.0, 5000.0), possible=(-1e6, 1e6))
_TOTALS = {
    "dic": arg("umol/kg", r"C_T", typical=(900.0, 4500.0)),
    "total_boron": arg("umol/kg", r"B_T", typical=(300.0, 600.0)),
    "total_sulfate": arg("umol/kg", r"S_T", typical=(20000.0, 35000.0)),
    "total_fluoride": arg("umol/kg", r"F_T", typical=(0.0, 100.0)),
    "total_phosphate": arg("umol/kg", r"P_T", typical=(0.0, 20.0)),
    "acetate": arg("umol/kg", r"\mathrm{Ac}_T", typical=(0.0, 1000.0)),
    "formate": arg("umol/kg", r"\mathrm{Fo}_T", typical=(0.0, 1000.0)),
}


@relation(
    unit="umol/kg",
    symbol=r"A_\mathrm{d}",
    source="dickson1981",
    at="the expression behind tables 1 and 4; acetate and formate added",
    ph_free=_PH_FREE,
    **_TOTALS,
)
def titratable_alkalinity(
    ph_free: Num,
    dic: Num,
    total_boron: Num,
    total_sulfate: Num,
    total_fluoride: Num,
    total_phosphate: Num = 0.0,
    acetate: Num = 0.0,
    formate: Num = 0.0,
    *,
    constants: TitrationConstants = TitrationConstants(),
) -> Num:
    """Return the alkalinity that the dissolved acids and bases hold at a pH, without H and OH.

    Bases count plus, acids count minus, each for every proton between it and the zero level:
    carbonic acid, boric acid, sulfate, fluoride, dihydrogen phosphate, acetic acid and formate.

    Notes
    -----
    Formic acid is stronger than the zero level at pK 4.5, so formate itself counts nothing and
    formic acid counts minus; acetic acid is weaker, so acetate counts plus.

    Examples
    --------
    >>> round(titratable_alkalinity(8.065650, 2200.0, 420.0, 28240.0, 70.0), 1)
    2445.0
    """
    c = constants
    h = exp(-LN10 * ph_free)
    carbon = dic * (c.k1 * h + 2 * c.k1k2) / (h * h + c.k1 * h + c.k1k2)
    boron = total_boron * c.kb / (c.kb + h)
    sulfate = total_sulfate * c.beta_s * h / (1 + c.beta_s * h)
    fluoride = total_fluoride * c.beta_f * h / (1 + c.beta_f * h)
    phosphate = (
        total_phosphate
        * (c.k2p * h + 2 * c.k2pk3p - c.beta_p * h * h * h)
        / (c.beta_p * h * h * h + h * h + c.k2p * h + c.k2pk3p)
    )
    organic = acetate * c.k_acetic / (c.k_acetic + h) - formate * h / (c.k_formic + h)
    return carbon + boron - sulfate - fluoride + phosphate + organic


@relation(
    unit="g",
    symbol="m",
    source="dickson1981",
    at="the balance of the mixture, solved for the acid",
    sample_mass=_SAMPLE,
    acid_concentration=_STRENGTH,
    total_alkalinity=_ALKALINITY,
    bases=arg(
        "umol/kg",
        r"A_\mathrm{d}",
        title="bases still held, for each kilogram of sample",
        typical=(-300.0, 3000.0),
        possible=(-1e7, 1e7),
    ),
    free_acid=arg(
        "umol/kg",
        r"\Delta h",
        title="free acid in the mixture",
        typical=(-10.0, 1000.0),
        possible=(-1e7, 1e7),
    ),
)
def acid_for_balance(
    sample_mass: Num, acid_concentration: Num, total_alkalinity: Num, bases: Num, free_acid: Num
) -> Num:
    """Return the mass of acid after which a sample holds given bases and free acid.

    `bases` is for each kilogram of sample and dilutes; `free_acid`, hydrogen ion less hydroxide,
    is in the mixture.

    Examples
    --------
    At the equivalence point the bases that are left balance the free acid:

    >>> round(acid_for_balance(200.0, 0.3, 2450.0, 0.0, 0.0), 6)
    1.633333
    """
    return (
        sample_mass
        * (total_alkalinity - bases + free_acid)
        / (1e6 * acid_concentration - free_acid)
    )


@relation(
    unit="g",
    symbol="m",
    source="dickson1981",
    at="the expression behind tables 1 and 4, solved for the acid",
    ph_free=_PH_FREE,
    sample_mass=_SAMPLE,
    acid_concentration=_STRENGTH,
    total_alkalinity=_ALKALINITY,
    **_TOTALS,
)
def acid_to_reach(
    ph_free: Num,
    sample_mass: Num,
    acid_concentration: Num,
    total_alkalinity: Num,
    dic: Num,
    total_boron: Num,
    total_sulfate: Num,
    total_fluoride: Num,
    total_phosphate: Num = 0.0,
    acetate: Num = 0.0,
    formate: Num = 0.0,
    *,
    constants: TitrationConstants = TitrationConstants(),
) -> Num:
    """Return the mass of acid that brings a sample to a pH; negative when base would be needed.

    Examples
    --------
    >>> round(acid_to_reach(4.601818, 200.0, 0.3, 2450.0, 2200.0, 420.0, 28240.0, 70.0), 4)
    1.6
    """
    h = exp(-LN10 * ph_free)
    bases = titratable_alkalinity(
        ph_free,
        dic,
        total_boron,
        total_sulfate,
        total_fluoride,
        total_phosphate,
        acetate,
        formate,
        constants=constants,
    )
    free_acid = 1e6 * (h - constants.kw / h)
    return acid_for_balance(sample_mass, acid_concentration, total_alkalinity, bases, free_acid)


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_F",
    source="dickson1981",
    at="tables 1 and 4",
    acid_mass=_ACID,
    sample_mass=_SAMPLE,
    acid_concentration=_STRENGTH,
    total_alkalinity=_ALKALINITY,
    **_TOTALS,
)
def titration_ph(
    acid_mass: Num,
    sample_mass: Num,
    acid_concentration: Num,
    total_alkalinity: Num,
    dic: Num,
    total_boron: Num,
    total_sulfate: Num,
    total_fluoride: Num,
    total_phosphate: Num = 0.0,
    acetate: Num = 0.0,
    formate: Num = 0.0,
    *,
    constants: TitrationConstants = TitrationConstants(),
) -> Num:
    """Return the pH (free scale) of a sample after an addition of acid, with no gas lost.

    Notes
    -----
    In Dickson (1981), table 4, the rows at 0.45, 0.60 and 1.25 g disagree with the other 48 and
    with the paper's own equation; they are taken for misprints (see the errata).

    Examples
    --------
    >>> round(titration_ph(1.6, 200.0, 0.3, 2450.0, 2200.0, 420.0, 28240.0, 70.0), 6)
    4.601818
    """

    def excess(ph_free: Num) -> Num:
        h = exp(-LN10 * ph_free)
        bases = titratable_alkalinity(
            ph_free,
            dic,
            total_boron,
            total_sulfate,
            total_fluoride,
            total_phosphate,
            acetate,
            formate,
            constants=constants,
        )
        return (
            total_alkalinity
            - bases
            - acid_mass / sample_mass * 1e6 * acid_concentration
            + (1 + acid_mass / sample_mass) * 1e6 * (h - constants.kw / h)
        )

    return find_root(
        excess,
        -1.0,
        14.0,
        unknown="ph_free",
        symbol=r"\mathrm{pH}_F",
        like=(
            acid_mass,
            sample_mass,
            acid_concentration,
            total_alkalinity,
            dic,
            total_boron,
            total_sulfate,
            total_fluoride,
            total_phosphate,
            acetate,
            formate,
        ),
    )


@relation(
    unit="V",
    symbol="E",
    source="dickson2007",
    at="SOP 3a, Nernst equation",
    ph_free=_PH_FREE,
    temperature=arg("degC", "t", typical=(5.0, 40.0)),
    standard_emf=arg("V", "E^0", typical=(0.3, 0.5), possible=(-5.0, 5.0)),
)
def electrode_emf(ph_free: Num, temperature: Num, standard_emf: Num) -> Num:
    """Return the emf of a glass electrode with the full slope of the Nernst equation.

    Examples
    --------
    >>> round(electrode_emf(4.0, 25.0, 0.4) - electrode_emf(5.0, 25.0, 0.4), 5)
    0.05916
    """
    slope = GAS_CONSTANT * kelvin(temperature) * LN10 / FARADAY
    return standard_emf - slope * ph_free


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_F",
    source="dickson2007",
    at="SOP 3a, Nernst equation, solved for the pH",
    emf=arg("V", "E", typical=(-0.2, 0.3), possible=(-5.0, 5.0)),
    temperature=arg("degC", "t", typical=(5.0, 40.0)),
    standard_emf=arg("V", "E^0", typical=(0.3, 0.5), possible=(-5.0, 5.0)),
)
def ph_from_emf(emf: Num, temperature: Num, standard_emf: Num) -> Num:
    """Return the pH that an electrode's emf stands for."""
    slope = GAS_CONSTANT * kelvin(temperature) * LN10 / FARADAY
    return (standard_emf - emf) / slope
