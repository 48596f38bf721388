# SPDX-License-Identifier: Apache-2.0
"""An open point to confirm accepted by name, as it is."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from rfplan.edits import AcceptPoint, EditError
from rfplan.model.findings import OpenPoint
from rfplan.reports.signing import Signature, acceptance_of
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.runs import Row
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

STAYS = "It stays an open point on every sheet, with the name, and reopens when the value changes."


class AcceptOverlay(FormOverlay):
    """A name, and a check if one is asked for; the point is bound to its value of today."""

    done_key = "ctrl+s"
    done_label = "sign"

    def __init__(self, workspace: Workspace, point: OpenPoint) -> None:
        fields = [
            Asked("Signed by (name)"),
            Asked("Compensating check, a step of the ground check"),
        ]
        super().__init__(workspace, f"Accept {point.id}", fields)
        self.point = point
        self.fault = ""

    def lead(self, columns: int) -> list[Row]:
        return [*told_text(self.point.text, columns, Token.TEXT), []]

    def told(self, columns: int) -> list[Row]:
        return [*told_text(STAYS, columns), *told_text(self.fault, columns, Token.NEAR)]

    def press(self, key: str) -> None:
        self.fault = ""
        super().press(key)

    def done(self) -> None:
        signed = Signature(self.text(0), date.today(), self.text(1) or None)
        edit = AcceptPoint(self.point.id, acceptance_of(self.point, signed))
        try:
            self.workspace.session.preview(edit)
        except EditError as error:
            self.fault = f"Not signed: {error}."
            return
        self.close()
        self.workspace.changing.do(edit)
