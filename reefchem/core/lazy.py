"""Names that are imported when they are first asked for (PEP 562)."""

from __future__ import annotations

import sys

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["lazily"]


def lazily(
    package: str, places: Mapping[str, tuple[str, ...]]
) -> tuple[Callable[[str], object], Callable[[], list[str]], list[str]]:
    """Return `__getattr__`, `__dir__` and `__all__` for a package.

    Parameters
    ----------
    package
        Name of the package, `__name__` in its `__init__`.
    places
        Names by the submodule that defines them. An empty tuple offers the submodule itself.
    """
    homes = {name: module for module, names in places.items() for name in names}
    modules = frozenset(places)

    def __getattr__(name: str) -> object:
        if name in homes:
            module = _imported(f"{package}.{homes[name]}")
            value = getattr(module, name)
        elif name in modules:
            value = _imported(f"{package}.{name}")
        else:
            msg = f"module {package!r} has no attribute {name!r}"
            raise AttributeError(msg)
        setattr(sys.modules[package], name, value)
        return value

    public = sorted([*homes, *(module for module, names in places.items() if not names)])

    def __dir__() -> list[str]:
        return sorted({*public, *modules, *vars(sys.modules[package])})

    return __getattr__, __dir__, public


def _imported(name: str) -> object:
    __import__(name)
    return sys.modules[name]
