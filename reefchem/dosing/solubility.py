"""How much of two salts water takes, where a source gives it as a law."""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = [
    "calcium_formate_solubility",
    "limewater_alkalinity",
    "limewater_concentration",
    "limewater_ph",
]

LIMEWATER = arg(
    "degC", "t", title="temperature of the limewater", typical=(15.0, 30.0), possible=(0.0, 100.0)
)


class Lumsden1902(Fit):
    """Straight line through the solubilities of calcium formate as tabulated."""

    at_zero: float = 161.5
    slope: float = 0.225


class Bates1956(Fit):
    """Saturated calcium hydroxide at 25 °C, and how it falls.

    Concentration, pH and the slope of the pH are Bates and others'. The slope of the
    concentration, as a share for each degree, is that of handbook tables: from memory, and as in
    a transcription whose source is not named (0.165 and 0.153 g in 100 g of water at 20 and
    30 °C). No table with a name was read.
    """

    concentration: float = 0.0203
    ph: float = 12.45
    ph_slope: float = -0.033
    concentration_slope: float = -0.0075


@relation(
    unit="g/kg",
    symbol="w",
    source="lumsden1902",
    at="p. 355, table of calcium formate, 0 to 100 °C, which is a straight line",
    temperature=arg("degC", "t", valid=(0.0, 100.0)),
)
def calcium_formate_solubility(temperature: Num, *, fit: Lumsden1902 = Lumsden1902()) -> Num:
    """Return the calcium formate that a kilogram of water dissolves.

    It hardly depends on the temperature, so a bottle near saturation keeps in the cold.

    Examples
    --------
    >>> calcium_formate_solubility(20.0)
    166.0
    """
    return fit.at_zero + fit.slope * temperature


@relation(
    unit="mol/L",
    symbol=r"c_\mathrm{Ca(OH)_2}",
    source="bates1956",
    at="abstract: about 0.0203 M at 25 °C; the slope has no source that was read",
    temperature=LIMEWATER,
)
def limewater_concentration(temperature: Num, *, fit: Bates1956 = Bates1956()) -> Num:
    """Return the calcium hydroxide in saturated limewater.

    Parameters
    ----------
    temperature
        At which the water stood over lime. Warm water dissolves less.

    Notes
    -----
    Only the value at 25 °C is verified, in the abstract of the source and by a Pitzer model, which
    has 0.0201 mol in a kilogram of water. Handbook tables lie 6 to 10 % higher there and fall by
    about 0.75 % for each degree. That slope is used here; it was seen in a transcription that does
    not name its source, so treat it as unverified.

    Examples
    --------
    >>> limewater_concentration(25.0)
    0.0203
    """
    return fit.concentration * (1 + fit.concentration_slope * (temperature - 25))


@relation(
    unit="meq/L",
    symbol="A_l",
    source="bates1956",
    at="abstract: about 0.0203 M at 25 °C, two equivalents for each mole",
    temperature=LIMEWATER,
)
def limewater_alkalinity(temperature: Num) -> Num:
    """Return the alkalinity of saturated limewater.

    Parameters
    ----------
    temperature
        At which the water stood over lime.

    Examples
    --------
    >>> round(limewater_alkalinity(25.0), 12)
    40.6
    """
    return 2000 * limewater_concentration(temperature)


@relation(
    unit="1",
    symbol=r"\mathrm{pH}",
    source="bates1956",
    at="abstract: pH 12.45 at 25 °C, falling by 0.033 for each degree",
    temperature=arg("degC", "t", typical=(15.0, 30.0), possible=(0.0, 100.0)),
)
def limewater_ph(temperature: Num, *, fit: Bates1956 = Bates1956()) -> Num:
    """Return the pH (NBS scale) of saturated limewater. It burns eyes and skin.

    Examples
    --------
    >>> limewater_ph(25.0)
    12.45
    """
    return fit.ph + fit.ph_slope * (temperature - 25)
