# SPDX-License-Identifier: Apache-2.0
"""A finding accepted by name, with a reason and a document."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from rfplan.edits import AddWaiver, EditError
from rfplan.model.findings import Finding
from rfplan.model.plan import Accepted, FindingRef, Waiver
from rfplan.reports.wording import said, value_and_limit
from rfplan.rules.waivers import binding_of, has_numbers
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.present.findings import finding_words
from rfplan.tui.runs import Row, Run
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

SHORTEST_REASON = 20


class WaiveOverlay(FormOverlay):
    """Reason, document, name and role; it stays on every sheet as WAIVED."""

    done_key = "ctrl+s"
    done_label = "sign"

    def __init__(self, workspace: Workspace, finding: Finding) -> None:
        fields = [
            Asked("Why is this acceptable?"),
            Asked("Document or approved data"),
            Asked("Signed by (name)"),
            Asked("Role"),
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
        taken = (f"v{number}" for number in range(1, len(plan.waivers) + 2))
        id = next(name for name in taken if name not in plan.waivers)
        return AddWaiver(
            id,
            Waiver(
                finding=FindingRef(self.finding.rule, self.finding.objects),
                reason=self.text(0),
                who=self.text(2),
                state=plan.state,
                role=self.text(3) or None,
                date=date.today(),
                accepted=self._accepted(),
                approved_data=self.text(1) or None,
                bound=binding_of(self.finding),
            ),
        )

    def _accepted(self) -> Accepted | None:
        """The values of today, to which the waiver is bound."""
        if not has_numbers(self.finding):
            return None
        have, need = value_and_limit(self.finding, self.workspace.look.unit)
        return Accepted(have.text, need.text)
