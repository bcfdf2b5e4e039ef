"""The book as EPUB 3 that its checker accepts: formulas as MathML, no script, the font inside."""

from __future__ import annotations

import re

from sphinx.builders.epub3 import Epub3Builder

from reefchem.textbook.accessible import mended

__all__ = ["TextbookEpub"]

MATHML = 'xmlns="http://www.w3.org/1998/Math/MathML"'
_DATA = re.compile(r'<script type="application/json".*?</script>\n?', re.DOTALL)
_ITEM = re.compile(r'<item id="epub-\d+" href="([^"]+\.xhtml)"')


class TextbookEpub(Epub3Builder):
    """Sphinx's builder, with what the checker asks of pages with formulas and figures."""

    media_types: dict[str, str] = {  # noqa: RUF012 - as the base class has it
        **Epub3Builder.media_types,
        ".woff2": "font/woff2",
        ".txt": "text/plain",
    }

    def build_content(self) -> None:
        """Put the pages right, then say in the list of files what each of them holds."""
        holds = {}
        for path in self.outdir.rglob("*.xhtml"):
            page = mended(_DATA.sub("", path.read_text(encoding="utf-8")))
            page = page.replace("<math>", f"<math {MATHML}>")
            page = page.replace('<math display="block">', f'<math {MATHML} display="block">')
            page = page.replace(' scriptlevel="0"', "")
            path.write_text(page, encoding="utf-8")
            found = [name for name, tag in (("mathml", "<math"), ("svg", "<svg")) if tag in page]
            holds[path.relative_to(self.outdir).as_posix()] = " ".join(found)
        super().build_content()
        listing = self.outdir / "content.opf"
        text = listing.read_text(encoding="utf-8")
        listing.write_text(_ITEM.sub(lambda item: _with(item, holds), text), encoding="utf-8")


def _with(item: re.Match[str], holds: dict[str, str]) -> str:
    properties = holds.get(item[1], "")
    return f'{item[0]} properties="{properties}"' if properties else item[0]
