# SPDX-License-Identifier: Apache-2.0
"""What has happened in a session: steps to undo and redo, and the rows of the Changes screen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    from rfplan.files.journal import Entry
    from rfplan.model.assessment import Assessment, PathAssessment
    from rfplan.model.plan import Plan

Happening: TypeAlias = Literal["do", "undo", "redo", "taken", "file", "saved"]


@dataclass(frozen=True, slots=True)
class Step:
    """One edit that can be undone: its words, and the plan before and after it."""

    words: str
    before: Plan
    after: Plan


@dataclass(frozen=True, slots=True)
class Effect:
    """What became of a verdict, a margin or a finding; '' stands for not there."""

    subject: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class ChangeRow:
    """One line of the history; `steps` is how many steps can be undone from there."""

    at: datetime
    happening: Happening
    words: str
    effects: tuple[Effect, ...]
    steps: int


@dataclass(slots=True)
class History:
    """Steps that were done, steps that were undone, and a row for everything that happened."""

    done: list[Step] = field(default_factory=list)
    undone: list[Step] = field(default_factory=list)
    rows: list[ChangeRow] = field(default_factory=list)

    def add(self, step: Step) -> None:
        """Take a new step, after which nothing is left to redo."""
        self.done.append(step)
        self.undone.clear()

    def forget_steps(self) -> None:
        """Leave nothing to undo or redo."""
        self.done.clear()
        self.undone.clear()

    def note(self, happening: Happening, words: str, effects: tuple[Effect, ...] = ()) -> None:
        """Add a row."""
        self.rows.append(ChangeRow(now(), happening, words, effects, len(self.done)))


def now() -> datetime:
    """Return the time, with its distance from UTC."""
    return datetime.now().astimezone()


def counted(number: int) -> str:
    """Return a number of changes in words."""
    return f"{number} change{'' if number == 1 else 's'}"


def edited(plan: Plan, entries: Iterable[Entry]) -> str:
    """Return in words how many things of a plan are changed by what a journal tells."""
    return counted(len({thing for entry in entries for thing in entry.edit.changes(plan)}))


def effects(before: Assessment, after: Assessment) -> tuple[Effect, ...]:
    """Return what a change does to verdicts, margins and findings, in this order."""
    old = {path.id: path for path in before.paths}
    both = [(old[path.id], path) for path in after.paths if path.id in old]
    verdicts = [Effect(now.id, was.overall, now.overall) for was, now in both]
    margins = [Effect(f"{now.id} margin", _margin(was), _margin(now)) for was, now in both]
    told = [*verdicts, *margins, *_findings(before, after)]
    return tuple(effect for effect in told if effect.before != effect.after)


def _margin(path: PathAssessment) -> str:
    """Return the least margin of all bands, as text."""
    sides = [m for band in path.bands for m in (band.margin_to_min_db, band.margin_to_max_db)]
    known = [margin_db for margin_db in sides if margin_db is not None]
    return f"{min(known):+.2f} dB" if known else ""


def _findings(before: Assessment, after: Assessment) -> Iterator[Effect]:
    """Yield every finding of one or the other with its word in both."""
    old, new = ({one.id: one for one in each.findings} for each in (before, after))
    for id in dict.fromkeys([*old, *new]):
        finding = new.get(id) or old[id]
        was, now = (str(each[id].verdict) if id in each else "" for each in (old, new))
        yield Effect(f"{finding.rule} {' and '.join(finding.objects)}", was, now)
