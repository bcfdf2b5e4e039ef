"""A plan for readers: on a terminal, as JSON, and as one page that needs nothing else."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.report.data import *
    from reefchem.report.page import *
    from reefchem.report.terminal import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "data": ("plan_data",),
            "page": ("plan_page",),
            "terminal": ("plan_text",),
        },
    )
