# SPDX-License-Identifier: Apache-2.0
"""An open point to confirm accepted by name, as it is."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from rfplan.edits import AcceptPoint, EditError
from rfplan.model.findings import OpenPoint
from rfplan.model.plan import AcceptedPoint
from rfplan.rules.acceptances import binding_of
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.runs import Row
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

STAYS = "It stays an open point on every sheet, with the name, and reopens when the value changes."


class AcceptOverlay(FormOverlay):
    """One name; the point is bound to its value of today."""

    done_key = "ctrl+s"
    done_label = "sign"

    def __init__(self, workspace: Workspace, point: OpenPoint) -> None:
        super().__init__(workspace, f"Accept {point.id}", [Asked("Signed by (name)")])
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
        accepted = AcceptedPoint(self.text(0), date.today(), binding_of(self.point))
        edit = AcceptPoint(self.point.id, accepted)
        try:
            self.workspace.session.preview(edit)
        except EditError as error:
            self.fault = f"Not signed: {error}."
            return
        self.close()
        self.workspace.changing.do(edit)
