# SPDX-License-Identifier: Apache-2.0
"""Two assessments side by side: verdicts first, then what differs by object and field."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from rfplan import __version__
from rfplan.model.assessment import Assessment
from rfplan.model.findings import RANK, Finding, Verdict
from rfplan.model.plan import Plan
from rfplan.reports.cells import LengthUnit, length, verdict_cell, words
from rfplan.reports.heading import CAUTIONS
from rfplan.reports.leaves import Leaf, same, told_apart
from rfplan.reports.loss_line import governing, window_text
from rfplan.reports.plan_objects import plan_objects
from rfplan.reports.sheet import Cell, Field, Sheet, Table, table, text_field
from rfplan.reports.wording import said

KEY = "compare"
TITLE = "Differences"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing before and after."""

    object: str
    field: str
    before: Cell
    after: Cell


def compare(before: Assessment, after: Assessment, units: LengthUnit = "in") -> Sheet:
    """Return what differs; the order of things and the layout of files never count."""
    header = (
        ("before", _side(before)),
        ("after", _side(after)),
        ("tool", words(f"rfplan {__version__}")),
    )
    tables = (
        _changes_table("verdicts", "Verdicts", _verdicts(before, after)),
        _findings_table(before, after, units),
        _changes_table("losses", "Losses", _losses(before, after)),
        _changes_table("lengths", "Cable lengths", _lengths(before, after, units)),
        _changes_table("changes", "Changes", _changes(before.plan, after.plan, units)),
    )
    return Sheet(KEY, TITLE, header, tables, CAUTIONS)


def _side(assessment: Assessment) -> Cell:
    plan, word = assessment.plan, str(assessment.verdict)
    letter = plan.revision.letter or "without letter"
    return words(f"{plan.id}@{plan.state}, revision {letter}: {word}", word)


def _changes_table(key: str, title: str, changes: Iterable[Change]) -> Table:
    fields: list[Field[Change]] = [
        text_field("object", "object", lambda change: words(change.object)),
        text_field("field", "field", lambda change: words(change.field)),
        text_field("before", "before", lambda change: change.before),
        text_field("after", "after", lambda change: change.after),
    ]
    return table(key, title, fields, changes, stub=2)


def _verdicts(before: Assessment, after: Assessment) -> Iterator[Change]:
    """The plan's verdict and those of paths, where they changed."""
    if before.verdict is not after.verdict:
        yield Change("plan", "verdict", verdict_cell(before.verdict), verdict_cell(after.verdict))
    was, now = _overall(before), _overall(after)
    for id in sorted({*was, *now}):
        if was.get(id) is not now.get(id):
            cells = verdict_cell(was.get(id)), verdict_cell(now.get(id))
            yield Change(f"path {id}", "overall", *cells)


def _overall(assessment: Assessment) -> dict[str, Verdict]:
    return {path.id: path.overall for path in assessment.paths}


@dataclass(frozen=True, slots=True)
class _Found:
    """A finding on either side, whatever the state."""

    was: Finding | None
    now: Finding | None

    @property
    def shown(self) -> Finding:
        """The later of the two."""
        finding = self.now or self.was
        assert finding is not None
        return finding


def _findings_table(before: Assessment, after: Assessment, units: LengthUnit) -> Table:
    """Findings that appeared, were cleared, or changed their word."""
    fields: list[Field[_Found]] = [
        text_field("rule", "rule", lambda one: words(f"{one.shown.rule} {one.shown.name}")),
        text_field("objects", "objects", lambda one: words(", ".join(one.shown.objects))),
        text_field("change", "change", lambda one: words(_change(one))),
        text_field("before", "before", lambda one: _word(one.was)),
        text_field("after", "after", lambda one: _word(one.now)),
        text_field("text", "what was found", lambda one: words(said(one.shown, units))),
    ]
    return table("findings", "Findings", fields, _findings(before, after), stub=2)


def _findings(before: Assessment, after: Assessment) -> list[_Found]:
    was, now = _by_rule_and_objects(before), _by_rule_and_objects(after)
    pairs = [_Found(was.get(key), now.get(key)) for key in {**was, **now}]
    changed = [one for one in pairs if _word(one.was) != _word(one.now)]
    return sorted(changed, key=lambda one: (RANK[one.shown.verdict], one.shown.id))


def _by_rule_and_objects(assessment: Assessment) -> dict[tuple[str, ...], Finding]:
    return {(one.rule, *sorted(one.objects)): one for one in assessment.findings}


def _change(found: _Found) -> str:
    if found.was is None:
        return "appeared"
    return "cleared" if found.now is None else "changed"


def _word(finding: Finding | None) -> Cell:
    return verdict_cell(finding.verdict if finding else None)


def _losses(before: Assessment, after: Assessment) -> Iterator[Change]:
    """The loss of each path in its window, where it prints differently."""
    was, now = _windows(before), _windows(after)
    for id in sorted({*was, *now}):
        one, other = was.get(id, "-"), now.get(id, "-")
        if one != other:
            yield Change(f"path {id}", "loss in its window", words(one), words(other))


def _windows(assessment: Assessment) -> dict[str, str]:
    return {path.id: window_text(governing(path)) for path in assessment.paths}


def _lengths(before: Assessment, after: Assessment, units: LengthUnit) -> Iterator[Change]:
    """What each cable comes to, where it prints differently."""
    for id in sorted({*before.cables, *after.cables}):
        for field in ("cut length", "electrical length"):
            was = _length(before, id, field, units)
            now = _length(after, id, field, units)
            if was.text != now.text:
                yield Change(f"cable {id}", field, was, now)


def _length(assessment: Assessment, id: str, field: str, units: LengthUnit) -> Cell:
    run = assessment.cables.get(id)
    if run is None:
        return length(None, units, absent="-")
    if field == "cut length":
        return length(run.terms.cut_m if run.terms else None, units, absent="-")
    return length(run.length_m.nominal, units)


def _changes(before: Plan, after: Plan, units: LengthUnit) -> Iterator[Change]:
    """Every value that differs."""
    was, now = plan_objects(before), plan_objects(after)
    for name in {**was, **now}:
        mine, theirs = was.get(name, {}), now.get(name, {})
        for key in {**mine, **theirs}:
            one, other = mine.get(key), theirs.get(key)
            if not _same(one, other):
                yield _changed(name, key, one, other, units)


def _same(one: Leaf | None, other: Leaf | None) -> bool:
    return one is other or (one is not None and other is not None and same(one.value, other.value))


def _changed(
    name: str, key: str, one: Leaf | None, other: Leaf | None, units: LengthUnit
) -> Change:
    was, now = told_apart(one, other, units)
    return Change(name, key, words(was), words(now))
