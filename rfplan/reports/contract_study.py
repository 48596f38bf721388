# SPDX-License-Identifier: Apache-2.0
"""Responses, pads on trial and what to measure first in the answer of `rfplan check --json`."""

from __future__ import annotations

from rfplan.model.electrical import BandResponse, Decider, LoadedLine, OddPiece, PadTrial
from rfplan.reports.json_text import Json, hertz, rounded
from rfplan.reports.study import PathStudy


def study_json(study: PathStudy) -> Json:
    """Return one path over frequency; null where some of it is not known."""
    response = study.response
    return {
        "response": None if response is None else [_band(band) for band in response.bands],
        "loaded_line": None if study.line is None else _line(study.line),
        "pieces": [_piece(piece) for piece in study.pieces],
        "pads": [_pad(trial) for trial in study.pads],
    }


def decider_json(decider: Decider) -> Json:
    """Return one value worth measuring, with the verdicts that hang on it."""
    return {
        "object": decider.object,
        "field": decider.field,
        "text": decider.text,
        "resolves": list(decider.resolves),
        "spread_db": rounded(decider.spread_db),
    }


def _band(band: BandResponse) -> Json:
    return {
        "name": band.name,
        "points": band.points,
        "loss_db": _pair(band.loss_db),
        "steps_db": _pair(band.steps_db),
        "input_vswr": _pair(band.input_vswr),
        "delivered_db": _pair(band.delivered_db),
        "swing_db": rounded(band.swing_db),
        "delivered_w": rounded(band.delivered_w),
    }


def _line(line: LoadedLine) -> Json:
    return {
        "cable": line.cable,
        "vswr": rounded(line.vswr),
        "frequency_hz": hertz(line.frequency_hz),
        "handbook_db": rounded(line.handbook_db),
        "exact_db": _pair(line.exact_db),
        "holds": line.holds,
    }


def _piece(piece: OddPiece) -> Json:
    return {
        "cable": piece.cable,
        "impedance_ohm": rounded(piece.ohm),
        "port_ohm": rounded(piece.port_ohm),
        "length_m": rounded(piece.length_m),
        "frequency_hz": hertz(piece.frequency_hz),
        "adds_db": rounded(piece.adds_db),
        "worst_db": rounded(piece.worst_db),
        "worst_vswr": rounded(piece.worst_vswr),
        "best_m": rounded(piece.best_m),
        "worst_m": rounded(piece.worst_m),
    }


def _pad(trial: PadTrial) -> Json:
    return {
        "pad": trial.pad,
        "loss_db": rounded(trial.loss_db),
        "fitted": trial.fitted,
        "holds": not trial.reasons,
        "reasons": list(trial.reasons),
    }


def _pair(ends: tuple[float, float] | None) -> list[float | None] | None:
    return None if ends is None else [rounded(end) for end in ends]
