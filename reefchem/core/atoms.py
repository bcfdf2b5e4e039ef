"""Atomic weights and molar masses."""

from __future__ import annotations

import re
from functools import lru_cache

from reefchem.core.errors import DomainError

__all__ = ["ATOMIC_WEIGHTS", "atoms_in", "charge_of", "molar_mass"]

ATOMIC_WEIGHTS: dict[str, tuple[float, float]] = {
    "H": (1.0080, 0.0002),
    "Li": (6.94, 0.06),
    "B": (10.81, 0.02),
    "C": (12.011, 0.002),
    "N": (14.007, 0.001),
    "O": (15.999, 0.001),
    "F": (18.998, 0.001),
    "Na": (22.990, 0.001),
    "Mg": (24.305, 0.002),
    "Al": (26.982, 0.001),
    "Si": (28.085, 0.001),
    "P": (30.974, 0.001),
    "S": (32.06, 0.02),
    "Cl": (35.45, 0.01),
    "K": (39.098, 0.001),
    "Ca": (40.078, 0.004),
    "V": (50.942, 0.001),
    "Cr": (51.996, 0.001),
    "Mn": (54.938, 0.001),
    "Fe": (55.845, 0.002),
    "Co": (58.933, 0.001),
    "Ni": (58.693, 0.001),
    "Cu": (63.546, 0.003),
    "Zn": (65.38, 0.02),
    "As": (74.922, 0.001),
    "Se": (78.971, 0.008),
    "Br": (79.904, 0.003),
    "Rb": (85.468, 0.001),
    "Sr": (87.62, 0.01),
    "Mo": (95.95, 0.01),
    "I": (126.90, 0.01),
    "Cs": (132.91, 0.01),
    "Ba": (137.33, 0.01),
}
"""Abridged standard atomic weights 2021 and their uncertainty (Prohaska et al., 2022).

Five figures; the uncertainty covers the natural variation between sources of the element.
"""

_LONGEST = 200
_DEEPEST = 8
_MOST_ATOMS = 99999
_TOKEN = re.compile(r"([A-Z][a-z]?)|([0-9]+)|([(\[])|([)\]])")
_CHARGE = re.compile(r"(?:\^([0-9]?))?([+-])\Z")
_UNCLEAR = re.compile(r"(?:[A-Z][a-z]?[0-9]+|.*[0-9]{2})[+-]")  # as in Ca2+ and SO42-


def molar_mass(formula: str) -> float:
    """Return the molar mass of a formula in g/mol.

    Parameters
    ----------
    formula
        Elements with counts, brackets, and water of crystallisation after a middle dot or a full
        stop: ``"CaCl2·2H2O"``, ``"Ca(HCOO)2"``. An ion ends in its charge, ``"NO3-"`` or
        ``"SO4^2-"``; the mass of the electrons is left out.

    Returns
    -------
    float
        g/mol, from the abridged standard atomic weights (Prohaska et al., 2022).

    Raises
    ------
    DomainError
        When the formula cannot be read, could be read in two ways, or names an element without a
        tabulated weight.

    Examples
    --------
    >>> round(molar_mass("CaCl2·2H2O"), 3)
    147.008
    """
    total = sum(ATOMIC_WEIGHTS[element][0] * count for element, count in atoms_in(formula).items())
    return round(total, 9)  # no weight has more than four decimals: only binary noise goes


def atoms_in(formula: str) -> dict[str, int]:
    """Return the number of atoms of each element in a formula.

    Examples
    --------
    >>> atoms_in("Ca(HCOO)2")
    {'Ca': 1, 'H': 2, 'C': 2, 'O': 4}
    """
    given: object = formula
    if not isinstance(given, str):
        msg = f"a formula is a text such as 'CaCl2·2H2O', not {type(given).__name__}"
        raise TypeError(msg)
    return dict(_counted(formula))


def charge_of(formula: str) -> int:
    """Return the charge of an ion.

    Examples
    --------
    >>> charge_of("SO4^2-"), charge_of("Na+"), charge_of("NaCl")
    (-2, 1, 0)
    """
    atoms_in(formula)
    match = _CHARGE.search(formula)
    if match is None:
        return 0
    return int(match[1] or "1") * (1 if match[2] == "+" else -1)


@lru_cache(maxsize=1024)
def _counted(formula: str) -> tuple[tuple[str, int], ...]:
    if not 0 < len(formula) <= _LONGEST:
        msg = f"a formula of {len(formula)} characters; 1 to {_LONGEST} are allowed"
        raise DomainError(msg)
    if _UNCLEAR.fullmatch(formula):
        msg = f"formula {formula!r} could be read in two ways; write the charge as in 'Ca^2+'"
        raise DomainError(msg)
    total: dict[str, int] = {}
    for part in re.split(r"[·.*]", _CHARGE.sub("", formula)):
        match = re.match(r"[0-9]+", part)
        times = int(match[0]) if match else 1
        for element, count in _read(part[match.end() if match else 0 :], formula).items():
            total[element] = total.get(element, 0) + times * count
    if not 0 < sum(total.values()) <= _MOST_ATOMS:
        msg = f"formula {formula!r} has {sum(total.values())} atoms; 1 to {_MOST_ATOMS} are allowed"
        raise DomainError(msg)
    return tuple(total.items())


def _read(text: str, formula: str) -> dict[str, int]:
    stack: list[dict[str, int]] = [{}]
    last: dict[str, int] | None = None
    position = 0
    while position < len(text):
        match = _TOKEN.match(text, position)
        element, digits, opening, closing = match.groups() if match else (None,) * 4
        if element in ATOMIC_WEIGHTS:
            last = {str(element): 1}
            _add(stack[-1], last, 1)
        elif digits and last and int(digits):
            _add(stack[-1], last, int(digits) - 1)
            last = None
        elif opening and len(stack) < _DEEPEST:
            stack.append({})
            last = None
        elif closing and len(stack) > 1 and stack[-1]:
            last = stack.pop()
            _add(stack[-1], last, 1)
        else:
            msg = (
                f"formula {formula!r} cannot be read at {text[position:]!r}; expected elements "
                "with a tabulated weight, counts, brackets and hydrate parts"
            )
            raise DomainError(msg)
        position = match.end() if match else position
    if len(stack) > 1 or not stack[0]:
        msg = f"formula {formula!r} has an empty part or a bracket left open"
        raise DomainError(msg)
    return stack[0]


def _add(total: dict[str, int], more: dict[str, int], times: int) -> None:
    for element, count in more.items():
        total[element] = total.get(element, 0) + times * count
