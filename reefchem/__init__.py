"""The chemistry of a small reef aquarium: derived, cited, bounded, checked and taught."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem import carbonate as carbonate
    from reefchem import conversion as conversion
    from reefchem import dosing as dosing
    from reefchem import seawater as seawater
    from reefchem import tank as tank
    from reefchem.core.boundary import strict as strict
    from reefchem.core.boundary import valid as valid
    from reefchem.core.record import describe as describe
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "seawater": (),
            "conversion": (),
            "carbonate": (),
            "dosing": (),
            "tank": (),
            "core.record": ("describe",),
            "core.boundary": ("strict", "valid"),
        },
    )
