# SPDX-License-Identifier: Apache-2.0
"""Pictures of a screen without a terminal: the grid of text, and an SVG of the same runs."""

from __future__ import annotations

import re
import sys
from argparse import Namespace
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from pathlib import Path

from rfplan.tui.bars import Frame
from rfplan.tui.composing import compose
from rfplan.tui.glyphs import TIERS, Tier
from rfplan.tui.look import Look
from rfplan.tui.opening import open_workspace
from rfplan.tui.request import Request, Steps
from rfplan.tui.tokens import DARK, LIGHT, Style, Theme
from rfplan.tui.unopened import Unread

CELL_COLUMNS, CELL_ROWS = 8.0, 17.0
"""Size of a cell in the picture."""

FONT = "DejaVu Sans Mono, Menlo, Consolas, monospace"
NOT_WRITTEN = 2


@dataclass(slots=True)
class NoTerminal:
    """Answers a workspace that nobody sees."""

    ended: bool = False

    def leave(self) -> None:
        """Take note."""
        self.ended = True

    def repaint(self) -> None:
        """There is nothing to repaint."""

    def edit_file(self, file: Path, line: int) -> None:
        """There is no editor."""

    def copy(self, text: str) -> str:
        """There is no clipboard."""
        return "nowhere"

    def aside(self, steps: Steps) -> None:
        """Do it at once."""
        for tell in steps:
            tell()

    def open_plan(self, path: Path) -> None:
        """There is only the one plan."""


def take(options: Namespace) -> int:
    """Write NAME.txt and NAME.svg after the keys that were asked for."""
    size = size_of(options.size)
    if size is None:
        return _refuse(f"--size {options.size!r}: columns and rows are needed, such as 120x40")
    theme = LIGHT if options.theme == LIGHT.name else DARK
    look = Look(theme, TIERS[Tier(options.glyphs or Tier.FULL)], options.units)
    catalog = Path(options.catalog) if options.catalog else None
    plan = Path(options.plan or ".")
    request = Request(plan, options.state, options.serial, catalog, options.date)
    workspace = open_workspace(request, look, NoTerminal())
    if isinstance(workspace, Unread):
        return _refuse(workspace.text())
    columns, rows = size
    frame = compose(workspace, columns, rows)
    for key in options.keys.split():
        workspace.press(key)
        compose(workspace, columns, rows)
        workspace.finish()
        frame = compose(workspace, columns, rows)
    try:
        Path(f"{options.screenshot}.txt").write_text(f"{frame.text()}\n", encoding="utf-8")
        Path(f"{options.screenshot}.svg").write_text(svg(frame, theme), encoding="utf-8")
    except OSError as error:
        return _refuse(f"{options.screenshot} not written: {error.strerror}")
    return 0


def _refuse(words: str) -> int:
    print(f"rfplan: {words}", file=sys.stderr)  # noqa: T201
    return NOT_WRITTEN


def size_of(text: str) -> tuple[int, int] | None:
    """Return columns and rows of '120x40', None for anything else."""
    found = re.fullmatch(r"([1-9][0-9]{1,2})x([1-9][0-9]{0,2})", text)
    return (int(found[1]), int(found[2])) if found else None


def svg(frame: Frame, theme: Theme) -> str:
    """Return a frame as SVG: a rectangle for each ground, a text for each run."""
    columns = sum(len(run.text) for run in frame.rows[0])
    wide, high = columns * CELL_COLUMNS, len(frame.rows) * CELL_ROWS
    ground = theme.grounds[next(iter(theme.grounds))].bg or "#000000"
    body = "".join(piece for row in _rows(frame, theme) for piece in row)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}" '
        f'font-family="{FONT}" font-size="13.2">'
        f'<rect width="{wide:g}" height="{high:g}" fill="{ground}"/>{body}</svg>\n'
    )


_WORDS = re.compile(r"\S+(?: \S+)*")


def _rows(frame: Frame, theme: Theme) -> Iterator[Iterator[str]]:
    for index, row in enumerate(frame.rows):
        at, pieces = 0, []
        for run in row:
            style = theme.style(run.token, run.ground)
            pieces.append(_piece(run.text, (at, index), style))
            at += len(run.text)
        yield iter(pieces)


def _piece(text: str, at: tuple[int, int], style: Style) -> str:
    x, y = at[0] * CELL_COLUMNS, at[1] * CELL_ROWS
    wide = len(text) * CELL_COLUMNS
    rect = f'<rect x="{x:g}" y="{y:g}" width="{wide:g}" height="{CELL_ROWS:g}" fill="{style.bg}"/>'
    return rect + "".join(_words(text, at, style))


def _words(text: str, at: tuple[int, int], style: Style) -> Iterator[str]:
    """Yield words with single spaces between them, each in its cells: wider gaps would close up."""
    weight = ' font-weight="bold"' if style.bold else ""
    y = at[1] * CELL_ROWS + 13
    for found in _WORDS.finditer(text):
        x, wide = (at[0] + found.start()) * CELL_COLUMNS, len(found[0]) * CELL_COLUMNS
        yield (
            f'<text x="{x:g}" y="{y:g}" textLength="{wide:g}" fill="{style.fg}"{weight}>'
            f"{escape(found[0])}</text>"
        )
