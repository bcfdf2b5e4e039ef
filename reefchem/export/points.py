"""Vectors that this package computes: points inside, at the edges, outside, and refusals."""

from __future__ import annotations

import math
import warnings
from typing import TYPE_CHECKING

from reefchem.core.errors import DomainError
from reefchem.export.calculations import OPTIONS, parts_of
from reefchem.export.carbonate_system import FIVE
from reefchem.export.vector import Vector, near, range_flags

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from reefchem.core.record import Record

__all__ = ["calculation_points", "relation_points"]

TABLES = frozenset({"alkalinity_from_titration", "daily_swing", "titration_curve"})
"""Calculations that take or give tables: only what somebody printed is a vector of theirs."""

WATERS: tuple[Mapping[str, float], ...] = (
    {"salinity": 35.0, "temperature": 25.0, "total_alkalinity": 2300.0, "dic": 2000.0},
    {
        "salinity": 33.5,
        "temperature": 27.3,
        "total_alkalinity": 3120.0,
        "dic": 2890.0,
        "phosphate": 3.0,
        "silicate": 20.0,
        "ammonium": 15.0,
        "calcium": 10950.0,
        "total_boron": 450.0,
    },
)
"""Waters of which any two of five are put to the carbonate system."""

WANTED = ("ph_total", "total_alkalinity", "dic", "pco2", "carbonate", "omega_aragonite")

IMPOSSIBLE: Mapping[str, Mapping[str, float]] = {
    "dic-below-carbonate": {"dic": 2000.0, "carbonate": 2500.0},
    "dic-below-co2": {"dic": 2000.0, "pco2": 900000.0},
    "alkalinity-below-borate": {"total_alkalinity": 100.0, "ph_total": 8.9},
    "alkalinity-below-carbonate": {"total_alkalinity": 400.0, "carbonate": 300.0},
    "no-carbonate": {"pco2": 400.0, "carbonate": 0.0},
    "ph-above-14": {"total_alkalinity": 2300.0, "ph_total": 14.5},
}
"""Pairs that cannot be, in seawater of 35 at 25 °C."""


def relation_points(record: Record) -> Iterator[Vector]:
    """Give interior points, edges, points outside and refusals of a relation."""
    spans = {name: argument.span for name, argument in record.arguments.items()}
    for label, inputs in _inside(spans):
        yield _point(record, "interior", label, inputs)
    yield _point(record, "edge", "all-low", {name: span[0] for name, span in spans.items()})
    yield _point(record, "edge", "all-high", {name: span[1] for name, span in spans.items()})
    middle = {name: _rounded((low + high) / 2) for name, (low, high) in spans.items()}
    for name, argument in record.arguments.items():
        low, high = argument.span
        beyond = _rounded(high + 0.05 * (high - low))
        if argument.valid and beyond <= argument.possible[1]:
            yield _point(record, "outside", name, {**middle, name: beyond})
        least, most = argument.possible
        if abs(least) < math.inf:
            yield _refused(record, name, {**middle, name: least - 0.01 * (1 + abs(least))})
        if abs(most) < math.inf:
            yield _refused(record, f"{name}-high", {**middle, name: most + 0.01 * (1 + abs(most))})


def calculation_points(record: Record) -> Iterator[Vector]:
    """Give points of a calculation, one vector for each part."""
    if record.name in TABLES:
        return
    if record.name == "carbonate_system":
        yield from _carbonate_points(record)
        return
    spans = {
        name: argument.span
        for name, argument in record.arguments.items()
        if record.defaults.get(name, 0.0) is not None
    }
    for label, inputs in _inside(spans):
        yield from _parts(record, "interior", label, inputs, tuple(parts_of(record)))


def _carbonate_points(record: Record) -> Iterator[Vector]:
    """Give every pair, every part of one of them, every choice, and pairs that cannot be."""
    for number, water in enumerate(WATERS, 1):
        state = record.function(**water)
        around = {name: value for name, value in water.items() if name not in FIVE}
        for place, first in enumerate(FIVE):
            for second in FIVE[place + 1 :]:
                pair = {name: _rounded(getattr(state, name)) for name in (first, second)}
                wanted = tuple(parts_of(record)) if second == "dic" else WANTED
                label = f"{first}-{second}-{number}"
                yield from _parts(record, "interior", label, around | pair, wanted)
    for name, known in OPTIONS[record.name].items():
        for one in known[1:]:
            label, options = f"{name}-{one}", {name: one}
            yield from _parts(record, "interior", label, WATERS[1], WANTED[:1], options)
    warm = {**WATERS[0], "temperature": 48.0}
    yield from _parts(record, "outside", "temperature", warm, WANTED[:1])
    fresh = {**WATERS[0], "salinity": 2.0}
    yield from _parts(record, "outside", "salinity", fresh, WANTED[:1])
    for label, impossible in IMPOSSIBLE.items():
        water = {"salinity": 35.0, "temperature": 25.0, **impossible}
        yield from _parts(record, "refusal", label, water, WANTED[:1])


def _parts(
    record: Record,
    kind: str,
    label: str,
    inputs: Mapping[str, float],
    wanted: tuple[str, ...],
    options: Mapping[str, str] | None = None,
) -> Iterator[Vector]:
    """Give a vector for each wanted part that is a number at this point."""
    name = f"{kind}-{record.name}-{label}"
    given, chosen = dict(inputs), dict(options or {})
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always")
        try:
            result = record.function(**given, **chosen)
        except DomainError as error:
            if kind != "refusal":
                raise
            yield Vector(name, kind, record.name, given, None, refusal=str(error), part=wanted[0])
            return
    units, flags = parts_of(record), range_flags(caught)
    for part in wanted:
        value = getattr(result, part)
        if isinstance(value, float) and math.isfinite(value):
            yield Vector(
                f"{name}-{part}",
                kind,
                record.name,
                given,
                near(value, units[part]),
                computed=value,
                part=part,
                options=chosen,
                flags=flags,
            )


def _inside(spans: Mapping[str, tuple[float, float]]) -> Iterator[tuple[str, dict[str, float]]]:
    """Give three points inside the ranges of arguments, with a label each."""
    for index in range(3):
        inputs = {
            name: _rounded(low + _share(index, place) * (high - low))
            for place, (name, (low, high)) in enumerate(spans.items())
        }
        yield str(index + 1), inputs


def _share(index: int, place: int) -> float:
    """Return a share of the way that differs from point to point and argument to argument."""
    return (0.21 + 0.618034 * index + 0.37 * place) % 1.0


def _rounded(value: float) -> float:
    """Return a number with few digits, so that a vector can be typed."""
    return float(f"{value:.6g}")


def _point(record: Record, kind: str, label: str, inputs: dict[str, float]) -> Vector:
    name = f"{kind}-{record.name}-{label}"
    inputs = {key: float(value) for key, value in inputs.items()}
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always")
        try:
            value = float(record.function(**inputs))
        except DomainError as error:
            return Vector(name, kind, record.name, inputs, None, refusal=str(error))
    flags, expected = range_flags(caught), near(value, record.unit)
    return Vector(name, kind, record.name, inputs, expected, computed=value, flags=flags)


def _refused(record: Record, label: str, inputs: dict[str, float]) -> Vector:
    made = _point(record, "refusal", label, inputs)
    if made.expected is not None:
        msg = f"{record.name} answers {made.computed} to the impossible {inputs}"
        raise DomainError(msg)
    return made
