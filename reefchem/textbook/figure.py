"""The directive ``figure-from``: a figure drawn when the book is built."""

from __future__ import annotations

import importlib
import io
import re
from html import escape
from typing import TYPE_CHECKING, Any, ClassVar

from docutils import nodes
from docutils.parsers.rst import directives

from reefchem.textbook.templating import TextbookDirective

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

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
    option_spec: ClassVar = {"alt": directives.unchanged_required}

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
        made = svg_of(function(), self.arguments[0])
        label = escape(" ".join(self.options["alt"].split()), quote=True)
        drawing = f'<div class="drawn" role="img" aria-label="{label}">{made}</div>'
        figure = nodes.container(classes=["drawn-figure"])
        figure += nodes.raw("", drawing, format="html")
        if self.content:
            caption = nodes.container(classes=["caption"])
            self.state.nested_parse(self.content, self.content_offset, caption)
            figure += caption
        return [figure]


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
    text = _PATH.sub(lambda path: _LONG_NUMBER.sub(_shorter, path[0]), text)
    text = re.sub(r"<metadata>.*?</metadata>", "", text, flags=re.DOTALL)
    prefix = re.sub(r"\W", "-", salt)
    text = re.sub(r'\bid="', f'id="{prefix}-', text)
    text = re.sub(r"url\(#", f"url(#{prefix}-", text)
    text = re.sub(r'(xlink:href|href)="#', rf'\1="#{prefix}-', text)
    text = re.sub(r'<svg ([^>]*?)width="[^"]*" height="[^"]*"', r"<svg \1", text, count=1)
    text = re.sub(r'<svg ([^>]*?)height="[^"]*"([^>]*?)width="[^"]*"', r"<svg \1\2", text, count=1)
    text = text.replace("<svg ", '<svg aria-hidden="true" ', 1)
    return text.replace(INK, "currentColor").replace("#000000", "currentColor")


_PATH = re.compile(r'\bd="[^"]*"')
_LONG_NUMBER = re.compile(r"-?\d+\.\d{3,}")


def _shorter(number: re.Match[str]) -> str:
    """Return a coordinate to a hundredth of a point, which nobody sees."""
    return f"{float(number[0]):.2f}".rstrip("0").rstrip(".")


def _paint(texts: Iterable[Any]) -> None:
    """Give black text the colour that follows the page."""
    for text in texts:
        if text.get_color() in {"black", "k", "#000000"}:
            text.set_color(INK)
