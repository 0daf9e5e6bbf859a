"""How the documentation is built: offline, every warning an error (see DEVELOPERS.md)."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

project = "gardenlib"
author = "The gardenlib contributors"
copyright = "2026, the gardenlib contributors; texts CC BY 4.0"
extensions = ["myst_parser", "sphinx.ext.autodoc", "numpydoc", "from_the_library"]
exclude_patterns = ["_build"]
myst_heading_anchors = 3
html_theme = "alabaster"
html_theme_options = {
    "description": "A garden class's own dates, with the working shown",
    "fixed_sidebar": True,
    "show_powered_by": False,
    "body_text_align": "left",
    "font_family": "serif",
    "page_width": "70rem",
}
html_sidebars = {"**": ["about.html", "searchbox.html", "navigation.html"]}
html_copy_source = False
html_show_sourcelink = False
autodoc_typehints = "none"
autodoc_member_order = "bysource"
numpydoc_show_class_members = False
