# SPDX-License-Identifier: Apache-2.0
"""Answers for programs: rounded numbers, no NaN, and text that no terminal can trip over."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping

Json = dict[str, object]

DECIMALS = 6


def rounded(value: float | None) -> float | None:
    """Return a number to six decimals, never minus zero; null where it is not known."""
    if value is None or not math.isfinite(value):
        return None
    return round(value, DECIMALS) + 0.0


def hertz(frequency_hz: float) -> int:
    """Return a frequency in whole hertz."""
    return round(frequency_hz)


def json_text(answer: Mapping[str, object]) -> str:
    """Return an answer as it is printed: ASCII, everything else escaped, one newline at the end."""
    return json.dumps(answer, indent=1, allow_nan=False) + "\n"
