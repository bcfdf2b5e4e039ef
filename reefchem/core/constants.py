"""Constants of nature and of definition, each once."""

from __future__ import annotations

__all__ = ["FARADAY", "GAS_CONSTANT", "LN10", "STANDARD_ATMOSPHERE", "ZERO_CELSIUS"]

ZERO_CELSIUS = 273.15
"""Kelvins at 0 °C (definition)."""

LN10 = 2.302585092994045684
"""Natural logarithm of ten; `10**x` is written `exp(LN10 * x)`."""

GAS_CONSTANT = 8.314462618
"""J/(mol K), CODATA 2018 (exact since the 2019 SI to the digits printed)."""

FARADAY = 96485.33212
"""C/mol, CODATA 2018 (exact since the 2019 SI to the digits printed)."""

STANDARD_ATMOSPHERE = 101325.0
"""Pa (definition)."""
