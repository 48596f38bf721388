# SPDX-License-Identifier: Apache-2.0
"""What was measured beside what was predicted, path by path; the words are those of the sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rfplan.model.assessment import Assessment, PathAssessment, Reading
from rfplan.model.findings import Finding
from rfplan.model.plan import Measurement, State
from rfplan.reports.budget_power import Read, readings_table, window_of
from rfplan.reports.cells import decibels, frequency, nothing, printed, words
from rfplan.reports.loss_line import governing
from rfplan.reports.reading_words import difference_words, match_words
from rfplan.reports.sheet import Cell
from rfplan.reports.wording import said
from rfplan.reports.wrapping import wrapped
from rfplan.tui.panes import Item, Pane, blank, heading, item
from rfplan.tui.present.tags import AS, Type, tag
from rfplan.tui.runs import Row, Run, width
from rfplan.tui.tokens import Token, token_of

NOT_MEASURED = "not measured"


@dataclass(frozen=True, slots=True)
class Entry:
    """One path of one state, with a reading of it or with none."""

    assessment: Assessment
    path: PathAssessment
    reading: Reading | None = None

    @property
    def key(self) -> str:
        """What names the entry."""
        return f"{self.path.id}:{self.reading.id if self.reading else ''}"

    @property
    def state(self) -> State:
        """The state it belongs to."""
        return self.assessment.plan.state

    @property
    def at_hz(self) -> float:
        """The frequency of the reading, or the middle of the band that decides the path."""
        return self.reading.frequency_hz if self.reading else governing(self.path).mid_hz

    @property
    def measurement(self) -> Measurement | None:
        """The reading as the plan has it."""
        return self.assessment.plan.measurements[self.reading.id] if self.reading else None

    @property
    def findings(self) -> list[Finding]:
        """What rules say of the reading."""
        if self.reading is None:
            return []
        return [one for one in self.assessment.findings if self.reading.id in one.objects]


def entries_of(assessment: Assessment, *, unmeasured: bool) -> Iterator[Entry]:
    """Yield every reading of a state by path, and paths without one where they are wanted."""
    for path in assessment.paths:
        yield from (Entry(assessment, path, reading) for reading in path.readings)
        if unmeasured and not path.readings:
            yield Entry(assessment, path)


HEADS = {
    "path": "path",
    "at": "at MHz",
    "predicted": "predicted dB",
    "measured": "measured dB",
    "difference": "differs dB",
    "agreement": "agreement",
    "in_window": "in the window",
    "vswr": "VSWR",
    "who": "by",
    "date": "on",
    "with": "instrument",
}
"""Keys of the table of readings, in the order in which columns are shown, with our headings."""

_RIGHT = ("at", "predicted", "measured", "difference", "vswr")
_LEAST = 6
"""Columns that are always shown."""
GAP = 2


def readings_pane(entries: Sequence[Entry], cursor: str, columns: int, type: Type) -> Pane:
    """Return the list of readings, with as many columns as fit."""
    table = [_row(entry, type) for entry in entries]
    keys, wide = _fitting(table, columns)
    items: list[Item] = []
    state = entries[0].state if entries else State.BUILT
    for entry, row in zip(entries, table, strict=True):
        if entry.state is not state:
            state = entry.state
            items += [blank(), item([Run(f"readings {AS[state]}", Token.BOLD)])]
        items.append(item(_set([row[key] for key in keys], keys, wide), entry.key))
    heads = _set([[Run(HEADS[key], Token.FAINT)] for key in keys], keys, wide)
    told = items or [item([Run("The plan has no paths.", Token.DIM)])]
    return Pane("readings", heading("Measured", _count(entries)), told, [heads], cursor)


def _count(entries: Sequence[Entry]) -> str:
    """How many paths of the first state have a reading."""
    own = [entry for entry in entries if entry.state is entries[0].state]
    paths = {entry.path.id for entry in own}
    measured = {entry.path.id for entry in own if entry.reading}
    return f"{len(measured)} of {len(paths)} paths {AS[own[0].state]}" if own else ""


def _row(entry: Entry, type: Type) -> dict[str, Row]:
    cells = _cells(entry)
    row: dict[str, Row] = {key: [_run(cells[key], type)] for key in HEADS}
    for key in ("agreement", "in_window"):
        sign = type.glyphs.sign(cells[key].token)
        row[key].insert(0, Run(f"{sign} " if sign else "  ", token_of(cells[key].token)))
    return row


def _run(cell: Cell, type: Type) -> Run:
    number = isinstance(cell.value, float)
    return Run(type.signed(cell.text) if number else cell.text, token_of(cell.token))


def _cells(entry: Entry) -> dict[str, Cell]:
    """The cells that the loss budget prints of a reading; of a path without one, the prediction."""
    if entry.reading is not None:
        table = readings_table(entry.assessment)
        keys = [column.key for column in table.columns]
        own = next(row for row in table.rows if row[keys.index("id")].text == entry.reading.id)
        cells = dict(zip(keys, own, strict=True))
        difference = cells["difference"]
        if entry.reading.difference_db is not None and not difference.text.startswith("-"):
            cells["difference"] = Cell(f"+{difference.text}", difference.value, "dB")
        return cells
    nominal_db = governing(entry.path).nominal_db[1]
    told = {
        "path": words(entry.path.id),
        "at": frequency(entry.at_hz),
        "predicted": decibels(nominal_db),
        "agreement": nothing(NOT_MEASURED),
    }
    return {**dict.fromkeys(HEADS, nothing()), **told}


def _fitting(table: Sequence[dict[str, Row]], columns: int) -> tuple[list[str], list[int]]:
    """The columns that fit and their widths; the last ones are left out first."""
    keys = list(HEADS)
    while True:
        wide = [max([len(HEADS[key]), *(width(row[key]) for row in table)]) for key in keys]
        if len(keys) <= _LEAST or sum(wide) + GAP * (len(keys) - 1) <= columns:
            return keys, wide
        keys.pop()


def _set(parts: Sequence[Row], keys: Sequence[str], wide: Sequence[int]) -> Row:
    row: Row = []
    for part, key, room in zip(parts, keys, wide, strict=True):
        blanks = Run(" " * (room - width(part)))
        row += [*([Run(" " * GAP)] if row else [])]
        row += [blanks, *part] if key in _RIGHT else [*part, blanks]
    return [run for run in row if run.text]


def reading_pane(entry: Entry | None, columns: int, type: Type) -> Pane:
    """Return one reading with everything that is known of it."""
    if entry is None:
        return Pane("reading", heading("No path selected"), [blank()])
    title = heading(f"{entry.reading.id} of {entry.path.id}" if entry.reading else entry.path.id)
    items = [_told(label, text, columns) for label, text in _comparison(entry)]
    if entry.reading is not None and entry.measurement is not None:
        verdict = Run("in the window".ljust(LABEL_COLUMNS), Token.DIM)
        items.append(item([verdict, *tag(entry.reading.in_window, type.glyphs)]))
        judged_by = window_of(Read(entry.reading, entry.measurement))
        items.append(_told("judged by", judged_by, columns))
    items += [Item(list(_finding(finding, columns, type))) for finding in entry.findings]
    items += [_told(label, text, columns) for label, text in _circumstances(entry)]
    return Pane("reading", title, items)


LABEL_COLUMNS = 15


def _comparison(entry: Entry) -> Iterator[tuple[str, str]]:
    """Yield what was measured and what was predicted, each with its label."""
    reading, measurement = entry.reading, entry.measurement
    at = f"{frequency(entry.at_hz).text} MHz"
    if reading is None or measurement is None:
        nominal = decibels(governing(entry.path).nominal_db[1]).text
        yield "predicted", f"{nominal} dB at {at}, 20 degC, {AS[entry.state]}"
        yield "measured", "not yet"
        return
    lost = _with_spread(measurement) if reading.loss_db is not None else "no loss"
    yield "measured", f"{lost} at {at}, {_warmth(measurement)}"
    yield "predicted", f"{decibels(reading.predicted_db).text} dB, {AS[entry.state]}"
    if reading.loss_db is not None:
        yield "difference", difference_words(reading)
    if reading.vswr is not None:
        yield "VSWR", match_words(reading)
    if reading.stale:
        yield "stale", f"{reading.path} has changed since the reading; it counts for nothing"


def _circumstances(entry: Entry) -> Iterator[tuple[str, str]]:
    """Yield with what, by whom and when it was measured."""
    if (measurement := entry.measurement) is not None:
        yield "instrument", words(measurement.with_ or "?").text
        yield "by", words(measurement.who or "?").text
        yield "on", measurement.date.isoformat() if measurement.date else "?"


def _with_spread(measurement: Measurement) -> str:
    loss = decibels(measurement.loss_db).text
    spread = decibels(measurement.uncertainty_db).text
    return f"{loss} dB +- {spread}"


def _warmth(measurement: Measurement) -> str:
    given_c = measurement.temperature_c
    return "? degC" if given_c is None else f"{printed(given_c, 'degC')} degC"


def _told(label: str, text: str, columns: int) -> Item:
    first, *rest = wrapped(text, columns - LABEL_COLUMNS)
    rows: list[Row] = [[Run(label.ljust(LABEL_COLUMNS), Token.DIM), Run(first)]]
    return Item([*rows, *([Run(" " * LABEL_COLUMNS), Run(line)] for line in rest)])


def _finding(finding: Finding, columns: int, type: Type) -> Iterator[Row]:
    """What a rule says of a reading, and what clears it."""
    yield [*tag(finding.verdict, type.glyphs), Run(f" {finding.name}", Token.DIM)]
    for line in wrapped(said(finding, type.unit), columns):
        yield [Run(line)]
    for line in wrapped(finding.remedy, columns):
        yield [Run(line, Token.DIM)]


def reading_sentence(entry: Entry | None, columns: int, type: Type) -> Row:
    """Return what a reading comes to, in words."""
    if entry is None:
        return [Run("The plan has no path to measure.", Token.DIM)]
    path, reading = entry.path.id, entry.reading
    if reading is None:
        return [Run(f"{path} is not measured {AS[entry.state]}. enter records a reading.")]
    if reading.stale:
        return [Run(f"{reading.id} is stale: {path} has changed since. enter measures again.")]
    if reading.loss_db is None:
        return [Run(f"{reading.id}: VSWR of {path} {match_words(reading)}.")]
    if reading.agreement is None:
        return [Run(f"{reading.id}: the prediction of {path} is not known.")]
    ink = token_of(reading.agreement)
    sign = type.glyphs.sign(reading.agreement)
    lead = Run(f"{sign} {reading.agreement}", ink)
    told = type.signed(f" {path} {difference_words(reading)} dB")
    more = "".join(f": {finding.remedy}" for finding in entry.findings[:1])
    return [lead, Run(told + more if width([lead]) + len(told + more) <= columns else told)]
