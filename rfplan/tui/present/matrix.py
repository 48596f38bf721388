# SPDX-License-Identifier: Apache-2.0
"""Transmitting against receiving antennas as a matrix, and every exposure, worst first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterable

from rfplan.analysis.interference import worst_first
from rfplan.analysis.isolation_models import Rung
from rfplan.model.findings import Verdict
from rfplan.model.interference import CARRIER, NOISE, CellWord, Exposure, MatrixCell
from rfplan.reports.cells import frequency, printed
from rfplan.reports.interference_words import decided
from rfplan.tui.coupling_study import Chosen, Study, exposure_key
from rfplan.tui.panes import Item, Pane, Spot, blank, heading
from rfplan.tui.present.tags import Type
from rfplan.tui.runs import Row, Run, width, words_cut
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
    title = heading("Coupling", _title(hidden, study.rung))
    cursor = exposure_key(chosen.source, chosen.victim)
    return Pane("matrix", title, items, head, cursor)


def _title(hidden: tuple[int, int], rung: Rung) -> str:
    left, right = hidden
    by = "" if rung is Rung.DEFAULT else f"rung {rung}: decides nothing"
    more = [f"{left} more left" if left else "", f"{right} more right" if right else ""]
    return ", ".join(["margin in dB at each receiver", *filter(None, (by, *more))])


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
    """Return every emission against every limit, worst first; what reads alike is one entry."""
    listed = [
        (cell, same)
        for cell in study.matrix.cells
        for same in alike(cell.exposures, lambda one: _read(one, type))
        if not (hides_passes and same[0].verdict is Verdict.PASS)
    ]
    listed.sort(key=lambda entry: (worst_first(entry[1][0]), entry[0].source, entry[0].victim))
    names = [f"{cell.source} {type.glyphs.arrow} {cell.victim}" for cell, _ in listed]
    room = max(map(len, names), default=0)
    items = [
        Item(
            [_exposure_row(same[0], name.ljust(room), paths_text(cell, same, type), columns, type)],
            exposure_key(cell.source, cell.victim, cell.exposures.index(same[0])),
        )
        for (cell, same), name in zip(listed, names, strict=True)
    ]
    title = heading("Worst first", f"dB, MHz{', without PASS' if hides_passes else ''}")
    return Pane("exposures", title, items or [blank()], cursor=chosen.key if chosen else "")


def alike(
    exposures: Iterable[Exposure], read: Callable[[Exposure], Hashable]
) -> list[list[Exposure]]:
    """Return exposures with those that read the same together, in the order of their first."""
    groups: dict[Hashable, list[Exposure]] = {}
    for one in exposures:
        groups.setdefault(read(one), []).append(one)
    return list(groups.values())


def _read(one: Exposure, type: Type) -> Hashable:
    """What the list says of an exposure within its cell."""
    told, at = decided(one).text, frequency(one.frequency_hz).text
    return told, _margin(one, type), at, one.order, one.harm


def paths_text(cell: MatrixCell, some: Iterable[Exposure], type: Type) -> str:
    """Return the paths of some exposures, of each antenna that has several in the cell."""
    some = list(some)
    sides = [
        ([one.source for one in some], {one.source for one in cell.exposures}),
        ([one.victim for one in some], {one.victim for one in cell.exposures}),
    ]
    told = [", ".join(dict.fromkeys(named)) for named, there in sides if len(there) > 1]
    return f" {type.glyphs.arrow} ".join(told)


def _order(one: Exposure) -> str:
    if one.order == NOISE:
        return "noise"
    return "" if one.order == CARRIER else f"h{one.order}"


def _exposure_row(one: Exposure, name: str, paths: str, columns: int, type: Type) -> Row:
    """Who to whom, margin and word, and as much about the emission as there is room for."""
    word, _, basis = decided(one).text.partition(" ")
    ink = token_of(decided(one).token)
    row: Row = [Run(f"{verdict_sign(one, type)} ", ink), Run(f"{name} ", Token.TEXT)]
    row += [Run(f"{_margin(one, type).rjust(5)} ", ink), Run(f"{word:<5}", ink)]
    at = frequency(one.frequency_hz).text
    for text in (
        f" {_order(one):<5}",
        f"{at:>8}",
        f" {one.harm:<10}",
        f"  {basis}" if basis else "",
    ):
        if width(row) + len(text.rstrip()) > columns:
            return row
        row.append(Run(text, Token.DIM))
    room = columns - width(row) - 2
    return [*row, Run("  "), Run(words_cut(paths, room, type.ellipsis), Token.DIM)]
