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


class _PathForm(FormOverlay):
    """One field with the path of a file, and what is in that folder."""

    def __init__(self, workspace: Workspace, title: str, text: str) -> None:
        super().__init__(workspace, title, [Asked("", TextField(text))])
        self.fault = ""

    def path(self) -> Path:
        """Return what is typed as a path."""
        return Path(self.text(0)).expanduser()

    def told(self, columns: int) -> list[Row]:
        if self.fault:
            return told_text(self.fault, columns, Token.NEAR)
        return told_text(", ".join(self._names()), columns)

    def _names(self) -> list[str]:
        """What goes on like the path being typed."""
        path = self.path()
        folder = path if path.is_dir() else path.parent
        start = "" if path.is_dir() else path.name
        try:
            found = sorted(folder.iterdir())
        except OSError:
            return []
        shown = [one for one in found if one.is_dir() or one.suffix in (".yaml", ".yml")]
        names = [f"{one.name}/" if one.is_dir() else one.name for one in shown]
        return [name for name in names if name.startswith(start) and name[0] != "."][:MOST_NAMES]

    def press(self, key: str) -> None:
        self.fault = ""
        if key == "tab":
            self._complete()
        else:
            super().press(key)

    def _complete(self) -> None:
        """Go on with the only name there is."""
        names = self._names()
        if len(names) == 1:
            path = self.path()
            folder = path if path.is_dir() else path.parent
            self.fields[0].field = TextField(str(folder / names[0]))


class OpenForm(_PathForm):
    """A plan file or its folder."""

    done_label = "open"

    def __init__(self, workspace: Workspace) -> None:
        folder = workspace.session.file.path.resolve().parent.parent
        super().__init__(workspace, "Open a plan, a file or its folder", f"{folder}/")

    def done(self) -> None:
        path = self.path()
        if not path.exists():
            self.fault = f"There is no {path}."
            return
        self.close()
        self.workspace.terminal.open_plan(path)


class SaveAsForm(_PathForm):
    """A new file; one that is there is never replaced."""

    done_label = "save"

    def __init__(self, workspace: Workspace) -> None:
        path = workspace.session.file.path.resolve()
        super().__init__(workspace, "Save under another name", str(path))

    def done(self) -> None:
        self.fault = self.workspace.filing.save_under(self.path())
        if not self.fault:
            self.close()
