"""Pictures with their finding and numbers: one theme, one view, one way to show them."""

from importlib import import_module
from typing import Any

_NAMES = {
    "Mark": "season",
    "Shown": "view",
    "View": "view",
    "day": "render",
    "day_length": "site",
    "freeze_season": "season",
    "html": "view",
    "page_css": "theme",
    "show": "view",
    "sowings": "plantings",
    "svg": "render",
    "warmth": "site",
    "words": "view",
}
__all__ = list(_NAMES)


def __getattr__(name: str) -> Any:
    if name not in _NAMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_NAMES[name]}"), name)


def __dir__() -> list[str]:
    return __all__
