# SPDX-License-Identifier: Apache-2.0
"""What was read on the aircraft, typed in the order of the survey form, a thing at a time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from rfplan.edits import Edit, EditError, MoveAntenna, SetCable, SetLengths
from rfplan.model.plan import Antenna, Assembly
from rfplan.reports.survey_tables import to_enter
from rfplan.tui.bars import Key
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.runs import Row
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Token
from rfplan.tui.typed_quantity import typed_quantity
from rfplan.units import (
    LENGTH,
    UNKNOWN,
    Missing,
    QuantityError,
    parse_place,
    show_length,
    show_place,
)

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

ALL_ENTERED = "The survey is through: nodes, units and segments are entered in the files."


class SurveyForm(FormOverlay):
    """One antenna or cable of the form; enter goes on to the next, written or not."""

    done_label = "next"
    label_columns = 16

    def __init__(self, workspace: Workspace, index: int = 0) -> None:
        self.stops = to_enter(workspace.assessment)
        self.index = index
        self.kind, self.id = self.stops[index]
        title = f"Survey {index + 1} of {len(self.stops)}: {self.kind} {self.id}"
        super().__init__(workspace, title, [])
        fitted = workspace.session.plan.installation
        if self.kind == "antenna":
            self.fields = [self._asked("FS, BL, WL", self._place_of(fitted.antennas[self.id]))]
        else:
            cable = fitted.cables[self.id]
            length = self._asked("length", self._length_of(cable))
            self.fields = [self._asked("type on jacket", cable.type), length]

    @property
    def own_keys(self) -> list[Key]:
        return [*super().own_keys, Key("pgup pgdn", "others")]

    def _asked(self, label: str, text: str) -> Asked:
        return Asked(label, TextField(text, fresh=True))

    def _place_of(self, antenna: Antenna) -> str:
        return show_place(antenna.at, self.workspace.look.unit)

    def _length_of(self, cable: Assembly) -> str:
        if cable.length_m is None:
            return ""
        if isinstance(cable.length_m, Missing):
            return str(cable.length_m.value)
        return show_length(cable.length_m, self.workspace.look.unit)

    def lead(self, columns: int) -> list[Row]:
        state = self.workspace.session.plan.state
        words = f"As read, into the state {state}; what is left as it is changes nothing."
        return told_text(words, columns)

    def told(self, columns: int) -> list[Row]:
        try:
            edits = list(self._edits())
            plan = self.workspace.session.plan
            text = "; ".join(edit.words(plan) for edit in edits)
        except (EditError, QuantityError) as error:
            return told_text(str(error), columns, Token.NEAR)
        return told_text(text or "as it was", columns)

    def _edits(self) -> Iterator[Edit]:
        fitted = self.workspace.session.plan.installation
        if self.kind == "antenna":
            yield from self._moved(fitted.antennas[self.id])
        else:
            yield from self._read(fitted.cables[self.id])

    def _moved(self, antenna: Antenna) -> Iterator[Edit]:
        if self.text(0) != self._place_of(antenna):
            at = parse_place(self.text(0), default_unit=self.workspace.look.unit)
            yield MoveAntenna(self.id, antenna.on, at)

    def _read(self, cable: Assembly) -> Iterator[Edit]:
        type, length = self.text(0), self.text(1)
        known = self.workspace.session.file.catalog.cables
        if type != cable.type:
            if type not in known and type != str(UNKNOWN.value):
                raise EditError(f"the catalogue has no cable {type!r}")
            yield SetCable(self.id, type)
        if length != self._length_of(cable):
            unit = self.workspace.look.unit
            known_m = typed_quantity(length, LENGTH, unit, f"126 {unit}")
            length_m = UNKNOWN if length == str(UNKNOWN.value) else known_m
            yield replace(SetLengths.of(self.id, cable), length_m=length_m)

    def done(self) -> None:
        try:
            edits = list(self._edits())
            for edit in edits:
                self.workspace.session.preview(edit)
        except (EditError, QuantityError):
            return
        self.close()
        if all(self.workspace.changing.do(edit) for edit in edits):
            self._go(self.index + 1)

    def _go(self, index: int) -> None:
        if index < len(self.stops):
            self.workspace.overlay = SurveyForm(self.workspace, index)
        else:
            self.workspace.say(ALL_ENTERED)

    def press(self, key: str) -> None:
        if key == "pageup" and self.index:
            self._go(self.index - 1)
        elif key == "pagedown" and self.index + 1 < len(self.stops):
            self._go(self.index + 1)
        else:
            super().press(key)
