"""Formulas as MathML, written when the book is built: no script and no network in the page."""

from __future__ import annotations

import html
import re
from functools import cache
from typing import TYPE_CHECKING, Any

from math_core import LatexError, LatexToMathML
from sphinx.errors import ExtensionError

if TYPE_CHECKING:
    from docutils import nodes
    from sphinx.writers.html5 import HTML5Translator

__all__ = ["math_block", "math_inline", "row_inside", "to_mathml", "visit_block", "visit_inline"]

_NAMED = re.compile(r"&(?!amp;|lt;|gt;|quot;|#)(\w+);")


_SHORTER = {
    # The style sheet aligns such columns; see `mtd.l` and `mtd.r` there.
    ' style="text-align: right;justify-items: end;padding-right: 0;"': ' class="r"',
    ' style="text-align: left;justify-items: start;padding-left: 0;"': ' class="l"',
    '<mspace width="0.16666667em"/>': '<mspace width=".17em"/>',
    # These are what the operator has by itself.
    '<mo lspace="0.2222em" rspace="0.2222em">×</mo>': "<mo>×</mo>",
    '<mo lspace="0.2222em" rspace="0.2222em">⋅</mo>': "<mo>⋅</mo>",
}
"""What the converter writes at length, and the same in short: half of a page was that."""


@cache
def to_mathml(latex: str, *, block: bool) -> str:
    """Return LaTeX as MathML Core.

    Raises
    ------
    ExtensionError
        When the LaTeX has a command that MathML cannot carry, or a misspelt one.
    """
    try:
        made = LatexToMathML(fancy_error=False).convert_with_local_state(latex, displaystyle=block)
    except LatexError as error:
        msg = f"formula {latex!r}: {error}"
        raise ExtensionError(msg) from error
    made = _NAMED.sub(lambda match: html.unescape(match[0]), made)
    for long, short in _SHORTER.items():
        made = made.replace(long, short)
    return made


def math_block(latex: str) -> str:
    """Return a displayed formula that scrolls by itself when it is wider than the page."""
    return f'<div class="formula" tabindex="0">{to_mathml(latex, block=True)}</div>'


def math_inline(latex: str) -> str:
    """Return a formula for a line of text."""
    return to_mathml(latex, block=False)


def row_inside(latex: str) -> str:
    """Return a formula without its outer element, to stand inside another."""
    return re.sub(r"^<math[^>]*>|</math>$", "", to_mathml(latex, block=False))


def visit_inline(translator: HTML5Translator, node: nodes.math) -> None:
    """Write an inline formula of a page."""
    translator.body.append(math_inline(node.astext()))
    _skip()


def visit_block(translator: HTML5Translator, node: nodes.math_block) -> None:
    """Write a displayed formula of a page, with its number and anchor if it has one."""
    anchor = "".join(f'<span id="{name}"></span>' for name in node.get("ids", []))
    number = node.get("number")
    label = f'<span class="equation-number">({number})</span>' if number else ""
    translator.body.append(f"{anchor}{math_block(node.astext())}{label}")
    _skip()


def _skip() -> Any:
    from docutils import nodes  # noqa: PLC0415 - kept beside its one use

    raise nodes.SkipNode
