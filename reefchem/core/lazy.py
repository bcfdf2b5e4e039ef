"""Names that are imported when they are first asked for (PEP 562)."""

from __future__ import annotations

import sys
from types import ModuleType

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["lazily"]


def lazily(
    package: str, places: Mapping[str, tuple[str, ...]]
) -> tuple[Callable[[str], object], Callable[[], list[str]], list[str]]:
    """Return `__getattr__`, `__dir__` and `__all__` for a package.

    A public name wins over a submodule of the same name: `seawater.composition` is the function,
    however the module of that name came to be imported.

    Parameters
    ----------
    package
        Name of the package, `__name__` in its `__init__`.
    places
        Names by the submodule that defines them. An empty tuple offers the submodule itself.
    """
    homes = {name: module for module, names in places.items() for name in names}
    modules = frozenset(places)

    class Package(ModuleType):
        """A package that keeps its public names when Python binds its submodules."""

        def __setattr__(self, name: str, value: object) -> None:
            if not (name in homes and isinstance(value, ModuleType)):
                super().__setattr__(name, value)

    sys.modules[package].__class__ = Package

    def __getattr__(name: str) -> object:  # noqa: N807 - PEP 562 asks for this name
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

    def __dir__() -> list[str]:  # noqa: N807 - PEP 562 asks for this name
        return sorted({*public, *modules, *vars(sys.modules[package])})

    return __getattr__, __dir__, public


def _imported(name: str) -> object:
    __import__(name)
    return sys.modules[name]
