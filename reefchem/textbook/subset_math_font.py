"""Cut STIX Two Math down to formulas: ``python -m reefchem.textbook.subset_math_font FONT``.

FONT is the whole STIXTwoMath-Regular.ttf (SIL Open Font License), carried for example by the
wheel of ziamath 0.13. Needs fonttools and brotli. The result is committed beside the licence.
"""

from __future__ import annotations

import sys
from pathlib import Path

from fontTools import subset

TARGET = Path(__file__).parent / "static" / "textbook-math.woff2"

RANGES = (
    (0x20, 0x7E),  # basic Latin
    (0xA0, 0xFF),  # Latin-1: degree sign, multiplication, micro
    (0x391, 0x3C9),  # Greek
    (0x3D1, 0x3F5),  # Greek variants
    (0x2010, 0x2026),  # dashes, ellipsis
    (0x2032, 0x2034),  # primes
    (0x2061, 0x2064),  # invisible operators
    (0x2070, 0x209C),  # raised and lowered digits
    (0x210E, 0x210F),  # italic h
    (0x2190, 0x2194),  # arrows
    (0x21CC, 0x21CC),  # equilibrium
    (0x21D2, 0x21D4),  # implication
    (0x2200, 0x22C5),  # operators, relations, square root
    (0x2308, 0x230B),  # ceiling, floor
    (0x239B, 0x23B3),  # pieces of tall brackets
    (0x27E8, 0x27E9),  # angle brackets
    (0x1D434, 0x1D467),  # italic Latin
    (0x1D6A4, 0x1D6A5),  # dotless i and j
    (0x1D6E2, 0x1D71B),  # italic Greek
)


def main(font: str) -> None:
    """Write the subset as WOFF2."""
    options = subset.Options(flavor="woff2", layout_features=["ssty"])
    loaded = subset.load_font(font, options)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[c for low, high in RANGES for c in range(low, high + 1)])
    cutter.subset(loaded)
    subset.save_font(loaded, str(TARGET), options)
    print(f"{TARGET.name}: {TARGET.stat().st_size / 1000:.0f} kB")  # noqa: T201 - a script


if __name__ == "__main__":
    main(sys.argv[1])
