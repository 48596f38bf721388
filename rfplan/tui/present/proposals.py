# SPDX-License-Identifier: Apache-2.0
"""The places proposed for an antenna, each with its word, its margin and what is nearest to it."""

from __future__ import annotations

from string import ascii_uppercase

from rfplan.edits.places import stated_lengths
from rfplan.model.assessment import PathAssessment
from rfplan.model.findings import RANK, Verdict
from rfplan.propose.places import Found, Miss, Proposal
from rfplan.reports.loss_line import governing
from rfplan.reports.outcome import loss_word
from rfplan.reports.wording import said
from rfplan.reports.wrapping import wrapped
from rfplan.tui.panes import Item, Pane, heading, item
from rfplan.tui.present.antenna import butt_line
from rfplan.tui.present.paths import short_margin
from rfplan.tui.present.tags import Type, length_text, sign, tag
from rfplan.tui.runs import Row, Run, in_columns, width
from rfplan.tui.tokens import Token
from rfplan.units import Place, show_place

NONE_HOLDS = "No place keeps the loss in its window. esc, then c tries other cables."

MEASURE_ANEW = "Stated length to measure anew: "

NOT_FOLLOWED = "advices that a place does not follow"

_OTHER = {"top": "belly", "belly": "top"}
_RIGHT = (1, 2, 4, 5)
_LEAST_NEEDED = (6, 5, 4)
"""Columns left out one after the other where there is little room: neighbour, room, margin."""


def proposals_pane(found: Found, antenna: str, tried: int | None, columns: int, type: Type) -> Pane:
    """Return one row for each place, the best first, or how near one came."""
    title = heading(f"Proposed for {antenna}", f"{found.on}, best first")
    if not found.proposals:
        lines = wrapped(nothing_free(found, antenna, type), columns)
        return Pane("proposed", title, [Item([[Run(line)] for line in lines])])
    heads = ["", "FS", "BL", "verdict", "loss", "room", f"[{type.unit}] to"]
    table = [[[Run(head, Token.FAINT)] for head in heads]]
    for letter, proposal in zip(ascii_uppercase, found.proposals, strict=False):
        table.append(_cells(letter, proposal, type))
    head, *rows = _fitted(table, columns)
    items = [item(row, letter) for letter, row in zip(ascii_uppercase, rows, strict=False)]
    if all(map(_loss_fails, found.proposals)):
        items += [item([Run(line, Token.DIM)]) for line in wrapped(NONE_HOLDS, columns)]
    stated = ", ".join(_stated_lengths(found.proposals[0]))
    if stated:
        told = wrapped(f"{MEASURE_ANEW}{stated}", columns)
        items += [item([Run(line, Token.DIM)]) for line in told]
    if any(map(_advices, found.proposals)):
        items.append(item([sign(Verdict.ADVICE, type.glyphs), Run(f": {NOT_FOLLOWED}", Token.DIM)]))
    cursor = "" if tried is None else ascii_uppercase[tried]
    return Pane("proposed", title, items, [head], cursor)


def _fitted(table: list[list[Row]], columns: int) -> list[Row]:
    """The table as wide as it may be: with narrow gaps, then without what is needed least."""
    shown = list(range(len(table[0])))
    for gap, spare in ((2, None), (1, None), *((1, spare) for spare in _LEAST_NEEDED)):
        shown = [index for index in shown if index != spare]
        wide = [max(width(row[index]) for row in table) for index in shown]
        if sum(wide) + gap * (len(wide) - 1) <= columns:
            break
    right = [at for at, index in enumerate(shown) if index in _RIGHT]
    return [in_columns([row[index] for index in shown], wide, gap, right) for row in table]


def _cells(letter: str, proposal: Proposal, type: Type) -> list[Row]:
    fs, bl, *_ = show_place(proposal.edit.at, type.unit).split()
    path = _path(proposal)
    margin = type.signed(short_margin(governing(path))) if path else ""
    room = type.signed(length_text(proposal.room_m, type.unit))
    return [
        [Run(letter, Token.BOLD)],
        [Run(fs)],
        [Run(bl)],
        _verdict(proposal, type),
        [Run(margin)],
        [Run(room)],
        [Run(proposal.nearest, Token.DIM)],
    ]


def _verdict(proposal: Proposal, type: Type) -> Row:
    """The word of a place, and how many advices it does not follow, which no word counts."""
    advices = _advices(proposal)
    told = tag(proposal.verdict, type.glyphs)
    return (
        [*told, Run(" "), sign(Verdict.ADVICE, type.glyphs), Run(f" {advices}")]
        if advices
        else told
    )


def _advices(proposal: Proposal) -> int:
    about = proposal.edit.antenna
    found = proposal.assessment.findings
    return sum(one.verdict is Verdict.ADVICE and about in one.objects for one in found)


def _stated_lengths(proposal: Proposal) -> tuple[str, ...]:
    return stated_lengths(proposal.assessment.plan.installation, proposal.edit.antenna)


def _path(proposal: Proposal) -> PathAssessment | None:
    """The worst of the paths that end at the antenna, whose margin is told."""
    paths = [p for p in proposal.assessment.paths if p.antenna == proposal.edit.antenna]
    return min(paths, key=lambda path: RANK[path.overall], default=None)


def _loss_fails(proposal: Proposal) -> bool:
    path = _path(proposal)
    return path is not None and loss_word(path).fails


def nothing_free(found: Found, antenna: str, type: Type) -> str:
    """Return that a side has no free place, how near one came, and what may help."""
    told, miss = f"No free place on the {found.on} for {antenna}.", found.miss
    other = f"try the {_OTHER[found.on]} (S)."
    if miss is not None:
        told += f" Nearest miss: {_place(miss.at, type)}, {_short(miss, type)}."
        if not miss.of and miss.finding is not None:
            other = f"{miss.finding.remedy}; or {other}"
    return f"{told} {other[0].upper()}{other[1:]}"


def _place(at: Place, type: Type) -> str:
    return f"FS {length_text(at.fs_m, type.unit)} BL {butt_line(at.bl_m, type)}"


def _short(miss: Miss, type: Type) -> str:
    if miss.of:
        return f"{length_text(miss.short_m, type.unit)} {type.unit} short of {miss.of}"
    return said(miss.finding, type.unit) if miss.finding else "a required rule is not met there"
