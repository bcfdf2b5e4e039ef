"""Names that are imported when they are first asked for (PEP 562)."""

from __future__ import annotations

import sys
from types import ModuleType

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = ["lazily"]


def lazily(
    package: str,
    places: Mapping[str, tuple[str, ...]],
    *,
    retired: Mapping[str, tuple[str, str]] | None = None,
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
    retired
        Names that leave, with the public name to use instead and the version without them. Asking
        for one warns, and gives what stands under the other name.
    """
    homes = {name: module for module, names in places.items() for name in names}
    modules = frozenset(places)
    leaving = dict(retired or {})

    class Package(ModuleType):
        """A package that keeps its public names when Python binds its submodules."""

        RETIRED = leaving

        def __setattr__(self, name: str, value: object) -> None:
            if not (name in homes and isinstance(value, ModuleType)):
                super().__setattr__(name, value)

    sys.modules[package].__class__ = Package

    def __getattr__(name: str) -> object:  # noqa: N807 - PEP 562 asks for this name
        if name in leaving:
            from reefchem.core.retired import warn_of_retired  # noqa: PLC0415 - seldom needed

            use, gone = leaving[name]
            warn_of_retired(f"{package}.{name}", f"{package}.{use}", gone)
            return getattr(sys.modules[package], use)
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
