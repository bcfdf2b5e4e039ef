"""What seawater of a salinity holds: chlorinity, ionic strength, and totals in proportion to it.

The major ions of seawater keep their ratios wherever it is, so that one number, the salinity,
gives them all. The totals below are what the carbonate system asks for. The whole list of ions
is in `reference_composition`.
"""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = [
    "boron_lee2010",
    "boron_uppstrom1974",
    "calcium_riley1967",
    "chlorinity",
    "chlorinity_from_halides",
    "fluoride_riley1965",
    "ionic_strength",
    "ionic_strength_millero2008",
    "reference_amount",
    "reference_salinity",
    "sulfate_morris1966",
]

SALINITY = arg("1", "S", typical=(1.0, 45.0))


class Knudsen(Fit):
    """Salinity of seawater in one of chlorinity, as agreed in 1969."""

    salinity_per_chlorinity: float = 1.80655


class ReferenceScale(Fit):
    """Grams of salt in a kilogram of standard seawater, and its practical salinity."""

    salt: float = 35.16504
    practical: float = 35.0


class SilverChlorinity(Fit):
    """Grams of halide in one of the silver that precipitates it, and the weight of silver."""

    halide_per_silver: float = 0.3285234
    silver: float = 107.8682


class Uppstrom1974(Fit):
    """Boron in grams per gram of chlorinity, and the atomic weight used with it."""

    boron: float = 0.000232
    weight: float = 10.811


class Lee2010(Fit):
    """Boron in grams per kilogram and unit of salinity, and the atomic weight used with it."""

    boron: float = 0.1336e-3
    weight: float = 10.811


class MorrisRiley1966(Fit):
    """Sulfate in grams per gram of chlorinity, and the molar mass used with it."""

    sulfate: float = 0.14
    weight: float = 96.062


class Riley1965(Fit):
    """Fluoride in grams per gram of chlorinity, and the atomic weight used with it."""

    fluoride: float = 0.000067
    weight: float = 18.998


class RileyTongudai1967(Fit):
    """Calcium in grams per gram of chlorinity, and the atomic weight used with it."""

    calcium: float = 0.02128
    weight: float = 40.087


class IonicStrengthDoe1994(Fit):
    """Fitted numbers of the ionic strength as printed."""

    strength: float = 19.924
    total: float = 1000.0
    salt: float = 1.005


class MeanSalt(Fit):
    """Mean molar mass of sea salt, and half the sum of mole fraction times squared charge."""

    molar_mass: float = 31.4038218
    half_charge_squares: float = 0.6226449


@relation(
    unit="g/kg",
    symbol=r"\mathrm{Cl}",
    source="cox1967",
    at="relation of salinity to chlorinity, S = 1.80655 Cl",
    salinity=SALINITY,
)
def chlorinity(salinity: Num, *, fit: Knudsen = Knudsen()) -> Num:
    """Return the chlorinity of seawater: its halides, weighed as chloride.

    Examples
    --------
    >>> round(chlorinity(35.0), 4)
    19.3739
    """
    return salinity / fit.salinity_per_chlorinity


@relation(
    unit="g/kg",
    symbol="S_R",
    source="millero2008",
    at="abstract: 35.16504 g/kg at a practical salinity of 35",
    salinity=SALINITY,
)
def reference_salinity(salinity: Num, *, fit: ReferenceScale = ReferenceScale()) -> Num:
    """Return the mass of salt in a kilogram of seawater of the reference composition.

    Examples
    --------
    >>> reference_salinity(35.0)
    35.16504
    """
    return fit.salt * salinity / fit.practical


@relation(
    unit="g/kg",
    symbol=r"\mathrm{Cl}",
    source="jacobsen1940",
    at="definition by silver, 0.3285234 g for each gram of it",
    chloride=arg("mol/kg", r"[\mathrm{Cl^-}]", typical=(0.01, 0.7)),
    bromide=arg("mol/kg", r"[\mathrm{Br^-}]", typical=(0.0, 1e-3)),
)
def chlorinity_from_halides(
    chloride: Num, bromide: Num, *, fit: SilverChlorinity = SilverChlorinity()
) -> Num:
    """Return the chlorinity of water with so much chloride and bromide.

    The silver that precipitates both, times a fixed number. So it is not quite the mass of
    chloride, and it does not change when atomic weights do.

    Examples
    --------
    >>> round(chlorinity_from_halides(0.5458696, 0.0008421), 4)
    19.3739
    """
    silver = fit.silver * (chloride + bromide)
    return fit.halide_per_silver * silver


@relation(
    unit="mol/kg",
    symbol="b",
    source="millero2008",
    at="table 4, mole fractions; 35.16504 g/kg at 35; mean molar mass 31.4038218 g/mol",
    salinity=SALINITY,
    mole_fraction=arg(
        "1", "x", title="share of the amount of sea salt", typical=(0.0, 0.5), possible=(0.0, 1.0)
    ),
)
def reference_amount(salinity: Num, mole_fraction: Num, *, fit: MeanSalt = MeanSalt()) -> Num:
    """Return the amount of a constituent in a kilogram of reference seawater.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    mole_fraction
        Its share of the amount of sea salt; see `MOLE_FRACTIONS`.

    Examples
    --------
    >>> round(reference_amount(35.0, 0.0091823) * 1e3, 4)
    10.2821
    """
    S_R = reference_salinity(salinity)
    return mole_fraction * S_R / fit.molar_mass


@relation(
    unit="mol/kg",
    symbol=r"B_T",
    source="uppstrom1974",
    at="ratio of boron to chlorinity, as used by Dickson et al. (2007), chapter 5",
    salinity=SALINITY,
)
def boron_uppstrom1974(salinity: Num, *, fit: Uppstrom1974 = Uppstrom1974()) -> Num:
    """Return the total boron of seawater after Uppström.

    Notes
    -----
    The ratio is 0.232 ± 0.005 mg/kg for each g/kg of chlorinity. Programs that write
    0.000416 S/35 or 0.0004157 S/35 use the same ratio, rounded.

    Examples
    --------
    >>> round(boron_uppstrom1974(35.0) * 1e6, 2)
    415.76
    """
    return fit.boron * chlorinity(salinity) / fit.weight


@relation(
    unit="mol/kg",
    symbol=r"B_T",
    source="lee2010",
    at="abstract, ratio of boron to salinity",
    salinity=SALINITY,
)
def boron_lee2010(salinity: Num, *, fit: Lee2010 = Lee2010()) -> Num:
    """Return the total boron of seawater after Lee and others.

    Four per cent more than Uppström's. The ratio is 0.1336 ± 0.0005 mg/kg for each unit of
    salinity.

    Examples
    --------
    >>> round(boron_lee2010(35.0) * 1e6, 2)
    432.52
    """
    return fit.boron * salinity / fit.weight


@relation(
    unit="mol/kg",
    symbol=r"S_T",
    source="morris1966",
    at="ratio of sulfate to chlorinity, as used by Dickson et al. (2007), chapter 5",
    salinity=SALINITY,
)
def sulfate_morris1966(salinity: Num, *, fit: MorrisRiley1966 = MorrisRiley1966()) -> Num:
    """Return the total sulfate of seawater.

    Examples
    --------
    >>> round(sulfate_morris1966(35.0) * 1e3, 4)
    28.2354
    """
    return fit.sulfate * chlorinity(salinity) / fit.weight


@relation(
    unit="mol/kg",
    symbol=r"F_T",
    source="riley1965",
    at="ratio of fluoride to chlorinity, as used by Dickson et al. (2007), chapter 5",
    salinity=SALINITY,
)
def fluoride_riley1965(salinity: Num, *, fit: Riley1965 = Riley1965()) -> Num:
    """Return the total fluoride of seawater.

    Examples
    --------
    >>> round(fluoride_riley1965(35.0) * 1e6, 3)
    68.326
    """
    return fit.fluoride * chlorinity(salinity) / fit.weight


@relation(
    unit="mol/kg",
    symbol=r"\mathrm{Ca}_T",
    source="riley1967",
    at="ratio of calcium to chlorinity",
    salinity=SALINITY,
)
def calcium_riley1967(salinity: Num, *, fit: RileyTongudai1967 = RileyTongudai1967()) -> Num:
    """Return the total calcium of seawater.

    The reference composition, which is newer, has 0.02 % less.

    Examples
    --------
    >>> round(calcium_riley1967(35.0) * 1e3, 4)
    10.2846
    """
    return fit.calcium * chlorinity(salinity) / fit.weight


@relation(
    unit="mol/kg",
    symbol="I",
    source="doe1994",
    at="chapter 5, ionic strength (also Dickson et al. 2007, chapter 5)",
    salinity=arg("1", "S", typical=(1.0, 45.0), possible=(0.0, 900.0)),
)
def ionic_strength(salinity: Num, *, fit: IonicStrengthDoe1994 = IonicStrengthDoe1994()) -> Num:
    """Return the ionic strength of seawater, per kilogram of water.

    Examples
    --------
    >>> round(ionic_strength(35.0), 5)
    0.72276
    """
    return fit.strength * salinity / (fit.total - fit.salt * salinity)


@relation(
    unit="mol/kg",
    symbol="I",
    source="millero2008",
    at="from the mole fractions of the reference composition",
    salinity=arg("1", "S", typical=(1.0, 45.0), possible=(0.0, 900.0)),
)
def ionic_strength_millero2008(salinity: Num, *, fit: MeanSalt = MeanSalt()) -> Num:
    """Return the ionic strength of reference seawater, per kilogram of water.

    Half the sum over the ions of amount times squared charge; 0.02 % less than `ionic_strength`,
    which rests on an older list of ions.

    Examples
    --------
    >>> round(ionic_strength_millero2008(35.0), 5)
    0.72263
    """
    S_R = reference_salinity(salinity)
    amount = S_R / fit.molar_mass
    return fit.half_charge_squares * amount * 1000 / (1000 - S_R)
