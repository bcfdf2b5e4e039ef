"""The carbonate system as JavaScript: constants, pairs and parts written down by running them.

What is iterated in Python (Newton steps, their start) stands as a search between bounds in
``module_carbonate.js``; its residual and every closed form come from here.
"""

from __future__ import annotations

import json
from importlib.resources import files
from itertools import product
from typing import TYPE_CHECKING, Any

from reefchem.carbonate import solver, system
from reefchem.carbonate.constants import _ON_DEMAND as ON_DEMAND
from reefchem.carbonate.constants import Choices, Constants, choices
from reefchem.carbonate.state import HALF_STEP, MICRO, CarbonateState
from reefchem.carbonate.totals import BORON
from reefchem.core.record import describe
from reefchem.core.term import Symbol, Term
from reefchem.export.statements import function_of_parts, statements

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from reefchem.core.record import Record

__all__ = ["FIVE", "carbonate_source"]

H, T, S = (Symbol(name, name) for name in ("h", "temperature", "salinity"))
PAIRS, FIVE = system._PAIRS, system._FIVE  # noqa: SLF001 - what Python solves is what is exported
BY_DIFFERENCE = ("d_ph_d_temperature", "d_omega_aragonite_d_temperature")
"""Parts that are worked out from two states, a little warmer and a little cooler."""


class _Named(Constants):
    """Constants that stand as symbols, each a line of generated code."""

    def __getattr__(self, name: str) -> Any:
        """Return the symbol of a constant."""
        if name not in ON_DEMAND:
            raise AttributeError(name)
        return Symbol(f"k.{name}", name)


class _State(CarbonateState):
    """A state whose parts can be written down."""

    def _boron_total(self) -> Any:
        return Symbol("w.boron", "B")


def carbonate_source(record: Record, options: Mapping[str, tuple[str, ...]]) -> str:
    """Return the functions of the carbonate system; the last is called like its record."""
    numbers = {
        "MOST": system.MOST,
        "MICRO": MICRO,
        "HALF_STEP": HALF_STEP,
        "LOWEST": solver.LOWEST,
        "HIGHEST": solver.HIGHEST,
    }
    return "\n\n".join(
        [
            "\n".join(f"const {name} = {value!r};" for name, value in numbers.items()),
            _constants(record, options),
            f"const FIVE = {json.dumps(FIVE)};",
            f"const BORON = {_boron(options)};",
            f"const RANGES = {_ranges(options)};",
            *_sides(record),
            f"const DIRECT = {{\n{_direct(record)}\n}};",
            _parts(record),
            files("reefchem.export").joinpath("module_carbonate.js").read_text("utf-8").strip(),
        ]
    )


def _defaults(options: Mapping[str, tuple[str, ...]]) -> dict[str, str]:
    return {name: known[0] for name, known in options.items()}


def _chosen(picked: Mapping[str, str], *, ammonium: bool = False) -> Choices:
    return choices(
        picked["carbonic"],
        picked["boron"],
        picked["fluoride"],
        picked["conversion"],
        ammonium=ammonium,
    )


def _constants(record: Record, options: Mapping[str, tuple[str, ...]]) -> str:
    """Return the function that computes every constant, with a branch where a choice decides."""
    rows = ["function carbonateConstants(temperature, salinity, chosen) {", "  const k = {};"]
    for name, compute in ON_DEMAND.items():
        axis, bodies = _by_choice(record, compute, options)
        branches = "".join(f"\n    {picked}() {{ {body} }}," for picked, body in bodies.items())
        if axis is not None:
            rows.append(f"  k.{name} = {{{branches}\n  }}[chosen.{axis}]();")
        elif bodies[""].startswith("return "):
            rows.append(f"  k.{name} = {bodies[''].removeprefix('return ')}")
        else:
            rows.append(f"  k.{name} = (() => {{ {bodies['']} }})();")
    return "\n".join([*rows, "  return k;", "}"])


def _by_choice(
    record: Record, compute: Callable[[Constants], Any], options: Mapping[str, tuple[str, ...]]
) -> tuple[str | None, dict[str, str]]:
    """Return the option that a constant depends on, if any, and its code for each choice."""
    found: dict[tuple[str, ...], str] = {}
    for picked in product(*options.values()):
        k = _Named(T, S, _chosen(dict(zip(options, picked, strict=True))))
        lines, made = statements({"value": compute(k)}, record)
        found[picked] = " ".join([*lines, f"return {made['value']};"])
    if len(set(found.values())) == 1:
        return None, {"": next(iter(found.values()))}
    for place, (name, known) in enumerate(options.items()):
        texts = {one: {text for p, text in found.items() if p[place] == one} for one in known}
        if all(len(some) == 1 for some in texts.values()):
            return name, {one: some.pop() for one, some in texts.items()}
    msg = "a constant depends on two choices at once; write a branch for both"
    raise ValueError(msg)


def _boron(options: Mapping[str, tuple[str, ...]]) -> str:
    known = (f"{name}: {describe(BORON[name]).name}" for name in options["boron"])
    return f"{{ {', '.join(known)} }}"


def _ranges(options: Mapping[str, tuple[str, ...]]) -> str:
    """Return the relations whose range a calculation rests on, by the choice that brings them."""
    usual = _defaults(options)

    def names(**changed: str) -> list[str]:
        relations = _chosen(usual | changed, ammonium=True).relations
        return [describe(relation).name for relation in relations]

    def by_choice(axis: str, part: slice) -> str:
        known = ", ".join(f"{one}: {names(**{axis: one})[part]}" for one in options[axis])
        return f"  {axis}: {{ {known} }}"

    rows = [by_choice("carbonic", slice(0, 2)), by_choice("fluoride", slice(2, 3))]
    always, ammonium = names()[3:-1], names()[-1:]
    text = ",\n".join([*rows, f"  always: {always}", f"  ammonium: {ammonium}"])
    return "{\n" + text.replace("'", '"') + ",\n}"


def _solutes() -> solver.Solutes:
    boron, phosphate, silicate, ammonium = (
        Symbol(f"w.{name}", name) for name in ("boron", "phosphate", "silicate", "ammonium")
    )
    return solver.Solutes(_k(), boron, phosphate, silicate, ammonium)


def _k() -> _Named:
    return _Named(T, S, choices("lueker2000", "uppstrom1974", "perez1987", "handbook"))


def _sides(record: Record) -> list[str]:
    """Return functions of the alkalinities, and their slopes against ln H, that a search needs."""
    content = Symbol("content", "c")
    other = solver.other_alkalinity(H, _solutes())
    head = "otherAlkalinity(h, w)"
    made = [function_of_parts(head, _pair(other), record, first="const k = w.k;", as_list=True)]
    for name, side in (
        ("carbonFromDic", solver.carbon_from_dic),
        ("carbonFromCo2", solver.carbon_from_co2),
        ("carbonFromCarbonate", solver.carbon_from_carbonate),
    ):
        head, both = f"{name}(h, content, k)", _pair(side(H, content, _k()))
        made.append(function_of_parts(head, both, record, as_list=True))
    return made


def _pair(values: tuple[Any, Any]) -> dict[str, Term]:
    return {"value": values[0], "slope": values[1]}


_SEARCHED = ("_alkalinity_dic", "_alkalinity_pco2", "_alkalinity_carbonate")


def _direct(record: Record) -> str:
    """Return a function for each pair that needs no search: hydrogen ion, DIC, alkalinity."""
    rows = []
    for first, second, solve in PAIRS.values():
        if solve.__name__ in _SEARCHED:
            continue
        made = solve(Symbol("x", "x"), Symbol("y", "y"), _solutes())
        known = {name: value for name, value in zip("hca", made, strict=True) if value is not None}
        lines, texts = statements(known, record)
        told = ", ".join(texts.get(name, "null") for name in "hca")
        body = " ".join(["const k = w.k;", *lines, f"return [{told}];"])
        pair = f"{FIVE[first]},{FIVE[second]}"
        rows.append(f'  "{pair}": (x, y, w) => {{ {body} }},')
    return "\n".join(rows)


def _parts(record: Record) -> str:
    """Return the function that works out every part of a state but those by difference."""
    inputs = "salinity temperature alkalinity dic ph phosphate silicate ammonium boron calcium"
    state = _State(
        tuple(Symbol(f"state.{name}", name) for name in inputs.split()), _k().chosen, _k()
    )
    parts = {
        name: getattr(CarbonateState, name).compute(state)
        for name in CarbonateState.UNITS
        if name not in BY_DIFFERENCE
    }
    return function_of_parts("stateParts(state, w, k)", parts, record)
