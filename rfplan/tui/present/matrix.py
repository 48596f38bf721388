# SPDX-License-Identifier: Apache-2.0
"""Transmitting against receiving antennas as a matrix, and every exposure, worst first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from rfplan.analysis.interference import worst_first
from rfplan.model.findings import Verdict
from rfplan.model.interference import CellWord, Exposure, MatrixCell
from rfplan.reports.cells import frequency, printed
from rfplan.reports.interference_words import decided, emission_text
from rfplan.tui.coupling_study import Chosen, Study, exposure_key
from rfplan.tui.panes import Item, Pane, Spot, blank, heading
from rfplan.tui.present.tags import Type
from rfplan.tui.runs import Row, Run, width
from rfplan.tui.tokens import Ground, Token, token_of

SOURCE_COLUMNS, VICTIM_COLUMNS = 13, 11
"""The most columns of a name; a longer one is cut."""

LEAST_CELL = 7


def matrix_pane(
    study: Study, chosen: Chosen | None, hides_passes: bool, columns: int, type: Type
) -> Pane:
    """Return one row for each sender, one column for each receiver that there is room for."""
    if chosen is None:
        return Pane("matrix", heading("Coupling"), [blank()])
    first = min(SOURCE_COLUMNS, max(map(len, study.matrix.sources))) + 1
    wide = min(VICTIM_COLUMNS, max(LEAST_CELL, *map(len, study.matrix.victims)) + 1)
    victims, hidden = _window(study.matrix.victims, chosen.victim, (columns - first) // wide)
    cells = {(cell.source, cell.victim): cell for cell in study.matrix.cells}
    items: list[Item] = []
    for source in study.matrix.sources:
        row: Row = [_name(source, first, source == chosen.source, type)]
        spots: list[Spot] = []
        for victim in victims:
            at = width(row)
            here = (source, victim) == (chosen.source, chosen.victim)
            text = _cell(cells.get((source, victim)), source == victim, hides_passes, type)
            row += _set(text, wide, here)
            spots.append(Spot(at, at + wide, exposure_key(source, victim)))
        items.append(Item([row], exposure_key(source, chosen.victim), tuple(spots)))
    names = [_name(victim, wide, victim == chosen.victim, type, right=True) for victim in victims]
    head = [_legend(study.matrix.cells, type), [Run("sends".ljust(first), Token.FAINT), *names]]
    title = heading("Coupling", _title(hidden))
    cursor = exposure_key(chosen.source, chosen.victim)
    return Pane("matrix", title, items, head, cursor)


def _title(hidden: tuple[int, int]) -> str:
    left, right = hidden
    more = [f"{left} more left" if left else "", f"{right} more right" if right else ""]
    return ", ".join(["margin in dB at each receiver", *filter(None, more)])


def _window(victims: tuple[str, ...], chosen: str, fit: int) -> tuple[list[str], tuple[int, int]]:
    """Whole pages of receivers, so that the columns stand still while the cursor goes along."""
    fit = max(1, fit)
    start = min(victims.index(chosen) // fit * fit, max(0, len(victims) - fit))
    shown = list(victims[start : start + fit])
    return shown, (start, len(victims) - start - len(shown))


def _name(id: str, columns: int, chosen: bool, type: Type, *, right: bool = False) -> Run:
    room = columns - 1
    text = id if len(id) <= room else id[: room - len(type.ellipsis)] + type.ellipsis
    text = text.rjust(columns) if right else text.ljust(columns)
    return Run(text, Token.BOLD if chosen else Token.DIM)


def _cell(cell: MatrixCell | None, same: bool, hides_passes: bool, type: Type) -> Run:
    """The sign and the margin of the worst exposure; a trial shows the margin that it may have."""
    if cell is None:
        return Run("same" if same else type.glyphs.ruling, Token.FAINT)
    worst = cell.worst
    if hides_passes and worst.verdict is Verdict.PASS:
        return Run("")
    ink = token_of(decided(worst).token)
    ground = Ground.FAIL_CELL if worst.verdict is Verdict.FAIL else Ground.BG
    return Run(f"{verdict_sign(worst, type)}{_margin(worst, type).rjust(5)}", ink, ground)


def verdict_sign(exposure: Exposure, type: Type) -> str:
    """Return the sign of a verdict, that of what is not known for a trial."""
    return type.glyphs.verdict(decided(exposure).token)


def _margin(exposure: Exposure, type: Type) -> str:
    """Whole decibels, under one with a digit more."""
    margin_db = exposure.margin_db
    if margin_db is None:
        return ""
    text = printed(margin_db, "dB", 1 if abs(margin_db) < 0.95 else 0)
    return type.signed(text if text.startswith("-") else f"+{text}")


def _set(cell: Run, columns: int, here: bool) -> Row:
    """A cell set to the right of its column, on the accent where it is chosen."""
    text = cell.text.rjust(columns - 1)
    if here:
        return [Run(" "), Run(text, Token.ON_ACCENT, Ground.ACCENT)]
    pad = len(text) - len(cell.text)
    return [Run(" " * (pad + 1)), cell] if cell.text else [Run(" " * columns)]


def _legend(cells: Iterable[MatrixCell], type: Type) -> Row:
    """How many cells there are of each word."""
    words = Counter(decided(cell.worst).token for cell in cells)
    row: Row = []
    for token, word in (("FAIL", "FAIL"), ("INCOMPLETE", str(CellWord.TEST)), ("PASS", "PASS")):
        text = f"{type.glyphs.verdict(token)} {words[token]} {word}  "
        row.append(Run(text, token_of(token)))
    return [*row, Run("margin = isolation less what is needed", Token.DIM)]


def exposures_pane(
    study: Study, chosen: Chosen | None, hides_passes: bool, columns: int, type: Type
) -> Pane:
    """Return every emission against every limit, worst first, each the entry of its cell."""
    listed = [
        (worst_first(one), cell, index)
        for cell in study.matrix.cells
        for index, one in enumerate(cell.exposures)
        if not (hides_passes and one.verdict is Verdict.PASS)
    ]
    listed.sort(key=lambda entry: (entry[0], entry[1].source, entry[1].victim, entry[2]))
    names = [f"{cell.source} {type.glyphs.arrow} {cell.victim}" for _, cell, _ in listed]
    room = max(map(len, names), default=0)
    items = [
        Item(
            [_exposure_row(cell.exposures[index], name.ljust(room), columns, type)],
            exposure_key(cell.source, cell.victim, index),
        )
        for (_, cell, index), name in zip(listed, names, strict=True)
    ]
    title = heading("Worst first", "without PASS" if hides_passes else "")
    return Pane("exposures", title, items or [blank()], cursor=chosen.key if chosen else "")


def _exposure_row(one: Exposure, name: str, columns: int, type: Type) -> Row:
    """Who to whom, margin and word, and as much about the emission as there is room for."""
    told = decided(one)
    ink = token_of(told.token)
    row: Row = [Run(f"{verdict_sign(one, type)} ", ink), Run(f"{name} ", Token.TEXT)]
    row += [Run(f"{_margin(one, type).rjust(5)}  ", ink), Run(told.text.ljust(15), ink)]
    at = f"{frequency(one.frequency_hz).text.rjust(8)} MHz "
    for text in (at, f"{emission_text(one):<12}", str(one.harm)):
        if width(row) + len(text) > columns:
            break
        row.append(Run(text, Token.DIM))
    return row
