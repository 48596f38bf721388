# SPDX-License-Identifier: Apache-2.0
"""Which file: to open, or to save under another name."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from rfplan.tui.overlays.form import Asked, FormOverlay, told_text
from rfplan.tui.runs import Row
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

MOST_NAMES = 12


class PathForm(FormOverlay):
    """Fields with the path of a file each, and what goes on like the one being typed."""

    endings: tuple[str, ...] = (".yaml", ".yml")
    """Of the files that are offered."""

    def __init__(self, workspace: Workspace, title: str, fields: list[Asked]) -> None:
        super().__init__(workspace, title, fields)
        self.fault = ""

    @property
    def folder(self) -> Path:
        """Where a path begins that does not say it."""
        return Path()

    def path(self) -> Path:
        """Return what is being typed as a path."""
        return self.folder / Path(self.text(self.at)).expanduser()

    def told(self, columns: int) -> list[Row]:
        if self.fault:
            return told_text(self.fault, columns, Token.NEAR)
        return told_text(", ".join(self._names()), columns)

    def _names(self) -> list[str]:
        """What goes on like the path being typed."""
        path = self.path()
        start = "" if path.is_dir() else path.name
        try:
            found = sorted(self._holder().iterdir())
        except OSError:
            return []
        shown = [one for one in found if one.is_dir() or one.suffix.lower() in self.endings]
        names = [f"{one.name}/" if one.is_dir() else one.name for one in shown]
        return [name for name in names if name.startswith(start) and name[0] != "."][:MOST_NAMES]

    def _holder(self) -> Path:
        """The folder that the path being typed is in."""
        path = self.path()
        return path if path.is_dir() else path.parent

    def press(self, key: str) -> None:
        self.fault = ""
        if key != "tab" or not self._complete():
            super().press(key)

    def _complete(self) -> bool:
        """Go on with the only name there is; tell whether that is anything new."""
        names, typed = self._names(), Path(self.text(self.at))
        if len(names) != 1:
            return False
        whole = str((typed if self.path().is_dir() else typed.parent) / names[0])
        if whole == str(typed):
            return False
        self.fields[self.at].field = TextField(whole)
        return True


class OpenForm(PathForm):
    """A plan file or its folder."""

    done_label = "open"

    def __init__(self, workspace: Workspace) -> None:
        folder = workspace.session.file.path.resolve().parent.parent
        fields = [Asked("", TextField(f"{folder}/"))]
        super().__init__(workspace, "Open a plan, a file or its folder", fields)

    def done(self) -> None:
        path = self.path()
        if not path.exists():
            self.fault = f"There is no {path}."
            return
        self.close()
        self.workspace.terminal.open_plan(path)


class SaveAsForm(PathForm):
    """A new file; one that is there is never replaced."""

    done_label = "save"

    def __init__(self, workspace: Workspace) -> None:
        path = workspace.session.file.path.resolve()
        fields = [Asked("", TextField(str(path)))]
        super().__init__(workspace, "Save under another name", fields)

    def done(self) -> None:
        self.fault = self.workspace.filing.save_under(self.path())
        if not self.fault:
            self.close()
