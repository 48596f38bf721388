# SPDX-License-Identifier: Apache-2.0
"""Where an antenna is to stand, typed as in a file, with the verdict before enter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rfplan.edits import EditError
from rfplan.tui.moving import Moving
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.runs import Row, Run
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Token
from rfplan.units import QuantityError, parse_place, show_place

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace


class PlaceAtOverlay(FormOverlay):
    """One field; whatever is typed is tried at once."""

    done_label = "place"

    def __init__(self, workspace: Workspace, moving: Moving, *, started: bool) -> None:
        text = show_place(moving.at, workspace.look.unit)
        typed = TextField(text, fresh=True)
        super().__init__(workspace, f"Place {moving.antenna} at", [Asked("", typed)])
        self.moving = moving
        self.started = started
        self.fault = ""

    def lead(self, columns: int) -> list[Row]:
        words = f"FS and BL, a WL off the skin; {self.workspace.look.unit} if no unit is given"
        return told_text(words, columns)

    def told(self, columns: int) -> list[Row]:
        if self.fault:
            return told_text(self.fault, columns, Token.NEAR)
        verdict = self.workspace.verdict_rows(self.workspace.assessment, columns)
        on = self.moving.on.replace("_", " ")
        return [*verdict, [Run(f"on {on}", Token.DIM)]]

    def press(self, key: str) -> None:
        super().press(key)
        if key != "enter":
            self.workspace.say("")
            self._try()

    def paste(self, text: str) -> None:
        super().paste(text)
        self._try()

    def _try(self) -> None:
        try:
            at = parse_place(self.text(0), default_unit=self.workspace.look.unit)
            self.moving.to(self.moving.on, at)
            self.fault = ""
        except (QuantityError, EditError) as error:
            self.fault = str(error)

    def done(self) -> None:
        self._try_anew()
        if not self.fault and self.workspace.changing.place():
            self.close()

    def _try_anew(self) -> None:
        """Try what is typed unless it has been; a second enter must find it as it was."""
        if self.moving.assessment is None:
            self._try()

    def escape(self) -> None:
        self.close()
        if self.started:
            self.workspace.changing.put_back()
