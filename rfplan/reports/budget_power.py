# SPDX-License-Identifier: Apache-2.0
"""What a loss budget leads to: power and sensitivity at the antenna, and what was measured."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from rfplan.model.assessment import Assessment, Reading, Receive, Transmit
from rfplan.model.findings import Verdict
from rfplan.model.plan import Measurement
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    UNKNOWN,
    decibels,
    frequency,
    nothing,
    number,
    verdict_cell,
    words,
    words_or_nothing,
)
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field

Sent = tuple[str, Transmit]
Received = tuple[str, Receive]


def transmit_table(assessment: Assessment) -> Table:
    """Return the power at the antenna of each transmitter against its limits."""

    def power(
        key: str, title: str, unit: str, told: Callable[[Transmit], float | None], absent: str = "?"
    ) -> Field[Sent]:
        return number_field(key, title, unit, lambda row: number(told(row[1]), unit, absent=absent))

    fields: list[Field[Sent]] = [
        text_field("path", "path", lambda row: words(row[0])),
        power("unit", "least at the unit", "W", lambda sent: sent.unit_w),
        power("antenna", "least at the antenna", "W", lambda sent: sent.antenna_w),
        power("antenna_most", "most at the antenna", "W", lambda sent: sent.antenna_most_w),
        power("antenna_dbw", "least at the antenna", "dBW", lambda sent: sent.antenna_dbw),
        power("min", "min", "dBW", lambda sent: sent.min_dbw, "none"),
        power("max", "max", "dBW", lambda sent: sent.max_dbw, "none"),
        text_field("verdict", "verdict", lambda row: _judged(row[1].verdict)),
        text_field("source", "source", lambda row: words_or_nothing(row[1].source)),
    ]
    rows = [(path.id, path.transmit) for path in assessment.paths if path.transmit]
    return table("transmit", "Power at the antenna", fields, rows)


def receive_table(assessment: Assessment) -> Table:
    """Return the sensitivity of each receiver at its antenna against its limits."""

    def level(
        key: str, title: str, told: Callable[[Receive], float | None], absent: str = "?"
    ) -> Field[Received]:
        return number_field(
            key, title, "dBm", lambda row: number(told(row[1]), "dBm", absent=absent)
        )

    fields: list[Field[Received]] = [
        text_field("path", "path", lambda row: words(row[0])),
        text_field("limit", "limit", lambda row: words(row[1].name)),
        level("least", "least at the antenna", lambda one: one.least_dbm),
        level("most", "most at the antenna", lambda one: one.most_dbm),
        level("min", "min", lambda one: one.min_dbm, "none"),
        level("max", "max", lambda one: one.max_dbm, "none"),
        text_field("verdict", "verdict", lambda row: _judged(row[1].verdict)),
        text_field("source", "source", lambda row: words_or_nothing(row[1].source)),
    ]
    rows = [(path.id, one) for path in assessment.paths for one in path.receive]
    return table("receive", "Sensitivity at the antenna", fields, rows, stub=2)


def _judged(verdict: Verdict | None) -> Cell:
    return nothing("no limit") if verdict is None else verdict_cell(verdict)


@dataclass(frozen=True, slots=True)
class Read:
    """A reading beside its prediction, and the measurement it comes from."""

    reading: Reading
    measurement: Measurement


def readings_table(assessment: Assessment) -> Table:
    """Return what was measured; a reading never changes a prediction."""
    fields: list[Field[Read]] = [
        text_field("id", "reading", lambda row: words(row.reading.id)),
        text_field("path", "path", lambda row: words(row.reading.path)),
        text_field("state", "state", lambda row: words(row.reading.state)),
        number_field("at", "at", "MHz", lambda row: frequency(row.reading.frequency_hz)),
        _decibels("measured", "measured", lambda reading: reading.loss_db),
        _decibels("predicted", "predicted", lambda reading: reading.predicted_db),
        _decibels("difference", "difference", lambda reading: reading.difference_db),
        _decibels("allowed", "allowed", lambda reading: reading.allowed_db),
        text_field("in_window", "in the window", lambda row: verdict_cell(row.reading.in_window)),
        text_field("window_of", "window judged by", lambda row: words(window_of(row))),
        text_field("agreement", "agreement", _agreement),
        number_field("vswr", "VSWR at unit", "", lambda row: _vswr(row.reading.vswr)),
        number_field("antenna_vswr", "at antenna, about", "", _antenna_vswr),
        number_field("stated", "antenna data", "", _stated_vswr),
        text_field(
            "with",
            "instrument, calibration due",
            lambda row: words_or_nothing(row.measurement.with_),
        ),
        text_field("who", "by", lambda row: words_or_nothing(row.measurement.who)),
        text_field("date", "on", _date),
    ]
    taken = assessment.plan.measurements
    rows = [Read(one, taken[one.id]) for path in assessment.paths for one in path.readings]
    return table("readings", "Readings", fields, rows)


def window_of(row: Read) -> str:
    """Return whether the window is judged by a reading, and what keeps it from that."""
    reading, measured = row.reading, row.measurement
    if reading.in_window_of == "reading":
        return "the reading"
    needs = {"temperature": measured.temperature_c, "uncertainty": measured.uncertainty_db}
    if measured.loss_db is None:
        needs = {"loss": None}
    missing = " and ".join(f"no {name}" for name, value in needs.items() if value is None)
    why = "stale" if reading.stale else missing or "the reading cannot be carried to the corners"
    return f"the prediction: {why}"


def _decibels(key: str, title: str, told: Callable[[Reading], float | None]) -> Field[Read]:
    return number_field(
        key, title, "dB", lambda row: decibels(told(row.reading), absent=_unread(row.reading))
    )


def _unread(reading: Reading) -> str:
    """What stands where a loss is not known: a dash where none was read."""
    return NOT_APPLICABLE if reading.loss_db is None else UNKNOWN


def _vswr(vswr: float | None) -> Cell:
    return number(vswr, "", digits=2, absent=NOT_APPLICABLE)


def _antenna_vswr(row: Read) -> Cell:
    """A blank where no VSWR was read; where it tells nothing of the antenna, why."""
    reading = row.reading
    if reading.vswr is not None and reading.antenna_vswr is None:
        return nothing(why_no_antenna(reading))
    cell = _vswr(reading.antenna_vswr)
    return replace(cell, token=reading.match) if reading.match else cell


def why_no_antenna(reading: Reading) -> str:
    """Return what keeps a VSWR that was read at the unit from telling of the antenna."""
    known = reading.loss_db is not None or reading.predicted_db is not None
    return "hidden by the line" if known else "loss of the line not known"


def _stated_vswr(row: Read) -> Cell:
    return nothing() if row.reading.vswr is None else _vswr(row.reading.antenna_vswr_stated)


def _agreement(row: Read) -> Cell:
    if row.reading.stale:
        return nothing("stale")
    agreement = row.reading.agreement
    return nothing(NOT_APPLICABLE) if agreement is None else words(agreement, agreement)


def _date(row: Read) -> Cell:
    day = row.measurement.date
    return nothing() if day is None else words(day.isoformat())
