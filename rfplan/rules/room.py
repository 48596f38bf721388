# SPDX-License-Identifier: Apache-2.0
"""Rules about where one antenna stands: room at many places, findings at the present one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places
from rfplan.analysis.scene import Scene
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import State
from rfplan.model.rulebook import Rule, Strictness
from rfplan.model.source import Source
from rfplan.sources import Citation

Floats = NDArray[np.float64]

TIE = 1.0e-9
"""A limit that is met exactly passes."""


@dataclass(frozen=True, slots=True)
class Constraint:
    """One thing an antenna must keep clear of, or must have."""

    objects: tuple[str, ...]
    text: str
    strictness: Strictness
    source: Source | Citation
    text_within: str = ""
    """Said instead where an antenna has less than nothing, since it stands in the thing."""
    off: str = ""
    """What it keeps the antenna off, by how far; empty where something is only met or not."""

    def words(self, have: float) -> str:
        """Return what is said of an antenna that has so much."""
        return self.text_within if self.text_within and have < 0.0 else self.text


@dataclass(frozen=True, slots=True)
class Room:
    """What an antenna has and needs at places: arrays of shape (constraints, places)."""

    constraints: tuple[Constraint, ...]
    have: Floats
    need: Floats
    unit: str
    sense: float = 1.0
    """+1 where more is better, -1 where less is."""

    @property
    def margins(self) -> Floats:
        """Room by constraint and place: positive is room, NaN unknown."""
        return (self.have - self.need) * self.sense

    @property
    def tightest(self) -> Floats:
        """The least room at each place."""
        return np.asarray(np.min(self.margins, axis=0))


RoomRule = Callable[[Facts, Fitted, Places], Room | None]


def found(
    rule: Rule,
    facts: Facts,
    objects: tuple[str, ...],
    text: str,
    *,
    value: float | None = None,
    limit: float | None = None,
    unit: str = "",
    strictness: Strictness | None = None,
    source: Source | Citation | None = None,
    incomplete: bool = False,
    where: tuple[str, ...] = (),
) -> Finding:
    """Return a finding of a rule; reports print `{value}` and `{limit}` in its text."""
    strict = strictness or rule.strictness
    words, kind = spoken_source(source or rule.source)
    verdict = Verdict.FAIL if strict is Strictness.REQUIRED else Verdict.ADVICE
    return Finding(
        rule=rule.id,
        name=rule.name,
        strictness=strict,
        objects=objects,
        state=State(facts.plan.state),
        text=text,
        remedy=rule.remedy,
        source=words,
        source_class=kind,
        verdict=Verdict.INCOMPLETE if incomplete else verdict,
        value=value,
        limit=limit,
        unit=unit,
        paths=facts.paths_of(*objects),
        where=where,
    )


def spoken_source(source: Source | Citation) -> tuple[str, str]:
    """Return the words and the class of a source."""
    if isinstance(source, Source):
        return source.words(), source.class_
    return source.text(), source.document.source_class.words


def plan_source(scene: Scene, id: str | None) -> Source:
    """Return a source of the plan or its airframe by id."""
    return scene.plan.source(id)


def room_findings(rule: Rule, room: RoomRule, facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each constraint that an antenna breaks where it stands now."""
    for _, fitted in sorted(facts.scene.fitted.items()):
        present = room(facts, fitted, fitted.places)
        if present is None:
            continue
        margins = present.margins[:, 0]
        for index in (~(margins >= -TIE)).nonzero()[0]:
            constraint = present.constraints[index]
            yield found(
                rule,
                facts,
                constraint.objects,
                constraint.words(present.have[index, 0]),
                value=_number(present.have[index, 0]),
                limit=_number(present.need[index, 0]),
                unit=present.unit,
                strictness=constraint.strictness,
                source=constraint.source,
                incomplete=bool(np.isnan(margins[index]))
                and constraint.strictness is Strictness.REQUIRED,
            )


def _number(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
