"""Conductivity of seawater and practical salinity: two names for one measurement.

Practical salinity is defined by conductivity. The definition of 1978 (PSS-78) gives the salinity
from the conductivity, so that way round is a closed form; the other is a search.
"""

from __future__ import annotations

from reefchem.core.fit import Fit
from reefchem.core.functions import Num, sqrt
from reefchem.core.record import arg, relation
from reefchem.core.roots import find_root, newton
from reefchem.core.vouch import vouched
from reefchem.seawater.density import IPTS68_PER_ITS90

__all__ = [
    "STANDARD_CONDUCTIVITY",
    "conductivity",
    "conductivity_ratio",
    "salinity_from_conductivity",
    "salinity_from_conductivity_ratio",
]

STANDARD_CONDUCTIVITY = 42.914
"""Conductivity of seawater of salinity 35 at 15 °C (1968 scale), in mS/cm: Culkin & Smith (1980).

Later measurements would change it; the scale does not, since it rests on ratios alone.
"""


class PSS78(Fit):
    """Numbers of the definition, UNESCO 44, equations 1 to 3, as printed."""

    a0: float = 0.0080
    a1: float = -0.1692
    a2: float = 25.3851
    a3: float = 14.0941
    a4: float = -7.0261
    a5: float = 2.7081
    b0: float = 0.0005
    b1: float = -0.0056
    b2: float = -0.0066
    b3: float = -0.0375
    b4: float = 0.0636
    b5: float = -0.0144
    c0: float = 0.6766097
    c1: float = 2.00564e-2
    c2: float = 1.104259e-4
    c3: float = -6.9698e-7
    c4: float = 1.0031e-9
    k: float = 0.0162


DEFINITION = PSS78()


@relation(
    unit="1",
    symbol="S",
    source="fofonoff1983",
    at="eq. 1 to 3, at the surface",
    conductivity_ratio=arg(
        "1", "R", title="conductivity over that of standard seawater at 15 °C", typical=(0.2, 1.5)
    ),
    temperature=arg("degC", "t", valid=(-2.0, 35.0)),
)
def salinity_from_conductivity_ratio(
    conductivity_ratio: Num, temperature: Num, *, fit: PSS78 = DEFINITION
) -> Num:
    """Return the practical salinity of water from its conductivity ratio.

    Parameters
    ----------
    conductivity_ratio
        Conductivity of the water at its temperature over that of seawater of salinity 35 at 15 °C
        (1968 scale); any shape.
    temperature
        Temperature of the water; broadcast against `conductivity_ratio`.
    fit
        Numbers of the definition.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Warns
    -----
    RangeWarning
        Also when the salinity is outside 2 to 42, for which the scale is defined.

    Notes
    -----
    It is a definition, so it has no error; a good instrument repeats itself to 0.003.

    Examples
    --------
    >>> round(salinity_from_conductivity_ratio(1.0, 15 / 1.00024), 4)
    35.0
    """
    t68 = IPTS68_PER_ITS90 * temperature
    r_t = _warmth(t68, fit)
    R_t = conductivity_ratio / r_t
    x = sqrt(R_t)
    S_15 = fit.a0 + x * (fit.a1 + x * (fit.a2 + x * (fit.a3 + x * (fit.a4 + x * fit.a5))))
    b = fit.b0 + x * (fit.b1 + x * (fit.b2 + x * (fit.b3 + x * (fit.b4 + x * fit.b5))))
    S = S_15 + (t68 - 15) / (1 + fit.k * (t68 - 15)) * b
    return vouched(S, 2.0, 42.0, what="salinity_from_conductivity_ratio: the salinity")


def _warmth(t68: Num, fit: PSS78) -> Num:
    """Return the conductivity of salinity 35 at a temperature over that at 15 °C."""
    return fit.c0 + t68 * (fit.c1 + t68 * (fit.c2 + t68 * (fit.c3 + t68 * fit.c4)))


@relation(
    unit="1",
    symbol="S",
    source="fofonoff1983",
    at="eq. 1 to 3, at the surface",
    conductivity=arg(
        "mS/cm",
        r"\kappa",
        title="conductivity at the temperature of the water",
        typical=(10.0, 60.0),
    ),
    temperature=arg("degC", "t", valid=(-2.0, 35.0)),
)
def salinity_from_conductivity(conductivity: Num, temperature: Num) -> Num:
    """Return the practical salinity of water from its conductivity.

    Parameters
    ----------
    conductivity
        At the temperature of the water, without any compensation; any shape.
    temperature
        Temperature of the water; broadcast against `conductivity`.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Notes
    -----
    A meter that shows a conductivity "at 25 °C" is asked at 25 °C, and its compensation is then
    part of the answer; see `salinity_from_linear_compensation`.

    Examples
    --------
    >>> round(salinity_from_conductivity(53.07, 25.0), 2)
    35.0
    """
    return salinity_from_conductivity_ratio(conductivity / STANDARD_CONDUCTIVITY, temperature)


@relation(
    unit="1",
    symbol="R",
    source="fofonoff1983",
    at="eq. 1 to 3, at the surface, solved for the ratio",
    salinity=arg("1", "S", valid=(2.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 35.0)),
)
def conductivity_ratio(salinity: Num, temperature: Num) -> Num:
    """Return the conductivity of seawater over that of salinity 35 at 15 °C.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    temperature
        Temperature of the water; broadcast against `salinity`.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments.

    Raises
    ------
    NoRootError
        When the salinity is so small that the definition has no ratio for it (below about 0.01).
        In an array such an element is NaN.

    Examples
    --------
    >>> round(conductivity_ratio(35.0, 20 / 1.00024), 6)
    1.116493
    """

    def quick() -> Num:
        """Search for the root of the ratio, in which the definition is a polynomial."""
        p = DEFINITION
        t68 = IPTS68_PER_ITS90 * temperature
        f = (t68 - 15) / (1 + p.k * (t68 - 15))
        c0, c1, c2 = p.a0 + f * p.b0, p.a1 + f * p.b1, p.a2 + f * p.b2
        c3, c4, c5 = p.a3 + f * p.b3, p.a4 + f * p.b4, p.a5 + f * p.b5

        def correction(x: Num) -> Num:
            shown = c0 + x * (c1 + x * (c2 + x * (c3 + x * (c4 + x * c5))))
            slope = c1 + x * (2 * c2 + x * (3 * c3 + x * (4 * c4 + x * (5 * c5))))
            return (shown - salinity) / slope

        start = sqrt(salinity / 35)
        x = newton(correction, start, 0.2, 1.2)
        return _warmth(t68, p) * x * x

    return find_root(
        lambda ratio: salinity_from_conductivity_ratio(ratio, temperature) - salinity,
        0.0,
        3.0,
        unknown="conductivity_ratio",
        symbol="R",
        like=(salinity, temperature),
        quick=quick,
    )


@relation(
    unit="mS/cm",
    symbol=r"\kappa",
    source="fofonoff1983",
    at="eq. 1 to 3, at the surface, solved for the ratio",
    salinity=arg("1", "S", valid=(2.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 35.0)),
)
def conductivity(salinity: Num, temperature: Num) -> Num:
    """Return the conductivity of seawater.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.
    temperature
        Temperature of the water; broadcast against `salinity`.

    Returns
    -------
    Num
        Of the broadcast shape and of the kind of the arguments; at that temperature, not at 25 °C.

    Raises
    ------
    NoRootError
        As in `conductivity_ratio`.

    Examples
    --------
    >>> round(conductivity(35.0, 25.0), 2)
    53.07
    """
    return STANDARD_CONDUCTIVITY * conductivity_ratio(salinity, temperature)
