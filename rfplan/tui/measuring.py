# SPDX-License-Identifier: Apache-2.0
"""Measuring: readings of the aircraft beside what was predicted, which they never change."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from rfplan.analysis.measured import fingerprint
from rfplan.edits import RemoveMeasurement
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Measurement, State
from rfplan.reports.study import facts_of
from rfplan.tui.overlays.reading_form import ReadingForm
from rfplan.tui.overlays.sweep import SweepForm
from rfplan.tui.present.readings import Entry, entries_of, reading_sentence
from rfplan.tui.runs import Row

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace


class Measuring:
    """The readings, of the aircraft as found where that is looked at, else as built."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace

    @property
    def state(self) -> State:
        """The state that a new reading is of: nothing can be measured on a design."""
        return State.FOUND if self._looked_at is State.FOUND else State.BUILT

    @property
    def _looked_at(self) -> State:
        return self.workspace.session.plan.state

    @property
    def assessment(self) -> Assessment:
        """The plan in the state that is measured."""
        return self._assessment_in(self.state)

    def _assessment_in(self, state: State) -> Assessment:
        if state is self._looked_at:
            return self.workspace.session.assessment
        return self.workspace.filing.assessment_in(state)

    def entries(self) -> list[Entry]:
        """Return every path of the state that is measured, then the readings of other states."""
        taken = {one.state for one in self.workspace.session.plan.measurements.values()}
        entries = list(entries_of(self.assessment, unmeasured=True))
        for state in State:
            if state is not self.state and state in taken:
                entries += entries_of(self._assessment_in(state), unmeasured=False)
        return entries

    @property
    def chosen(self) -> Entry | None:
        """The entry under the cursor, else the first one of the selected path."""
        entries, looking = self.entries(), self.workspace.looking
        key, path = looking.cursors.get("readings", ""), looking.selection.path
        of_path = (one for one in entries if one.path.id == path)
        first = next(of_path, entries[0] if entries else None)
        return next((one for one in entries if one.key == key), first)

    def choose(self, key: str) -> None:
        """Put the cursor on an entry, which selects its path."""
        looking = self.workspace.looking
        looking.select_path(key.partition(":")[0])
        looking.cursors["readings"] = key

    def why_none(self) -> str:
        """Return why nothing can be recorded."""
        return "" if self.chosen is not None else "The plan has no path to measure."

    def why_no_reading(self) -> str:
        """Return why there is no reading to take out."""
        chosen = self.chosen
        return "" if chosen is not None and chosen.reading else "There is no reading on this row."

    def record(self) -> None:
        """Ask for the reading under the cursor, a new one or in place of what was read before."""
        if (chosen := self.chosen) is not None:
            self.workspace.overlay = ReadingForm(self.workspace, chosen)

    def add(self) -> None:
        """Ask for a reading of the same path at another frequency."""
        if (chosen := self.chosen) is not None:
            fresh = Entry(self._assessment_in(chosen.state), chosen.path)
            self.workspace.overlay = ReadingForm(self.workspace, fresh, at="")

    def remove(self) -> None:
        """Take a reading out."""
        chosen = self.chosen
        if chosen is not None and chosen.reading is not None:
            self.workspace.changing.do(RemoveMeasurement(chosen.reading.id))

    def read_sweep(self) -> None:
        """Ask for the files of a sweep, whose loss is then offered as a reading."""
        if (chosen := self.chosen) is not None:
            self.workspace.overlay = SweepForm(self.workspace, chosen)

    def free_id(self) -> str:
        """Return the id of a new reading."""
        taken = self.workspace.session.plan.measurements
        ids = (f"m{number}" for number in range(1, len(taken) + 2))
        return next(id for id in ids if id not in taken)

    def latest(self) -> Measurement | None:
        """Return the reading whose instrument a new one is probably taken with."""
        return next(reversed(list(self.workspace.session.plan.measurements.values())), None)

    def bound(self, entry: Entry, measurement: Measurement) -> Measurement:
        """Return a reading bound to its path as it is now, or as it was when it was taken."""
        before = entry.measurement
        if before is not None and _taken(before) == _taken(measurement):
            return replace(measurement, bound=before.bound)
        chain = facts_of(entry.assessment).chains[entry.path.id]
        return replace(measurement, bound=fingerprint(chain))

    def sentence(self, columns: int) -> Row:
        """Say what the reading under the cursor comes to."""
        return reading_sentence(self.chosen, columns, self.workspace.type)


def _taken(measurement: Measurement) -> tuple[object, ...]:
    """What tells one act of measuring from another."""
    return measurement.loss_db, measurement.at_hz, measurement.date
