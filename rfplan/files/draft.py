# SPDX-License-Identifier: Apache-2.0
"""A plan while it is being read: whole, or with gaps where something is wrong."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field

from rfplan.files.faults import Faults
from rfplan.files.nodes import Node
from rfplan.files.shape import entries
from rfplan.model.airframe import Airframe
from rfplan.model.plan import (
    AcceptedPoint,
    Group,
    Installation,
    IsolationReading,
    Measurement,
    Person,
    Policy,
    Revision,
    State,
    StatedMass,
    Waiver,
)
from rfplan.model.record import RECORD, ById, Text
from rfplan.model.rulebook import Spacing
from rfplan.model.source import Source


@dataclass(frozen=True, slots=True)
class PlanHead:
    """What a plan file says outside of the sections told by state."""

    __pydantic_config__ = RECORD

    title: Text
    airframe: Text
    revision: Revision = field(default_factory=Revision)
    people: ById[Person] = field(default_factory=ById)
    sources: ById[Source] = field(default_factory=ById)
    source: Text | None = None
    policy: Policy = field(default_factory=Policy)
    spacing: ById[Spacing] = field(default_factory=ById)
    groups: ById[Group] = field(default_factory=ById)
    masses: ById[StatedMass] = field(default_factory=ById)
    measurements: ById[Measurement] = field(default_factory=ById)
    isolation: ById[IsolationReading] = field(default_factory=ById)
    waivers: ById[Waiver] = field(default_factory=ById)
    accepted: ById[AcceptedPoint] = field(default_factory=ById)


@dataclass(frozen=True, slots=True)
class AirframeDraft:
    """An airframe file as read: its record, its nodes in the shape of the record, its faults."""

    record: Airframe
    tree: Node
    faults: Faults

    def named(self, *way: str) -> Collection[str]:
        """Return the ids that stand under a way, whether or not their entries are right."""
        return entries(self.tree.at(way)) if _reaches(self.tree, way) else ()


@dataclass(frozen=True, slots=True)
class PlanDraft:
    """A plan file as read: its records and nodes by state; no airframe if it is unreadable."""

    head: PlanHead
    root: Node
    trees: dict[State, Node]
    fitted: dict[State, Installation]
    airframe: AirframeDraft | None
    faults: Faults

    def named(self, section: str, state: State | None = None) -> Collection[str]:
        """Return the ids in a section, of one state or of all, whether right or not."""
        tree = self.root if state is None else self.trees[state]
        return entries(entries(tree).get(section))


def _reaches(tree: Node, way: tuple[str, ...]) -> bool:
    node: Node | None = tree
    for step in way:
        node = entries(node).get(step)
    return node is not None
