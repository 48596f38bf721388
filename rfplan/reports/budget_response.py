# SPDX-License-Identifier: Apache-2.0
"""A path over frequency, its reflections, and each pad of the catalogue on trial."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from rfplan.model.electrical import BandResponse, LoadedLine, OddPiece, PadTrial
from rfplan.reports.cells import NOT_APPLICABLE, decibels, frequency, length, listed, number, words
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.reports.study import PathStudy

Banded = tuple[str, BandResponse]
Loaded = tuple[str, LoadedLine]
Pieced = tuple[str, OddPiece]
Tried = tuple[str, PadTrial]
Ends = tuple[float, float]


def response_table(studies: Sequence[PathStudy]) -> Table:
    """Return loss, steps, input VSWR and what reaches the antenna, band by band."""
    fields: list[Field[Banded]] = [
        text_field("path", "path", lambda row: words(row[0])),
        text_field("band", "band", lambda row: words(row[1].name)),
        number_field("points", "points", "", lambda row: number(row[1].points, "")),
        *_pair("loss", "loss", "dB", lambda band: band.loss_db),
        *_pair("steps", "steps inside add", "dB", lambda band: band.steps_db),
        *_pair("vswr", "VSWR at the unit", "", lambda band: band.input_vswr),
        *_pair("delivered", "loss of delivered power", "dB", lambda band: band.delivered_db),
        number_field("swing", "its ripple", "dB", lambda row: _told(row[1].swing_db, "dB")),
        number_field("power", "least delivered", "W", lambda row: _told(row[1].delivered_w, "W")),
    ]
    rows = [(one.id, band) for one in studies if one.response for band in one.response.bands]
    return table("response", "Loss, VSWR and delivered power", fields, rows, stub=2)


def _pair(
    key: str, title: str, unit: str, told: Callable[[BandResponse], Ends | None]
) -> list[Field[Banded]]:
    def end(index: int) -> Callable[[Banded], Cell]:
        return lambda row: _told(None if (ends := told(row[1])) is None else ends[index], unit)

    return [
        number_field(f"{key}_least", f"{title} least", unit, end(0)),
        number_field(f"{key}_most", f"{title} most", unit, end(1)),
    ]


def _told(value: float | None, unit: str) -> Cell:
    return number(value, unit, digits=None if unit else 2, absent=NOT_APPLICABLE)


def loaded_lines_table(studies: Sequence[PathStudy]) -> Table:
    """Return the loss of each path's longest cable into its antenna, by handbook and exactly."""
    fields: list[Field[Loaded]] = [
        text_field("path", "path", lambda row: words(row[0])),
        text_field("cable", "cable", lambda row: words(row[1].cable)),
        number_field("at", "at", "MHz", lambda row: frequency(row[1].frequency_hz)),
        number_field("vswr", "VSWR of the antenna", "", lambda row: number(row[1].vswr, "")),
        number_field("handbook", "handbook", "dB", lambda row: _fine(row[1].handbook_db)),
        number_field("least", "exact least", "dB", lambda row: _fine(row[1].exact_db[0])),
        number_field("most", "exact most", "dB", lambda row: _fine(row[1].exact_db[1])),
        text_field("holds", "which holds", lambda row: words(row[1].holds)),
    ]
    rows = [(one.id, one.line) for one in studies if one.line]
    return table("loaded_lines", "Loss into the antenna's mismatch", fields, rows, stub=2)


def _fine(loss_db: float) -> Cell:
    return decibels(loss_db, digits=3)


def pieces_table(studies: Sequence[PathStudy], context: Context) -> Table:
    """Return the cables of another impedance: what each adds, at its best and worst length."""
    units = context.units
    fields: list[Field[Pieced]] = [
        text_field("path", "path", lambda row: words(row[0])),
        text_field("cable", "cable", lambda row: words(row[1].cable)),
        number_field("ohm", "impedance", "ohm", lambda row: number(row[1].ohm, "ohm")),
        number_field("port_ohm", "between", "ohm", lambda row: number(row[1].port_ohm, "ohm")),
        number_field("at", "at", "MHz", lambda row: frequency(row[1].frequency_hz)),
        number_field("length", "length", units, lambda row: length(row[1].length_m, units)),
        number_field("adds", "adds", "dB", lambda row: decibels(row[1].adds_db)),
        number_field(
            "best", "best length near it", units, lambda row: length(row[1].best_m, units)
        ),
        number_field(
            "worst", "worst length near it", units, lambda row: length(row[1].worst_m, units)
        ),
        number_field("worst_db", "adds at worst", "dB", lambda row: decibels(row[1].worst_db)),
        number_field("worst_vswr", "VSWR at worst", "", lambda row: _told(row[1].worst_vswr, "")),
    ]
    rows = [(one.id, piece) for one in studies for piece in one.pieces]
    return table("pieces", "Cables of another impedance", fields, rows, stub=2)


def pads_table(studies: Sequence[PathStudy]) -> Table:
    """Return each path without and with each pad, and what is against it."""
    fields: list[Field[Tried]] = [
        text_field("path", "path", lambda row: words(row[0])),
        text_field("pad", "pad", lambda row: words(row[1].pad or "none")),
        number_field("loss", "loss", "dB", lambda row: decibels(row[1].loss_db)),
        text_field("fitted", "fitted", lambda row: words("yes" if row[1].fitted else "no")),
        text_field("holds", "holds", lambda row: words("no" if row[1].reasons else "yes")),
        text_field("reasons", "against it", lambda row: listed(row[1].reasons)),
    ]
    rows = [(one.id, trial) for one in studies for trial in one.pads]
    return table("pads", "Pads on trial, smallest first", fields, rows, stub=2)
