"""The directive ``figure-from``: a figure drawn when the book is built."""

from __future__ import annotations

import importlib
import io
import re
from html import escape
from typing import TYPE_CHECKING, Any, ClassVar

from docutils import nodes
from docutils.parsers.rst import directives

from reefchem.textbook.templating import ENGINE, TextbookDirective

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sphinx.util.typing import OptionSpec

__all__ = ["FigureFrom", "svg_of"]

INK = "#0b1d2a"
"""Colour of axes and text in a figure; it becomes the colour of the page's text."""


class FigureFrom(TextbookDirective):
    """Draw a figure by calling a function; the argument is ``module:function``.

    The function returns a matplotlib figure. The option `alt` is required: it says in words what
    the figure shows. The content is the caption.
    """

    required_arguments = 1
    has_content = True
    option_spec: ClassVar[OptionSpec | None] = {"alt": directives.unchanged_required}

    def run(self) -> Sequence[nodes.Node]:
        """Return the figure with its caption."""
        if not self.options.get("alt"):
            msg = "a figure needs its text alternative, :alt:"
            raise self.error(msg)
        module_name, _, name = self.arguments[0].partition(":")
        try:
            module = importlib.import_module(module_name)
        except ImportError as error:
            raise self.error(str(error)) from error
        self.depend_on(str(module.__file__))
        function = getattr(module, name, None)
        if function is None:
            msg = f"{module_name} has no function {name!r}"
            raise self.error(msg)
        return self.drawn(function(), self.arguments[0], self.options["alt"])

    def drawn(self, figure: Any, salt: str, alt: str) -> list[nodes.Element]:
        """Return a figure as part of the page, with the content of the directive as its caption."""
        self.depend_on(*ENGINE)
        label = escape(" ".join(alt.split()), quote=True)
        drawing = f'<div class="drawn" role="img" aria-label="{label}">{svg_of(figure, salt)}</div>'
        made = nodes.container(classes=["drawn-figure"])
        made += nodes.raw("", drawing, format="html")
        if self.content:
            caption = nodes.container(classes=["caption"])
            self.state.nested_parse(self.content, self.content_offset, caption)
            made += caption
        return [made]


def svg_of(figure: Any, salt: str) -> str:
    """Return a matplotlib figure as SVG for a page; the same figure gives the same text."""
    import matplotlib as mpl  # noqa: PLC0415 - only pages with figures need it
    from matplotlib.text import Text  # noqa: PLC0415

    _paint(figure.findobj(Text))
    for axes in figure.axes:
        for spine in axes.spines.values():
            spine.set_edgecolor(INK)
        axes.tick_params(colors=INK, which="both")
    buffer = io.StringIO()
    with mpl.rc_context({"svg.hashsalt": salt, "svg.fonttype": "none"}):
        figure.savefig(buffer, format="svg", transparent=True, metadata={"Date": None})
    text = buffer.getvalue()
    text = text[text.index("<svg") :]
    text = _light(text)
    prefix = re.sub(r"\W", "-", salt)
    text = re.sub(r'\bid="', f'id="{prefix}-', text)
    text = re.sub(r"url\(#", f"url(#{prefix}-", text)
    text = re.sub(r'(xlink:href|href)="#', rf'\1="#{prefix}-', text)
    text = re.sub(r'<svg ([^>]*?)width="[^"]*" height="[^"]*"', r"<svg \1", text, count=1)
    text = re.sub(r'<svg ([^>]*?)height="[^"]*"([^>]*?)width="[^"]*"', r"<svg \1\2", text, count=1)
    text = text.replace("<svg ", '<svg aria-hidden="true" ', 1)
    return text.replace(INK, "currentColor").replace("#000000", "currentColor")


def _light(svg: str) -> str:
    """Return a drawing without what no page needs; half of it was that."""
    svg = re.sub(r"<metadata>.*?</metadata>", "", svg, flags=re.DOTALL)
    svg = re.sub(r'font-family: [^;"]*; ?', "", svg)  # the page has its own
    svg = re.sub(r' transform="rotate\(-0 [^"]*\)"', "", svg)
    svg = re.sub(r"\n +", "\n", svg)
    used = set(re.findall(r'(?:href="#|url\(#)([^")]+)', svg))
    svg = re.sub(r' id="([^"]*)"', lambda named: named[0] if named[1] in used else "", svg)
    return _PLACES.sub(lambda places: _LONG_NUMBER.sub(_shorter, places[0]), svg)


_PLACES = re.compile(r'\b(?:d|x|y|transform)="[^"]*"')
_LONG_NUMBER = re.compile(r"-?\d+\.\d{3,}(?![\de])")


def _shorter(number: re.Match[str]) -> str:
    """Return a coordinate to a hundredth of a point, which nobody sees."""
    return f"{float(number[0]):.2f}".rstrip("0").rstrip(".")


def _paint(texts: Iterable[Any]) -> None:
    """Give black text the colour that follows the page."""
    for text in texts:
        if text.get_color() in {"black", "k", "#000000"}:
            text.set_color(INK)
