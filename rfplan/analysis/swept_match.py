# SPDX-License-Identifier: Apache-2.0
"""How well does an antenna match its line, seen from the unit and carried to the antenna end?"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from rfplan.analysis.antenna_match import antenna_return_loss_db
from rfplan.analysis.element_loss import BandGrid, Floats
from rfplan.analysis.sweeps import (
    SweptPath,
    down_db,
    frequencies_hz,
    not_covered,
    reflection,
)
from rfplan.analysis.swept_loss import LossCurve
from rfplan.model.sweep import Sweep
from rfplan.physics.mismatch import vswr_from_return_loss


@dataclass(frozen=True, slots=True)
class SweptMatch:
    """Return loss of a band where the antenna is worst, at both ends; or why there is none.

    The value at the antenna end takes the line as matched; none where it hides the antenna.
    """

    band: str
    low_hz: float
    high_hz: float
    refused: str = ""
    at_hz: float | None = None
    unit_return_loss_db: float | None = None
    line_loss_db: float | None = None
    loss_measured: bool = False
    antenna_return_loss_db: float | None = None
    hidden: bool = False

    @property
    def unit_vswr(self) -> float | None:
        """The standing-wave ratio at the unit."""
        return _vswr(self.unit_return_loss_db)

    @property
    def antenna_vswr(self) -> float | None:
        """The standing-wave ratio of the antenna behind a matched line."""
        return _vswr(self.antenna_return_loss_db)


def _vswr(return_loss_db: float | None) -> float | None:
    if return_loss_db is None or return_loss_db <= 0.0:
        return None
    return float(vswr_from_return_loss(return_loss_db))


def unit_vswr_at(sweep: Sweep, at_hz: float) -> float | None:
    """Return the VSWR that a one-port sweep shows at a frequency, None where it shows none."""
    swept_hz = frequencies_hz(sweep)
    if sweep.ports != 1 or not_covered(np.array([at_hz]), swept_hz):
        return None
    return _vswr(float(np.interp(at_hz, swept_hz, down_db(reflection(sweep)))))


def swept_matches(
    line: SweptPath, sweep: Sweep, curve: LossCurve | None = None
) -> tuple[SweptMatch, ...]:
    """Return the match of every band of a path, carried to the antenna end.

    The loss of the line is the measured one in the bands that its sweep covers, else predicted.
    """
    return tuple(_carried(line, band, sweep, curve) for band in line.bands)


def _carried(line: SweptPath, band: BandGrid, sweep: Sweep, curve: LossCurve | None) -> SweptMatch:
    if curve is None or not_covered(band.frequency_hz, curve.frequency_hz):
        return _swept_match(band, sweep, line.predicted_db(band))
    loss_db = np.interp(band.frequency_hz, curve.frequency_hz, curve.loss_db)
    told = _swept_match(band, sweep, loss_db)
    return replace(told, loss_measured=not told.refused)


def _swept_match(band: BandGrid, sweep: Sweep, line_loss_db: Floats) -> SweptMatch:
    band_hz, swept_hz = band.frequency_hz, frequencies_hz(sweep)
    told = SweptMatch(band.name, float(band_hz[0]), float(band_hz[-1]))
    if refused := not_covered(band_hz, swept_hz):
        return replace(told, refused=refused)
    unit_db = np.maximum(np.interp(band_hz, swept_hz, down_db(reflection(sweep))), 0.0)
    if not np.isfinite(line_loss_db).all():
        at = int(unit_db.argmin())
        return replace(told, at_hz=float(band_hz[at]), unit_return_loss_db=float(unit_db[at]))
    left_db = unit_db - 2.0 * line_loss_db
    at = int(left_db.argmin())
    antenna_db = antenna_return_loss_db(float(unit_db[at]), float(line_loss_db[at]))
    return replace(
        told,
        at_hz=float(band_hz[at]),
        unit_return_loss_db=float(unit_db[at]),
        line_loss_db=float(line_loss_db[at]),
        antenna_return_loss_db=antenna_db,
        hidden=antenna_db is None,
    )
