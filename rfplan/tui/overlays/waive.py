# SPDX-License-Identifier: Apache-2.0
"""A finding accepted by name, with a reason and a document."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from rfplan.edits import AddWaiver, EditError
from rfplan.model.findings import Finding
from rfplan.reports.signing import Signature, free_waiver_id, waiver_of
from rfplan.reports.wording import said
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.present.findings import finding_words
from rfplan.tui.runs import Row, Run
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

SHORTEST_REASON = 20


class WaiveOverlay(FormOverlay):
    """Reason, document, name, role and check; it stays on every sheet as WAIVED."""

    done_key = "ctrl+s"
    done_label = "sign"

    def __init__(self, workspace: Workspace, finding: Finding) -> None:
        fields = [
            Asked("Why is this acceptable?"),
            Asked("Document or approved data"),
            Asked("Signed by (name)"),
            Asked("Role"),
            Asked("Compensating check, a step of the ground check"),
        ]
        super().__init__(workspace, f"Waive {finding.rule} {' '.join(finding.objects)}", fields)
        self.finding = finding
        self.fault = ""

    def lead(self, columns: int) -> list[Row]:
        type = self.workspace.type
        words = said(self.finding, type.unit)
        first = finding_words(self.finding, type)[:3]
        name = Run(f" {self.finding.name}", Token.DIM)
        return [[*first, name], *told_text(words, columns, Token.TEXT), []]

    def told(self, columns: int) -> list[Row]:
        count = len(self.text(0))
        words = f"{count} of {SHORTEST_REASON} characters. It stays on every sheet as WAIVED, "
        rows = told_text(f"{words}never as PASS, and reopens if it gets worse.", columns)
        return [*rows, *told_text(self.fault, columns, Token.NEAR)]

    def press(self, key: str) -> None:
        self.fault = ""
        super().press(key)

    def done(self) -> None:
        try:
            self.workspace.session.preview(self._edit())
        except EditError as error:
            self.fault = f"Not signed: {error}."
            return
        self.close()
        self.workspace.changing.do(self._edit())

    def _edit(self) -> AddWaiver:
        plan = self.workspace.session.plan
        who, role, check = self.text(2), self.text(3) or None, self.text(4) or None
        signed = Signature(who, date.today(), check, role)
        unit, document = self.workspace.look.unit, self.text(1) or None
        waiver = waiver_of(self.finding, signed, self.text(0), document, unit)
        return AddWaiver(free_waiver_id(plan), waiver)
