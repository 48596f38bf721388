# SPDX-License-Identifier: Apache-2.0
"""The list of paths: loss in its window, the nearer margin, the word, and what decided it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from rfplan.model.assessment import Assessment, BandLoss, PathAssessment
from rfplan.reports.budget_bands import band_digits, limit_cell
from rfplan.reports.cells import decibels, printed
from rfplan.reports.loss_line import governing, nearer_margin, window_text
from rfplan.reports.outcome import decided_by, loss_word
from rfplan.tui.panes import Pane, heading, item
from rfplan.tui.present.tags import AS, Type, sign, word
from rfplan.tui.runs import Row, Run, in_columns, width
from rfplan.tui.tokens import Token, token_of


class Look(NamedTuple):
    """How much of a path a row tells."""

    window: Callable[[BandLoss], str]
    margin: Callable[[BandLoss], str]
    reason: bool


def paths_pane(assessment: Assessment, chosen: str | None, columns: int, type: Type) -> Pane:
    """Return the list of paths, each row telling as much as the columns hold."""
    rows = next(rows for rows in _tries(assessment, type, columns) if rows is not None)
    items = [item(row, path.id) for row, path in zip(rows, assessment.paths, strict=True)]
    if not items:
        items = [item([Run("The plan has no paths.", Token.DIM)])]
    return Pane("paths", heading("Paths", AS[assessment.plan.state]), items, cursor=chosen or "")


def _tries(assessment: Assessment, type: Type, columns: int) -> Iterator[list[Row] | None]:
    """Every look with wide and narrow gaps, None where it does not fit; the last always does."""
    for look in _LOOKS:
        table = [_columns(path, assessment, look, type) for path in assessment.paths]
        wide = [max(map(width, column)) for column in zip(*table, strict=True)]
        for gap in (2, 1):
            fits = sum(wide) + gap * (sum(map(bool, wide)) - 1) <= columns
            yield [in_columns(row, wide, gap, _RIGHT) for row in table] if fits else None
    yield [in_columns(row, wide, 1, _RIGHT) for row in table]


def _columns(path: PathAssessment, assessment: Assessment, look: Look, type: Type) -> list[Row]:
    band = governing(path)
    margin = loss_word(path)
    ink = Token.TEXT if not (margin.fails or path.loss.near) else token_of(str(margin))
    reason = decided_by(path, assessment) if look.reason else ""
    return [
        [sign(path.overall, type.glyphs), Run(" "), Run(path.id, Token.TEXT)],
        [Run(look.window(band), Token.DIM)],
        [Run(type.signed(look.margin(band)), ink)],
        [word(path.overall)],
        [Run(reason, Token.DIM)] if reason else [],
    ]


_RIGHT = (1, 2)
"""Columns set to the right."""


def short_window(band: BandLoss) -> str:
    """Return the loss alone: '2.49 .. 4.19'."""
    digits = band_digits(band)
    least, most = (decibels(loss_db, digits=digits).text for loss_db in band.judged_db)
    return f"{least} .. {most}"


def full_window(band: BandLoss) -> str:
    """Return '1.50 < 2.49 .. 4.19 < 6.50'."""
    return window_text(band).removesuffix(" dB")


def short_margin(band: BandLoss) -> str:
    """Return '+0.99 min'."""
    return nearer_margin(band).text.replace(" to ", " ")


def full_margin(band: BandLoss) -> str:
    """Return '+0.99 to min'."""
    return nearer_margin(band).text


_LOOKS = (
    Look(full_window, full_margin, True),
    Look(full_window, short_margin, False),
    Look(short_window, short_margin, True),
    Look(short_window, short_margin, False),
    Look(lambda _: "", short_margin, False),
)
"""What a row tells, the fullest first."""


def limits_db(band: BandLoss) -> tuple[float | None, float | None]:
    """Return both limits of the window, None where there is none to draw."""
    window = band.window
    return (
        window.min_db if window.min_stated == "value" else None,
        window.max_db if window.max_stated == "value" else None,
    )


def limit_words(band: BandLoss) -> Iterable[str]:
    """Yield 'min 1.50' and 'max 6.50', as far as they are stated."""
    window, digits = band.window, band_digits(band)
    for name, limit_db, stated in (
        ("min", window.min_db, window.min_stated),
        ("max", window.max_db, window.max_stated),
    ):
        if stated != "none":
            yield f"{name} {limit_cell(limit_db, stated, digits).text}"


def signed_db(difference_db: float) -> str:
    """Return a difference with its sign."""
    shown = printed(difference_db, "dB")
    return shown if shown.startswith("-") else f"+{shown}"
