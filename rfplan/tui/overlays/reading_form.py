# SPDX-License-Identifier: Apache-2.0
"""A reading to be recorded: loss, frequency, how and by whom; told at once what it comes to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from rfplan.edits import EditError, SetMeasurement
from rfplan.model.assessment import Assessment, Reading
from rfplan.model.plan import Measurement
from rfplan.reports.cells import decibels, frequency
from rfplan.reports.reading_words import difference_words, doubts, match_words
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.present.readings import Entry
from rfplan.tui.present.tags import AS, tag
from rfplan.tui.runs import Row, Run
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Token, token_of
from rfplan.tui.typed_quantity import typed_quantity
from rfplan.units import FREQUENCY, LOSS, RATIO, TEMPERATURE, QuantityError, in_unit, parse_date

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

LABELS = (
    "loss dB",
    "at MHz",
    "temperature degC",
    "uncertainty dB",
    "VSWR at unit",
    "instrument",
    "by",
    "on (yyyy-mm-dd)",
)


@dataclass(frozen=True, slots=True)
class Taken:
    """What a sweep of today has measured; '' where it did not."""

    loss: str
    vswr: str
    temperature_c: float | None


class ReadingForm(FormOverlay):
    """Eight fields; only the frequency must be there, and the loss or the VSWR."""

    done_label = "record"
    label_columns = 18

    def __init__(
        self,
        workspace: Workspace,
        entry: Entry,
        *,
        at: str | None = None,
        taken: Taken | None = None,
    ) -> None:
        self.entry = entry
        self.id = entry.reading.id if entry.reading else workspace.measuring.free_id()
        texts = list(_before(entry) or _first(entry, workspace.measuring.latest()))
        if at is not None:
            texts[1] = at
        if taken is not None:
            texts[0], texts[2] = taken.loss, _plain(taken.temperature_c)
            texts[4], texts[7] = taken.vswr, date.today().isoformat()
        typed = (TextField(text, fresh=True) for text in texts)
        fields = [Asked(*pair) for pair in zip(LABELS, typed, strict=True)]
        title = f"Reading {self.id} of {entry.path.id} {AS[entry.state]}"
        super().__init__(workspace, title, fields)

    def told(self, columns: int) -> list[Row]:
        if not self.text(0) and not self.text(4):
            return told_text("A reading never changes a prediction; it stands beside it.", columns)
        try:
            edit = self.edit()
            assessment = self.workspace.session.preview(edit, self.entry.state)
        except (QuantityError, EditError) as error:
            return told_text(f"{error}", columns, Token.NEAR)
        rows = _outcome(self._reading_in(assessment), self.workspace, columns)
        for doubt in _doubts(edit.measurement, self.entry):
            rows += told_text(doubt, columns, Token.NEAR)
        return rows

    def _reading_in(self, assessment: Assessment) -> Reading:
        readings = (one for path in assessment.paths for one in path.readings)
        return next(one for one in readings if one.id == self.id)

    def edit(self) -> SetMeasurement:
        """Return what is typed as an edit; raises QuantityError or EditError."""
        loss_db = typed_quantity(self.text(0), LOSS, "dB", "3.02")
        at_hz = typed_quantity(self.text(1), FREQUENCY, "MHz", "1575.42")
        vswr = typed_quantity(self.text(4), RATIO, "", "1.4")
        if at_hz is None or (loss_db is None and vswr is None):
            raise EditError("a frequency is needed, and the loss or the VSWR")
        measurement = Measurement(
            path=self.entry.path.id,
            loss_db=loss_db,
            at_hz=at_hz,
            state=self.entry.state,
            temperature_c=typed_quantity(self.text(2), TEMPERATURE, "degC", "17"),
            uncertainty_db=typed_quantity(self.text(3), LOSS, "dB", "0.15"),
            vswr=vswr,
            with_=self.text(5) or None,
            who=self.text(6) or None,
            date=parse_date(self.text(7)) if self.text(7) else None,
        )
        return SetMeasurement(self.id, self.workspace.measuring.bound(self.entry, measurement))

    def done(self) -> None:
        try:
            edit = self.edit()
            self.workspace.session.preview(edit)
        except (QuantityError, EditError):
            return
        self.close()
        self.workspace.changing.do(edit)
        self.workspace.measuring.choose(f"{self.entry.path.id}:{self.id}")


def _before(entry: Entry) -> tuple[str, ...]:
    """What the fields hold of a reading that is there, nothing if there is none."""
    now = entry.measurement
    if now is None:
        return ()
    numbers = now.loss_db, in_unit(now.at_hz, FREQUENCY, "MHz"), now.temperature_c
    day = now.date.isoformat() if now.date else ""
    spread = _plain(now.uncertainty_db)
    told = spread, _plain(now.vswr), now.with_ or "", now.who or "", day
    return *map(_plain, numbers), *told


def _first(entry: Entry, last: Measurement | None) -> tuple[str, ...]:
    """What the fields hold of a new reading: the frequency, the instrument used last, today."""
    used = ("", "", "", "")
    if last is not None:
        used = _plain(last.uncertainty_db), "", last.with_ or "", last.who or ""
    return "", frequency(entry.at_hz).text, "", *used, date.today().isoformat()


def _doubts(measurement: Measurement, entry: Entry) -> Iterator[str]:
    """Say what may be a slip, or keeps a reading from all that it is good for."""
    before = entry.measurement
    yield from doubts(measurement, entry.path)
    same_day = before is not None and before.date == measurement.date
    if before is not None and same_day and before.loss_db != measurement.loss_db:
        yield "The day is still that of the reading before."


def _plain(value: float | None) -> str:
    return "" if value is None else f"{value:.10g}"


def _outcome(reading: Reading, workspace: Workspace, columns: int) -> list[Row]:
    """Prediction, difference and the word for it; the window as it judges it; the match."""
    type = workspace.type
    matched = [] if reading.vswr is None else told_text(_matched(reading), columns, Token.TEXT)
    if reading.loss_db is None:
        return matched
    agreement = reading.agreement
    sign = f"{type.glyphs.sign(agreement)} {agreement}" if agreement else "prediction not known"
    ink = token_of(agreement) if agreement else Token.DIM
    predicted = decibels(reading.predicted_db).text
    told = f"  predicted {predicted} dB, difference {difference_words(reading)}"
    return [
        [Run(sign, ink), Run(type.signed(told))],
        [Run("in the window  ", Token.DIM), *tag(reading.in_window, type.glyphs)],
        *matched,
    ]


def _matched(reading: Reading) -> str:
    return f"VSWR {match_words(reading)}"
