# SPDX-License-Identifier: Apache-2.0
"""Pages that are filled from top to bottom: fonts, head and foot of each page, lines of text."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import AbstractContextManager
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any

from rfplan.reports.archival import LEVEL, about
from rfplan.reports.documents import PaperName, library
from rfplan.reports.inks import PRINTED, ink_of, is_bold
from rfplan.reports.page_setting import lines_of
from rfplan.reports.sheet import Cell

SIZES_MM: dict[PaperName, tuple[float, float]] = {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}
"""Width and height of a page held sideways."""

MARGIN_MM, HEAD_MM, FOOT_MM = 11.0, 14.0, 12.0
LARGE, MIDDLE, SMALL = 15.0, 9.5, 7.5
"""Sizes of type in points."""

LEADING = 0.435
"""Millimetres from line to line for each point of type."""

_FONTS = Path(__file__).with_name("fonts")
_FAMILY = "sheet"
_FACES = {"": "DejaVuSans.ttf", "B": "DejaVuSans-Bold.ttf"}


class Paper:
    """A document under way; lengths in millimetres, down the page from the top."""

    gap = 2.6

    def __init__(self, paper: PaperName, made_on: datetime, draft: str) -> None:
        self.page_width, self.page_height = SIZES_MM[paper]
        self.width = self.page_width - 2 * MARGIN_MM
        self._draft = draft
        self._title = self._name = ""
        self._names: list[str] = []
        self._pdf = library("pdf").FPDF(
            unit="mm", format=SIZES_MM[paper][::-1], enforce_compliance=LEVEL
        )
        self._pdf.set_creation_date(made_on)
        self._made_on = made_on
        self._pdf.set_auto_page_break(False)
        self._pdf.set_margin(0.0)
        self._pdf.c_margin = 0.0
        for style, file in _FACES.items():
            self._pdf.add_font(_FAMILY, style, _FONTS / file)
        self._known = frozenset(self._pdf.fonts[_FAMILY].cmap)
        self._measured = cache(self.width_of)
        self.y = 0.0

    def content(self) -> bytes:
        """Return the finished document, each page with its number of all."""
        for page, name in enumerate(self._names, start=1):
            self._pdf.page = page
            self._pdf.set_font(_FAMILY, "", LARGE)  # another page may have left any font
            self._foot(name, f"page {page} of {len(self._names)}")
        return bytes(self._pdf.output())

    def start(self, title: str, name: str) -> None:
        """Begin a sheet on a page of its own."""
        self._title, self._name = title, name
        if not self._names:
            self._pdf.set_xmp_metadata(about(name, self._made_on))
        self.turn(first=True)

    def turn(self, *, first: bool = False) -> None:
        """Begin a page with its sheet at the head, which the first tells in large letters."""
        self._pdf.add_page(orientation="landscape")
        if not first:
            self.text(MARGIN_MM, 8.5, self._title, bold=True, ink="dim")
        if self._draft:
            room = self.width * 0.6
            line = lines_of(self._draft, room, lambda text: self.measure(text, True))[0]
            at = self.page_width - MARGIN_MM - self.measure(line, True)
            self.text(at, 8.5, line, bold=True, ink="fail")
        self._names.append(self._name)
        self.y = HEAD_MM

    def _foot(self, name: str, page: str) -> None:
        y, right = self.page_height - 6.5, self.page_width - MARGIN_MM
        room = self.width - self.measure(page, False) - self.gap
        self.text(MARGIN_MM, y, self.lines(name, room, bold=False)[0], ink="dim")
        self.text(right - self.measure(page, False), y, page, ink="dim")

    @property
    def room(self) -> float:
        """What is left of the page."""
        return self.page_height - FOOT_MM - self.y

    def keep_together(self, height: float) -> bool:
        """Turn the page unless so much is left; tell whether it was turned."""
        if self.room >= height:
            return False
        self.turn()
        return True

    def skip(self, height: float) -> None:
        """Leave room."""
        self.y += height

    def line(self, text: str, *, size: float, bold: bool = False, ink: str = "text") -> None:
        """Set text over the whole width, in as many lines as it takes."""
        for line in lines_of(text, self.width, lambda one: self.width_of(one, bold, size)):
            self.keep_together(size * LEADING)
            self.y += size * LEADING
            self.text(MARGIN_MM, self.y - size * 0.1, line, size=size, bold=bold, ink=ink)

    def paragraphs(self, texts: Sequence[str], *, ink: str) -> None:
        """Set small texts over the whole width, all on one page if they fit there."""
        self.keep_together(self.height_of(texts))
        for text in texts:
            self.line(text, size=SMALL, ink=ink)

    def height_of(self, texts: Sequence[str]) -> float:
        """Return how high small texts stand over the whole width, a page at most."""
        lines = sum(len(self.lines(text, self.width, bold=False)) for text in texts)
        return min(lines * SMALL * LEADING, self.page_height - HEAD_MM - FOOT_MM)

    def row(self, facts: Sequence[tuple[float, float, tuple[str, Cell]]], label_mm: float) -> None:
        """Set labels with their cells side by side, each from its own place and so wide."""
        height = SMALL * LEADING
        told = [
            (at, label, cell, self.lines(cell.text, width - label_mm, bold=is_bold(cell)))
            for at, width, (label, cell) in facts
        ]
        most = max(len(lines) for _, _, _, lines in told)
        self.keep_together(most * height)
        for at, label, cell, lines in told:
            self.text(MARGIN_MM + at, self.y + height * 0.8, label, ink="dim")
            for number, line in enumerate(lines):
                y = self.y + height * (number + 0.8)
                x = MARGIN_MM + at + label_mm
                self.text(x, y, line, ink=ink_of(cell), bold=is_bold(cell))
        self.y += most * height + 0.5

    def lines(self, text: str, room: float, *, bold: bool) -> list[str]:
        """Return the lines of small text in some room."""
        return lines_of(text, room, lambda one: self.measure(one, bold))

    def text(
        self,
        x: float,
        y: float,
        text: str,
        *,
        size: float = SMALL,
        bold: bool = False,
        ink: str = "text",
    ) -> None:
        """Put one line of text at a place on the page, on its base line; `ink` may be a colour."""
        self._pdf.set_font(_FAMILY, "B" if bold else "", size)
        self._pdf.set_text_color(PRINTED.get(ink, ink))
        self._pdf.text(x, y, self._shown(text))

    def rule(self, x: float, y: float, width: float, *, strong: bool = False) -> None:
        """Draw a line across."""
        self._pdf.set_draw_color(PRINTED["dim"] if strong else "#D8D8D4")
        self._pdf.set_line_width(0.25 if strong else 0.12)
        self._pdf.line(x, y, x + width, y)

    def band(self, x: float, y: float, width: float, height: float) -> None:
        """Shade what stands behind headings."""
        self._pdf.set_fill_color("#F4F4F2")
        self._pdf.rect(x, y, width, height, style="F")

    def drawing(self) -> AbstractContextManager[Any]:
        """Open what shapes of a drawing are added to; they are drawn when it is left."""
        context: AbstractContextManager[Any] = self._pdf.drawing_context()
        return context

    def measure(self, text: str, bold: bool) -> float:
        """Return how wide small text is."""
        width: float = self._measured(text, bold, SMALL)
        return width

    def width_of(self, text: str, bold: bool, size: float) -> float:
        """Return how wide a text is in type of some points."""
        self._pdf.set_font(_FAMILY, "B" if bold else "", size)
        return float(self._pdf.get_string_width(self._shown(text)))

    def _shown(self, text: str) -> str:
        """Return a text in which every letter that the fonts do not have is told by its number."""
        return "".join(map(self._letter, text))

    def _letter(self, letter: str) -> str:
        if ord(letter) in self._known:
            return letter
        return f"\\u{ord(letter):04x}" if ord(letter) <= 0xFFFF else f"\\U{ord(letter):08x}"
