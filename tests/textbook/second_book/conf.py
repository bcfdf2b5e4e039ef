"""How the little book is built: the shortest that shows every part of the engine."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

project = "Exposure"
version = "1"
copyright = "nobody"  # noqa: A001 - its name in Sphinx
epub_show_urls = "no"
extensions = ["myst_parser", "sphinxcontrib.bibtex", "reefchem.textbook"]
exclude_patterns = ["examples", "exercises", "published"]
myst_enable_extensions = ["dollarmath"]
html_theme = "furo"
html_math_renderer = "mathml"
html_copy_source = False

bibtex_bibfiles = ["sources.bib"]
bibtex_cite_id = "cite-{key}"

textbook_records = "exposure_relations:records"
textbook_derivations = "exposure_relations:derivations"
textbook_units = [["degC", "degF"], ["s", "ms", "min"], ["m", "ft"]]
