# SPDX-License-Identifier: Apache-2.0
"""How sheets print cells of the interference matrix: verdict, emission, model and its band."""

from __future__ import annotations

from rfplan.model.interference import CellWord, Coupling, Exposure
from rfplan.reports.cells import UNKNOWN, nothing, printed, words
from rfplan.reports.sheet import Cell


def decided(exposure: Exposure) -> Cell:
    """Return the verdict with what it rests on, or TEST."""
    if exposure.verdict is None:
        return words(str(CellWord.TEST), "INCOMPLETE")
    return words(f"{exposure.verdict} ({exposure.word})", str(exposure.verdict))


def emission_text(exposure: Exposure) -> str:
    """Return which emission it is."""
    return "carrier" if exposure.order == 1 else f"harmonic {exposure.order}"


def band_cell(coupling: Coupling) -> Cell:
    """Return how much better the isolation may be than the model says: least and most."""
    low_db, high_db = coupling.band_db
    if low_db is None:
        return nothing(UNKNOWN)
    if high_db is None:
        return words(f"{_signed(low_db)} or more")
    return words(f"{_signed(low_db)} .. {_signed(high_db)}")


def range_cell(coupling: Coupling) -> Cell:
    """Return whether a model was used inside its range."""
    return words("yes") if coupling.valid else nothing("no")


def _signed(value_db: float) -> str:
    text = printed(value_db, "dB", 1)
    return text if value_db < 0.0 else f"+{text}"
