"""How the book is built."""

from __future__ import annotations

import sys
from importlib.metadata import version as package_version
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))  # the book's own figures

project = "reefchem"
author = "The reefchem developers"
copyright = "2026, the reefchem developers"
html_title = "reefchem: why a dose works"
language = "en-GB"

extensions = [
    "myst_parser",
    "sphinx.ext.autodoc",
    "sphinx.ext.napoleon",
    "sphinx_autodoc_typehints",
    "sphinxcontrib.bibtex",
    "reefchem.textbook",
    "reefchem_pages.benchmarks",
    "reefchem_pages.changes",
    "reefchem_pages.citing",
    "reefchem_pages.files",
    "reefchem_pages.minor_elements",
    "reefchem_pages.print_tables",
    "reefchem_pages.salts",
    "reefchem_pages.term_titles",
]
exclude_patterns = ["_build", "changes", "examples", "exercises"]
myst_enable_extensions = ["dollarmath", "colon_fence", "deflist", "smartquotes"]
myst_heading_anchors = 3
nitpicky = True
nitpick_ignore_regex = [
    ("py:.*", r"(numpy|sympy|pint|scipy|pandas|matplotlib|click|jinja2|collections|pathlib)\..*"),
    ("py:.*", r"(Num|R|P|optional|callable|array|function|Path|datetime.*|ParamSpec|TypeVar)"),
]

bibtex_bibfiles = ["../reefchem/data/references.bib"]
bibtex_reference_style = "author_year"
bibtex_default_style = "unsrt"
bibtex_cite_id = "cite-{key}"

textbook_records = "reefchem.core.record:records"
textbook_derivations = "reefchem.derive.derivation:derive"
textbook_examples = "examples"
textbook_exercises = "exercises"
textbook_published = "../shared/published"
textbook_require_checks = True
textbook_units = [
    ["degC", "degF"],
    ["dKH", "meq/L", "ppm_CaCO3"],
    ["L", "US_liquid_gallon", "imperial_gallon"],
    ["mL", "L"],
    ["g", "kg", "ounce"],
    ["g/L", "mg/L"],
    ["umol/kg", "mmol/kg", "mol/kg"],
    ["kg/m**3", "g/mL"],
    ["uatm", "atm"],
    ["day", "hour"],
    ["cm", "inch", "m"],
]

version = release = package_version("reefchem")

epub_show_urls = "no"
epub_tocdepth = 2

html_theme = "furo"
html_math_renderer = "mathml"
html_static_path: list[str] = []
html_copy_source = False
html_show_sourcelink = False
html_theme_options = {
    "light_css_variables": {
        "color-brand-primary": "#00615f",
        "color-brand-content": "#00615f",
    },
    "dark_css_variables": {
        "color-brand-primary": "#6fd3cb",
        "color-brand-content": "#6fd3cb",
    },
}
suppress_warnings = ["myst.header"]
