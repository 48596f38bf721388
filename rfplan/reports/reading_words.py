# SPDX-License-Identifier: Apache-2.0
"""A reading in words: how far it is from its prediction, and what its VSWR makes of the antenna."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.model.assessment import PathAssessment, Reading
from rfplan.model.plan import Measurement
from rfplan.reports.budget_power import why_no_antenna
from rfplan.reports.cells import decibels, frequency


def judged_lines(reading: Reading) -> Iterator[str]:
    """Yield what a reading comes to, a line for its loss and one for its VSWR."""
    if reading.loss_db is not None:
        word = f"{reading.agreement}: " if reading.agreement else ""
        predicted = decibels(reading.predicted_db).text
        yield f"{word}predicted {predicted} dB, difference {difference_words(reading)} dB"
    if reading.vswr is not None:
        yield f"VSWR {match_words(reading)}"


def doubts(measurement: Measurement, path: PathAssessment) -> Iterator[str]:
    """Say what may be a slip, or keeps a reading from all that it is good for."""
    at_hz, loss_db = measurement.at_hz, measurement.loss_db
    if not any(band.low_hz <= at_hz <= band.high_hz for band in path.bands):
        yield f"{frequency(at_hz).text} MHz lies in no band of {path.id}."
    if loss_db is None:
        return
    if loss_db < 0.0:
        yield "A loss below zero would be a gain: is the sign of the analyser entered?"
    if measurement.temperature_c is None or measurement.uncertainty_db is None:
        yield "Without temperature and uncertainty the window keeps the prediction."


def difference_words(reading: Reading) -> str:
    """Return how far a reading is from its prediction, and how far it may be."""
    told = decibels(reading.difference_db).text
    plus = "" if told.startswith(("-", "?")) else "+"
    return f"{plus}{told} dB, allowed {decibels(reading.allowed_db).text}"


def match_words(reading: Reading) -> str:
    """Return a VSWR as read, what it makes of the antenna, and what the antenna's data state."""
    at_unit = f"{reading.vswr:.2f} at the unit"
    if reading.antenna_vswr is None:
        return f"{at_unit}, antenna not told: {why_no_antenna(reading)}"
    stated = reading.antenna_vswr_stated
    data = "its data state none" if stated is None else f"its data state {stated:.2f}"
    word = f", {reading.match}" if reading.match else ""
    return f"{at_unit}, about {reading.antenna_vswr:.2f} at the antenna, {data}{word}"
