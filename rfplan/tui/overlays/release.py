# SPDX-License-Identifier: Apache-2.0
"""A revision to be released: its letter, who stands for it, and what speaks against it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from rfplan.edits import EditError, SetRevision
from rfplan.model.plan import Person
from rfplan.model.record import ById
from rfplan.records.revisions import ROLES, hindrances, to_accept
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.present.tags import AS
from rfplan.tui.runs import Row, Run, words_cut
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

NO_NAME = "?"
MOST_REASONS = 6


class ReleaseForm(FormOverlay):
    """Letter and three names, saved into the plan before it is released."""

    done_label = "save and release"
    label_columns = 14

    def __init__(self, workspace: Workspace) -> None:
        plan = workspace.session.plan
        fields = [Asked("letter", TextField(plan.revision.letter or ""))]
        for role in ROLES:
            person = plan.people.get(role)
            name = "" if person is None or person.name == NO_NAME else person.name
            fields.append(Asked(f"{role} by", TextField(name)))
        super().__init__(workspace, f"Release {AS[plan.state]}", fields)

    def lead(self, columns: int) -> list[Row]:
        return told_text("A new name is dated today. Letter and names go into the plan.", columns)

    def told(self, columns: int) -> list[Row]:
        reasons = self.reasons()
        if not reasons:
            return told_text("Nothing speaks against it. A release is never replaced.", columns)
        ellipsis = self.workspace.type.ellipsis
        shown = [words_cut(reason, columns, ellipsis) for reason in reasons[:MOST_REASONS]]
        rows = [[Run(reason, Token.NEAR)] for reason in shown]
        count = f"{len(reasons)} reason{'' if len(reasons) == 1 else 's'} against it"
        return [*rows, *told_text(f"{count}; enter shows them in full.", columns)]

    def reasons(self) -> list[str]:
        """Return what keeps the plan from release with what is typed, as the command says it."""
        try:
            return list(hindrances(self.workspace.session.preview(self.edit())))
        except EditError as error:
            return [str(error)]

    def edit(self) -> SetRevision:
        """Return letter and names as an edit; who is named anew has no role or stamp yet."""
        people = self.workspace.session.plan.people
        for role, asked in zip(ROLES, self.fields[1:], strict=True):
            name, known = asked.field.text.strip() or NO_NAME, people.get(role)
            if name != (known.name if known is not None else NO_NAME):
                people = people.having(role, Person(name, date=_dated(name)))
        return SetRevision(self.text(0), ById(people))

    def done(self) -> None:
        reasons = self.reasons()
        self.close()
        if reasons:
            acceptable = to_accept(self.workspace.assessment)
            self.workspace.issuing.refuse(reasons, bool(acceptable))
        else:
            self.workspace.issuing.release(self.edit())


def _dated(name: str) -> date | None:
    return None if name == NO_NAME else date.today()
