# SPDX-License-Identifier: Apache-2.0
"""The loss of the selected path against frequency, and the frequency that is looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from rfplan.analysis.facts import Facts
from rfplan.model.assessment import BandLoss, PathAssessment
from rfplan.reports.loss_line import governing
from rfplan.reports.study import facts_of
from rfplan.rules.loss_curve import LossCurve, loss_at, loss_curve, span_hz
from rfplan.tui.present.curve import Swept, round_step

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

POINTS = 241
STEPS = 100
"""Into about how many steps the arrows divide a curve."""


class Tuning:
    """One path over frequency; nothing is worked out before it is asked for."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.on_top = False
        """Whether a narrow screen shows the curve in place of the contributions."""
        self._at: tuple[str, float] | None = None
        self._curve: tuple[Facts, str, LossCurve] | None = None

    @property
    def _path(self) -> PathAssessment | None:
        return self.workspace.standing.chosen_path

    @property
    def at_hz(self) -> float | None:
        """The frequency that was chosen for the selected path, None if none was."""
        path = self._path
        chosen = self._at is not None and path is not None and self._at[0] == path.id
        return self._at[1] if self._at is not None and chosen else None

    def why_no_curve(self) -> str:
        """Return why there is no frequency to choose."""
        return "" if self._path is not None else "No path is selected."

    def swept(self) -> Swept | None:
        """Return the curve of the selected path with what holds at the frequency looked at."""
        path = self._path
        if path is None:
            return None
        at_hz = self.at_hz or _tightest_hz(governing(path))
        band = _band_at(path, at_hz)
        facts = facts_of(self.workspace.assessment)
        there = loss_curve(facts, path.id, np.array([at_hz]))
        judged = None if band is None else loss_at(facts, path.id, band.name, at_hz)
        return Swept(path, span_hz(path.bands), self._curve_of(facts, path), at_hz, there, judged)

    def judged(self) -> BandLoss | None:
        """Return what the loss is made of at the frequency chosen, None where no band is."""
        swept = self.swept() if self.at_hz is not None else None
        return swept.judged if swept else None

    def _curve_of(self, facts: Facts, path: PathAssessment) -> LossCurve:
        kept = self._curve
        if kept is None or kept[0] is not facts or kept[1] != path.id:
            frequency_hz = np.linspace(*span_hz(path.bands), POINTS)
            kept = self._curve = facts, path.id, loss_curve(facts, path.id, frequency_hz)
        return kept[2]

    def step(self) -> None:
        """Go to the next round frequency the way of the key."""
        swept, way = self.swept(), self.workspace.looking.way
        if swept is None:
            return
        low_hz, high_hz = swept.span_hz
        step_hz = round_step((high_hz - low_hz) / STEPS)
        steps = np.floor(way * swept.at_hz / step_hz + 1e-6) + 1.0
        self._go(swept, way * steps * step_hz)

    def edge(self) -> None:
        """Go to the next edge of a band the way of the key."""
        swept, way = self.swept(), self.workspace.looking.way
        if swept is None:
            return
        edges = {edge for band in swept.path.bands for edge in (band.low_hz, band.high_hz)}
        ahead = [edge for edge in edges if way * (edge - swept.at_hz) > 1.0]
        if ahead:
            self._go(swept, min(ahead, key=lambda edge: way * edge))

    def _go(self, swept: Swept, frequency_hz: float) -> None:
        low_hz, high_hz = swept.span_hz
        self._at = swept.path.id, float(min(max(frequency_hz, low_hz), high_hz))

    def let_go(self) -> bool:
        """Give up the frequency that was chosen; return whether one was."""
        chosen, self._at = self.at_hz is not None, None
        return chosen

    def swap(self) -> None:
        """Show the curve in place of the contributions, or the other way round."""
        self.on_top = not self.on_top

    def why_no_swap(self) -> str:
        """Return why there is nothing to swap."""
        placed = self.workspace.placed
        both = "curve" in placed and "contributions" in placed
        return "Curve and contributions are both in sight." if both else ""


def _tightest_hz(band: BandLoss) -> float:
    """Where in a band the nearer margin is."""
    low, high = band.margin_to_min_db, band.margin_to_max_db
    at_least = high is None or (low is not None and low < high)
    return (band.min_corner if at_least else band.max_corner).frequency_hz


def _band_at(path: PathAssessment, frequency_hz: float) -> BandLoss | None:
    """The band that holds a frequency; of several the one that decides, else the first."""
    holding = [
        band for band in path.bands if band.low_hz - 1.0 <= frequency_hz <= band.high_hz + 1.0
    ]
    decides = [band for band in holding if band.name == path.loss.governing_band]
    return next(iter([*decides, *holding]), None)
