# SPDX-License-Identifier: Apache-2.0
"""Isolation and interference for other programs: one record an emission, receiver and limit."""

from __future__ import annotations

from rfplan.model.interference import Exposure, Matrix, MatrixCell
from rfplan.reports.interference_words import undecided_by
from rfplan.reports.json_text import Json, hertz, rounded


def isolation_json(matrix: Matrix) -> list[Json]:
    """Return every exposure of every cell, by antennas, paths, frequency and harm."""
    exposures = [(cell, one) for cell in matrix.cells for one in cell.exposures]
    return [_exposure(cell, one) for cell, one in sorted(exposures, key=_in_order)]


def _in_order(pair: tuple[MatrixCell, Exposure]) -> tuple[object, ...]:
    cell, one = pair
    return cell.source, cell.victim, one.source, one.victim, one.frequency_hz, one.order, one.harm


def _exposure(cell: MatrixCell, one: Exposure) -> Json:
    """A TEST has no verdict; an end of the band is null where there is none or nobody knows it."""
    return {
        "source": cell.source,
        "victim": cell.victim,
        "source_path": one.source,
        "victim_path": one.victim,
        "frequency_hz": hertz(one.frequency_hz),
        "order": one.order,
        "harm": str(one.harm),
        "together": str(cell.together),
        "level_dbm": rounded(one.level_dbm),
        "limit_dbm": rounded(one.limit_dbm),
        "have_db": rounded(one.coupling.have_db),
        "need_db": rounded(one.need_db),
        "margin_db": rounded(one.margin_db),
        "model": one.coupling.model,
        "band_db": [rounded(end) for end in one.coupling.band_db],
        "valid": one.coupling.valid,
        "verdict": None if one.verdict is None else str(one.verdict),
        "cell": str(one.word),
        "undecided_by": list(undecided_by(one)),
    }
