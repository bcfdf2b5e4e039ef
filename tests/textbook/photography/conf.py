import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

project = "Light on film"
extensions = ["myst_parser", "sphinxcontrib.bibtex", "reefchem.textbook"]
bibtex_bibfiles = ["light.bib"]
bibtex_cite_id = "cite-{key}"
myst_enable_extensions = ["dollarmath"]
html_theme = "basic"
html_math_renderer = "mathml"
textbook_records = "exposure:records"
textbook_derivations = "exposure:derivations"
textbook_units = [["second", "millisecond"]]
