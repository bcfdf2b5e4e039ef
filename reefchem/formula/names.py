"""How names in code are written in a formula."""

from __future__ import annotations

import re

__all__ = ["latex_name", "plain_name"]

_GREEK = frozenset(
    "alpha beta gamma delta epsilon zeta eta theta kappa lambda mu nu xi pi rho sigma tau phi chi "
    "psi omega".split()
)


_WORDS = {"pk": r"\mathrm{p}K", "ph": r"\mathrm{pH}", "dic": r"\mathrm{DIC}"}


def latex_name(name: str) -> str:
    r"""Return a local variable as LaTeX: ``t68`` is t with index 68, ``rho_w`` a Greek letter.

    Examples
    --------
    >>> latex_name("t68"), latex_name("rho"), latex_name("sulfate")
    ('t_{68}', '\\rho', '\\mathrm{sulfate}')
    """
    stem, _, index = name.strip("_").partition("_")
    split = re.fullmatch(r"([A-Za-z]+?)(\d+)", stem)
    if split and not index:
        stem, index = split[1], split[2]
    if stem in _WORDS:
        base = _WORDS[stem]
        return base if not index else rf"{base}_{{{index}}}"
    base = f"\\{stem}" if stem in _GREEK else stem if len(stem) == 1 else f"\\mathrm{{{stem}}}"
    if not index:
        return base
    words = index.replace("_", r"\ ")
    upright = index if index.isdigit() or len(index) == 1 else rf"\mathrm{{{words}}}"
    return f"{base}_{{{upright}}}"


def plain_name(latex: str) -> str:
    """Return a LaTeX symbol as text for a terminal."""
    text = re.sub(r"\\(?:mathrm|text|operatorname|mathit)\{([^{}]*)\}", r"\1", latex)
    text = re.sub(r"\\(?:mathrm|text|operatorname|mathit)\{([^{}]*)\}", r"\1", text)
    greek = {"rho": "ρ", "Omega": "Ω", "omega": "ω", "alpha": "α", "beta": "β", "gamma": "γ"}
    greek |= {"delta": "δ", "Delta": "Δ", "lambda": "λ", "mu": "μ", "sigma": "σ", "tau": "τ"}
    greek |= {"kappa": "κ", "phi": "φ", "theta": "θ", "epsilon": "ε", "varphi": "φ", "chi": "χ"}
    text = re.sub(r"\\([A-Za-z]+)", lambda m: greek.get(m[1], m[1]), text)
    text = re.sub(r"\\[ ,;!]", " ", text)
    return text.replace("{", "").replace("}", "").replace("\\", "")
