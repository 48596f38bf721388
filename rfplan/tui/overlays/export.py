# SPDX-License-Identifier: Apache-2.0
"""What is to be written, in which format, where: sheets, the drawing, the package."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from rfplan.records.exports import DRAWING, PACKAGE, Order, folder_for
from rfplan.reports.documents import missing_library
from rfplan.reports.formats import DOCUMENTS, FORMATS
from rfplan.reports.outcome import is_draft
from rfplan.reports.sheets import SHEETS
from rfplan.tui.bars import Key
from rfplan.tui.overlays.form import told_text
from rfplan.tui.overlays.overlay import Body, Overlay
from rfplan.tui.runs import Row, Run, filled, grounded, words_cut
from rfplan.tui.text_field import TextField
from rfplan.tui.tokens import Ground, Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

ALL_FORMATS = (*FORMATS, *DOCUMENTS)
LABEL_COLUMNS = 8
TOLD_ROWS = 3
MOVES = {"up": -1, "down": 1, "pageup": -10, "pagedown": 10, "home": -99, "end": 99}
KEY_COLUMNS = 18


@dataclass(slots=True)
class Piece:
    """One thing that can be chosen; a `refusal` says why it cannot be."""

    key: str
    title: str
    chosen: bool = False
    refusal: str = ""


class ExportOverlay(Overlay):
    """A list of marks, a format, a name; nothing that is there is replaced unasked."""

    title = "Export"

    def __init__(self, workspace: Workspace) -> None:
        super().__init__(workspace)
        shown = workspace.issuing.key
        self.pieces = [
            *(Piece(key, file.TITLE, key == shown) for key, file in SHEETS.items()),
            Piece(DRAWING, "Placement drawing, to scale"),
            Piece(PACKAGE, "One file with the plan and all it rests on", refusal=self._unsaved()),
        ]
        self.format = "text"
        self.formats = [self.format, *(name for name in ALL_FORMATS if name != self.format)]
        self.at = next(at for at, piece in enumerate(self.pieces) if piece.chosen)
        self.field = TextField(f"{folder_for(workspace.session.plan)}/")
        self.naming = False
        self.note = ""
        self._asked: Order | None = None

    def _unsaved(self) -> str:
        unsaved = self.workspace.session.unsaved
        return "A package is made from the files: save first." if unsaved else ""

    @property
    def types(self) -> bool:
        return self.naming

    @property
    def own_keys(self) -> list[Key]:
        keys = [Key("enter", "write"), Key("tab", "list" if self.naming else "name")]
        if self.naming:
            return keys
        return [*keys, Key("space", "mark"), Key("left right", "format"), Key("a", "all or none")]

    def body(self, columns: int, rows: int) -> Body:
        field, cursor = self.field.shown(columns - LABEL_COLUMNS, active=self.naming)
        marked = f"{sum(piece.chosen for piece in self.pieces)} of {len(self.pieces)} marked"
        lines = [self._format_row(), [_label("to"), *field], [Run(marked, Token.DIM)]]
        room = rows - len(lines) - TOLD_ROWS
        first = max(0, min(self.at - room // 2, len(self.pieces) - room))
        presses: list[tuple[int, Callable[[], object]]] = [
            (0, partial(self._next_format, 1)),
            (1, self._to_name),
        ]
        for index in range(first, min(first + room, len(self.pieces))):
            presses.append((len(lines), partial(self._click, index)))
            lines.append(self._line(index, columns))
        at = (LABEL_COLUMNS + cursor, 1) if self.naming else (0, 3 + self.at - first)
        return Body([*lines, *self._told(columns)], at, tuple(presses))

    def _format_row(self) -> Row:
        row: Row = [_label("format")]
        for name in self.formats:
            chosen = name == self.format
            ink = Token.FAINT if missing_library(name) else Token.TEXT
            if chosen:
                row.append(Run(f"[{name}]", Token.ON_ACCENT, Ground.ACCENT))
            else:
                row.append(Run(f" {name} ", ink))
        return row

    def _line(self, index: int, columns: int) -> Row:
        piece = self.pieces[index]
        here = index == self.at and not self.naming
        sign = self.workspace.look.glyphs.cursor if here else " "
        mark = "[x]" if piece.chosen else "[ ]"
        ink = Token.DIM if piece.refusal else Token.TEXT
        row = [Run(f"{sign} ", Token.ACCENT), Run(f"{mark} {piece.title}", ink)]
        row = [*filled(row, columns - KEY_COLUMNS), Run(piece.key, Token.FAINT)]
        row = filled(row, columns)
        return grounded(row, Ground.SEL) if here else row

    def _told(self, columns: int) -> list[Row]:
        """What would come of it, or why it cannot be."""
        if self.note:
            return told_text(self.note, columns, Token.NEAR)[:TOLD_ROWS]
        order = self.order()
        if fault := self._fault(order):
            return told_text(fault, columns, Token.NEAR)
        told = ", ".join(path.name for path in order.paths)
        if not order.into_folder and len(order.sheets) > 1:
            told = f"{len(order.sheets)} sheets in one file, {told}"
        elif len(order.paths) > 1:
            told = f"{len(order.paths)} files: {told}"
        first = words_cut(told, columns, self.workspace.type.ellipsis)
        return [[Run(first, Token.DIM)], *told_text(self._caution(), columns)][:TOLD_ROWS]

    def _fault(self, order: Order) -> str:
        """Why it cannot be written as it is asked for."""
        return order.fault or (missing_library(self.format) if order.sheets else "")

    def _caution(self) -> str:
        draft = "DRAFT will stand on every sheet. " if is_draft(self.workspace.assessment) else ""
        unsaved = self.workspace.session.unsaved
        return f"{draft}They show changes that are not saved." if unsaved else draft

    def order(self) -> Order:
        """Return what is marked, as it is typed; over what is there only if it was asked."""
        chosen = [piece.key for piece in self.pieces if piece.chosen]
        text = self.field.text.strip()
        target = self.workspace.session.file.path.parent / Path(text).expanduser()
        return Order(
            sheets=tuple(key for key in chosen if key in SHEETS),
            format=self.format,
            target=target,
            into_folder=not text or text.endswith("/") or target.is_dir(),
            drawing=DRAWING in chosen,
            package=PACKAGE in chosen,
        )

    def press(self, key: str) -> None:
        self.note = ""
        if key == "enter":
            self._write()
            return
        self._asked = None
        if key == "tab":
            self.naming = not self.naming
        elif self.naming:
            self._type(key)
        else:
            self._mark(key)

    def _type(self, key: str) -> None:
        if key in ("up", "down"):
            self.naming = False
        else:
            self.field.press(key)

    def _mark(self, key: str) -> None:
        if key in MOVES:
            self.at = max(0, min(len(self.pieces) - 1, self.at + MOVES[key]))
        elif key in ("left", "right"):
            self._next_format(1 if key == "right" else -1)
        elif key == " ":
            self._turn(self.pieces[self.at])
        elif key == "a":
            free = [piece for piece in self.pieces if not piece.refusal]
            every = not all(piece.chosen for piece in free)
            for piece in free:
                piece.chosen = every

    def paste(self, text: str) -> None:
        self.naming = True
        self.field.insert(text)

    def _next_format(self, step: int) -> None:
        at = self.formats.index(self.format) + step
        self.format = self.formats[at % len(self.formats)]

    def _to_name(self) -> None:
        self.naming = True

    def _click(self, index: int) -> None:
        self.naming, self.at, self.note = False, index, ""
        self._turn(self.pieces[index])

    def _turn(self, piece: Piece) -> None:
        """Mark a piece, or take its mark away."""
        if piece.refusal:
            self.note = piece.refusal
        else:
            piece.chosen = not piece.chosen

    def _write(self) -> None:
        order = self.order()
        if self._fault(order):
            return
        there = order.there_already
        if there and self._asked != order:
            self._asked = order
            names = ", ".join(path.name for path in there)
            verb = "is" if len(there) == 1 else "are"
            self.note = f"{names} {verb} there already. enter again replaces, tab names another."
            return
        self.close()
        self.workspace.issuing.write(replace(order, replace=bool(there)))


def _label(text: str) -> Run:
    return Run(text.ljust(LABEL_COLUMNS), Token.DIM)
