# SPDX-License-Identifier: Apache-2.0
"""Every cable of the catalogue in place of one assembly, each with its live verdict."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.model.catalog import Cable
from rfplan.reports.cells import MASS_UNITS, length, mass
from rfplan.reports.loss_line import governing
from rfplan.reports.outcome import decided_by, loss_word
from rfplan.tui.panes import Item, Pane, heading, item
from rfplan.tui.present.paths import short_margin, short_window, signed_db
from rfplan.tui.present.tags import Type, tag
from rfplan.tui.runs import Row, Run, width
from rfplan.tui.tokens import Token


@dataclass(frozen=True, slots=True)
class Trial:
    """One cable tried in an assembly: what becomes of the path, or why it cannot be.

    With neither it has not been tried yet.
    """

    type: str
    cable: Cable
    assessment: Assessment | None = None
    refusal: str = ""

    @property
    def waits(self) -> bool:
        """Whether it has not been tried yet."""
        return self.assessment is None and not self.refusal


@dataclass(frozen=True, slots=True)
class Compared:
    """The trials of one assembly of one path, the present cable among them."""

    assembly: str
    path: str
    present: str
    trials: tuple[Trial, ...]

    def path_in(self, assessment: Assessment) -> PathAssessment:
        """Return the path as an assessment has it."""
        return next(path for path in assessment.paths if path.id == self.path)

    @property
    def now(self) -> Trial:
        """The cable that is there."""
        return next(trial for trial in self.trials if trial.type == self.present)


@dataclass(frozen=True, slots=True)
class Choice:
    """Which row has the cursor, and which stay on top."""

    cursor: str = ""
    pinned: Sequence[str] = ()


TITLES = ("cable", "loss dB", "margin", "change", "weight", "bend", "loss", "path", "")
_RIGHT = (1, 2, 3, 4, 5)


def compare_pane(compared: Compared, choice: Choice, columns: int, type: Type) -> Pane:
    """Return one row for each cable: what is there now, then pinned ones, then all others."""
    ordered = sorted(compared.trials, key=lambda trial: _order(trial, compared, choice))
    table = [_cells(trial, compared, choice, type) for trial in ordered]
    heads = [*TITLES]
    heads[4] = f"weight {MASS_UNITS[type.unit]}"
    heads[5] = f"bend {type.unit}"
    shown = _fitting(table, heads, columns)
    wide = [max(len(heads[i]), *(width(row[i]) for row in table)) for i in shown]
    items: list[Item] = []
    for trial, row in zip(ordered, table, strict=True):
        items.append(item(_set([row[i] for i in shown], wide, shown), trial.type))
    head = _set([[Run(heads[i], Token.FAINT)] for i in shown], wide, shown)
    title = heading(f"{compared.path} compare cables", f"for {compared.assembly}")
    return Pane("compare", title, items, [head], choice.cursor or compared.present)


def _order(trial: Trial, compared: Compared, choice: Choice) -> tuple[int, str]:
    """The present cable first, pinned ones next, then by name: no row moves while others fill."""
    place = 0 if trial.type == compared.present else 1 if trial.type in choice.pinned else 2
    return place, trial.type


def _fitting(table: list[list[Row]], heads: list[str], columns: int) -> list[int]:
    """The columns that fit: the last ones that only add something are left out first."""
    shown = list(range(len(heads)))
    for spare in (8, 5, 3, 4, 6):
        wide = [max(len(heads[i]), *(width(row[i]) for row in table)) + 2 for i in shown]
        if sum(wide) <= columns:
            break
        shown.remove(spare)
    return shown


def _set(row: list[Row], wide: list[int], shown: list[int]) -> Row:
    whole: Row = []
    for part, room, index in zip(row, wide, shown, strict=True):
        blanks = Run(" " * (room - width(part)))
        ordered = [blanks, *part] if index in _RIGHT else [*part, blanks]
        whole += [*ordered, Run("  ")]
    return [run for run in whole if run.text]


def _cells(trial: Trial, compared: Compared, choice: Choice, type: Type) -> list[Row]:
    name: Row = [Run("* " if trial.type in choice.pinned else "  ", Token.ACCENT)]
    is_now = trial.type == compared.present
    name += [Run(trial.type, Token.BOLD if is_now else Token.TEXT)]
    name += [Run(" now", Token.DIM)] if is_now else []
    if trial.assessment is None:
        told = "" if trial.waits else trial.refusal
        waits = [Run("working", Token.DIM)] if trial.waits else []
        return [name, waits, *([[]] * 6), [Run(told, Token.DIM)]]
    path = compared.path_in(trial.assessment)
    band = governing(path)
    run = trial.assessment.cables[compared.assembly]
    reason = decided_by(path, trial.assessment)
    return [
        name,
        [Run(short_window(band))],
        [Run(type.signed(short_margin(band)))],
        [Run("" if is_now else type.signed(_change(path, compared)), Token.DIM)],
        [Run(mass(run.mass_kg, type.unit).text)],
        [Run(length(trial.cable.bend_m, type.unit).text)],
        tag(loss_word(path), type.glyphs),
        tag(path.overall, type.glyphs),
        [Run(reason, Token.DIM)],
    ]


def _change(path: PathAssessment, compared: Compared) -> str:
    """How much more the path loses at most than now."""
    if compared.now.assessment is None:
        return ""
    was = governing(compared.path_in(compared.now.assessment)).judged_db[1]
    most = governing(path).judged_db[1]
    return "" if was is None or most is None else signed_db(most - was)
