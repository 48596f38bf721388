# SPDX-License-Identifier: Apache-2.0
"""A swept measurement: scattering parameters over frequency, as an analyser writes them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sweep:
    """Rising frequencies, and for each the matrix row by row: S11, or S11 S12 S21 S22."""

    frequency_hz: tuple[float, ...]
    s: tuple[tuple[complex, ...], ...]
    reference_ohm: float
    file: str
    ports: int
    notes: tuple[str, ...] = ()
