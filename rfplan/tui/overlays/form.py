# SPDX-License-Identifier: Apache-2.0
"""Fields to be typed, with what comes of them told below while typing."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from rfplan.reports.wrapping import wrapped
from rfplan.tui.bars import Key
from rfplan.tui.overlays.overlay import Body, Overlay
from rfplan.tui.runs import Row, Run
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace


@dataclass(slots=True)
class Asked:
    """One field with its label."""

    label: str
    field: TextField = field(default_factory=TextField)


class FormOverlay(Overlay):
    """Fields, tab between them, enter does it; whoever inherits says what."""

    done_key = "enter"
    done_label = "do it"
    columns = 72
    label_columns = 0
    """Columns of labels that stand beside their fields; with none they stand above."""

    def __init__(self, workspace: Workspace, title: str, fields: list[Asked]) -> None:
        super().__init__(workspace)
        self.title = title
        self.fields = fields
        self.at = 0

    @property
    def types(self) -> bool:
        return True

    @property
    def own_keys(self) -> list[Key]:
        keys = [Key(self.done_key, self.done_label)]
        return [*keys, Key("tab", "next field")] if len(self.fields) > 1 else keys

    def lead(self, columns: int) -> list[Row]:
        """Return what stands over the fields."""
        return []

    def told(self, columns: int) -> list[Row]:
        """Return what stands below the fields: what would come of them."""
        return []

    @abstractmethod
    def done(self) -> None:
        """Do what the form is for."""

    def text(self, index: int) -> str:
        """Return what is typed in a field."""
        return self.fields[index].field.text.strip()

    def body(self, columns: int, rows: int) -> Body:
        lines = self.lead(columns)
        cursor = (0, len(lines))
        beside = self.label_columns
        for index, asked in enumerate(self.fields):
            label = Run(asked.label.ljust(beside), Token.DIM)
            if asked.label and not beside:
                lines.append([label])
            row, column = asked.field.shown(columns - beside, active=index == self.at)
            if index == self.at:
                cursor = (beside + column, len(lines))
            lines.append([label, *row] if beside else row)
        told = self.told(columns)
        return Body([*lines, [], *told] if told else lines, cursor)

    def press(self, key: str) -> None:
        if key == self.done_key or (key == "enter" and self.at == len(self.fields) - 1):
            self.done()
        elif key in ("tab", "down", "enter"):
            self.at = (self.at + 1) % len(self.fields)
        elif key in ("shift+tab", "up"):
            self.at = (self.at - 1) % len(self.fields)
        else:
            self.fields[self.at].field.press(key)

    def paste(self, text: str) -> None:
        self.fields[self.at].field.insert(text)


def told_text(text: str, columns: int, token: Token = Token.DIM) -> list[Row]:
    """Return a text as rows."""
    return [[Run(line, token)] for line in wrapped(text, columns)] if text else []
