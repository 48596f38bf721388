# SPDX-License-Identifier: Apache-2.0
"""Ends and way of a cable assembly, typed, with the verdict before enter."""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING

from rfplan.edits import Edit, EditError, SetEnds, SetRoute
from rfplan.model.assessment import Assessment
from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.present.tags import length_text
from rfplan.tui.runs import Row
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

MOST_KNOWN = 14
"""Names offered below the fields."""


class CableForm(FormOverlay):
    """Fields about one assembly; what is typed is judged at once."""

    done_label = "apply"

    def __init__(self, workspace: Workspace, assembly: str, fields: list[Asked]) -> None:
        super().__init__(workspace, f"{self.subject} of {assembly}", fields)
        self.assembly = assembly

    subject = ""

    @abstractmethod
    def edit(self) -> Edit:
        """Return what is typed as an edit; raises EditError."""

    @abstractmethod
    def known(self) -> list[str]:
        """Return the names that may be typed."""

    def told(self, columns: int) -> list[Row]:
        try:
            assessment = self.workspace.session.preview(self.edit())
        except EditError as error:
            return [*told_text(str(error), columns, Token.NEAR), [], *self._offered(columns)]
        verdict = self.workspace.verdict_rows(assessment, columns)
        return [*verdict, *self.about(assessment, columns), [], *self._offered(columns)]

    def about(self, assessment: Assessment, columns: int) -> list[Row]:
        """Return more about the assembly as it would be."""
        return []

    def done(self) -> None:
        try:
            edit = self.edit()
            self.workspace.session.preview(edit)
        except EditError:
            return
        self.close()
        self.workspace.changing.do(edit)

    def _offered(self, columns: int) -> list[Row]:
        """The names that go on like the word being typed."""
        part = self.fields[self.at].field.text.replace(",", " ").split(" ")[-1]
        names = [name for name in self.known() if name.startswith(part)] or self.known()
        more = "" if len(names) <= MOST_KNOWN else f" and {len(names) - MOST_KNOWN} more"
        return told_text(f"known: {', '.join(names[:MOST_KNOWN])}{more}", columns)


class EndsForm(CableForm):
    """The plugs at both ends."""

    subject = "Ends"

    def __init__(self, workspace: Workspace, assembly: str) -> None:
        plugs = workspace.session.plan.installation.cables[assembly].plugs
        labels = ("plug at the unit's end", "plug at the antenna's end")
        fields = [Asked(*pair) for pair in zip(labels, map(TextField, plugs), strict=True)]
        super().__init__(workspace, assembly, fields)

    def known(self) -> list[str]:
        return sorted(self.workspace.session.file.catalog.connectors)

    def edit(self) -> Edit:
        plugs = self.text(0), self.text(1)
        for plug in plugs:
            if plug not in self.known():
                raise EditError(f"the catalogue has no plug {plug!r}")
        return SetEnds(self.assembly, plugs)


class RouteForm(CableForm):
    """The nodes that a cable passes, and those it keeps away from."""

    subject = "Way"

    def __init__(self, workspace: Workspace, assembly: str) -> None:
        fitted = workspace.session.plan.installation.cables[assembly]
        fields = [
            Asked("via (nodes, in order)", TextField(" ".join(fitted.via))),
            Asked("avoid (nodes)", TextField(" ".join(fitted.avoid))),
        ]
        super().__init__(workspace, assembly, fields)

    def known(self) -> list[str]:
        return sorted(self.workspace.session.plan.airframe.route.nodes)

    def edit(self) -> Edit:
        via, avoid = (tuple(self.text(i).replace(",", " ").split()) for i in (0, 1))
        return SetRoute(self.assembly, via, avoid)

    def about(self, assessment: Assessment, columns: int) -> list[Row]:
        run = assessment.cables[self.assembly]
        unit = self.workspace.look.unit
        way = f" {self.workspace.look.glyphs.arrow} ".join(run.nodes) or "length as given"
        return told_text(f"{length_text(run.length_m.nominal, unit)} {unit}: {way}", columns)
