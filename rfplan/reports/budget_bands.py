# SPDX-License-Identifier: Apache-2.0
"""The bands of a loss budget: nominal, corners and margins beside the window of the port."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from rfplan.model.assessment import Assessment, BandLoss, Corner, PathAssessment, Window
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    UNKNOWN,
    decibels,
    frequency,
    listed,
    nothing,
    number,
    telling_digits,
    verdict_cell,
    words,
)
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field


@dataclass(frozen=True, slots=True)
class Row:
    """One band of one path."""

    path: PathAssessment
    band: BandLoss


def bands_table(assessment: Assessment) -> Table:
    """Return one row for each path and band."""
    rows = [Row(path, band) for path in assessment.paths for band in path.bands]
    fields = [*_whose(), *_nominal(), *_corners(), *_window(), *_judgement()]
    return table("bands", "Loss by path and band", fields, rows, stub=2)


def band_digits(band: BandLoss) -> int:
    """Return the digits at which a loss that breaks a limit no longer prints the same as it."""
    least_db, most_db = band.judged_db
    window = band.window
    return max(
        telling_digits(least_db, window.min_db, "dB", fails=_broken(band.margin_to_min_db)),
        telling_digits(most_db, window.max_db, "dB", fails=_broken(band.margin_to_max_db)),
    )


def _broken(margin_db: float | None) -> bool:
    return margin_db is not None and margin_db < 0.0


def limit_cell(limit_db: float | None, stated: str, digits: int | None = None) -> Cell:
    """Return one end of a window: the number, `none` where none is stated, `?` where unknown."""
    return decibels(limit_db, digits=digits, absent="none" if stated == "none" else UNKNOWN)


def flags(band: BandLoss) -> tuple[str, ...]:
    """Return NEAR for a close pass, and `bounded` where an unknown cannot change the word."""
    told = {"NEAR": band.near, "bounded": band.bounded}
    return tuple(flag for flag, raised in told.items() if raised)


def _loss(
    key: str, title: str, told: Callable[[BandLoss], float | None], absent: str = UNKNOWN
) -> Field[Row]:
    """A column of losses, all of a row with the same digits."""
    return number_field(
        key,
        title,
        "dB",
        lambda row: decibels(told(row.band), digits=band_digits(row.band), absent=absent),
    )


def _whose() -> list[Field[Row]]:
    return [
        text_field("path", "path", lambda row: words(row.path.id)),
        text_field("band", "band", lambda row: words(row.band.name)),
        text_field("radio", "radio", lambda row: words(row.path.radio)),
        text_field("direction", "direction", lambda row: words(row.path.direction)),
        text_field("from", "from", lambda row: words(f"{row.path.unit}.{row.path.port}")),
        text_field("to", "to", lambda row: words(row.path.antenna)),
        number_field("low", "low", "MHz", lambda row: frequency(row.band.low_hz)),
        number_field("mid", "middle", "MHz", lambda row: frequency(row.band.mid_hz)),
        number_field("high", "high", "MHz", lambda row: frequency(row.band.high_hz)),
    ]


def _nominal() -> list[Field[Row]]:
    return [
        _loss("nominal_low", "nominal low", lambda band: band.nominal_db[0]),
        _loss("nominal_mid", "nominal middle", lambda band: band.nominal_db[1]),
        _loss("nominal_high", "nominal high", lambda band: band.nominal_db[2]),
    ]


def _corners() -> list[Field[Row]]:
    def corner(key: str, title: str, told: Callable[[BandLoss], Corner]) -> list[Field[Row]]:
        return [
            _loss(key, title, lambda band: told(band).loss_db),
            number_field(
                f"{key}_c", "at", "degC", lambda row: number(told(row.band).temperature_c, "degC")
            ),
            number_field(
                f"{key}_hz", "at", "MHz", lambda row: frequency(told(row.band).frequency_hz)
            ),
        ]

    return [
        *corner("least", "min corner", lambda band: band.min_corner),
        *corner("most", "max corner", lambda band: band.max_corner),
        number_field("ageing", "of it ageing", "dB", lambda row: _ageing(row.band)),
        _loss("rss_least", "RSS least", lambda band: band.rss_db[0]),
        _loss("rss_most", "RSS most", lambda band: band.rss_db[1]),
        number_field("mismatch_least", "mismatch least", "dB", lambda row: _mismatch(row.band, 0)),
        number_field("mismatch_most", "mismatch most", "dB", lambda row: _mismatch(row.band, 1)),
    ]


def _ageing(band: BandLoss) -> Cell:
    """What the max corner holds for cables that grow older; a blank where nothing is allowed."""
    return nothing() if band.ageing_db == 0.0 else decibels(band.ageing_db)


def _mismatch(band: BandLoss, end: int) -> Cell:
    """What two reflections add; a line of its own, in the window only where the limit says so."""
    return nothing() if band.mismatch_db is None else decibels(band.mismatch_db[end])


def _window() -> list[Field[Row]]:
    def limit(
        key: str, title: str, told: Callable[[Window], tuple[float | None, str]]
    ) -> Field[Row]:
        return number_field(
            key,
            title,
            "dB",
            lambda row: limit_cell(*told(row.band.window), band_digits(row.band)),
        )

    return [
        limit("window_min", "window min", lambda window: (window.min_db, window.min_stated)),
        limit("window_max", "window max", lambda window: (window.max_db, window.max_stated)),
        text_field("datum", "datum of the window", lambda row: words(row.band.window.datum)),
        text_field("source", "source of the window", lambda row: words(row.band.window.source)),
    ]


def _judgement() -> list[Field[Row]]:
    return [
        _loss("judged_least", "judged least", lambda band: band.judged_db[0]),
        _loss("judged_most", "judged most", lambda band: band.judged_db[1]),
        _loss("to_min", "margin to min", lambda band: band.margin_to_min_db, NOT_APPLICABLE),
        _loss("to_max", "margin to max", lambda band: band.margin_to_max_db, NOT_APPLICABLE),
        text_field("nominal", "nominal alone", lambda row: verdict_cell(row.band.nominal_verdict)),
        text_field("verdict", "loss", lambda row: verdict_cell(row.band.verdict)),
        text_field("flags", "flags", lambda row: listed(flags(row.band))),
        text_field("undecided", "undecided by", lambda row: listed(row.band.undecided_by)),
    ]
