# SPDX-License-Identifier: Apache-2.0
"""How sheets print cells of the interference matrix: verdict, emission, model and its band."""

from __future__ import annotations

from collections.abc import Iterable

from rfplan.analysis.bearable import allowed_rise_db
from rfplan.analysis.isolation_models import Doubt, Rung
from rfplan.model.interference import CARRIER, NOISE, CellWord, Coupling, Exposure, Harm, Together
from rfplan.physics.gnss_interference import bearable_over_noise_db, noise_rise_db
from rfplan.reports.cells import UNKNOWN, nothing, printed, words
from rfplan.reports.sheet import Cell

TOGETHER = {
    Together.YES: "both must work at once",
    Together.SUPPRESSED: "a suppression line blanks one: only damage counts",
    Together.NOT_REQUIRED: "need not work at once: only damage counts",
}

MODELS = (
    "Models: a line is the straight one, with both gains at their most. 'less guided' takes off "
    "what a conducting hull carries along itself, which is not known of one too thin. Without a "
    "gain out of band, and in the near field, within a wavelength over 2 pi, nothing is bound."
)

_DOUBTS = {
    Doubt.NEAR: "nearer than 1.2 / k",
    Doubt.SLENDER: "hull thinner than compared",
    Doubt.NOT_METAL: "skin not known to conduct",
    Doubt.NOT_UPRIGHT: "not both vertical",
    Doubt.UNTESTED: "never compared on an aircraft",
    Doubt.GUIDED: "a conducting skin carries more",
}


def by_rung(title: str, rung: Rung) -> str:
    """Return the title of a sheet, with the rung it is made by where that is not the default."""
    return title if rung is Rung.DEFAULT else f"{title}, by the rung {rung}: for comparison"


def decided(exposure: Exposure) -> Cell:
    """Return the verdict with what it rests on, or TEST."""
    if exposure.verdict is None:
        return words(str(CellWord.TEST), "INCOMPLETE")
    return words(f"{exposure.verdict} ({exposure.word})", str(exposure.verdict))


def emission_text(exposure: Exposure) -> str:
    """Return which emission it is."""
    if exposure.order == NOISE:
        return "noise in 1 Hz"
    return "carrier" if exposure.order == CARRIER else f"harmonic {exposure.order}"


def undecided_by(one: Exposure) -> tuple[str, ...]:
    """Return what keeps an exposure from a verdict; none where there is one."""
    if one.verdict is not None:
        return ()
    known = {
        "level": one.level_dbm is not None,
        "limit": one.limit_dbm is not None,
        "isolation": one.coupling.valid,
    }
    missing = tuple(name for name, is_known in known.items() if not is_known)
    return missing or (_undecided(one),)


def _undecided(one: Exposure) -> str:
    """Why too little isolation is no FAIL although all is known."""
    if one.coupling.word is CellWord.BOUND:
        return "only a bound"
    if one.coupling.word is CellWord.TEST:
        return "rung decides nothing"
    return "limit not read" if one.fail_above_dbm is None else "within its band"


def rise_db(exposure: Exposure, entered_db: float | None) -> float | None:
    """Return by how much what is sent lifts the noise of a receiver; None where nobody knows."""
    if exposure.harm not in (Harm.NOISE, Harm.IN_BAND) or exposure.margin_db is None:
        return None
    bearable_db = bearable_over_noise_db(allowed_rise_db(entered_db))
    return float(noise_rise_db(bearable_db - exposure.margin_db))


def band_cell(coupling: Coupling) -> Cell:
    """Return how much better the isolation may be than the model says: least and most."""
    low_db, high_db = coupling.band_db
    if low_db is None:
        return nothing(UNKNOWN)
    if high_db is None:
        return words("or more" if low_db == 0.0 else f"{_signed(low_db)} or more")
    return words(f"{_signed(low_db)} .. {_signed(high_db)}")


def range_cell(coupling: Coupling) -> Cell:
    """Return whether a model was used inside its range."""
    return words("yes") if coupling.valid else nothing("no")


def doubts_text(doubts: Iterable[Doubt]) -> str:
    """Return why a number may be doubted, '' where nothing takes it out of its range."""
    return ", ".join(_DOUBTS[doubt] for doubt in doubts)


def _signed(value_db: float) -> str:
    text = printed(value_db, "dB", 1)
    return text if value_db < 0.0 else f"+{text}"
