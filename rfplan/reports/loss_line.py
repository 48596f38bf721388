# SPDX-License-Identifier: Apache-2.0
"""The loss of a path on one line: the window round it, and the nearer margin."""

from __future__ import annotations

from rfplan.model.assessment import BandLoss, PathAssessment
from rfplan.reports.budget_bands import band_digits, limit_cell
from rfplan.reports.cells import decibels, nothing, printed, words
from rfplan.reports.sheet import Cell


def governing(path: PathAssessment) -> BandLoss:
    """Return the band that decides the loss of a path."""
    return next(band for band in path.bands if band.name == path.loss.governing_band)


def window_text(band: BandLoss) -> str:
    """Return '1.50 < 2.86 .. 3.01 < 6.50 dB'; an end that no document states is left out."""
    digits, window = band_digits(band), band.window
    least, most = (decibels(loss_db, digits=digits).text for loss_db in band.judged_db)
    below = above = ""
    if window.min_stated != "none":
        limit = limit_cell(window.min_db, window.min_stated, digits).text
        below = f"{limit} {_sign(band.margin_to_min_db)} "
    if window.max_stated != "none":
        limit = limit_cell(window.max_db, window.max_stated, digits).text
        above = f" {_sign(band.margin_to_max_db)} {limit}"
    return f"{below}{least} .. {most}{above} dB"


def _sign(margin_db: float | None) -> str:
    """The sign between a limit and a loss: what is met reads '<'."""
    return ">" if margin_db is not None and margin_db < 0.0 else "<"


def nearer_margin(band: BandLoss) -> Cell:
    """Return the smaller margin with the side it is on: '+0.64 to max'."""
    sides = {"min": band.margin_to_min_db, "max": band.margin_to_max_db}
    known = {side: margin_db for side, margin_db in sides.items() if margin_db is not None}
    if not known:
        none = {band.window.min_stated, band.window.max_stated} == {"none"}
        return nothing("no limit") if none else nothing()
    side = min(known, key=known.__getitem__)
    shown = printed(known[side], "dB", band_digits(band))
    return words(f"{'' if shown.startswith('-') else '+'}{shown} to {side}")
