# SPDX-License-Identifier: Apache-2.0
"""Loss against frequency: least and most of a path, bands, limits across them, readings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor, log10

import numpy as np

from rfplan.model.assessment import BandLoss, PathAssessment, Reading
from rfplan.reports.cells import decibels, frequency
from rfplan.reports.loss_line import nearer_margin
from rfplan.reports.outcome import band_word
from rfplan.rules.loss_curve import LossCurve
from rfplan.tui.canvas import Canvas, Ink, Layer, Pen
from rfplan.tui.dots import DOTS_ACROSS, DOTS_DOWN
from rfplan.tui.labels import Board, Label
from rfplan.tui.layout import Area
from rfplan.tui.panes import Item, Pane, blank, heading
from rfplan.tui.present.paths import limits_db
from rfplan.tui.present.tags import Type, tag
from rfplan.tui.raster import Floats
from rfplan.tui.runs import Row, Run, width, words_cut
from rfplan.tui.tokens import Ground, Token

GUTTER_COLUMNS = 6
LEAST_GAP_COLUMNS, LEAST_GAP_ROWS = 10, 2
MHZ = 1.0e6

MOST = Pen(Token.ACCENT, Layer.ROUTE, thick=True)
LEAST = Pen(Token.LINE, Layer.OUTLINE)
LIMIT = Pen(Token.FAIL, Layer.RING, thick=True)
EDGE = Pen(Token.INNER, Layer.INNER, dash=(1.0, 3.0))
CURSOR = Pen(Token.ACCENT, Layer.INNER, dash=(2.0, 2.0))
FIGURES = Ink(Token.FAINT)
CHOSEN = Ink(Token.ON_ACCENT, ground=Ground.ACCENT)

LEGENDS = ("upper line most, lower least", "most over least", "")


@dataclass(frozen=True, slots=True)
class Swept:
    """The curve of a path, and its loss at one frequency, judged where a band holds that."""

    path: PathAssessment
    span_hz: tuple[float, float]
    curve: LossCurve
    at_hz: float
    there: LossCurve
    judged: BandLoss | None


@dataclass(frozen=True, slots=True)
class Plot:
    """How frequencies and decibels fall on the cells of an area."""

    area: Area
    low_hz: float
    high_hz: float
    top_db: float

    def right(self, frequency_hz: Floats | float) -> Floats:
        """Return where frequencies fall, in dots from the left edge of the canvas."""
        part = (np.asarray(frequency_hz) - self.low_hz) / (self.high_hz - self.low_hz)
        return self.area.column * DOTS_ACROSS + part * (self.area.columns * DOTS_ACROSS - 1.0)

    def down(self, loss_db: Floats | float) -> Floats:
        """Return where losses fall, in dots from the upper edge of the canvas."""
        part = 1.0 - np.asarray(loss_db) / self.top_db
        return self.area.row * DOTS_DOWN + part * (self.area.rows * DOTS_DOWN - 1.0)

    def column(self, frequency_hz: float) -> int:
        """Return the column of a frequency."""
        return int(self.right(frequency_hz)) // DOTS_ACROSS

    def row(self, loss_db: float) -> int:
        """Return the row of a loss."""
        return int(self.down(loss_db)) // DOTS_DOWN

    def line(self, frequency_hz: Floats, loss_db: Floats) -> Floats:
        """Return a curve in dots; the pen is lifted where a loss has no end."""
        dots = np.stack([self.right(frequency_hz), self.down(loss_db)], axis=-1)
        return np.where(np.isfinite(dots), dots, np.nan)


def curve_pane(swept: Swept | None, size: tuple[int, int], type: Type) -> Pane:
    """Return the curve in so many columns and rows, what holds at one frequency below it."""
    columns, rows = size
    if swept is None:
        return Pane("curve", heading("No path selected"), [blank()])
    canvas = Canvas(rows - 2, columns, type.glyphs)
    _draw(canvas, swept)
    words = _words(swept, columns, type)
    name = f"{swept.path.id} loss against frequency"
    legends = [_legend(swept, legend) for legend in LEGENDS]
    legend = next((one for one in legends if len(name) + len(one) + 4 <= columns), "")
    return Pane("curve", heading(name, legend), [Item([*canvas.rows(), words])])


def _legend(swept: Swept, lines: str) -> str:
    measured = any(reading.loss_db is not None for reading in swept.path.readings)
    return ", ".join(part for part in (lines, "+ measured" if measured else "") if part)


def _draw(canvas: Canvas, swept: Swept) -> None:
    rows, columns = canvas.area.rows, canvas.area.columns
    area = Area(0, GUTTER_COLUMNS, rows - 1, columns - GUTTER_COLUMNS)
    plot = Plot(area, *swept.span_hz, _top_db(swept))
    bands = _bands(swept.path)
    for _, band in bands:
        _draw_band(canvas, plot, band)
    curve = swept.curve
    canvas.polyline(plot.line(curve.frequency_hz, curve.least_db), LEAST, area)
    canvas.polyline(plot.line(curve.frequency_hz, curve.most_db), MOST, area)
    at = float(plot.right(swept.at_hz))
    canvas.polyline(np.array([[at, 0.0], [at, area.rows * DOTS_DOWN - 1.0]]), CURSOR, area)
    for reading in swept.path.readings:
        _draw_reading(canvas, plot, reading)
    _draw_figures(canvas, plot, swept.at_hz)
    _draw_words(canvas, plot, bands)


def _bands(path: PathAssessment) -> list[tuple[str, BandLoss]]:
    """Each band with its name; where a radio sends and receives over the same, with both."""
    together: dict[tuple[float, float], list[BandLoss]] = {}
    for band in path.bands:
        together.setdefault((band.low_hz, band.high_hz), []).append(band)
    return [(" ".join(one.name for one in bands), bands[0]) for bands in together.values()]


def _top_db(swept: Swept) -> float:
    """The upper end of the scale: above the curve, every limit and every reading."""
    known = swept.curve.most_db[np.isfinite(swept.curve.most_db)]
    least = swept.curve.least_db[np.isfinite(swept.curve.least_db)]
    limits = [limit for band in swept.path.bands for limit in limits_db(band) if limit is not None]
    read = (reading.loss_db for reading in swept.path.readings)
    readings = [loss_db for loss_db in read if loss_db is not None]
    return 1.08 * float(max(0.5, *known, *least, *limits, *readings))


def _draw_band(canvas: Canvas, plot: Plot, band: BandLoss) -> None:
    """Tint a band, mark its edges, and draw its limits across it."""
    area, (first, last) = plot.area, (plot.column(band.low_hz), plot.column(band.high_hz))
    cells = np.zeros((canvas.area.rows, canvas.area.columns), dtype=np.bool_)
    cells[area.row : area.row + area.rows, first : last + 1] = True
    canvas.tint(cells, Ground.SEL)
    for column in {first, last}:
        right = column * DOTS_ACROSS + (column == last)
        edge = np.array([[right, 0.0], [right, area.rows * DOTS_DOWN - 1.0]])
        canvas.polyline(edge, EDGE, area)
    ends = np.array([first * DOTS_ACROSS, last * DOTS_ACROSS + 1.0])
    for limit_db in limits_db(band):
        if limit_db is not None:
            down = np.full(2, float(plot.down(limit_db)))
            canvas.polyline(np.stack([ends, down], axis=-1), LIMIT, area)


def _draw_reading(canvas: Canvas, plot: Plot, reading: Reading) -> None:
    if reading.loss_db is None:
        return
    row, column = plot.row(reading.loss_db), plot.column(reading.frequency_hz)
    if plot.area.holds(row, column):
        ink = Token.DIM if reading.stale else Token.BOLD
        canvas.text(row, column, "+", Ink(ink, Layer.GLYPH))


def _draw_figures(canvas: Canvas, plot: Plot, at_hz: float) -> None:
    """Number both edges, the frequency looked at on the accent."""
    area, below = plot.area, plot.area.row + plot.area.rows
    for value, text in _figures(plot.top_db / max(1, area.rows // LEAST_GAP_ROWS), plot.top_db):
        canvas.text(plot.row(value), GUTTER_COLUMNS - 1 - len(text), text, FIGURES)
    board = Board(Area(below, 0, 1, canvas.area.columns), ())
    chosen = f" {frequency(at_hz).text} "
    start = min(plot.column(at_hz) - len(chosen) // 2, canvas.area.columns - len(chosen))
    here = Label("at", below, max(GUTTER_COLUMNS, start), chosen)
    board.put(here)
    canvas.text(here.row, here.column, chosen, CHOSEN)
    units = (Label("db", below, 2, "dB"), Label("mhz", below, canvas.area.columns - 3, "MHz"))
    for label in (*units, *_stations(plot, below)):
        if board.first_fit([label]) is not None:
            canvas.text(label.row, label.column, label.name, FIGURES)


def _stations(plot: Plot, row: int) -> Iterator[Label]:
    span = (plot.high_hz - plot.low_hz) / MHZ
    least = span / max(1, plot.area.columns // LEAST_GAP_COLUMNS)
    for value, text in _figures(least, plot.high_hz / MHZ, plot.low_hz / MHZ):
        yield Label(text, row, plot.column(value * MHZ) - len(text) // 2, text)


def _figures(least_step: float, high: float, low: float = 0.0) -> Iterator[tuple[float, str]]:
    """Round numbers from `low` to `high`, at least a step apart."""
    step = round_step(least_step)
    digits = max(0, -floor(log10(step) + 1e-9))
    for index in range(ceil(low / step - 1e-9), floor(high / step + 1e-9) + 1):
        yield index * step, f"{index * step:.{digits}f}"


def round_step(least: float) -> float:
    """Return the smallest of 1, 2, 5, 10 times a power of ten that is not below a number."""
    power = 10.0 ** floor(log10(least))
    return float(next(f * power for f in (1, 2, 5, 10) if f * power >= least * (1.0 - 1e-9)))


def _draw_words(canvas: Canvas, plot: Plot, bands: list[tuple[str, BandLoss]]) -> None:
    """Name bands and limits beside the band where there is room."""
    board = Board(plot.area, canvas.written(Layer.GLYPH))
    told: set[str] = set()
    for band_name, band in bands:
        first, last = plot.column(band.low_hz), plot.column(band.high_hz)
        for name, limit_db in zip(("min", "max"), limits_db(band), strict=True):
            text = f"{name} {decibels(limit_db).text}"
            if limit_db is not None and text not in told:
                _write(canvas, board, (plot.row(limit_db), first, last), text, Token.FAIL)
                told.add(text)
        _write(canvas, board, (plot.area.row, first, last), band_name, Token.DIM)


def _write(canvas: Canvas, board: Board, at: tuple[int, int, int], text: str, token: Token) -> None:
    """Write beside a band, right or left, with a blank on each side of the words."""
    row, first, last = at
    spaced = f" {text} "
    tries = (Label(text, row, column, spaced) for column in (last + 1, first - len(spaced)))
    label = board.first_fit(tries)
    if label is not None:
        canvas.text(row, label.column, spaced, Ink(token))


def _words(swept: Swept, columns: int, type: Type) -> Row:
    """What holds at the frequency looked at, as fully as the columns allow."""
    lead: Row = [Run(f"{frequency(swept.at_hz).text} MHz", Token.BOLD), Run("  ")]
    if swept.judged is not None:
        lead += [*tag(band_word(swept.judged), type.glyphs), Run("  ")]
    told = _told(swept, type)
    room = columns - width(lead)
    fits = [text for text in told if len(text) <= room]
    return [*lead, Run(fits[0] if fits else words_cut(told[-1], room, type.ellipsis))]


def _told(swept: Swept, type: Type) -> list[str]:
    """The loss at one frequency in words, the fullest first."""
    there, judged = swept.there, swept.judged
    unknown = f", {', '.join(there.unknown)} not known" if there.unknown else ""
    if judged is None:
        ends = (float(there.least_db[0]), float(there.most_db[0]))
        loss = " .. ".join(decibels(end).text for end in ends)
        return [f"loses {loss} dB, outside its bands{unknown}", f"{loss} dB, outside its bands"]
    loss = " .. ".join(decibels(end).text for end in judged.judged_db)
    margin = type.signed(nearer_margin(judged).text.replace(" to ", " dB to "))
    return [
        f"loses {loss} dB in {judged.name}, {margin}{unknown}",
        f"loses {loss} dB, {margin}",
        f"{loss} dB, {margin}",
        margin,
    ]
