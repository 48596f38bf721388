# SPDX-License-Identifier: Apache-2.0
"""The face of the workspace: it shows rows of runs, and sends only the cells that have changed.

It is made of tiles side by side, since a partial update goes out from the left edge of a widget.
"""

from __future__ import annotations

from functools import lru_cache

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.geometry import Region
from textual.screen import Screen
from textual.strip import Strip
from textual.widget import Widget

from rfplan.tui.bars import Frame, empty_frame
from rfplan.tui.runs import Row, Span, changed, cropped, width
from rfplan.tui.tokens import DARK, THEMES, Ground, Theme, Token

TILES = 6


class Tile(Widget):
    """Some columns of the frame."""

    DEFAULT_CSS = "Tile { width: 1fr; height: 100%; }"

    def __init__(self, face: Face) -> None:
        super().__init__()
        self._face = face

    def render_line(self, y: int) -> Strip:
        """Return one row of the tile as Textual wants it."""
        return self._face.strip(y, self.region.x, self.region.right)


class Face(Horizontal):
    """A screen of cells drawn by others."""

    DEFAULT_CSS = "Face { width: 100%; height: 100%; }"

    def __init__(self, theme: Theme = DARK) -> None:
        self._tiles = [Tile(self) for _ in range(TILES)]
        super().__init__()
        self._look = theme
        self._frame: Frame = empty_frame(1, 1)

    def compose(self) -> ComposeResult:
        """Return the tiles."""
        yield from self._tiles

    def show(self, frame: Frame, theme: Theme) -> None:
        """Show a frame, and refresh what differs from the one before."""
        before, same_theme = self._frame, theme is self._look
        self._frame, self._look = frame, theme
        if not same_theme or _shape(before.rows) != _shape(frame.rows):
            self.send_all()
            return
        for span in changed(before.rows, frame.rows):
            self._send(span)

    def send_all(self) -> None:
        """Send every cell again."""
        for tile in self._tiles:
            tile.refresh()

    def _send(self, span: Span) -> None:
        """Refresh the cells of a span in each tile that it touches."""
        for tile in self._tiles:
            left = tile.region.x
            start, stop = max(span.start, left), min(span.stop, tile.region.right)
            if start < stop:
                tile.refresh(Region(start - left, span.row, stop - start, 1))

    def strip(self, y: int, start: int, stop: int) -> Strip:
        """Return some cells of a row."""
        rows = self._frame.rows
        if y >= len(rows):
            return Strip.blank(stop - start)
        row = cropped(rows[y], start, stop)
        segments = [Segment(run.text, rich_style(self._look.name, *run[1:])) for run in row]
        return Strip(segments, width(row))


class Surface(Screen[None], inherit_bindings=False):
    """A screen with the face alone, and no keys of its own."""

    def __init__(self, face: Face) -> None:
        super().__init__()
        self._face = face

    def compose(self) -> ComposeResult:
        """Return the face."""
        yield self._face


def _shape(rows: list[Row]) -> tuple[int, int]:
    return len(rows), width(rows[0]) if rows else 0


@lru_cache(maxsize=1024)
def rich_style(theme: str, token: Token, ground: Ground) -> RichStyle:
    """Return the style of an ink on a ground."""
    style = THEMES[theme].style(token, ground)
    return RichStyle(
        color=style.fg,
        bgcolor=style.bg,
        bold=style.bold or None,
        dim=style.dim or None,
        reverse=style.reverse or None,
        underline=style.underline or None,
    )
