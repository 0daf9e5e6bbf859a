"""The computation behind a community garden's teaching workbook.

Each room (``site``, ``sowing``, ...) is a subpackage that names its few public
functions and loads them when they are first used.
"""

from gardenlib.problems import InputProblem

__all__ = ["InputProblem"]
__version__ = "0.1.0"
