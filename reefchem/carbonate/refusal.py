"""Why two measurements of the carbonate system cannot go together, in words."""

from __future__ import annotations

import warnings

from reefchem.carbonate.constants import Choices
from reefchem.carbonate.solver import Solutes, least_alkalinity, other_alkalinity
from reefchem.carbonate.state import MICRO
from reefchem.core.constants import LN10
from reefchem.core.errors import RangeWarning
from reefchem.core.functions import Num, exp
from reefchem.core.record import describe
from reefchem.core.roots import searching

__all__ = ["refusal", "warn_of_range"]


def refusal(
    names: tuple[str, ...], x: float, y: float, solutes: Solutes, dic: float, alkalinity: float
) -> str:
    """Return the message for two values that have no answer.

    Parameters
    ----------
    names
        Of the two.
    x, y
        Their values in the recorded units.
    solutes
        What they were tried with.
    dic, alkalinity
        What they would need, in µmol/kg, or NaN.
    """
    k = solutes.k
    given = f"carbonate_system: {names[0]} is {x:.10g} and {names[1]} is {y:.10g}"
    if names == ("total_alkalinity", "ph_total"):
        h = exp(-LN10 * y)
        least = other_alkalinity(h, solutes)[0] / MICRO
        if x < least:
            return (
                f"{given}; at this pH all that is not carbon makes up {least:.6g} umol/kg of "
                f"alkalinity, so that no dic can meet it. {least:.6g} umol/kg or more is possible"
            )
    if names == ("dic", "pco2"):
        most = x * MICRO / (k.k0 * k.fugacity_factor) / MICRO
        return (
            f"{given}; of a dic only a part can be dissolved CO2. For this dic a pco2 above 0 "
            f"and below {most:.6g} uatm is possible"
        )
    if names == ("dic", "carbonate"):
        return (
            f"{given}; of a dic only a part can be carbonate. For this dic a carbonate above 0 "
            f"and below {x:.6g} umol/kg is possible"
        )
    if names == ("pco2", "carbonate") and (x == 0.0 or y == 0.0):
        return f"{given}; both must be above 0, or neither says what the pH is"
    if names == ("total_alkalinity", "carbonate"):
        if y == 0.0:
            return f"{given}; water without carbonate has no pH that alkalinity could tell"
        least = least_alkalinity(MICRO * y, solutes)[1] / MICRO
        if x < least:
            return (
                f"{given}; this much carbonate comes with an alkalinity of "
                f"{least:.6g} umol/kg or more"
            )
    return (
        f"{given}; together they would need a dic of {dic:.4g} umol/kg and a total_alkalinity of "
        f"{alkalinity:.4g} umol/kg; 0 to 1e+06 and -1e+06 to 1e+06 are possible"
    )


def warn_of_range(chosen: Choices, salinity: Num, temperature: Num) -> None:
    """Warn, once for a call, of the constants whose range the water is outside of."""
    if searching.get():
        return
    out = []
    for name, value, shared in (
        ("temperature", temperature, chosen.temperatures),
        ("salinity", salinity, chosen.salinities),
    ):
        low, high = _ends(value)
        if low >= shared[0] and high <= shared[1]:
            continue
        for relation in chosen.relations:
            record = describe(relation)
            valid = record.arguments[name].valid
            if valid is not None and (low < valid[0] or high > valid[1]):
                bad = low if low < valid[0] else high
                unit = "" if name == "salinity" else " degC"
                out.append(
                    f"{name} is {bad:.10g}{unit}, {record.name} covers "
                    f"{valid[0]:.10g} to {valid[1]:.10g}{unit}"
                )
    if out:
        from reefchem.core.boundary import first_outside  # noqa: PLC0415 - rare

        msg = f"carbonate_system: {'; '.join(out)}. The values are used as given"
        warnings.warn(msg, RangeWarning, stacklevel=first_outside())


def _ends(value: Num) -> tuple[float, float]:
    if type(value) is float:
        return value, value
    import numpy as np  # noqa: PLC0415 - an array is at hand

    if value.size == 0:
        return float("nan"), float("nan")
    return float(np.fmin.reduce(value, None)), float(np.fmax.reduce(value, None))
