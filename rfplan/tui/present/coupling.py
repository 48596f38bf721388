# SPDX-License-Identifier: Apache-2.0
"""One cell of the interference matrix: what is needed, what there is, what would help."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.bearable import allowed_rise_db
from rfplan.analysis.isolation_models import Rung
from rfplan.analysis.ladder import ladder
from rfplan.model.interference import NOISE, CellWord, Coupling, Exposure, MatrixCell
from rfplan.reports.cells import decibels, frequency
from rfplan.reports.cures import Cure, reach_m
from rfplan.reports.gaps import gaps
from rfplan.reports.interference_words import (
    TOGETHER,
    band_cell,
    decided,
    doubts_text,
    emission_text,
    rise_db,
)
from rfplan.reports.wrapping import wrapped
from rfplan.tui.coupling_study import Chosen, Study
from rfplan.tui.panes import Item, Pane, heading
from rfplan.tui.present.loss import Scale, bar
from rfplan.tui.present.matrix import alike, paths_text, verdict_sign
from rfplan.tui.present.paths import signed_db
from rfplan.tui.present.tags import Type, length_text
from rfplan.tui.runs import Row, Run, laid, width, words_cut
from rfplan.tui.tokens import Token, token_of

LABEL, NUMBER = 11, 10
LEAST_BAR = 12
INDENT = "  "

NOTHING = "No transmitter meets a receiver of another antenna."


def cell_pane(study: Study, chosen: Chosen | None, columns: int, type: Type) -> Pane:
    """Return all there is about the chosen cell; it has no entries, so arrows scroll it."""
    if chosen is None:
        return Pane("cell", heading("This cell"), [Item([[Run(NOTHING, Token.DIM)]])])
    title = heading("This cell", f"{chosen.source} {type.glyphs.arrow} {chosen.victim}")
    rows = cell_rows(study, chosen, columns, type)
    return Pane("cell", title, [Item([row]) for row in rows])


def cell_rows(study: Study, chosen: Chosen, columns: int, type: Type) -> list[Row]:
    """Return the verdict, the level against the limit, the ladder, and what would help."""
    if chosen.cell is None or chosen.exposure is None:
        return [_no_case(chosen)]
    cell, one = chosen.cell, chosen.exposure
    groups = (
        [_verdict_row(one, type), *_levels(cell, one, columns, type), *_rise(study, one, type)],
        [*_helps(study, cell, one, columns, type)],
        [*_rungs(study, cell, one, columns, type)],
        [*_others(cell, one, columns, type)],
    )
    return [row for group in groups if group for row in (*group, [])][:-1]


def _no_case(chosen: Chosen) -> Row:
    same = chosen.source == chosen.victim
    words = "Sender and receiver are the same antenna." if same else "No limit speaks of this pair."
    return [Run(words, Token.DIM)]


def sentence(study: Study, chosen: Chosen | None, columns: int, type: Type) -> Row:
    """Return the chosen cell on one line."""
    if chosen is None:
        return [Run(NOTHING, Token.DIM)]
    one = chosen.exposure
    pair: Row = [Run(f"{chosen.source} {type.glyphs.arrow} {chosen.victim}  ", Token.BOLD)]
    if one is None:
        return [*pair, *_no_case(chosen)]
    told = decided(one)
    lead: Row = [Run(f"{verdict_sign(one, type)} {told.text}  ", token_of(told.token)), *pair]
    words = f"{_emission(one)}, {one.harm}; {_why(one)}"
    return [*lead, Run(words_cut(type.signed(words), columns - width(lead), type.ellipsis))]


def _why(one: Exposure) -> str:
    """The margin, or why there is none."""
    if one.margin_db is not None:
        return f"margin {signed_db(one.margin_db)} dB by {one.coupling.model}"
    unknown = "limit" if one.limit_dbm is None else "level"
    return f"its {unknown} is not known"


def _emission(one: Exposure) -> str:
    return f"{emission_text(one)} at {frequency(one.frequency_hz).text} MHz"


def _verdict_row(one: Exposure, type: Type) -> Row:
    told = decided(one)
    ink = token_of(told.token)
    row: Row = [Run(f"{verdict_sign(one, type)} {told.text}", ink)]
    if one.margin_db is not None:
        row.append(Run(type.signed(f"  {signed_db(one.margin_db)} dB"), ink))
    return [*row, Run(f"  {_emission(one)}, {one.harm}", Token.DIM)]


def _levels(cell: MatrixCell, one: Exposure, columns: int, type: Type) -> Iterator[Row]:
    """Level less limit is needed; beside it what there is, both as bars."""
    have_db, need_db = one.coupling.have_db, one.need_db
    yield _labelled("level", decibels(one.level_dbm).text, "dBm at the sending antenna", type)
    yield _labelled("limit", decibels(one.limit_dbm).text, "dBm at the receiving antenna", type)
    yield _labelled("need", decibels(need_db).text, "dB between the two", type)
    have = _labelled("have", decibels(have_db).text, "dB", type)
    room = columns - width(have) - 2
    if have_db is not None and room >= LEAST_BAR:
        have += [Run("  "), *_bar(have_db, need_db, room, type)]
    yield have
    yield from _wrapped("model", f"{one.coupling.model}; {_doubt(one.coupling, type)}", columns)
    apart = length_text(cell.distance_m, type.unit)
    yield _labelled("apart", apart, f"{type.unit} straight", type)
    yield from _wrapped("together", TOGETHER[cell.together], columns)
    same = next(same for same in _alike(cell) if one in same)
    if paths := paths_text(cell, same, type):
        yield from _wrapped("paths", paths, columns)


def _rise(study: Study, one: Exposure, type: Type) -> Iterator[Row]:
    """By how much noise lifts that of the receiver, at the least isolation."""
    entered_db = study.facts.plan.policy.noise_rise_db
    found_db = rise_db(one, entered_db)
    if found_db is not None:
        allowed = decibels(allowed_rise_db(entered_db)).text
        yield _labelled("rise", decibels(found_db).text, f"dB more noise, {allowed} allowed", type)


def _doubt(coupling: Coupling, type: Type) -> str:
    """How far off the isolation may be: a bound is the least of what there is."""
    if coupling.band_db == (0.0, None):
        return "at least this much"
    return type.signed(f"better by {band_cell(coupling).text} dB")


def _alike(cell: MatrixCell) -> list[list[Exposure]]:
    """The exposures of a cell, those together that differ in nothing but their paths."""
    return alike(
        cell.exposures,
        lambda one: (one.verdict, one.margin_db, one.frequency_hz, one.order, one.harm),
    )


def _labelled(label: str, number: str, unit: str, type: Type) -> Row:
    return [
        Run(label.ljust(LABEL), Token.DIM),
        Run(type.signed(number).rjust(NUMBER), Token.TEXT),
        Run(f" {unit}", Token.DIM),
    ]


def _wrapped(label: str, text: str, columns: int) -> Iterator[Row]:
    """A label and words beside it over as many rows as it takes."""
    for index, line in enumerate(wrapped(text, columns - LABEL)):
        yield [Run((label if index == 0 else "").ljust(LABEL), Token.DIM), Run(line)]


def _bar(have_db: float, need_db: float | None, columns: int, type: Type) -> Row:
    """The isolation as a bar, with a mark at what is needed."""
    scale = Scale(columns, max(have_db, need_db or 0.0, 1.0) * 1.06)
    row = bar(scale, 0.0, have_db, Token.WING, type.glyphs)
    if need_db is not None and need_db > 0.0:
        at = min(columns - 1, int(scale.cells(need_db)))
        row = laid(row, at, [Run(type.glyphs.limit, Token.FAIL)])
    return row


def _helps(
    study: Study, cell: MatrixCell, one: Exposure, columns: int, type: Type
) -> Iterator[Row]:
    """What would help, each with its number, and what is missing for a verdict."""
    cure = next(
        (cure for cure in study.cures if cure.cell is cell and _same(cure.exposure, one)), None
    )
    words = [*(_means(cure, reach_m(study.facts), type) if cure is not None else ())]
    words += [f"enter {gap}" for gap in gaps(cell, one, study.facts)]
    if one.word is CellWord.TEST:
        words.append("or try it on the aircraft: the ground check tells how")
    if words:
        yield [Run("What would help", Token.BOLD)]
    for text in words:
        for index, line in enumerate(wrapped(text, columns - len(INDENT))):
            yield [Run("- " if index == 0 else INDENT, Token.DIM), Run(line)]


def _same(told: Exposure, one: Exposure) -> bool:
    return (told.source, told.victim, told.order) == (one.source, one.victim, one.order)


def _means(cure: Cure, most_m: float, type: Type) -> Iterator[str]:
    apart = length_text(cure.cell.distance_m, type.unit)
    if cure.away_m is not None and cure.away_m > most_m:
        yield f"{apart} {type.unit} apart now; no distance on this aircraft would do alone"
    elif cure.away_m is not None:
        away = length_text(cure.away_m, type.unit)
        yield f"m: {apart} {type.unit} apart now, {away} would do"
    if cure.across_db is not None:
        across = decibels(cure.across_db).text
        yield f"m, then S: the other side gives {across} dB by its distance alone"
    if cure.below_carrier_db is not None:
        below = decibels(cure.below_carrier_db).text
        what = "noise in 1 Hz" if cure.exposure.order == NOISE else "a harmonic"
        yield f"{what} {below} dB below its carrier would do"
    if cure.filters:
        filters = " or ".join(f"{id} ({rejection_db:g} dB)" for id, rejection_db in cure.filters)
        yield f"{filters} in the line of {cure.cell.source}"
    if cure.pad is not None:
        yield f"{cure.pad} in the line of {cure.cell.victim}"


def _rungs(
    study: Study, cell: MatrixCell, one: Exposure, columns: int, type: Type
) -> Iterator[Row]:
    """What each rung says at this frequency; none decides but the default one."""
    steps = ladder(study.facts.scene, cell.source, cell.victim, one.frequency_hz)
    if not steps:
        return
    yield [Run("What each rung says", Token.BOLD), Run(f"  {_at(one)}", Token.DIM)]
    for step in steps:
        have = decibels(step.coupling.have_db).text
        ink = Token.TEXT if Rung.DEFAULT in step.rungs else Token.DIM
        yield [
            Run(f"{have.rjust(NUMBER)} dB  ", ink),
            Run(", ".join(step.rungs), ink),
        ]
        told = f"{step.coupling.model}; {_doubt(step.coupling, type)}"
        doubts = doubts_text(step.doubts)
        for line in wrapped(f"{told}; {doubts}" if doubts else told, columns - NUMBER - 5):
            yield [Run(" " * (NUMBER + 5)), Run(line, Token.DIM)]


def _at(one: Exposure) -> str:
    return f"at {frequency(one.frequency_hz).text} MHz"


def _others(cell: MatrixCell, told: Exposure, columns: int, type: Type) -> Iterator[Row]:
    """The other exposures of the cell."""
    others = [same[0] for same in _alike(cell) if told not in same]
    if others:
        yield [Run("Also between these two", Token.BOLD)]
    for one in others:
        word = decided(one)
        margin = "" if one.margin_db is None else f"{signed_db(one.margin_db)} dB"
        row: Row = [Run(f"{verdict_sign(one, type)} ", token_of(word.token))]
        row += [Run(word.text.ljust(15), token_of(word.token))]
        row += [Run(type.signed(margin).rjust(NUMBER)), Run("  ")]
        words = f"{_emission(one)}, {one.harm}"
        yield [*row, Run(words_cut(words, columns - width(row), type.ellipsis), Token.DIM)]
